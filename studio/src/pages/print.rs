//! What is handed out on paper, filled in from the advice that was kept.

use axum::response::Html;
use mobile::print::{self, Printed};

use super::{
    client::{Source, due},
    document::{Document, Style},
    still::html,
};
use crate::{
    error::Refusal,
    links::secret::Secret,
    state::{Now, Studio},
};

/// The paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// A4, with everything that was told.
    Sheet,
    /// 74 × 105 mm, to take home.
    Card,
}

/// What stands around a paper while it is on a screen.
pub struct Around {
    /// The address from where it was asked for.
    pub back: String,
    /// The languages that it can be had in; none where there is no choice.
    pub languages: Vec<String>,
}

/// From the link that lives, if there is one.
pub fn paper(
    studio: &Studio,
    source: &Source,
    secret: Option<&Secret>,
    paper: Paper,
    around: Around,
    now: Now,
) -> Result<Html<String>, Refusal> {
    let (language, words) = studio.words(&source.language);
    let wall = source.wall(studio);
    let advice = &source.advice;
    let card = studio.card(&source.studio, &source.artist, language);
    let address = secret.map(|secret| studio.public_url.link_to_scan(secret));
    let code = match secret {
        Some(secret) => studio.code(secret)?,
        None => String::new(),
    };
    let come_back = advice
        .weeks
        .as_ref()
        .and_then(|weeks| weeks.come_back.as_ref());
    let known = around.languages.iter();
    let languages: Vec<(String, String)> = known
        .filter(|tag| **tag != language)
        .map(|tag| (tag.clone(), studio.language_name(tag).to_owned()))
        .collect();
    let due = come_back.map(|back| due(back, words));
    let first_name = source.client.first_name.as_str();
    let kept = words.fill(
        "print.kept",
        &[
            ("version", &source.content_version),
            ("hash", &hex(&source.sha256)),
        ],
    );
    let printed = Printed {
        words,
        studio: &card,
        first_name,
        done: &advice.done,
        finished: &wall.moment(source.finished_at, now.0).text,
        cautions: &advice.cautions,
        after: &advice.after,
        due: due.as_ref(),
        more: come_back.map_or(&[], |back| &back.more),
        before_next: &advice.before_next,
        zones: advice.zones.as_ref(),
        url: address.as_deref().unwrap_or_default(),
        code: &code,
        kept: &kept,
        back: &around.back,
        languages: &languages,
    };
    let title = words.fill(
        "print.title",
        &[("name", first_name), ("studio", &card.name)],
    );
    Document {
        language: language.to_owned(),
        title,
        icon: &studio.site.addresses.icon,
        style: Style::File(&studio.site.addresses.print_style),
        script: None,
        photos: None,
        alive: false,
    }
    .around(&html(match paper {
        Paper::Sheet => print::sheet(&printed),
        Paper::Card => print::card(&printed),
    }))
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}
