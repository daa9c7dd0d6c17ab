-- What was known before a treatment, what stood against it, how that was shown, and what the artist decided. It has a
-- visit, under whose id it is kept, or it was put off and nothing was done. Concerns and what was shown are JSON.
create table consultations (
    id              blob primary key,
    client          blob not null references clients (id),
    visit           blob unique references visits (id),
    at              integer not null,
    made_at         integer not null,
    made_by         blob not null references artists (id),
    treatments      text not null,
    findings        text not null,
    flags           text not null,
    retinoid_stopped_days integer,
    region          text not null,
    language        text not null,
    content_version text not null,
    concerns        text not null,
    shown           text not null,
    decision        text check (decision in ('went_ahead', 'changed_treatment', 'put_off')),
    words           text not null,
    note            text not null,
    check (case when visit is null then decision is 'put_off' else visit = id end)
) strict;
create index consultations_of_client on consultations (client, at);

create trigger consultations_stay before update on consultations begin
    select raise(abort, 'what was decided before a treatment is never overwritten');
end;
