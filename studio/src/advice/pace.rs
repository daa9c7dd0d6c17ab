//! How the forecast of one client comes about: what was seen of their hair so far, how sure that makes it, and what
//! cannot be followed.

use shared_types::{
    care_plan::Person,
    catalogue::Catalogue,
    regrowth::{
        clock::{Clock, Pace},
        curve::Regrowth,
        flags::Outlook,
    },
    words::Words,
};

/// What the sentence `forecast.half` speaks of.
const HALF: f64 = 0.5;
const DAYS_OF_A_WEEK: f64 = 7.0;

/// One sentence each, for the client. `common` is the regrowth at the pace of most people.
pub(super) fn about(
    catalogue: &Catalogue,
    person: &Person,
    common: &Regrowth,
    words: &Words,
) -> Vec<String> {
    let (clock, because) = match person.outlook(catalogue) {
        Outlook::Off { because } => (None, because),
        Outlook::Forecast { clock, because } => (Some(clock), because),
    };
    let mut sentences = Vec::new();
    if let Some(clock) = clock {
        sentences.extend(seen(catalogue, person, words));
        sentences.extend(half(catalogue, clock, common, words));
    }
    sentences.extend(
        because
            .iter()
            .map(|flag| words.say(&format!("forecast_flag.{flag}")).to_owned()),
    );
    sentences
}

/// "Based on your last 2 visits, your hair comes back a little faster than most people’s."
fn seen(catalogue: &Catalogue, person: &Person, words: &Words) -> Option<String> {
    let clock = person.clock?;
    let sentence = words.count("forecast.seen", person.visits_seen.into());
    Some(sentence.replace("{pace}", in_words(catalogue, clock, words)))
}

/// "a little faster than most people’s"
pub fn in_words<'a>(catalogue: &Catalogue, clock: Clock, words: &'a Words) -> &'a str {
    match Pace::of(clock.factor(), &catalogue.clock) {
        Pace::Slower => words.say("pace.slower"),
        Pace::LittleSlower => words.say("pace.little_slower"),
        Pace::AsMost => words.say("pace.as_most"),
        Pace::LittleFaster => words.say("pace.little_faster"),
        Pace::Faster => words.say("pace.faster"),
    }
}

/// When half of it is back, as far apart as the clock is unsure: whole weeks, rounded outwards.
fn half(catalogue: &Catalogue, clock: Clock, common: &Regrowth, words: &Words) -> Option<String> {
    let days = common.days_until_visible(HALF)?;
    let (slow, fast) = clock.band(catalogue.clock.band.value);
    let from = (days / fast / DAYS_OF_A_WEEK).floor().max(1.0);
    let until = (days / slow / DAYS_OF_A_WEEK).ceil().max(from + 1.0);
    Some(words.fill(
        "forecast.half",
        &[("from", &from.to_string()), ("until", &until.to_string())],
    ))
}
