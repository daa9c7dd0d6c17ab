//! A client's report that something is not right, as it travels from the phone to the studio.

use serde::{Deserialize, Serialize};

pub use crate::visit::UnknownTerm;
use crate::{page::form::Filled, visit::terms};
use std::{fmt, str::FromStr};

terms! {
    /// What the client notices. Plain signs, never conditions.
    Sign {
        Redness = "redness",
        Swelling = "swelling",
        Itching = "itching",
        PainOrBurning = "pain_or_burning",
        BumpsOrBlisters = "bumps_or_blisters",
        RawOrBrokenSkin = "raw_or_broken_skin",
        EyeRedOrWatering = "eye_red_or_watering",
        SomethingElse = "something_else",
    }
}

terms! {
    /// When it began, counted from the visit.
    Since {
        DuringTheVisit = "during_the_visit",
        WithinHours = "within_hours",
        NextDay = "next_day",
        TwoOrThreeDays = "two_or_three_days",
        Later = "later",
        NotSure = "not_sure",
    }
}

terms! {
    /// Where it is going.
    Trend {
        Better = "better",
        Same = "same",
        Worse = "worse",
        NotSure = "not_sure",
    }
}

/// Longest free text, in characters: about a page, so that nobody in worry is cut short.
pub const WORDS_MAX: usize = 4000;
/// Longest "how to reach me", in characters.
pub const REACH_MAX: usize = 200;

/// What the client sends. The id travels beside it (in the address), made by the sender.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Report {
    /// In the order of [`Sign::ALL`], each once.
    pub signs: Vec<Sign>,
    pub since: Option<Since>,
    pub trend: Option<Trend>,
    /// The client's own words.
    pub words: String,
    /// Telephone or e-mail; empty when the client does not wish to be contacted.
    pub reach: String,
    /// The version of the consent text that the client ticked; `None` when it was left unticked.
    pub consent: Option<String>,
}

/// One thing that keeps a form from being taken: the field's name and the key of the sentence that says what to do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fault {
    pub field: &'static str,
    pub key: &'static str,
}

impl Report {
    /// The report that a form holds: fields `signs*, since, trend, words, reach, consent`.
    ///
    /// # Errors
    /// A term that is none of ours: nobody can have chosen it.
    pub fn from_form(form: &Filled) -> Result<Self, UnknownTerm> {
        fn term<T: FromStr>(given: &str) -> Option<Result<T, T::Err>> {
            (!given.is_empty()).then(|| given.parse())
        }
        let report = Self {
            signs: form
                .all("signs")
                .map(str::parse)
                .collect::<Result<_, _>>()?,
            since: term(form.value("since")).transpose()?,
            trend: term(form.value("trend")).transpose()?,
            words: form.value("words").to_owned(),
            reach: form.value("reach").to_owned(),
            consent: Some(form.value("consent").to_owned()).filter(|version| !version.is_empty()),
        };
        Ok(report.tidied())
    }

    /// The report as the record keeps it: signs in order and once, texts without surrounding blanks.
    pub fn tidied(mut self) -> Self {
        let given = self.signs;
        self.signs = Sign::ALL
            .iter()
            .copied()
            .filter(|sign| given.contains(sign))
            .collect();
        self.words = self.words.trim().to_owned();
        self.reach = self.reach.trim().to_owned();
        self
    }

    /// What keeps this report from being taken; empty when nothing does. A report needs a sign or words, and the
    /// consent to keep what it says about health (GDPR Art. 9(2)(a): explicit).
    pub fn faults(&self) -> Vec<Fault> {
        let mut faults = Vec::new();
        if self.signs.is_empty() && self.words.trim().is_empty() {
            faults.push(Fault {
                field: "signs",
                key: "fault.report_empty",
            });
        }
        if self.words.chars().count() > WORDS_MAX {
            faults.push(Fault {
                field: "words",
                key: "fault.words_long",
            });
        }
        if self.reach.chars().count() > REACH_MAX {
            faults.push(Fault {
                field: "reach",
                key: "fault.reach_long",
            });
        }
        if self.consent.as_deref().is_none_or(str::is_empty) {
            faults.push(Fault {
                field: "consent",
                key: "fault.consent",
            });
        }
        faults
    }
}
