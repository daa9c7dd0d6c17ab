//! How the studio works: its own intervals, closed days, and what it aims at.

use axum::{
    extract::State,
    http::StatusCode,
    response::{Html, IntoResponse, Redirect, Response},
};
use shared_types::{
    care_plan::{Aim, Bound, OwnInterval, Practice, PracticeFault, Weekday},
    page::{
        artist::{OwnIntervalLine, PracticeScreen, Screen},
        form::Filled,
    },
    visit::Treatment,
};

use super::check::Check;
use crate::{
    error::Refusal,
    handlers::posted::only,
    pages::{self, lengths::weeks_or_days},
    record::versions,
    security::session::{SignedForm, SignedIn},
    state::{Shared, Studio},
};

/// Digits that a number of weeks or days may have.
const DIGITS: usize = 4;
const WEEK: u16 = 7;

/// `GET /studio/practice`
pub async fn show(State(studio): State<Shared>, signed: SignedIn) -> Result<Html<String>, Refusal> {
    let practice = studio.record.read(versions::current)?;
    screen(&studio, &signed, filled(&practice))
}

/// `POST /studio/practice`: a new version, by which the next visits are advised; earlier ones keep what was told.
pub async fn send(
    State(studio): State<Shared>,
    SignedForm { signed, mut form }: SignedForm,
) -> Result<Response, Refusal> {
    let fields = fields(&studio);
    only(
        &form,
        &fields.iter().map(String::as_str).collect::<Vec<_>>(),
    )?;
    match read(&studio, &form)? {
        Ok(practice) => {
            let (artist, now) = (signed.artist, signed.now);
            studio
                .record
                .write(move |record| versions::add(record, &practice, artist, now))
                .await?;
            Ok(Redirect::to("/studio/practice").into_response())
        }
        Err(faults) => {
            form.blame_all(faults);
            let again = screen(&studio, &signed, form)?;
            Ok((StatusCode::UNPROCESSABLE_ENTITY, again).into_response())
        }
    }
}

fn fields(studio: &Studio) -> Vec<String> {
    let of_treatments = studio.content.catalogue.treatments.keys().flat_map(|one| {
        ["earliest", "best", "latest", "unit", "sooner"].map(|part| format!("{part}_{one}"))
    });
    ["prefers", "closed", "patch_test_days"]
        .map(str::to_owned)
        .into_iter()
        .chain(of_treatments)
        .collect()
}

/// The form of a practice.
fn filled(practice: &Practice) -> Filled {
    let mut form = Filled::default();
    form.put("prefers", practice.prefers.term());
    for day in &practice.closed {
        form.put("closed", day.term());
    }
    if let Some(days) = practice.patch_test_days {
        form.put("patch_test_days", days.to_string());
    }
    for (treatment, own) in &practice.intervals {
        let in_weeks = own.given().all(|(_, days)| days % WEEK == 0);
        form.put(
            &format!("unit_{treatment}"),
            if in_weeks { "weeks" } else { "days" },
        );
        for (bound, days) in own.given() {
            let number = if in_weeks { days / WEEK } else { days };
            form.put(&format!("{bound}_{treatment}"), number.to_string());
        }
        if own.knowingly_sooner {
            form.put(&format!("sooner_{treatment}"), "yes");
        }
    }
    form
}

/// Field and sentence, for each that needs mending.
type Faults = Vec<(String, String)>;

/// The practice that the form tells, or what needs mending in it.
fn read(studio: &Studio, form: &Filled) -> Result<Result<Practice, Faults>, Refusal> {
    let particulars = pages::artist::particulars(studio)?;
    let (_, words) = studio.words(&particulars.language);
    let mut check = Check::new(form, words);
    let mut practice = Practice::default();
    match form.value("prefers").parse() {
        Ok(aim) => practice.prefers = aim,
        Err(_) => check.fault("prefers", "fault.unknown_choice", &[]),
    }
    for given in form.all("closed") {
        match given.parse::<Weekday>() {
            Ok(day) => {
                practice.closed.insert(day);
            }
            Err(_) => check.fault("closed", "fault.unknown_choice", &[]),
        }
    }
    for (treatment, entry) in &studio.content.catalogue.treatments {
        let own = read_interval(&mut check, form, *treatment, entry.interval.earliest_days);
        if own.given().next().is_some() {
            practice.intervals.insert(*treatment, own);
        }
    }
    practice.patch_test_days = whole_number(&mut check, "patch_test_days");
    for fault in practice.faults(&studio.content.catalogue) {
        match fault {
            PracticeFault::Days {
                treatment, bound, ..
            } => check.fault(
                &format!("{bound}_{treatment}"),
                "fault.interval_days",
                &[("most", &OwnInterval::LONGEST.to_string())],
            ),
            PracticeFault::Order {
                treatment, bound, ..
            } => check.fault(&format!("{bound}_{treatment}"), "fault.interval_order", &[]),
            PracticeFault::Sooner {
                treatment, least, ..
            } => check.fault(
                &format!("sooner_{treatment}"),
                "fault.interval_sooner",
                &[("least", &weeks_or_days(words, least))],
            ),
            PracticeFault::NeverOpen => check.fault("closed", "fault.never_open", &[]),
            PracticeFault::PatchTestDays { .. } => check.fault(
                "patch_test_days",
                "fault.patch_test_days",
                &[("most", &Practice::LONGEST_TEST.to_string())],
            ),
            // The form is read by what is offered.
            PracticeFault::NotOffered { .. } => {}
        }
    }
    let faults = check.faults();
    Ok(if faults.is_empty() {
        Ok(practice)
    } else {
        Err(faults)
    })
}

fn read_interval(
    check: &mut Check<'_>,
    form: &Filled,
    treatment: Treatment,
    trade_earliest: u16,
) -> OwnInterval {
    let unit = format!("unit_{treatment}");
    let days_in_one = match form.value(&unit) {
        "" | "weeks" => WEEK,
        "days" => 1,
        _ => {
            check.fault(&unit, "fault.unknown_choice", &[]);
            1
        }
    };
    let mut days = |bound: Bound| {
        let number = whole_number(check, &format!("{bound}_{treatment}"))?;
        // What is far too long for a number of days is refused as that, not as no number.
        Some(number.saturating_mul(days_in_one))
    };
    let own = OwnInterval {
        earliest_days: days(Bound::Earliest),
        best_days: days(Bound::Best),
        latest_days: days(Bound::Latest),
        knowingly_sooner: false,
    };
    // A tick that is not needed any more is not kept.
    let is_sooner = own.given().any(|(_, days)| days < trade_earliest);
    OwnInterval {
        knowingly_sooner: is_sooner && form.has(&format!("sooner_{treatment}"), "yes"),
        ..own
    }
}

/// A number, where one was given; what is none is noted.
fn whole_number(check: &mut Check<'_>, field: &str) -> Option<u16> {
    let text = check.text(field, DIGITS);
    if text.is_empty() {
        return None;
    }
    let number = text.parse();
    if number.is_err() {
        check.fault(field, "fault.whole_number", &[]);
    }
    number.ok()
}

fn screen(studio: &Studio, signed: &SignedIn, form: Filled) -> Result<Html<String>, Refusal> {
    let particulars = pages::artist::particulars(studio)?;
    let wall = pages::artist::wall(studio, &particulars);
    let words = wall.words;
    let held = studio.record.read(versions::latest::<Practice>)?;
    let named = |key: String, term: &str| (term.to_owned(), words.say(&key).to_owned());
    let treatments = studio.content.catalogue.treatments.iter();
    let reminded = studio.content.catalogue.patch_test_days();
    let reminded = reminded.map_or_else(String::new, |days| days.to_string());
    let screen = PracticeScreen {
        form,
        changed: wall.changed(held.as_ref(), signed.now),
        aims: Aim::ALL
            .iter()
            .map(|aim| named(format!("aim.{aim}"), aim.term()))
            .collect(),
        weekdays: Weekday::ALL
            .iter()
            .map(|day| named(format!("date.weekday.{}", day.number()), day.term()))
            .collect(),
        patch_days_hint: words.fill("artist.practice.patch_days_hint", &[("days", &reminded)]),
        treatments: treatments
            .map(|(treatment, entry)| {
                let interval = &entry.interval;
                let trade = words.fill(
                    "artist.practice.usual",
                    &[
                        ("earliest", &weeks_or_days(words, interval.earliest_days)),
                        ("best", &weeks_or_days(words, interval.best_days)),
                        ("latest", &weeks_or_days(words, interval.latest_days)),
                    ],
                );
                let follows = match (&entry.removal, &entry.tint) {
                    (Some(_), _) => words.say("artist.practice.follows_hair"),
                    (None, Some(_)) => words.say("artist.practice.follows_colour"),
                    (None, None) => words.say("artist.practice.follows_trade"),
                };
                OwnIntervalLine {
                    term: treatment.term().to_owned(),
                    name: words.say(&format!("treatment.{treatment}")).to_owned(),
                    usual: format!("{trade} {follows}"),
                    ask_sooner: words.fill(
                        "artist.practice.ask_sooner",
                        &[("least", &weeks_or_days(words, interval.earliest_days))],
                    ),
                }
            })
            .collect(),
    };
    pages::artist::screen(studio, &particulars, signed, Screen::Practice(screen))
}
