//! The studio's own particulars: read from a form at the first start and whenever they change.

use axum::{
    extract::State,
    http::StatusCode,
    response::{Html, IntoResponse, Redirect, Response},
};
use shared_types::{
    page::{
        artist::{ParticularsScreen, Screen},
        form::Filled,
    },
    visit::limits,
    words::Words,
};

use super::check::Check;
use crate::{
    error::Refusal,
    handlers::posted::only,
    pages,
    record::studio::{self as versions, Particulars},
    security::session::{SignedForm, SignedIn},
    state::{Shared, Studio},
};

const FIELDS: &[&str] = &[
    "studio_name",
    "phone",
    "contact_email",
    "region",
    "time_zone",
    "language",
];

/// `GET /studio/particulars`
pub async fn show(State(studio): State<Shared>, signed: SignedIn) -> Result<Html<String>, Refusal> {
    let held = pages::artist::particulars(&studio)?;
    let mut form = Filled::default();
    form.put("studio_name", held.name.as_str());
    form.put("phone", held.phone.as_str());
    form.put("contact_email", held.contact_email.as_str());
    form.put("region", held.region.as_str());
    form.put("time_zone", held.time_zone.name());
    form.put("language", held.language.as_str());
    screen(&studio, &held, &signed, form)
}

/// `POST /studio/particulars`: a new version. Clients' pages show it at once; what they were told stays.
pub async fn send(
    State(studio): State<Shared>,
    SignedForm { signed, mut form }: SignedForm,
) -> Result<Response, Refusal> {
    only(&form, FIELDS)?;
    let held = pages::artist::particulars(&studio)?;
    let (_, words) = studio.words(&held.language);
    let mut check = Check::new(&form, words);
    let read = read(&mut check, &studio, &form, &held.language);
    let faults = check.faults();
    match read {
        Some(wanted) if faults.is_empty() => {
            let (artist, now) = (signed.artist, signed.now);
            studio
                .record
                .write(move |record| versions::add(record, &wanted, artist, now))
                .await?;
            Ok(Redirect::to("/studio/practice").into_response())
        }
        _ => {
            form.blame_all(faults);
            let again = screen(&studio, &held, &signed, form)?;
            Ok((StatusCode::UNPROCESSABLE_ENTITY, again).into_response())
        }
    }
}

/// The particulars that a form tells, in `language` unless it names one; what is wrong is noted. `None` without a time
/// zone.
pub(super) fn read(
    check: &mut Check<'_>,
    studio: &Studio,
    form: &Filled,
    language: &str,
) -> Option<Particulars> {
    let name = check.needed("studio_name", limits::NAME);
    let phone = check.text("phone", limits::REACH);
    let contact_email = check.text("contact_email", limits::REACH);
    if !contact_email.is_empty() {
        check.email("contact_email", &contact_email);
    }
    if phone.is_empty() && contact_email.is_empty() {
        check.fault("phone", "fault.contact", &[]);
    }
    let region = form.value("region").to_owned();
    if !studio.content.regions.contains_key(&region) {
        check.fault("region", "fault.unknown_choice", &[]);
    }
    let time_zone = form.value("time_zone").parse();
    if time_zone.is_err() {
        check.fault("time_zone", "fault.unknown_choice", &[]);
    }
    let language = match form.value("language") {
        "" => language,
        chosen => chosen,
    };
    if !studio.content.languages.contains_key(language) {
        check.fault("language", "fault.unknown_choice", &[]);
    }
    Some(Particulars {
        name,
        phone,
        contact_email,
        region,
        time_zone: time_zone.ok()?,
        language: language.to_owned(),
    })
}

/// Id and name of each region.
pub(super) fn regions(studio: &Studio, words: &Words) -> Vec<(String, String)> {
    let mut regions: Vec<(String, String)> = studio
        .content
        .regions
        .keys()
        .map(|id| (id.clone(), words.say(&format!("region.{id}")).to_owned()))
        .collect();
    // "Somewhere else" makes sense only after the others.
    regions.sort_by_key(|(id, _)| id == content::OTHER_REGION);
    regions
}

/// Tag and name of each language.
pub(super) fn languages(studio: &Studio) -> Vec<(String, String)> {
    let tags = studio.content.languages.keys();
    tags.map(|tag| (tag.clone(), studio.language_name(tag).to_owned()))
        .collect()
}

/// The zones that are named after a place; the rest of the list are old names for the same.
pub(super) fn time_zones() -> Vec<String> {
    const PARTS: &[&str] = &[
        "Africa/",
        "America/",
        "Antarctica/",
        "Asia/",
        "Atlantic/",
        "Australia/",
        "Europe/",
        "Indian/",
        "Pacific/",
    ];
    chrono_tz::TZ_VARIANTS
        .iter()
        .map(|zone| zone.name())
        .filter(|name| PARTS.iter().any(|part| name.starts_with(part)))
        .map(str::to_owned)
        .collect()
}

fn screen(
    studio: &Studio,
    held: &Particulars,
    signed: &SignedIn,
    form: Filled,
) -> Result<Html<String>, Refusal> {
    let (_, words) = studio.words(&held.language);
    let mut time_zones = time_zones();
    // A zone that was chosen when the list still had it stays choosable.
    if !time_zones.iter().any(|zone| zone == held.time_zone.name()) {
        time_zones.push(held.time_zone.name().to_owned());
    }
    let screen = ParticularsScreen {
        form,
        regions: regions(studio, words),
        time_zones,
        languages: languages(studio),
    };
    pages::artist::screen(studio, held, signed, Screen::Particulars(screen))
}
