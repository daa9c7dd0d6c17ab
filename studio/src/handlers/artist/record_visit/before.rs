//! What should stop or delay the treatment: worked out from the form, shown in it, and kept with what was decided. It
//! informs, and never decides.

use chrono::{DateTime, NaiveDate, Utc};
use chrono_tz::Tz;
use shared_types::{
    care_plan::Practice,
    consultation::{self, Concern, Decision, NotAgain, Told},
    page::{before::BeforePart, form::Filled},
    visit::{Finding, Findings, Product, Treatment, Visit, limits},
};

use super::{
    super::check::Check,
    end::read_end,
    form::{PRODUCT_LINES, Recorded},
};
use crate::{
    error::Refusal,
    pages::{self, before::line},
    record::{
        consultations, consultations::Consultation, not_again, patch_tests, studio::Particulars,
        versions,
    },
    security::session::SignedIn,
    state::Studio,
};

/// Every field of this part.
pub const FIELDS: &[&str] = &[
    "concerns_seen",
    "retinoid_stopped_days",
    "decision",
    "decision_words",
];

/// What the artist said.
pub fn read(check: &mut Check<'_>, form: &Filled) -> Told {
    let stopped = form.value("retinoid_stopped_days").trim();
    if !stopped.is_empty() && stopped.parse::<u32>().is_err() {
        check.fault("retinoid_stopped_days", "fault.stopped_days", &[]);
    }
    let decision = form.value("decision");
    let decision = (!decision.is_empty()).then(|| decision.parse::<Decision>());
    if let Some(Err(_)) = decision {
        check.fault("decision", "fault.unknown_choice", &[]);
    }
    Told {
        retinoid_stopped_days: stopped.parse().ok(),
        decision: decision.and_then(Result::ok),
        words: check.text("decision_words", limits::NOTE),
    }
}

/// What stands against what the form tells so far, the firmest first. What cannot be read is left out here: to have it
/// mended is the business of [`super::form::read`].
pub fn raised(
    studio: &Studio,
    particulars: &Particulars,
    signed: &SignedIn,
    form: &Filled,
    past: &[Visit],
) -> Result<Vec<Concern>, Refusal> {
    let mut unsaid = Check::new(form, studio.words(&particulars.language).1);
    let zone = particulars.time_zone;
    let at = read_end(&mut unsaid, form, zone, signed.now).unwrap_or(signed.now);
    let treatments = form.all("treatments");
    let treatments: Vec<Treatment> = treatments.filter_map(|one| one.parse().ok()).collect();
    let flags: Vec<_> = form
        .all("flags")
        .filter_map(|one| one.parse().ok())
        .collect();
    let earlier = earlier(past, at, zone);
    let (tests, not_again, practice) = studio.record.read(|record| {
        let (tests, not_again) = match form.value("client").parse() {
            Ok(client) => (
                patch_tests::of_client(record, client)?,
                not_again::of_client(record, client)?,
            ),
            Err(_) => (Vec::new(), Vec::new()),
        };
        Ok((tests, not_again, versions::current::<Practice>(record)?))
    })?;
    let not_again: Vec<NotAgain> = not_again.into_iter().map(|held| held.what).collect();
    let entered = products(form);
    let patch_tests = patch_tests::before_treatment(&tests, &entered);
    Ok(consultation::concerns(
        &studio.content.catalogue,
        &consultation::Consultation {
            at,
            local_date: at.with_timezone(&zone).date_naive(),
            treatments: &treatments,
            findings: findings(form),
            flags: &flags,
            region: &particulars.region,
            retinoid_stopped_days: form.value("retinoid_stopped_days").trim().parse().ok(),
            earlier: &earlier,
            patch_tests: &patch_tests,
            patch_test_days: practice.patch_test_days.map(u32::from),
            products: &entered,
            not_again: &not_again,
        },
    ))
}

/// The products that are typed so far.
fn products(form: &Filled) -> Vec<Product> {
    let typed = |field: &str, line| form.value(&format!("{field}_{line}")).trim().to_owned();
    (1..=PRODUCT_LINES)
        .map(|line| Product {
            name: typed("product", line),
            batch: typed("batch", line),
        })
        .filter(|product| !product.name.is_empty())
        .collect()
}

fn findings(form: &Filled) -> Findings {
    ["findings", "during"]
        .iter()
        .flat_map(|field| form.all(field))
        .filter_map(|one| one.parse::<Finding>().ok())
        .fold(Findings::default(), |all, one| all.and(one))
}

/// What was done at the visits before `at`, and on which days at the studio.
fn earlier(past: &[Visit], at: DateTime<Utc>, zone: Tz) -> Vec<(Treatment, NaiveDate)> {
    past.iter()
        .filter(|visit| visit.finished_at < at)
        .flat_map(|visit| {
            let day = visit.finished_at.with_timezone(&zone).date_naive();
            visit.treatments.iter().map(move |one| (*one, day))
        })
        .collect()
}

/// Each concern with each treatment and each product, as the form names those that were on the screen.
fn marks(raised: &[Concern]) -> impl Iterator<Item = String> {
    raised.iter().flat_map(|concern| {
        let treatments = concern.treatments.iter().map(|one| one.term().to_owned());
        // A mark has no blanks.
        let products = concern.products.iter();
        let products = products.map(|name| name.split_whitespace().collect::<Vec<_>>().join("_"));
        treatments
            .chain(products)
            .map(|one| format!("{}:{one}", concern.id))
    })
}

/// Whether something stands against it that the form has not shown yet.
pub fn is_news(form: &Filled, raised: &[Concern]) -> bool {
    let seen: Vec<&str> = form.value("concerns_seen").split(' ').collect();
    marks(raised).any(|mark| !seen.contains(&mark.as_str()))
}

/// This part of the form. What was shown once counts as seen, also when it comes and goes with what is ticked.
pub fn part(
    studio: &Studio,
    particulars: &Particulars,
    signed: &SignedIn,
    form: &mut Filled,
    past: &[Visit],
) -> Result<BeforePart, Refusal> {
    let wall = pages::artist::wall(studio, particulars);
    let raised = raised(studio, particulars, signed, form, past)?;
    let mut seen: Vec<String> = form
        .value("concerns_seen")
        .split_whitespace()
        .map(str::to_owned)
        .collect();
    let new: Vec<String> = marks(&raised).filter(|mark| !seen.contains(mark)).collect();
    seen.extend(new);
    form.forget("concerns_seen");
    let (put_off, not_again) = match form.value("client").parse() {
        Ok(client) => studio.record.read(|record| {
            Ok((
                consultations::put_off(record, client)?,
                not_again::of_client(record, client)?,
            ))
        })?,
        Err(_) => Default::default(),
    };
    let not_again = pages::report::not_again_lines(&not_again, &wall, signed.now);
    Ok(BeforePart {
        lines: raised
            .iter()
            .map(|concern| line(&studio.content, concern, &wall, signed.now))
            .collect(),
        seen: seen.join(" "),
        decisions: Decision::ALL
            .iter()
            .map(|one| {
                let key = format!("decision.{one}");
                (one.term().to_owned(), wall.words.say(&key).to_owned())
            })
            .collect(),
        ask_stopped: findings(form).topical_retinoid
            || !form.value("retinoid_stopped_days").is_empty(),
        put_off: pages::before::put_off_lines(&put_off, &wall, signed.now),
        not_again: not_again.into_iter().map(|line| line.what).collect(),
    })
}

/// What is kept; `None` where nothing stood against it and nothing was said.
pub fn kept(
    studio: &Studio,
    particulars: &Particulars,
    signed: &SignedIn,
    recorded: &Recorded,
    raised: Vec<Concern>,
) -> Option<Consultation> {
    let (visit, told) = (&recorded.visit, recorded.told.clone());
    if raised.is_empty() && told.is_silent() {
        return None;
    }
    let wall = pages::artist::wall(studio, particulars);
    let shown = raised
        .iter()
        .map(|concern| line(&studio.content, concern, &wall, signed.now));
    let has_visit = told.decision != Some(Decision::PutOff);
    Some(Consultation {
        id: visit.id,
        client: visit.client,
        has_visit,
        at: visit.finished_at,
        treatments: visit.treatments.clone(),
        findings: visit.findings,
        flags: visit.flags.clone(),
        region: particulars.region.clone(),
        language: studio.words(&particulars.language).0.to_owned(),
        content_version: studio.content.version.clone(),
        shown: shown.collect(),
        concerns: raised,
        told,
        note: if has_visit {
            String::new()
        } else {
            visit.note.clone()
        },
    })
}
