-- What the client was told is frozen once for each language of the content, and which of them was shown is noted.
create table advice_in_languages (
    visit           blob not null references visits (id),
    language        text not null,
    -- From 0. The first was the studio's own language then: it stands in for any that the visit does not have.
    place           integer not null,
    content_version text not null,
    body            text not null,
    sha256          blob not null,
    primary key (visit, language)
) strict;
insert into advice_in_languages (visit, language, place, content_version, body, sha256)
    select visit, language, 0, content_version, body, sha256 from advice;
drop table advice;
alter table advice_in_languages rename to advice;
create trigger advice_stays before update on advice begin
    select raise(abort, 'advice that was given is never overwritten');
end;

-- In which languages the page of a link was shown, each with the first time.
create table languages_shown (
    link     blob not null references links (id),
    language text not null,
    at       integer not null,
    primary key (link, language)
) strict, without rowid;
create trigger languages_shown_stay before update on languages_shown begin
    select raise(abort, 'what was shown is never overwritten');
end;
