//! One of the catalogue's cautions, as the studio puts it: other hours, other words.

use axum::{
    extract::{Path, State},
    http::StatusCode,
    response::{Html, IntoResponse, Redirect, Response},
};
use shared_types::{
    care_plan::own::{ChangedCaution, OwnAdvice, OwnFault},
    catalogue::{caution::CautionRule, treatment::TreatmentEntry},
    page::{artist::Screen, form::Filled, own_advice::ChangeCaution},
    visit::{CautionKind, Treatment, limits},
};

use super::{super::check::Check, Faults, read_hours};
use crate::{
    error::Refusal,
    handlers::posted::only,
    pages::{self, own_advice},
    record::versions,
    security::session::{SignedForm, SignedIn},
    state::{Shared, Studio},
};

const FIELDS: &[&str] = &["hours", "what", "why", "reason", "usual"];

/// Which caution an address names.
struct Which<'a> {
    treatment: Treatment,
    kind: CautionKind,
    entry: &'a TreatmentEntry,
    rule: &'a CautionRule,
}

fn which(studio: &Studio, (treatment, kind): (String, String)) -> Result<Which<'_>, Refusal> {
    let treatment = treatment.parse().map_err(|_| Refusal::NotFound)?;
    let kind = kind.parse().map_err(|_| Refusal::NotFound)?;
    let entry = studio.content.catalogue.treatments.get(&treatment);
    let entry = entry.ok_or(Refusal::NotFound)?;
    let rule = entry.cautions.iter().find(|rule| rule.kind == kind);
    Ok(Which {
        treatment,
        kind,
        entry,
        rule: rule.ok_or(Refusal::NotFound)?,
    })
}

/// `GET /studio/cautions/{treatment}/{kind}`
pub async fn show(
    State(studio): State<Shared>,
    signed: SignedIn,
    Path(path): Path<(String, String)>,
) -> Result<Html<String>, Refusal> {
    let which = which(&studio, path)?;
    let own: OwnAdvice = studio.record.read(versions::current)?;
    let form = own.of(which.treatment, which.kind).map(filled);
    screen(&studio, &signed, &which, form.unwrap_or_default())
}

/// `POST /studio/cautions/{treatment}/{kind}`: a new version, by which the next visits are advised.
pub async fn send(
    State(studio): State<Shared>,
    Path(path): Path<(String, String)>,
    SignedForm { signed, mut form }: SignedForm,
) -> Result<Response, Refusal> {
    let which = which(&studio, path)?;
    only(&form, FIELDS)?;
    let changed = if form.value("usual").is_empty() {
        match read(&studio, &form, &which)? {
            Ok(changed) => changed,
            Err(faults) => {
                form.blame_all(faults);
                let again = screen(&studio, &signed, &which, form)?;
                return Ok((StatusCode::UNPROCESSABLE_ENTITY, again).into_response());
            }
        }
    } else {
        None
    };
    let (treatment, kind, artist, now) = (which.treatment, which.kind, signed.artist, signed.now);
    studio
        .record
        .write(move |record| {
            let mut own: OwnAdvice = versions::current(record)?;
            let is_it = |one: &ChangedCaution| (one.treatment, one.kind) == (treatment, kind);
            match (own.changed.iter().position(is_it), changed) {
                (Some(at), Some(changed)) => own.changed[at] = changed,
                (Some(at), None) => drop(own.changed.remove(at)),
                (None, changed) => own.changed.extend(changed),
            }
            versions::add(record, &own, artist, now)
        })
        .await?;
    Ok(Redirect::to("/studio/cautions").into_response())
}

fn filled(own: &ChangedCaution) -> Filled {
    let mut form = Filled::default();
    if let Some(hours) = own.hours {
        form.put("hours", hours.to_string());
    }
    let texts = [("what", &own.what), ("why", &own.why)];
    for (field, text) in texts {
        form.put(field, text.clone().unwrap_or_default());
    }
    form.put("reason", own.reason.clone());
    form
}

/// What the form tells: `None` when it says nothing of the studio's own.
fn read(
    studio: &Studio,
    form: &Filled,
    which: &Which<'_>,
) -> Result<Result<Option<ChangedCaution>, Faults>, Refusal> {
    let particulars = pages::artist::particulars(studio)?;
    let (_, words) = studio.words(&particulars.language);
    let mut check = Check::new(form, words);
    let some = |text: String| (!text.is_empty()).then_some(text);
    let hours = read_hours(&mut check);
    let rule = which.rule;
    let is_outside = |hours: u32| !(rule.least_hours..=rule.most_hours).contains(&hours);
    let reason = check.text("reason", limits::NOTE);
    let changed = ChangedCaution {
        treatment: which.treatment,
        kind: which.kind,
        hours,
        what: some(check.text("what", limits::REACH)),
        why: some(check.text("why", limits::NOTE)),
        // A reason that is not needed is not kept.
        reason: if hours.is_some_and(is_outside) {
            reason
        } else {
            String::new()
        },
    };
    if let Some((_, OwnFault::Reason { least, most, .. })) =
        changed.fault(&studio.content.catalogue)
    {
        let values = [("least", least.to_string()), ("most", most.to_string())];
        let values = values.each_ref().map(|(name, n)| (*name, n.as_str()));
        check.fault("reason", "fault.hours_reason", &values);
    }
    let faults = check.faults();
    Ok(if faults.is_empty() {
        Ok((!changed.is_empty()).then_some(changed))
    } else {
        Err(faults)
    })
}

fn screen(
    studio: &Studio,
    signed: &SignedIn,
    which: &Which<'_>,
    form: Filled,
) -> Result<Html<String>, Refusal> {
    let particulars = pages::artist::particulars(studio)?;
    let (_, words) = studio.words(&particulars.language);
    let own: OwnAdvice = studio.record.read(versions::current)?;
    let own = own.of(which.treatment, which.kind);
    let screen = ChangeCaution {
        form,
        ..own_advice::to_change(studio, which.treatment, which.entry, which.rule, own, words)
    };
    pages::artist::screen(studio, &particulars, signed, Screen::Caution(screen))
}
