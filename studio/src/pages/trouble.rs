//! The page for when something is not right, filled in.

use chrono::{DateTime, Utc};
use mobile::client::still::{
    self,
    trouble::{self, Advising, Asking, Telling},
};
use shared_types::{
    page::{
        form::Filled,
        trouble::{TroublePage, TroubleStill},
    },
    reaction::{Place, Purpose},
    urgency::{Answers, Level, Rules, judge},
    words::Words,
};
use uuid::Uuid;

use super::{advised::Values, client::Source, desk::Replies, still::html};
use crate::{
    links::{address, secret::Secret},
    record::reports::consents::Text,
    state::Studio,
};

/// The words that the phone says itself; all others stand in the page.
const WORDS: &[&str] = &[
    "client.trouble.left",
    "client.trouble.reply_open",
    "client.tell.send",
    "client.sending.",
    "fault.report_empty",
    "fault.words_long",
    "fault.reach_long",
    "fault.consent",
];

/// The words for consent that are shown, by version. Raise it whenever a word below `consent.` changes its meaning.
pub const CONSENT_VERSION: &str = "2026-12";

/// What was answered on a plain form that asked what to do.
#[derive(Default)]
pub struct Asked {
    pub form: Filled,
    /// `None` on a fresh page, and where the phone tells it.
    pub answers: Option<Answers>,
}

/// The texts of the consents in a language, as they are shown.
pub fn consents(words: &Words, studio: &str) -> Vec<Text> {
    let text = |purpose: &Purpose| Text {
        purpose: *purpose,
        version: CONSENT_VERSION,
        text: words.fill(&format!("consent.{purpose}"), &[("studio", studio)]),
    };
    Purpose::ALL.iter().map(text).collect()
}

/// The page's state with everything that the server draws of it.
pub fn page(
    studio: &Studio,
    source: &Source,
    secret: &Secret,
    asked: Asked,
    now: DateTime<Utc>,
) -> TroublePage {
    let (language, words) = studio.words(&source.language);
    let rules = studio.content.catalogue.urgency.compiled();
    let path = address::path(secret);
    let still = still(studio, source, &rules, &asked, &path);
    TroublePage {
        build: studio.site.build.clone(),
        now,
        words: words.only(WORDS),
        studio_name: source.studio.name.clone(),
        finished_at: source.finished_at,
        treatments: source.treatments.clone(),
        content_version: studio.content.version.clone(),
        form_id: asked
            .form
            .value("report_id")
            .parse()
            .unwrap_or_else(|_| Uuid::new_v4()),
        form: asked.form,
        still: TroubleStill {
            language: language.to_owned(),
            ..still
        },
        path,
        rules,
    }
}

fn still(
    studio: &Studio,
    source: &Source,
    rules: &Rules,
    asked: &Asked,
    path: &str,
) -> TroubleStill {
    let (language, words) = studio.words(&source.language);
    let card = studio.card(&source.studio, &source.artist, language);
    let values = Values::of(studio, &source.studio, language);
    let values = values.pairs();
    let verdict = asked.answers.as_ref().map(|answers| judge(rules, answers));
    let treated = studio.content.catalogue.areas(&source.treatments);
    let places: Vec<Place> = Place::ALL
        .iter()
        .copied()
        .filter(|place| place.is_offered(&treated))
        .collect();
    TroubleStill {
        language: String::new(),
        title: words.fill("client.trouble.page_title", &values),
        head: html(trouble::head(words, path)),
        emergency: html(still::emergency(words, &card.emergency)),
        questions: html(trouble::questions(&Asking {
            words,
            rules,
            form: &asked.form,
            answered: verdict.is_some(),
            values: &values,
            address: &format!("{path}/trouble"),
        })),
        advice: html(trouble::advice(&Advising {
            words,
            rules,
            verdict: verdict.as_ref(),
            card: &card,
            values: &values,
            path,
            replies: &replies(studio, words, &card.name),
        })),
        tell: html(trouble::tell(&Telling {
            words,
            places: &places,
            form: &asked.form,
            consent_version: CONSENT_VERSION,
            values: &values,
        })),
        foot: html(still::contact(words, &card)),
    }
}

/// When the studio replies, by level.
fn replies(studio: &Studio, words: &Words, name: &str) -> Vec<(Level, String)> {
    let replies = Replies::or_usual(studio);
    let said = |level: &Level| (*level, replies.promised(words, name, *level));
    Level::ALL.iter().map(said).collect()
}
