//! What the client says of a test, as a plain form sends it.

use serde::{Deserialize, Serialize};

use super::{Noticed, UnknownTerm};
use crate::{
    page::form::Filled,
    reaction::{Fault, WORDS_MAX},
};

/// The fields of the form, with the id that it came with.
pub const FIELDS: &[&str] = &["answer_id", "noticed", "words", "consent"];

/// What a client saw.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Answer {
    pub noticed: Noticed,
    pub words: String,
    /// The version of the consent text that was agreed to.
    pub consent: String,
}

impl Answer {
    /// The answer in a form, tidied; or what needs mending in it.
    ///
    /// # Errors
    /// `Err` is a term that the form does not offer.
    pub fn from_form(form: &Filled) -> Result<Result<Self, Vec<Fault>>, UnknownTerm> {
        let mut faults = Vec::new();
        let noticed = match form.value("noticed") {
            "" => {
                faults.push(Fault {
                    field: "noticed",
                    key: "fault.noticed",
                });
                None
            }
            given => Some(given.parse()?),
        };
        let words = form.value("words").trim().to_owned();
        if words.chars().count() > WORDS_MAX {
            faults.push(Fault {
                field: "words",
                key: "fault.words_long",
            });
        }
        let consent = form.value("consent").to_owned();
        if consent.is_empty() {
            faults.push(Fault {
                field: "consent",
                key: "fault.consent",
            });
        }
        Ok(match noticed {
            Some(noticed) if faults.is_empty() => Ok(Self {
                noticed,
                words,
                consent,
            }),
            _ => Err(faults),
        })
    }
}
