-- How the studio works: its own intervals, closed days and what it aims at, one row per version; the latest counts.
create table practice_versions (
    version integer primary key,
    made_at integer not null,
    made_by blob not null references artists (id),
    body    text not null
) strict;
create trigger practice_versions_stay before update on practice_versions begin
    select raise(abort, 'how the studio worked is never overwritten');
end;

-- The studio's particulars can be changed now: by whom. Unknown for what was set up before.
alter table studio_versions add column made_by blob references artists (id);
create trigger studio_versions_stay before update on studio_versions begin
    select raise(abort, 'what the studio was called is never overwritten');
end;
