//! Recording a visit.

use axum::{
    extract::{Query, State},
    http::StatusCode,
    response::{Html, IntoResponse, Redirect, Response},
};
use chrono::{DateTime, LocalResult, NaiveDate, NaiveTime, TimeDelta, TimeZone, Utc};
use chrono_tz::Tz;
use serde::Deserialize;
use shared_types::{
    page::{
        artist::{RecordVisit, Screen},
        form::Filled,
    },
    visit::{Finding, Findings, Product, Treatment, Visit, limits},
};
use uuid::Uuid;

use super::check::Check;
use crate::{
    advice::Advice,
    error::Refusal,
    handlers::posted::only,
    links::give,
    pages,
    record::{clients, clients::Client, studio::Particulars, visits},
    security::session::{SignedForm, SignedIn},
    state::{Shared, Studio},
};

/// Clocks differ, and a visit is recorded while it ends.
const AHEAD: TimeDelta = TimeDelta::minutes(10);
/// A visit that lies further back is more likely a wrong date.
const BACK_DAYS: i64 = 60;

/// Lines for products in the form.
const PRODUCT_LINES: usize = 4;
/// Clients offered in the choice, and visits whose products are offered.
const CLIENTS_OFFERED: u32 = 300;
const PRODUCTS_OFFERED: u32 = 60;

const FIELDS: &[&str] = &[
    "visit_id",
    "client",
    "first_name",
    "reach",
    "date",
    "time",
    "treatments",
    "findings",
    "note",
    "product_1",
    "product_2",
    "product_3",
    "product_4",
    "batch_1",
    "batch_2",
    "batch_3",
    "batch_4",
];

#[derive(Deserialize)]
pub struct For {
    client: Option<String>,
}

/// `GET /studio/visits/new`; `?client=…` chooses a client who is known.
pub async fn show(
    State(studio): State<Shared>,
    signed: SignedIn,
    Query(query): Query<For>,
) -> Result<Html<String>, Refusal> {
    let particulars = pages::artist::particulars(&studio)?;
    let local = signed.now.with_timezone(&particulars.time_zone);
    let mut form = Filled::default();
    form.put("date", local.format("%Y-%m-%d").to_string());
    form.put("time", local.format("%H:%M").to_string());
    if let Some(client) = query.client {
        form.put("client", client);
    }
    screen(&studio, &particulars, &signed, form)
}

/// `POST /studio/visits/new`
pub async fn send(
    State(studio): State<Shared>,
    SignedForm { signed, mut form }: SignedForm,
) -> Result<Response, Refusal> {
    only(&form, FIELDS)?;
    let particulars = pages::artist::particulars(&studio)?;
    let recorded = match read(&studio, &particulars, &signed, &form)? {
        Ok(recorded) => recorded,
        Err(faults) => {
            form.blame_all(faults);
            return refused(&studio, &particulars, &signed, form);
        }
    };
    let advice = Advice::give(
        &studio.content,
        &particulars.language,
        particulars.time_zone,
        &recorded.visit,
    )
    .map_err(|error| {
        tracing::error!(%error, "no advice could be given");
        Refusal::Broken
    })?;
    let id = recorded.visit.id;
    let key = studio.link_key.clone();
    let (artist, now) = (signed.artist, signed.now);
    let kept = studio
        .record
        .write(move |record| {
            if let Some((visit, client, _)) = visits::by_id(record, id)? {
                return Ok::<_, Refusal>(recorded.is_the_same(&visit, &client));
            }
            if recorded.client_is_new {
                clients::add(record, &recorded.client, artist, now)?;
            }
            visits::add(record, &recorded.visit, &advice, artist, now)?;
            give::add(
                record,
                &key,
                Uuid::new_v4(),
                id,
                recorded.visit.finished_at,
                artist,
                now,
            )?;
            Ok(true)
        })
        .await?;
    if kept {
        return Ok(Redirect::to(&format!("/studio/visits/{id}")).into_response());
    }
    // The form was filled in again after going back: nothing is overwritten, and nothing that was typed is lost.
    let (_, words) = studio.words(&particulars.language);
    form.forget("visit_id");
    form.blame("", words.say("fault.visit_recorded"));
    refused(&studio, &particulars, &signed, form)
}

struct Recorded {
    visit: Visit,
    client: Client,
    client_is_new: bool,
}

impl Recorded {
    /// Whether this is what the record holds already, so that a second tap changes nothing.
    fn is_the_same(&self, visit: &Visit, client: &Client) -> bool {
        let same_client = if self.client_is_new {
            (&self.client.first_name, &self.client.reach) == (&client.first_name, &client.reach)
        } else {
            self.client.id == client.id
        };
        same_client
            && Visit {
                client: visit.client,
                ..self.visit.clone()
            } == *visit
    }
}

type Faults = Vec<(String, String)>;

fn read(
    studio: &Studio,
    particulars: &Particulars,
    signed: &SignedIn,
    form: &Filled,
) -> Result<Result<Recorded, Faults>, Refusal> {
    let (_, words) = studio.words(&particulars.language);
    let mut check = Check::new(form, words);
    let (client, client_is_new) = match known_client(studio, form)? {
        Some(Some(client)) => {
            if !check.text("first_name", limits::NAME).is_empty() {
                check.fault("client", "fault.client_both", &[]);
            }
            (client, false)
        }
        Some(None) => {
            check.fault("client", "fault.unknown_choice", &[]);
            (
                Client {
                    id: Uuid::nil(),
                    first_name: String::new(),
                    reach: String::new(),
                },
                false,
            )
        }
        None => {
            let first_name = check.needed("first_name", limits::NAME);
            let reach = check.needed("reach", limits::REACH);
            (
                Client {
                    id: Uuid::new_v4(),
                    first_name,
                    reach,
                },
                true,
            )
        }
    };
    let finished_at = read_end(&mut check, form, particulars.time_zone, signed.now);
    let visit = Visit {
        id: form
            .value("visit_id")
            .parse()
            .unwrap_or_else(|_| Uuid::new_v4()),
        client: client.id,
        finished_at: finished_at.unwrap_or(signed.now),
        treatments: read_treatments(&mut check, studio, form),
        findings: read_findings(&mut check, form),
        products: read_products(&mut check),
        note: check.text("note", limits::NOTE),
    };
    let faults = check.faults();
    Ok(if faults.is_empty() {
        Ok(Recorded {
            visit,
            client,
            client_is_new,
        })
    } else {
        Err(faults)
    })
}

/// The known client that was chosen: `None` when none was, `Some(None)` when there is no such client.
fn known_client(studio: &Studio, form: &Filled) -> Result<Option<Option<Client>>, Refusal> {
    let chosen = form.value("client");
    if chosen.is_empty() {
        return Ok(None);
    }
    let Ok(id) = chosen.parse() else {
        return Ok(Some(None));
    };
    Ok(Some(
        studio.record.read(|record| clients::by_id(record, id))?,
    ))
}

fn read_end(
    check: &mut Check<'_>,
    form: &Filled,
    zone: Tz,
    now: DateTime<Utc>,
) -> Option<DateTime<Utc>> {
    let date = NaiveDate::parse_from_str(form.value("date").trim(), "%Y-%m-%d");
    let time = form.value("time").trim();
    let time = NaiveTime::parse_from_str(time, "%H:%M")
        .or_else(|_| NaiveTime::parse_from_str(time, "%H:%M:%S"));
    if date.is_err() {
        check.fault("date", "fault.date", &[]);
    }
    if time.is_err() {
        check.fault("time", "fault.time", &[]);
    }
    let Some(end) = instant(zone, date.ok()?, time.ok()?, now) else {
        check.fault("time", "fault.clock_gap", &[]);
        return None;
    };
    if end > now + AHEAD {
        check.fault("time", "fault.future", &[]);
    }
    if end < now - TimeDelta::days(BACK_DAYS) {
        check.fault("date", "fault.too_old", &[("days", &BACK_DAYS.to_string())]);
    }
    Some(end)
}

/// The instant of a time on the studio's wall; `None` when the clocks skipped it. Of the two instants that a time has
/// when the clocks go back it is the later, so that no caution ends too soon; unless that one has not come yet.
fn instant(
    zone: Tz,
    date: NaiveDate,
    time: NaiveTime,
    now: DateTime<Utc>,
) -> Option<DateTime<Utc>> {
    match zone.from_local_datetime(&date.and_time(time)) {
        LocalResult::Single(at) => Some(at.to_utc()),
        LocalResult::Ambiguous(_, later) if later.to_utc() <= now + AHEAD => Some(later.to_utc()),
        LocalResult::Ambiguous(earlier, _) => Some(earlier.to_utc()),
        LocalResult::None => None,
    }
}

fn read_treatments(check: &mut Check<'_>, studio: &Studio, form: &Filled) -> Vec<Treatment> {
    let mut treatments = Vec::new();
    for given in form.all("treatments") {
        match given.parse::<Treatment>() {
            Ok(one) if studio.content.catalogue.treatments.contains_key(&one) => {
                treatments.push(one)
            }
            _ => check.fault("treatments", "fault.unknown_choice", &[]),
        }
    }
    if treatments.is_empty() {
        check.fault("treatments", "fault.treatments_none", &[]);
    }
    treatments.sort_unstable();
    treatments.dedup();
    treatments
}

fn read_findings(check: &mut Check<'_>, form: &Filled) -> Findings {
    let mut findings = Findings::default();
    for given in form.all("findings") {
        match given.parse::<Finding>() {
            Ok(one) => findings = findings.and(one),
            Err(_) => check.fault("findings", "fault.unknown_choice", &[]),
        }
    }
    findings
}

fn read_products(check: &mut Check<'_>) -> Vec<Product> {
    let mut products = Vec::new();
    for line in 1..=PRODUCT_LINES {
        let field = format!("product_{line}");
        let name = check.text(&field, limits::PRODUCT);
        let batch = check.text(&format!("batch_{line}"), limits::BATCH);
        if name.is_empty() && !batch.is_empty() {
            check.fault(&field, "fault.required", &[]);
        }
        if !name.is_empty() {
            products.push(Product { name, batch });
        }
    }
    products
}

fn refused(
    studio: &Studio,
    particulars: &Particulars,
    signed: &SignedIn,
    form: Filled,
) -> Result<Response, Refusal> {
    Ok((
        StatusCode::UNPROCESSABLE_ENTITY,
        screen(studio, particulars, signed, form)?,
    )
        .into_response())
}

fn screen(
    studio: &Studio,
    particulars: &Particulars,
    signed: &SignedIn,
    form: Filled,
) -> Result<Html<String>, Refusal> {
    let (_, words) = studio.words(&particulars.language);
    let chosen = form.value("client").parse().ok();
    let (clients, known_products) = studio.record.read(|record| {
        let mut clients = clients::lately_seen(record, CLIENTS_OFFERED)?;
        // Whoever was chosen is offered, however long ago the last visit was.
        if let Some(chosen) = chosen
            && !clients.iter().any(|client| client.id == chosen)
        {
            clients.extend(clients::by_id(record, chosen)?);
        }
        Ok((clients, visits::products_lately(record, PRODUCTS_OFFERED)?))
    })?;
    let named = |kind: &str, term: &str| {
        (
            term.to_owned(),
            words.say(&format!("{kind}.{term}")).to_owned(),
        )
    };
    let screen = RecordVisit {
        visit_id: form
            .value("visit_id")
            .parse()
            .unwrap_or_else(|_| Uuid::new_v4()),
        clients: clients
            .into_iter()
            .map(|client| {
                let reach = if client.reach.is_empty() {
                    String::new()
                } else {
                    format!(" · {}", client.reach)
                };
                (
                    client.id.to_string(),
                    format!("{}{reach}", client.first_name),
                )
            })
            .collect(),
        treatments: studio
            .content
            .catalogue
            .treatments
            .keys()
            .map(|one| named("treatment", one.term()))
            .collect(),
        findings: Finding::ALL
            .iter()
            .map(|one| named("finding", one.term()))
            .collect(),
        known_products,
        form,
    };
    pages::artist::screen(studio, particulars, signed, Screen::RecordVisit(screen))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(zone: Tz, local: &str, now: &str) -> Option<String> {
        let (date, time) = local.split_once(' ').unwrap();
        instant(
            zone,
            date.parse().unwrap(),
            time.parse().unwrap(),
            now.parse().unwrap(),
        )
        .map(|at| at.to_rfc3339())
    }

    /// The clock changes of Europe/London in 2026: forward on 29 March 01:00 UTC, back on 25 October 01:00 UTC
    /// (Directive 2000/84/EC: last Sundays of March and October; the United Kingdom keeps the same days).
    #[test]
    fn times_around_a_clock_change() {
        let london = chrono_tz::Europe::London;
        assert_eq!(
            at(london, "2026-03-29 01:30:00", "2026-03-29T12:00:00Z"),
            None
        );
        assert_eq!(
            at(london, "2026-10-25 01:30:00", "2026-10-25T12:00:00Z").as_deref(),
            Some("2026-10-25T01:30:00+00:00"),
            "the later of the two"
        );
        assert_eq!(
            at(london, "2026-10-25 01:30:00", "2026-10-25T00:35:00Z").as_deref(),
            Some("2026-10-25T00:30:00+00:00"),
            "the earlier, while the later has not come"
        );
        assert_eq!(
            at(london, "2026-07-01 14:30:00", "2026-07-01T14:00:00Z").as_deref(),
            Some("2026-07-01T13:30:00+00:00")
        );
    }
}
