//! The client's page, filled in.

mod dates;
mod source;

use chrono::{DateTime, Utc};
use shared_types::{
    care_plan,
    page::{
        client::{AreaWeeks, ClientPage, ComeBack, Due, Still},
        form::Filled,
    },
    words::Words,
};
use uuid::Uuid;

use super::{cautions, reports, wall::Wall, wishes};
use crate::{
    links::{address, secret::Secret},
    state::Studio,
};
pub use dates::{Typed, dates, with_calendar};
pub use source::{Source, read, read_in};

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
