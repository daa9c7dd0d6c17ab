//! The client's page, filled in.

use chrono::{DateTime, Utc};
use mobile::client::still::Dates;
use shared_types::{
    care_plan::{self, Practice},
    page::{
        client::{AreaWeeks, ClientPage, ComeBack, Due, Still},
        form::Filled,
    },
    visit::Treatment,
    words::Words,
};
use uuid::Uuid;

use super::{cautions, occasion::Telling, reports, wall::Wall, wishes};
use crate::{
    advice::Advice,
    calendar::Calendar,
    error::Refusal,
    handlers::client::Holder,
    links::{address, secret::Secret},
    record::{
        RecordError, advice as given,
        clients::Client,
        links::{Link, Opens},
        occasions::{self, Date},
        reports as record_reports, studio, versions, visits, wishes as record_wishes,
    },
    state::Studio,
};

/// The words that the phone needs; those of [`super::still`] stay with the server.
const WORDS: &[&str] = &[
    "client.head.skip",
    "client.now.title",
    "client.now.all_over",
    "client.now.then",
    "client.now.until",
    "client.now.left",
    "client.now.over",
    "client.now.ended",
    "client.now.minutes",
    "client.now.hours",
    "client.now.days",
    "client.weeks.title",
    "client.weeks.come_back_now",
    "client.trouble.title",
    "client.sending.",
    "client.reports.",
    "client.wish.",
    "client.offline.",
    "picture.",
    "client.follow.",
    // Of the faults only those that the phone itself finds.
    "fault.date",
    "fault.time",
    "fault.wish_",
    "plural.",
];

/// What a page is made from, read in one go.
pub struct Source {
    pub studio: studio::Particulars,
    pub client: Client,
    pub finished_at: DateTime<Utc>,
    pub treatments: Vec<Treatment>,
    pub advice: Advice,
    pub content_version: String,
    /// Of that advice, as it is kept.
    pub sha256: [u8; 32],
    pub language: String,
    pub artist: String,
    pub reports: Vec<record_reports::Held>,
    /// The date to look one's best for.
    pub date: Option<Date>,
    /// As the studio works now.
    pub practice: Practice,
    pub wishes: Vec<record_wishes::Held>,
}

impl Source {
    /// The clock on the studio's wall, in the page's language.
    pub fn wall<'a>(&'a self, studio: &'a Studio) -> Wall<'a> {
        Wall {
            words: studio.words(&self.language).1,
            zone: self.studio.time_zone,
        }
    }
}

/// The form of that date as it came back.
#[derive(Default)]
pub struct Typed {
    pub date: String,
    /// Empty for a fresh form.
    pub fault: String,
}

/// Reads what the page of a link shows to its holder.
pub fn read(studio: &Studio, holder: &Holder) -> Result<Source, Refusal> {
    read_in(studio, &holder.link, &holder.language)
}

/// Reads what the page of a link shows in a language.
pub fn read_in(studio: &Studio, link: &Link, language: &str) -> Result<Source, Refusal> {
    let source = studio.record.read(|record| {
        let gone = || RecordError::Unreadable("a link without its visit".to_owned());
        let Opens::Visit(id) = link.opens else {
            return Err(gone());
        };
        let (visit, client) = visits::by_id(record, id)?.ok_or_else(gone)?;
        let given = given::of_visit(record, id, language)?;
        Ok(Source {
            studio: studio::current(record)?.ok_or_else(gone)?,
            advice: Advice::read(&given)?,
            content_version: given.content_version,
            sha256: given.sha256,
            artist: visits::recorded_by(record, id)?,
            reports: record_reports::of_visit(record, id)?,
            date: occasions::of_visit(record, id)?,
            practice: versions::current(record)?,
            wishes: record_wishes::of_visit(record, id)?,
            client,
            finished_at: visit.finished_at,
            treatments: visit.treatments,
            language: given.language,
        })
    })?;
    Ok(source)
}

/// The client's dates; none for advice from before there were dates to count from.
pub fn dates(studio: &Studio, source: &Source, holder: &Holder, typed: Typed) -> Option<Dates> {
    let telling = telling(studio, source)?;
    let today = telling.wall.day(holder.now.0);
    let calendar_web = with_calendar(studio, source, holder, |calendar| calendar.web_address())
        .unwrap_or_default();
    let mut dates = match &source.date {
        Some(date) => {
            let found = telling.plan_back(date, today);
            let on = shared_types::dates::date(telling.wall.words, date.on, today);
            Dates {
                title: telling.wall.words.fill("occasion.title", &[("date", &on)]),
                said: telling.said(date, &found, today),
                steps: telling.steps(&found, today),
                typed: date.on.to_string(),
                ..Dates::default()
            }
        }
        None => Dates::default(),
    };
    dates.calendar_web = calendar_web;
    if !typed.fault.is_empty() {
        dates.typed = typed.date;
        dates.fault = Some(typed.fault);
    }
    Some(dates)
}

/// What `with` makes of the visit's dates for a calendar; nothing where there are none.
pub fn with_calendar<T>(
    studio: &Studio,
    source: &Source,
    holder: &Holder,
    with: impl FnOnce(&Calendar<'_>) -> Option<T>,
) -> Option<T> {
    let telling = telling(studio, source)?;
    let found = source
        .date
        .map(|date| telling.plan_back(&date, telling.wall.day(date.given_at)));
    with(&Calendar {
        visit: holder.visit,
        telling,
        studio: &source.studio,
        occasion: found.as_ref(),
        sequence: holder.stamp.calendar_sequence(),
        now: holder.now.0,
    })
}

fn telling<'a>(studio: &'a Studio, source: &'a Source) -> Option<Telling<'a>> {
    Some(Telling {
        wall: source.wall(studio),
        studio: &source.studio.name,
        plan: source.advice.plan.as_ref()?,
        finished_at: source.finished_at,
        practice: &source.practice,
    })
}

/// The page's state, but for what never moves.
pub fn page(
    studio: &Studio,
    source: Source,
    secret: &Secret,
    form: Filled,
    now: DateTime<Utc>,
) -> ClientPage {
    let (language, words) = studio.words(&source.language);
    let wall = Wall {
        words,
        zone: source.studio.time_zone,
    };
    let areas = studio.content.catalogue.areas(&source.treatments);
    let weeks = source.advice.weeks.as_ref();
    let come_back = weeks.and_then(|weeks| weeks.come_back.as_ref());
    let cards = reports::cards(studio, &source, &wall, now);
    let good_day = wishes::good_day(come_back, source.finished_at, &wall, now);
    ClientPage {
        build: studio.site.build.clone(),
        now,
        as_of: wall.moment(now, now).text,
        words: words.only(WORDS),
        emergency: studio.emergency(&source.studio.region, language).text,
        studio_name: source.studio.name,
        treated: care_plan::your(&areas, words),
        finished_at: source.finished_at,
        path: address::path(secret),
        due: come_back.map(|back| due(back, words)),
        figures: weeks.map_or_else(Vec::new, |weeks| {
            weeks.areas.iter().map(AreaWeeks::figure).collect()
        }),
        cautions: cautions::by_their_end(words, &source.advice.cautions),
        reports: cards,
        wishes: wishes::cards(&source.wishes, &wall, now),
        first_day: wall.day(now).to_string(),
        good_day: good_day.map_or_else(String::new, |day| day.to_string()),
        form_id: form
            .value("wish_id")
            .parse()
            .unwrap_or_else(|_| Uuid::new_v4()),
        form,
        still: Still::default(),
    }
}

/// The time to come back in the page's words.
pub(super) fn due(back: &ComeBack, words: &Words) -> Due {
    let [from_day, until_day] = back.days();
    Due {
        to_come: back.said(words, "client.weeks.come_back"),
        why: back.why.clone(),
        over: back.said(words, "client.weeks.come_back_was"),
        from_day,
        until_day,
    }
}
