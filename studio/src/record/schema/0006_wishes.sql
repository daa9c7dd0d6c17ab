-- Wishes for a time, and what became of them. Appended like reports. The times are JSON, the first choice first, as on
-- the studio's wall: [{"date":"2026-12-03","time":"14:30"}], the time empty when any of that day would do.
create table wishes (
    id          blob primary key,
    visit       blob not null references visits (id),
    link        blob not null references links (id),
    received_at integer not null,
    times       text not null,
    words       text not null,
    reach       text not null
) strict;
create index wishes_of_visit on wishes (visit, received_at);
create index wishes_by_arrival on wishes (received_at desc);

-- An answer may agree to a time; the latest such answer holds until it is called off.
create table wish_events (
    id        blob primary key,
    wish      blob not null references wishes (id),
    kind      text not null check (kind in ('answered', 'called_off', 'settled', 'reopened')),
    at        integer not null,
    made_by   blob not null references artists (id),
    text      text not null,
    agreed_at integer check (agreed_at is null or kind = 'answered')
) strict;
create index events_of_wish on wish_events (wish, at);

-- The wishes that still wait: follows from the two tables above, and is kept beside them as for reports. Agreeing to a
-- time settles a wish; calling it off lets it wait again.
create table waiting_wishes (
    wish blob primary key references wishes (id)
) strict;
create trigger wish_waits after insert on wishes begin
    insert into waiting_wishes (wish) values (new.id);
end;
create trigger wish_settled after insert on wish_events when new.kind = 'settled' or new.agreed_at is not null begin
    delete from waiting_wishes where wish = new.wish;
end;
create trigger wish_reopened after insert on wish_events when new.kind in ('reopened', 'called_off') begin
    insert or ignore into waiting_wishes (wish) values (new.wish);
end;

create trigger wishes_stay before update on wishes begin
    select raise(abort, 'a wish is never overwritten');
end;
create trigger wish_events_stay before update on wish_events begin
    select raise(abort, 'what happened to a wish is never overwritten');
end;
