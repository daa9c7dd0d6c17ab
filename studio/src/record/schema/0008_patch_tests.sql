-- Patch tests: as they were put on, what the client saw, and what the artist read. Appended like everything else: a
-- later reading corrects an earlier one, and a test that was recorded by mistake is withdrawn, not changed.
create table patch_tests (
    id              blob primary key,
    client          blob not null references clients (id),
    applied_at      integer not null,
    recorded_at     integer not null,
    recorded_by     blob not null references artists (id),
    treatments      text not null,
    product         text not null,
    batch           text not null,
    place           text not null check (place in ('behind_the_ear', 'inner_elbow', 'elsewhere')),
    place_words     text not null,
    -- Hours after which the client was told to look, and the version of the content that said so.
    look_hours      text not null,
    content_version text not null,
    note            text not null
) strict;
create index patch_tests_of_client on patch_tests (client, applied_at);
create index patch_tests_by_time on patch_tests (applied_at desc);

create table patch_test_events (
    id      blob primary key,
    test    blob not null references patch_tests (id),
    kind    text not null check (kind in ('read', 'withdrawn')),
    outcome text check (outcome in ('no_reaction', 'reacted', 'unclear')),
    at      integer not null,
    made_by blob not null references artists (id),
    words   text not null,
    check ((outcome is null) = (kind = 'withdrawn'))
) strict;
create index events_of_patch_test on patch_test_events (test, at);

-- A link opens the page of a visit or of a patch test. The table is made anew, since a column cannot lose its `not null`.
create table links_anew (
    id          blob primary key,
    visit       blob references visits (id),
    patch_test  blob references patch_tests (id),
    made_at     integer not null,
    made_by     blob not null references artists (id),
    expires_at  integer not null,
    secret_hash blob not null unique,
    check ((visit is null) <> (patch_test is null))
) strict;
insert into links_anew (rowid, id, visit, made_at, made_by, expires_at, secret_hash)
    select rowid, id, visit, made_at, made_by, expires_at, secret_hash from links;
drop table links;
alter table links_anew rename to links;
create index links_of_visit on links (visit, made_at) where visit is not null;
create index links_of_patch_test on links (patch_test, made_at) where patch_test is not null;
create trigger links_stay before update on links begin
    select raise(abort, 'a link is never overwritten');
end;

-- What the client said, and to which words about keeping it they agreed.
create table patch_test_answers (
    id          blob primary key,
    test        blob not null references patch_tests (id),
    link        blob not null references links (id),
    received_at integer not null,
    noticed     text not null check (noticed in ('nothing', 'something', 'not_sure')),
    words       text not null,
    consent     text not null
) strict;
create index answers_of_patch_test on patch_test_answers (test, received_at);

-- The tests that wait to be read: follows from the tables above, and is kept beside them as for reports. One that was
-- not clear goes on waiting; one that was read waits again when the client then sees something.
create table waiting_patch_tests (
    test blob primary key references patch_tests (id)
) strict;
create trigger patch_test_waits after insert on patch_tests begin
    insert into waiting_patch_tests (test) values (new.id);
end;
create trigger patch_test_read after insert on patch_test_events when new.kind = 'withdrawn' or new.outcome <> 'unclear' begin
    delete from waiting_patch_tests where test = new.test;
end;
create trigger patch_test_unclear after insert on patch_test_events when new.outcome = 'unclear' begin
    insert or ignore into waiting_patch_tests (test) values (new.test);
end;
create trigger patch_test_shows after insert on patch_test_answers
when new.noticed <> 'nothing'
    and not exists (select 1 from patch_test_events where test = new.test and kind = 'withdrawn') begin
    insert or ignore into waiting_patch_tests (test) values (new.test);
end;

create trigger patch_tests_stay before update on patch_tests begin
    select raise(abort, 'a patch test is never overwritten');
end;
create trigger patch_test_events_stay before update on patch_test_events begin
    select raise(abort, 'what was read of a patch test is never overwritten');
end;
create trigger patch_test_answers_stay before update on patch_test_answers begin
    select raise(abort, 'what a client said is never overwritten');
end;
