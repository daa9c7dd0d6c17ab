-- How the studio deals with reports: reply times and sentences to begin with. One row per version; the latest counts.
create table desk_versions (
    version integer primary key,
    made_at integer not null,
    made_by blob not null references artists (id),
    body    text not null
) strict;
create trigger desk_versions_stay before update on desk_versions begin
    select raise(abort, 'how the studio replied is never overwritten');
end;

-- What became of a report, as the artist noted it. The latest note counts; the region says which boxes there were.
create table report_outcomes (
    id                  blob primary key,
    report              blob not null references reports (id),
    at                  integer not null,
    made_by             blob not null references artists (id),
    region              text not null,
    advised             text not null,
    done                text not null,
    ended               text check (ended in ('settled_alone', 'pharmacist', 'doctor', 'hospital', 'unknown')),
    serious             text not null,
    aware_on            text,
    medically_confirmed integer check (medically_confirmed in (0, 1)),
    diagnosis           text not null,
    re_exposure         text check (re_exposure in ('positive', 'negative', 'not_performed', 'unknown')),
    tests               text not null,
    other_explanations  text not null
) strict;
create index outcomes_of_report on report_outcomes (report, at);
create trigger report_outcomes_stay before update on report_outcomes begin
    select raise(abort, 'an outcome is never overwritten');
end;

-- Products not to be used again for a client: noted after a report, and lifted again. Of a product or a batch the latest
-- row counts.
create table not_again (
    id      blob primary key,
    client  blob not null references clients (id),
    report  blob not null references reports (id),
    kind    text not null check (kind in ('noted', 'lifted')),
    product text not null,
    -- Empty for the whole product.
    batch   text not null,
    at      integer not null,
    made_by blob not null references artists (id),
    words   text not null
) strict;
create index not_again_of_client on not_again (client, at);
create trigger not_again_stays before update on not_again begin
    select raise(abort, 'what is not to be used again is never overwritten');
end;
