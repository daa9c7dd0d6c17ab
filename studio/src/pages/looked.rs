//! What is forecast of the hair removed earlier, beside what is seen of it: before a visit is recorded, and after.

use chrono::{DateTime, Utc};
use rusqlite::Connection;
use shared_types::{
    care_plan::{
        self, Person,
        learned::{EarlierRemoval, removal_before},
    },
    catalogue::Catalogue,
    page::artist::{AreaToLookAt, LookAgain, Looked},
    regrowth::{clock::Seen, curve::Regrowth, flags::Outlook},
    visit::{Area, Observed, Visit},
    words::Words,
};

use crate::{
    advice::{Advice, pace::in_words},
    record::{RecordError, advice as given},
};

/// The value of the choice of not having looked.
pub const NOT_LOOKED: &str = "";

/// What may be noted at a visit that ends at `at`, of the chosen client's earlier ones. Nobody chosen has none.
pub fn again(
    catalogue: &Catalogue,
    client: String,
    earlier: &[Visit],
    at: DateTime<Utc>,
    words: &Words,
) -> LookAgain {
    let named = |kind: &str, term: &str| {
        (
            term.to_owned(),
            words.say(&format!("{kind}.{term}")).to_owned(),
        )
    };
    let mut shares: Vec<_> = Seen::ALL
        .iter()
        .map(|one| named("seen", one.term()))
        .collect();
    shares.push((
        NOT_LOOKED.to_owned(),
        words.say("artist.look.not_looked").to_owned(),
    ));
    LookAgain {
        client,
        areas: Area::ALL
            .iter()
            .filter_map(|area| to_look_at(catalogue, *area, earlier, at, words))
            .collect(),
        shares,
        flags: shared_types::catalogue::flag::Flag::ALL
            .iter()
            .map(|one| named("flag", one.term()))
            .collect(),
    }
}

fn to_look_at(
    catalogue: &Catalogue,
    area: Area,
    earlier: &[Visit],
    at: DateTime<Utc>,
    words: &Words,
) -> Option<AreaToLookAt> {
    let removal = removal_before(catalogue, earlier, area, at)?;
    let share = regrowth(catalogue, earlier, area, &removal)
        .map(|regrowth| Seen::nearest(regrowth.visible(removal.days), &catalogue.clock));
    Some(AreaToLookAt {
        area: area.term().to_owned(),
        name: words.say(&format!("area.{area}")).to_owned(),
        removed: words
            .count("artist.look.removed", whole_days(&removal))
            .replace(
                "{done}",
                words.say(&format!("treatment.{}", removal.treatment)),
            ),
        expected: match share {
            Some(seen) => words.fill(
                "artist.look.forecast",
                &[("share", words.say(&format!("seen.{seen}")))],
            ),
            None => words.say("artist.look.no_forecast").to_owned(),
        },
        visit: removal.visit.id,
        days: u32::try_from(whole_days(&removal)).unwrap_or_default(),
        forecast: None,
    })
}

/// Puts what was forecast, as it was drawn for the client, beside each question.
pub fn with_forecasts(
    record: &Connection,
    mut look: LookAgain,
    language: &str,
) -> Result<LookAgain, RecordError> {
    for area in &mut look.areas {
        let given = given::of_visit(record, area.visit, language)?;
        let weeks = Advice::read(&given)?.weeks;
        area.forecast = weeks
            .into_iter()
            .flat_map(|weeks| weeks.areas)
            .find(|one| one.area.term() == area.area)
            .map(|one| one.figure());
    }
    Ok(look)
}

/// What was seen at a visit, each beside what had been forecast for it.
pub fn looked(
    catalogue: &Catalogue,
    visit: &Visit,
    earlier: &[Visit],
    words: &Words,
) -> Vec<Looked> {
    visit
        .observations
        .iter()
        .filter_map(|observation| {
            let area = observation.area;
            let removal = removal_before(catalogue, earlier, area, visit.finished_at)?;
            let regrowth = regrowth(catalogue, earlier, area, &removal);
            let share = |seen: Seen| words.say(&format!("seen.{seen}")).to_owned();
            let first_hairs = |day: f64| {
                let day = day.round().to_string();
                words.fill("artist.look.first_hairs_on", &[("day", &day)])
            };
            let (expected, seen) = match observation.what {
                Observed::Share(seen) => (
                    regrowth.map(|regrowth| {
                        share(Seen::nearest(
                            regrowth.visible(removal.days),
                            &catalogue.clock,
                        ))
                    }),
                    share(seen),
                ),
                Observed::FirstHairs(day) => (
                    regrowth
                        .and_then(|regrowth| {
                            regrowth.days_until_visible(catalogue.clock.first_hairs.value)
                        })
                        .map(first_hairs),
                    first_hairs(day.into()),
                ),
            };
            let what = words
                .count("artist.look.what", whole_days(&removal))
                .replace("{area}", words.say(&format!("area.{area}")))
                .replace(
                    "{done}",
                    words.say(&format!("treatment.{}", removal.treatment)),
                );
            Some(Looked {
                what,
                expected: expected
                    .unwrap_or_else(|| words.say("artist.look.no_forecast").to_owned()),
                seen,
            })
        })
        .collect()
}

/// What was learned so far, for the artist; empty when nothing was, or when it cannot be used.
pub fn pace(catalogue: &Catalogue, person: &Person, words: &Words) -> String {
    match (person.clock, person.outlook(catalogue)) {
        (Some(clock), Outlook::Forecast { .. }) => words
            .count("artist.look.pace", person.visits_seen.into())
            .replace("{pace}", in_words(catalogue, clock, words)),
        _ => String::new(),
    }
}

/// The regrowth that was forecast for this person after a removal; `None` when there was no forecast.
fn regrowth(
    catalogue: &Catalogue,
    earlier: &[Visit],
    area: Area,
    removal: &EarlierRemoval<'_>,
) -> Option<Regrowth> {
    let paces = Person::learned(catalogue, earlier).ok()?.paces(catalogue)?;
    care_plan::regrowth_at(catalogue, area, removal.removal, paces.middle).ok()
}

fn whole_days(removal: &EarlierRemoval<'_>) -> i64 {
    removal.days.round() as i64
}
