-- Dates that clients want to look their best for, as they gave them. The latest row of a visit counts; one without a
-- date takes back what was given before. Who gave it: whoever held the link.
create table occasions (
    visit      blob not null references visits (id),
    link       blob not null references links (id),
    made_at    integer not null,
    -- YYYY-MM-DD at the studio.
    date       text,
    -- Days between the visit and the date, at least and at most, as the content had them then: what was planned back
    -- stays what it was.
    days_least integer,
    days_most  integer,
    check ((date is null) = (days_least is null) and (date is null) = (days_most is null))
) strict;
create index occasions_of_visit on occasions (visit);
create trigger occasions_stay before update on occasions begin
    select raise(abort, 'a date that was given is never overwritten');
end;
