-- The marked zones of a visit's brows: at most one mark for each zone of each side. A visit without rows has none.
create table zone_marks (
    visit blob not null references visits (id),
    side  text not null check (side in ('left', 'right')),
    zone  text not null check (zone in ('front', 'body', 'arch', 'tail', 'above', 'below')),
    mark  text not null check (mark in ('let_it_grow', 'nothing_grows', 'keep_tidy')),
    primary key (visit, side, zone)
) strict, without rowid;

create trigger zone_marks_stay before update on zone_marks begin
    select raise(abort, 'a mark of a visit is never overwritten');
end;
