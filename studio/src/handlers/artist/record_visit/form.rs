//! Reading the form of a visit.

use shared_types::{
    consultation::Told,
    page::form::Filled,
    visit::{Finding, Findings, Product, Treatment, Visit, limits},
};
use uuid::Uuid;

use super::{super::check::Check, before, end::read_end, look, zones};
use crate::{
    error::Refusal,
    record::{clients, clients::Client, studio::Particulars},
    security::session::SignedIn,
    state::Studio,
};

/// Lines for products in the form.
pub(super) const PRODUCT_LINES: usize = 4;

/// Every field of the form.
pub const FIELDS: &[&str] = &[
    "visit_id",
    "client",
    "first_name",
    "reach",
    "date",
    "time",
    "treatments",
    "findings",
    "during",
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

/// A visit as the form tells it, ready for the record.
#[derive(Clone)]
pub struct Recorded {
    pub visit: Visit,
    pub client: Client,
    pub client_is_new: bool,
    pub told: Told,
}

impl Recorded {
    /// Whether this is what the record holds already, so that a second tap changes nothing.
    pub fn is_the_same(&self, visit: &Visit, client: &Client, told: &Told) -> bool {
        let same = Visit {
            client: visit.client,
            ..self.visit.clone()
        };
        self.is_the_same_client(client) && same == *visit && self.told == *told
    }

    pub fn is_the_same_client(&self, client: &Client) -> bool {
        if self.client_is_new {
            (&self.client.first_name, &self.client.reach) == (&client.first_name, &client.reach)
        } else {
            self.client.id == client.id
        }
    }
}

/// Field and sentence, for each that needs mending.
type Faults = Vec<(String, String)>;

/// The visit that the form tells, or what needs mending in it. `past` are the visits of the chosen client, by their end.
pub fn read(
    studio: &Studio,
    particulars: &Particulars,
    signed: &SignedIn,
    form: &Filled,
    past: &[Visit],
) -> Result<Result<Recorded, Faults>, Refusal> {
    let (_, words) = studio.words(&particulars.language);
    let mut check = Check::new(form, words);
    let (client, client_is_new) = read_client(&mut check, studio, form)?;
    let name = if client.first_name.is_empty() {
        words.say("artist.record.new_client")
    } else {
        &client.first_name
    };
    look::check_client(&mut check, form, past, name);
    let finished_at = read_end(&mut check, form, particulars.time_zone, signed.now);
    let end = finished_at.unwrap_or(signed.now);
    let visit = Visit {
        id: form
            .value("visit_id")
            .parse()
            .unwrap_or_else(|_| Uuid::new_v4()),
        client: client.id,
        finished_at: end,
        treatments: read_treatments(&mut check, studio, form),
        findings: read_findings(&mut check, form),
        products: read_products(&mut check),
        zones: zones::read(&mut check, form, past, end),
        note: check.text("note", limits::NOTE),
        observations: look::read_observations(
            &mut check,
            form,
            &studio.content.catalogue,
            past,
            end,
        ),
        flags: look::read_flags(&mut check, form),
    };
    let told = before::read(&mut check, form);
    let faults = check.faults();
    Ok(if faults.is_empty() {
        Ok(Recorded {
            told,
            visit,
            client,
            client_is_new,
        })
    } else {
        Err(faults)
    })
}

/// Whom the form is about, from the fields `client, first_name, reach`, and whether that is somebody new.
pub fn read_client(
    check: &mut Check<'_>,
    studio: &Studio,
    form: &Filled,
) -> Result<(Client, bool), Refusal> {
    Ok(match known_client(studio, form)? {
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
    for (field, offered) in [
        ("findings", Finding::CONSULTATION),
        ("during", Finding::DURING_THE_VISIT),
    ] {
        for given in form.all(field) {
            match given.parse::<Finding>() {
                Ok(one) if offered.contains(&one) => findings = findings.and(one),
                _ => check.fault(field, "fault.unknown_choice", &[]),
            }
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
