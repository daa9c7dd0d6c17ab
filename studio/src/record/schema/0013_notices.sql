-- How the studio is told at once that something waits, one row per version; the latest counts. Passwords and shared secrets
-- are in it only sealed, with a key that is kept outside this file.
create table notice_settings_versions (
    version integer primary key,
    made_at integer not null,
    made_by blob not null references artists (id),
    body    text not null
) strict;
create trigger notice_settings_versions_stay before update on notice_settings_versions begin
    select raise(abort, 'how notices went out is never overwritten');
end;

-- A notice: that a report needs somebody, how urgent it is, and by which way it goes out. Nothing that a client wrote. One
-- without a report only tries the way.
create table notices (
    id      blob primary key,
    made_at integer not null,
    way     text not null check (way in ('mail', 'webhook')),
    report  blob references reports (id),
    level   text check (level in ('expected', 'studio', 'same_day', 'emergency')),
    check ((report is null) = (level is null))
) strict;
create index notices_of_report on notices (report);
create trigger notices_stay before update on notices begin
    select raise(abort, 'a notice is never overwritten');
end;

-- Each time one was tried, and what came of it.
create table notice_attempts (
    id      integer primary key,
    notice  blob not null references notices (id),
    at      integer not null,
    outcome text not null check (outcome in ('sent', 'failed', 'given_up', 'not_needed')),
    fault   text not null,
    detail  text not null
) strict;
create index attempts_of_notice on notice_attempts (notice, id);
create trigger notice_attempts_stay before update on notice_attempts begin
    select raise(abort, 'what became of a notice is never overwritten');
end;

-- The notices that still have to go out, and when they are tried next: no history, follows from the tables above.
create table waiting_notices (
    notice  blob primary key references notices (id),
    way     text not null,
    next_at integer not null
) strict;
create index notices_by_turn on waiting_notices (way, next_at);
create trigger notice_waits after insert on notices begin
    insert into waiting_notices (notice, way, next_at) values (new.id, new.way, new.made_at);
end;
create trigger notice_is_done after insert on notice_attempts when new.outcome <> 'failed' begin
    delete from waiting_notices where notice = new.notice;
end;
