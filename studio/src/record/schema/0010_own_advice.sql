-- The studio's own cautions, and what the labels of products say: each as a whole, one row per version; the latest counts.
create table own_advice_versions (
    version integer primary key,
    made_at integer not null,
    made_by blob not null references artists (id),
    body    text not null
) strict;
create trigger own_advice_versions_stay before update on own_advice_versions begin
    select raise(abort, 'what the studio advised is never overwritten');
end;

create table label_versions (
    version integer primary key,
    made_at integer not null,
    made_by blob not null references artists (id),
    body    text not null
) strict;
create trigger label_versions_stay before update on label_versions begin
    select raise(abort, 'what a label said is never overwritten');
end;
