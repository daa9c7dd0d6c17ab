-- What happened is appended, never overwritten: each row says when, and who where there is a who.
-- Instants are UTC in milliseconds since 1970-01-01; ids are the 16 bytes of a UUID; lists are JSON.

-- Whose record this is. A demo record is thrown away at each start, so it must never be mistaken for a real one.
create table record_origin (
    only_row integer primary key check (only_row = 1),
    made_at  integer not null,
    is_demo  integer not null check (is_demo in (0, 1))
) strict;

-- The studio's particulars, one row per version; the latest counts.
create table studio_versions (
    version       integer primary key,
    made_at       integer not null,
    name          text not null,
    phone         text not null,
    contact_email text not null,
    region        text not null,
    time_zone     text not null,
    language      text not null
) strict;

create table artists (
    id            blob primary key,
    made_at       integer not null,
    name          text not null,
    email         text not null unique collate nocase,
    password_hash text not null
) strict;

-- Who is signed in now. Not history: a session that ended is deleted.
create table sessions (
    token_hash blob primary key,
    artist     blob not null references artists (id),
    made_at    integer not null,
    used_at    integer not null
) strict;

create table clients (
    id         blob primary key,
    made_at    integer not null,
    made_by    blob not null references artists (id),
    first_name text not null,
    reach      text not null
) strict;
create index clients_by_name on clients (first_name collate nocase);

create table visits (
    id          blob primary key,
    client      blob not null references clients (id),
    finished_at integer not null,
    recorded_at integer not null,
    recorded_by blob not null references artists (id),
    treatments  text not null,
    findings    text not null,
    products    text not null,
    note        text not null
) strict;
create index visits_by_end on visits (finished_at desc);
create index visits_of_client on visits (client, finished_at);

-- What the client was told, exactly as shown, and its SHA-256.
create table advice (
    visit           blob primary key references visits (id),
    language        text not null,
    content_version text not null,
    body            text not null,
    sha256          blob not null
) strict;

-- A link's secret is derived from its id and a key kept outside this file; only the secret's SHA-256 is here.
create table links (
    id          blob primary key,
    visit       blob not null references visits (id),
    made_at     integer not null,
    made_by     blob not null references artists (id),
    expires_at  integer not null,
    secret_hash blob not null unique
) strict;
create index links_of_visit on links (visit, made_at);

create table link_events (
    link blob not null references links (id),
    kind text not null check (kind in ('opened', 'revoked')),
    at   integer not null,
    made_by blob references artists (id),
    primary key (link, kind)
) strict;

create table reports (
    id          blob primary key,
    visit       blob not null references visits (id),
    link        blob not null references links (id),
    received_at integer not null,
    signs       text not null,
    since       text,
    trend       text,
    words       text not null,
    reach       text not null,
    consent     text not null
) strict;
create index reports_of_visit on reports (visit, received_at);
create index reports_by_arrival on reports (received_at desc);

create table report_events (
    id     blob primary key,
    report blob not null references reports (id),
    kind   text not null check (kind in ('answered', 'settled', 'reopened')),
    at     integer not null,
    made_by blob not null references artists (id),
    text   text not null
) strict;
create index events_of_report on report_events (report, at);

-- The reports that still wait to be settled: follows from the two tables above, and is kept beside them so that the
-- inbox does not read the whole record.
create table waiting_reports (
    report blob primary key references reports (id)
) strict;
create trigger report_waits after insert on reports begin
    insert into waiting_reports (report) values (new.id);
end;
create trigger report_settled after insert on report_events when new.kind = 'settled' begin
    delete from waiting_reports where report = new.report;
end;
create trigger report_reopened after insert on report_events when new.kind = 'reopened' begin
    insert or ignore into waiting_reports (report) values (new.report);
end;

-- History is kept by the database itself, not only by good manners.
create trigger visits_stay before update on visits begin
    select raise(abort, 'a visit is never overwritten');
end;
create trigger advice_stays before update on advice begin
    select raise(abort, 'advice that was given is never overwritten');
end;
create trigger links_stay before update on links begin
    select raise(abort, 'a link is never overwritten');
end;
create trigger link_events_stay before update on link_events begin
    select raise(abort, 'what happened to a link is never overwritten');
end;
create trigger reports_stay before update on reports begin
    select raise(abort, 'a report is never overwritten');
end;
create trigger report_events_stay before update on report_events begin
    select raise(abort, 'what happened to a report is never overwritten');
end;
