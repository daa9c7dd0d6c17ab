//! What the labels of products say.

use axum::{
    extract::State,
    http::StatusCode,
    response::{Html, IntoResponse, Redirect, Response},
};
use shared_types::{
    care_plan::own::Label,
    page::{
        artist::Screen,
        form::Filled,
        own_advice::{LabelRow, LabelsScreen},
    },
    visit::{CautionKind, limits},
    words::Words,
};

use super::{
    super::check::Check,
    Faults,
    add::{read_treatments, treatments},
    read_hours,
};
use crate::{
    error::Refusal,
    handlers::posted::only,
    pages::{self, own_advice::hours, visits::done},
    record::{versions, visits},
    security::session::{SignedForm, SignedIn},
    state::{Shared, Studio},
};

const FIELDS: &[&str] = &["product", "kind", "hours", "words", "treatments", "remove"];

/// Visits whose products are offered.
const PRODUCTS_OFFERED: u32 = 60;

/// `GET /studio/labels`
pub async fn show(State(studio): State<Shared>, signed: SignedIn) -> Result<Html<String>, Refusal> {
    screen(&studio, &signed, Filled::default())
}

/// `POST /studio/labels`: a new version, which counts at the next visit with that product.
pub async fn send(
    State(studio): State<Shared>,
    SignedForm { signed, mut form }: SignedForm,
) -> Result<Response, Refusal> {
    only(&form, FIELDS)?;
    let label = match read(&studio, &form)? {
        Ok(label) => label,
        Err(faults) => {
            form.blame_all(faults);
            let again = screen(&studio, &signed, form)?;
            return Ok((StatusCode::UNPROCESSABLE_ENTITY, again).into_response());
        }
    };
    let is_removed = !form.value("remove").is_empty();
    let (artist, now) = (signed.artist, signed.now);
    studio
        .record
        .write(move |record| {
            let mut labels: Vec<Label> = versions::current(record)?;
            let is_it = |one: &Label| one.is_of(&label.product) && one.kind == label.kind;
            let at = labels.iter().position(is_it);
            match at {
                Some(at) if is_removed => drop(labels.remove(at)),
                Some(at) => labels[at] = label,
                None if is_removed => {}
                None => labels.push(label),
            }
            versions::add(record, &labels, artist, now)
        })
        .await?;
    Ok(Redirect::to("/studio/labels").into_response())
}

/// The label that the form tells; to take one away, product and kind are enough.
fn read(studio: &Studio, form: &Filled) -> Result<Result<Label, Faults>, Refusal> {
    let particulars = pages::artist::particulars(studio)?;
    let (_, words) = studio.words(&particulars.language);
    let mut check = Check::new(form, words);
    let product = check.needed("product", limits::PRODUCT);
    let kind = form.value("kind").parse::<CautionKind>();
    if kind.is_err() {
        check.fault("kind", "fault.unknown_choice", &[]);
    }
    let hours = if form.value("remove").is_empty() {
        check.needed("hours", super::DIGITS);
        read_hours(&mut check)
    } else {
        None
    };
    let said = check.text("words", limits::NOTE);
    let treatments = read_treatments(&mut check, studio, form);
    let faults = check.faults();
    Ok(match kind {
        Ok(kind) if faults.is_empty() => Ok(Label {
            product,
            kind,
            hours: hours.unwrap_or_default(),
            words: said,
            treatments,
        }),
        _ => Err(faults),
    })
}

fn screen(studio: &Studio, signed: &SignedIn, form: Filled) -> Result<Html<String>, Refusal> {
    let particulars = pages::artist::particulars(studio)?;
    let wall = pages::artist::wall(studio, &particulars);
    let words = wall.words;
    let (held, known_products) = studio.record.read(|record| {
        let products = visits::products_lately(record, PRODUCTS_OFFERED)?;
        Ok((versions::latest::<Vec<Label>>(record)?, products))
    })?;
    let changed = wall.changed(held.as_ref(), signed.now);
    let labels = held.map(|held| held.body).unwrap_or_default();
    let screen = LabelsScreen {
        form,
        changed,
        labels: labels.iter().map(|label| row(label, words)).collect(),
        known_products,
        kinds: CautionKind::ALL
            .iter()
            .map(|kind| (kind.term().to_owned(), what(*kind, words)))
            .collect(),
        treatments: treatments(studio, words),
    };
    pages::artist::screen(studio, &particulars, signed, Screen::Labels(screen))
}

/// What to leave, wherever that is.
fn what(kind: CautionKind, words: &Words) -> String {
    let skin = words.say("artist.labels.there");
    words.fill(&format!("caution.{kind}.what"), &[("area", skin)])
}

fn row(label: &Label, words: &Words) -> LabelRow {
    let hours = hours(words, label.hours);
    let said = [("what", what(label.kind, words)), ("hours", hours)];
    let said = said.each_ref().map(|(name, text)| (*name, text.as_str()));
    let treatments = match &label.treatments[..] {
        [] => words.say("artist.labels.all_treatments").to_owned(),
        some => words.list(&done(some, words)),
    };
    LabelRow {
        product: label.product.clone(),
        kind: label.kind.term().to_owned(),
        said: words.fill("artist.labels.line", &said),
        words: label.words.clone(),
        treatments: words.fill("artist.labels.for", &[("treatments", &treatments)]),
    }
}
