-- A report holds the answers that led to the advice, and what was told: by the phone, which decides first, and by the
-- studio, which decides again. Each with the version of the content that the rules came from.
create table reports_by_questions (
    id                   blob primary key,
    visit                blob not null references visits (id),
    link                 blob not null references links (id),
    received_at          integer not null,
    -- An object of the fields of urgency; a list of places; ids of rules and of advice.
    answers              text not null,
    places               text not null,
    words                text not null,
    reach                text not null,
    photos_announced     integer not null,
    language             text not null,
    level                text not null,
    rules                text not null,
    advice               text not null,
    content_version      text not null,
    -- Null where the server alone told it.
    told_level           text,
    told_rules           text,
    told_advice          text,
    told_content_version text
) strict;

-- Before there were questions, signs were ticked: what was ticked stands behind the words from now on. Nobody was asked how
-- bad it was, so the level by which it waits is the lowest that the rules of today would give: a change of sight is rule E5;
-- an eye with pain or burning may be S3; swelling, or bumps or blisters, that get worse are M2; whatever was not asked keeps
-- the rest with the studio. The client was told none of this, and the words say so.
insert into reports_by_questions
    with ticked as (
        select reports.id as report,
            case
                when signs like '%"vision_change"%' then 'emergency'
                when signs like '%"eye_red_or_watering"%' and signs like '%"pain_or_burning"%' then 'same_day'
                when trend = 'worse' and (signs like '%"swelling"%' or signs like '%"bumps_or_blisters"%') then 'same_day'
                else 'studio'
            end as level,
            trim(replace(replace(replace(replace(signs, '[', ''), ']', ''), '"', ''), ',', ', ')
                || coalesce('; began: ' || since, '') || coalesce('; ' || trend, ''), '; ') as said
        from reports
    )
    select id, visit, link, received_at, '{}', '[]',
        trim(words
            || case when said = '' then '' else char(10) || '(' || said || ')' end
            || case level when 'studio' then '' else char(10) || '(Sorted later by what was ticked; the client was not told so.)' end,
            char(10)),
        reach, 0, coalesce((select language from advice where advice.visit = reports.visit limit 1), 'en'),
        level, '[]', '[]', '', null, null, null, null
    from reports join ticked on report = id order by reports.rowid;

-- What was agreed to, for each purpose by itself: the text as it was shown, its version, when.
create table report_consents (
    report   blob not null references reports (id),
    purpose  text not null check (purpose in ('report', 'photos', 'supplier')),
    given_at integer not null,
    version  text not null,
    language text not null,
    text     text not null,
    primary key (report, purpose)
) strict;
insert into report_consents
    select reports.id, 'report', reports.received_at, consent, language, ''
    from reports join reports_by_questions on reports_by_questions.id = reports.id;

drop table reports;
alter table reports_by_questions rename to reports;
create index reports_of_visit on reports (visit, received_at);
create index reports_by_arrival on reports (received_at desc);
create trigger report_waits after insert on reports begin
    insert into waiting_reports (report) values (new.id);
end;
create trigger reports_stay before update on reports begin
    select raise(abort, 'a report is never overwritten');
end;
create trigger report_consents_stay before update on report_consents begin
    select raise(abort, 'a consent is never overwritten');
end;

-- When somebody at the studio first looked at it.
create table report_seen (
    report  blob primary key references reports (id),
    at      integer not null,
    made_by blob not null references artists (id)
) strict;
create trigger report_seen_stays before update on report_seen begin
    select raise(abort, 'when a report was seen is never overwritten');
end;

-- How it went on: asked so many hours after the report, answered once for each, run through the same rules.
create table follow_ups (
    id              integer primary key,
    report          blob not null references reports (id),
    asked_hours     integer not null,
    answered_at     integer not null,
    how             text not null check (how in ('better', 'same', 'worse')),
    level           text not null,
    rules           text not null,
    advice          text not null,
    content_version text not null,
    -- Worse, or more urgent than the word before it.
    raised          integer not null
) strict;
create index follow_ups_of_report on follow_ups (report, id);
create trigger follow_ups_stay before update on follow_ups begin
    select raise(abort, 'an answer about how it went on is never overwritten');
end;
-- It waits to be looked at again.
create trigger follow_up_waits after insert on follow_ups when new.raised = 1 begin
    insert or ignore into waiting_reports (report) values (new.report);
end;
