//! How one studio does things: what it sets for itself beside what the catalogue says.

use std::{
    collections::{BTreeMap, BTreeSet},
    fmt,
    str::FromStr,
};

use chrono::{Datelike, NaiveDate};
use serde::{Deserialize, Serialize};

use crate::{
    catalogue::Catalogue,
    visit::{Treatment, UnknownTerm, terms},
};

/// The studio's own settings for when clients come back. A new studio has none.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Practice {
    /// Where the studio leaves other times between two visits than the catalogue says.
    pub intervals: BTreeMap<Treatment, OwnInterval>,
    /// The days of the week on which it is closed.
    pub closed: BTreeSet<Weekday>,
    pub prefers: Aim,
    /// Days after which the studio asks for a new patch test, where it has a limit of its own.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub patch_test_days: Option<u16>,
}

/// Days from one visit to the next, any of them; those that are there rise from earliest over best to latest.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct OwnInterval {
    #[serde(skip_serializing_if = "Option::is_none")]
    pub earliest_days: Option<u16>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub best_days: Option<u16>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub latest_days: Option<u16>,
    /// The artist was told that some of these days come sooner than the trade's earliest, and means it.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub knowingly_sooner: bool,
}

terms! {
    /// What the studio would rather have a visit fall for.
    #[derive(Default)]
    Aim {
        /// A bit of everything.
        #[default]
        Balanced = "balanced",
        /// Come while the shape still holds.
        ShapeUpkeep = "shape_upkeep",
        /// Come when most can be removed at once.
        FullRegrowth = "full_regrowth",
        /// Come while the tint is still even.
        ColourKept = "colour_kept",
    }
}

terms! {
    /// As ISO 8601 orders them.
    Weekday {
        Monday = "monday",
        Tuesday = "tuesday",
        Wednesday = "wednesday",
        Thursday = "thursday",
        Friday = "friday",
        Saturday = "saturday",
        Sunday = "sunday",
    }
}

impl Weekday {
    /// 1 is Monday, 7 is Sunday (ISO 8601), as in the words `date.weekday.N`.
    pub fn number(self) -> u8 {
        self as u8 + 1
    }
}

/// What cannot be taken of a [`Practice`].
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PracticeFault {
    #[error("`{treatment}` is not offered; allowed is one of {allowed}")]
    NotOffered {
        treatment: Treatment,
        allowed: String,
    },
    #[error(
        "{given} days for `{treatment}`; allowed is 1 to {}",
        OwnInterval::LONGEST
    )]
    Days {
        treatment: Treatment,
        bound: Bound,
        given: u16,
    },
    #[error(
        "the days for `{treatment}` have to rise from earliest over best to latest; given {given}"
    )]
    Order {
        treatment: Treatment,
        bound: Bound,
        given: u16,
    },
    /// The trade waits longer, and nobody has said that this is known.
    #[error(
        "{given} days for `{treatment}` is sooner than the {least} that the trade waits; allowed from {least} on, or with `knowingly_sooner`"
    )]
    Sooner {
        treatment: Treatment,
        bound: Bound,
        given: u16,
        least: u16,
    },
    #[error("the studio is closed on every day of the week; leave at least one open")]
    NeverOpen,
    #[error(
        "{given} days after a patch test; allowed is 1 to {}",
        Practice::LONGEST_TEST
    )]
    PatchTestDays { given: u16 },
}

terms! {
    /// One of the days of an [`OwnInterval`].
    Bound {
        Earliest = "earliest",
        Best = "best",
        Latest = "latest",
    }
}

impl OwnInterval {
    /// A limit of the form, not of hair: longer than a year is a slip of the finger.
    pub const LONGEST: u16 = 366;

    /// The days that are set, from earliest to latest.
    pub fn given(&self) -> impl Iterator<Item = (Bound, u16)> {
        [
            (Bound::Earliest, self.earliest_days),
            (Bound::Best, self.best_days),
            (Bound::Latest, self.latest_days),
        ]
        .into_iter()
        .filter_map(|(bound, days)| Some((bound, days?)))
    }

    /// What is wrong, at most one thing for each bound.
    fn faults(&self, treatment: Treatment, trade_earliest: u16) -> Vec<PracticeFault> {
        let mut faults = Vec::new();
        let mut before = 0;
        for (bound, given) in self.given() {
            if !(1..=Self::LONGEST).contains(&given) {
                faults.push(PracticeFault::Days {
                    treatment,
                    bound,
                    given,
                });
            } else if given < before {
                faults.push(PracticeFault::Order {
                    treatment,
                    bound,
                    given,
                });
            } else if given < trade_earliest && !self.knowingly_sooner {
                faults.push(PracticeFault::Sooner {
                    treatment,
                    bound,
                    given,
                    least: trade_earliest,
                });
            }
            before = before.max(given);
        }
        faults
    }
}

impl Practice {
    /// A limit of the form, not of skin: more than two years is a slip of the finger.
    pub const LONGEST_TEST: u16 = 731;

    pub fn is_open(&self, on: NaiveDate) -> bool {
        let number = on.weekday().number_from_monday();
        !self
            .closed
            .iter()
            .any(|closed| u32::from(closed.number()) == number)
    }

    /// Everything that cannot be taken; nothing when all can.
    pub fn faults(&self, catalogue: &Catalogue) -> Vec<PracticeFault> {
        let mut faults = Vec::new();
        for (treatment, own) in &self.intervals {
            match catalogue.treatments.get(treatment) {
                Some(entry) => {
                    faults.extend(own.faults(*treatment, entry.interval.earliest_days));
                }
                None => faults.push(PracticeFault::NotOffered {
                    treatment: *treatment,
                    allowed: catalogue.offered(),
                }),
            }
        }
        if self.closed.len() == Weekday::ALL.len() {
            faults.push(PracticeFault::NeverOpen);
        }
        faults.extend(self.patch_test_fault());
        faults
    }

    fn patch_test_fault(&self) -> Option<PracticeFault> {
        let given = self.patch_test_days?;
        let taken = (1..=Self::LONGEST_TEST).contains(&given);
        (!taken).then_some(PracticeFault::PatchTestDays { given })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn own(earliest: u16, best: u16, latest: u16) -> OwnInterval {
        let some = |days| (days > 0).then_some(days);
        OwnInterval {
            earliest_days: some(earliest),
            best_days: some(best),
            latest_days: some(latest),
            knowingly_sooner: false,
        }
    }

    fn faults(own: OwnInterval) -> Vec<(Bound, &'static str)> {
        own.faults(Treatment::BrowLamination, 42)
            .iter()
            .map(|fault| match fault {
                PracticeFault::Days { bound, .. } => (*bound, "days"),
                PracticeFault::Order { bound, .. } => (*bound, "order"),
                PracticeFault::Sooner { bound, .. } => (*bound, "sooner"),
                PracticeFault::NotOffered { .. }
                | PracticeFault::NeverOpen
                | PracticeFault::PatchTestDays { .. } => unreachable!(),
            })
            .collect()
    }

    #[test]
    fn any_subset_that_rises_can_be_taken() {
        for fits in [
            own(0, 0, 0),
            own(42, 0, 0),
            own(0, 49, 0),
            own(0, 0, 70),
            own(42, 0, 56),
            own(42, 42, 42),
            own(42, 49, 366),
        ] {
            assert_eq!(faults(fits), []);
        }
    }

    #[test]
    fn days_that_fall_are_told_at_the_later_of_the_two() {
        assert_eq!(faults(own(56, 49, 60)), [(Bound::Best, "order")]);
        assert_eq!(faults(own(60, 0, 49)), [(Bound::Latest, "order")]);
        assert_eq!(
            faults(own(60, 50, 55)),
            [(Bound::Best, "order"), (Bound::Latest, "order")]
        );
    }

    #[test]
    fn sooner_than_the_trade_has_to_be_meant() {
        let sooner = own(28, 35, 56);
        assert_eq!(
            faults(sooner),
            [(Bound::Earliest, "sooner"), (Bound::Best, "sooner")]
        );
        let meant = OwnInterval {
            knowingly_sooner: true,
            ..sooner
        };
        assert_eq!(faults(meant), []);
        assert_eq!(faults(own(42, 0, 0)), [], "as long as the trade is enough");
    }

    #[test]
    fn no_day_and_more_than_a_year_are_slips() {
        let nought = OwnInterval {
            best_days: Some(0),
            knowingly_sooner: true,
            ..OwnInterval::default()
        };
        assert_eq!(faults(nought), [(Bound::Best, "days")]);
        assert_eq!(faults(own(0, 0, 367)), [(Bound::Latest, "days")]);
    }

    #[test]
    fn a_limit_for_patch_tests_is_a_number_of_days() {
        let taken = |given| {
            let practice = Practice {
                patch_test_days: Some(given),
                ..Practice::default()
            };
            practice.patch_test_fault().is_none()
        };
        assert_eq!([1, 182, 731].map(taken), [true; 3]);
        assert_eq!([0, 732].map(taken), [false; 2]);
    }

    /// 26 November 2026 is a Thursday, from the calendar.
    #[test]
    fn open_days() {
        let thursday = NaiveDate::from_ymd_opt(2026, 11, 26).unwrap();
        let closed_on = |closed: &[Weekday]| Practice {
            closed: closed.iter().copied().collect(),
            ..Practice::default()
        };
        assert!(Practice::default().is_open(thursday));
        assert!(!closed_on(&[Weekday::Thursday]).is_open(thursday));
        assert!(closed_on(&[Weekday::Friday, Weekday::Sunday]).is_open(thursday));
    }

    #[test]
    fn it_reads_what_it_writes_and_needs_nothing() {
        assert_eq!(
            serde_json::from_str::<Practice>("{}").unwrap(),
            Practice::default()
        );
        let practice = Practice {
            intervals: BTreeMap::from([(Treatment::BrowTint, own(0, 35, 0))]),
            closed: BTreeSet::from([Weekday::Sunday, Weekday::Monday]),
            prefers: Aim::ColourKept,
            patch_test_days: None,
        };
        let json = serde_json::to_string(&practice).unwrap();
        assert_eq!(
            json,
            r#"{"intervals":{"brow_tint":{"best_days":35}},"closed":["monday","sunday"],"prefers":"colour_kept"}"#
        );
        assert_eq!(serde_json::from_str::<Practice>(&json).unwrap(), practice);
    }
}
