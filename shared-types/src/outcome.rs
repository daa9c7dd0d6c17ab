//! What became of a report, as the artist notes it: what was advised, what the client did, how it ended. The artist
//! ticks what a client or a clinician told; nothing here grades or explains anything.

use std::{fmt, str::FromStr};

use chrono::{Datelike, Days, NaiveDate, Weekday};
use serde::{Deserialize, Serialize};

use crate::{
    catalogue::figure::Figure,
    visit::{UnknownTerm, terms},
};

/// Longest note of an outcome, in characters.
pub const NOTE_MAX: usize = 2000;

terms! {
    /// How it ended. The words are `ending.<term>`.
    Ending {
        SettledAlone = "settled_alone",
        Pharmacist = "pharmacist",
        Doctor = "doctor",
        Hospital = "hospital",
        Unknown = "unknown",
    }
}

terms! {
    /// What makes an effect serious by law, which is its outcome and not how bad it looks. Which of them count is
    /// decided by the region. The words are `serious.<term>`.
    Seriousness {
        FunctionalIncapacity = "functional_incapacity",
        Disability = "disability",
        Hospitalisation = "hospitalisation",
        CongenitalAnomaly = "congenital_anomaly",
        VitalRisk = "vital_risk",
        Death = "death",
        Infection = "infection",
        Disfigurement = "disfigurement",
        /// Treatment was needed so that none of the others came about.
        Intervention = "intervention",
    }
}

impl Seriousness {
    /// The six boxes of the European form (Regulation (EC) 1223/2009, Article 2(1)(p)).
    pub const EUROPEAN: &'static [Self] = &[
        Self::FunctionalIncapacity,
        Self::Disability,
        Self::Hospitalisation,
        Self::CongenitalAnomaly,
        Self::VitalRisk,
        Self::Death,
    ];
}

terms! {
    /// Whether the product was used once more, and what happened. The words are `re_exposure.<term>`.
    ReExposure {
        Positive = "positive",
        Negative = "negative",
        NotPerformed = "not_performed",
        Unknown = "unknown",
    }
}

/// One note of what became of a report. The latest counts; earlier ones stay.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Outcome {
    pub advised: String,
    /// What the client did.
    pub done: String,
    pub ended: Option<Ending>,
    /// In the order of [`Seriousness::ALL`], each once.
    pub serious: Vec<Seriousness>,
    /// When somebody at the studio first learnt of what makes it serious; a date at the studio.
    pub aware_on: Option<NaiveDate>,
    /// Whether a doctor, nurse or pharmacist confirmed it; `None` while nobody said.
    pub medically_confirmed: Option<bool>,
    /// What a clinician called it, word for word. For the studio and the supplier; the client's page never shows it.
    pub diagnosis: String,
    pub re_exposure: Option<ReExposure>,
    /// Tests by a clinician, and what they showed.
    pub tests: String,
    /// What else was used or happened.
    pub other_explanations: String,
}

impl Outcome {
    pub fn is_serious(&self) -> bool {
        !self.serious.is_empty()
    }

    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

terms! {
    /// Which days count.
    Counting {
        CalendarDays = "calendar_days",
        /// Monday to Friday; public holidays are not known here.
        BusinessDays = "business_days",
    }
}

/// In how many days whoever put the product on the market has to tell the authority.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PassOn {
    pub days: Figure,
    pub counts: Counting,
}

impl PassOn {
    /// The last day, when somebody learnt of it on this one; the day itself does not count.
    pub fn due(&self, aware_on: NaiveDate) -> Option<NaiveDate> {
        let days = self.days.value as u64;
        match self.counts {
            Counting::CalendarDays => aware_on.checked_add_days(Days::new(days)),
            Counting::BusinessDays => {
                let mut day = aware_on;
                let mut left = days;
                while left > 0 {
                    day = day.checked_add_days(Days::new(1))?;
                    let works = !matches!(day.weekday(), Weekday::Sat | Weekday::Sun);
                    left -= u64::from(works);
                }
                Some(day)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::figure::{Unit, Verified};

    fn pass_on(days: f64, counts: Counting) -> PassOn {
        let days = Figure {
            value: days,
            unit: Unit::Day,
            low: days,
            high: days,
            source: String::new(),
            verified: Verified::Secondary,
            confidence: None,
        };
        PassOn { days, counts }
    }

    fn day(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    /// Counted off by hand in a calendar of 2026: 26 November is a Thursday.
    #[test]
    fn the_last_day_is_counted_from_the_day_somebody_learnt_of_it() {
        let calendar = pass_on(20.0, Counting::CalendarDays);
        assert_eq!(calendar.due(day("2026-11-26")), Some(day("2026-12-16")));
        let business = pass_on(15.0, Counting::BusinessDays);
        assert_eq!(business.due(day("2026-11-26")), Some(day("2026-12-17")));
        // Learnt of on a Saturday: Monday is the first day that counts.
        assert_eq!(business.due(day("2026-11-28")), Some(day("2026-12-18")));
    }

    #[test]
    fn a_box_ticked_makes_it_serious_and_a_bad_ending_alone_does_not() {
        let doctor = Outcome {
            ended: Some(Ending::Doctor),
            ..Outcome::default()
        };
        assert!(!doctor.is_serious() && !doctor.is_empty());
        let ticked = Outcome {
            serious: vec![Seriousness::Infection],
            ..Outcome::default()
        };
        assert!(ticked.is_serious());
        assert!(Outcome::default().is_empty());
    }
}
