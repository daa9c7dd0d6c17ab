-- Photos: of a report, sent by its client, or taken by the artist at the end of a visit. The pictures themselves are files
-- beside this one, each there before its row is. One that is taken out again leaves its row, and when and by whom.
create table photos (
    id          blob primary key,
    visit       blob not null references visits (id),
    -- Whose it is and through which link it came, or else which artist took it.
    report      blob references reports (id),
    link        blob references links (id),
    made_by     blob references artists (id),
    received_at integer not null,
    -- The version of the words about photos that the client agreed to; and the words, where the artist read them out.
    -- Those of a report are kept with it.
    consent     text not null check (consent <> ''),
    agreed_to   text not null,
    -- The file's name, random; its SHA-256; pixels.
    file        text not null unique,
    sha256      blob not null check (length(sha256) = 32),
    width       integer not null check (width > 0),
    height      integer not null check (height > 0),
    -- How many bytes came in.
    sent        integer not null,
    check ((report is null) = (link is null)),
    check ((report is null) <> (made_by is null))
) strict;
create index photos_of_report on photos (report, received_at) where report is not null;
create index photos_of_visit on photos (visit, received_at) where report is null;

create table photo_events (
    photo   blob not null references photos (id),
    kind    text not null check (kind in ('taken_out')),
    at      integer not null,
    made_by blob not null references artists (id),
    primary key (photo, kind)
) strict;

create trigger photos_stay before update on photos begin
    select raise(abort, 'a photo is never overwritten');
end;
create trigger photo_events_stay before update on photo_events begin
    select raise(abort, 'what happened to a photo is never overwritten');
end;
