//! What is known of the person beyond this visit, as far as a forecast depends on it.

use serde::{Deserialize, Serialize};

use crate::{
    catalogue::{Catalogue, flag::Flag},
    regrowth::{
        clock::Clock,
        flags::{self, Outlook},
    },
};

/// Somebody's own pace, and what makes it unsure. Nothing is known of a new client.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Person {
    /// Learned from what was seen at earlier visits; `None` when nothing was.
    pub clock: Option<Clock>,
    /// Visits from which something was learned.
    pub visits_seen: u16,
    /// What the consultation found that a forecast cannot follow.
    pub flags: Vec<Flag>,
}

/// The paces (factors, 1 is that of most people) by which a person's windows are worked out: `slow <= middle <= fast`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Paces {
    pub slow: f64,
    pub middle: f64,
    pub fast: f64,
}

impl Person {
    /// Whether there is a forecast for this person, and by which clock.
    pub fn outlook(&self, catalogue: &Catalogue) -> Outlook {
        flags::outlook(&catalogue.flags, &self.flags, self.own_clock(catalogue))
    }

    /// `None` where a flag switches the forecast off. What flags add to the doubt about the clock widens a window by one
    /// deviation of it to either side; without such flags the three are the same, as the windows' rules are for the
    /// middle of what is believed.
    pub fn paces(&self, catalogue: &Catalogue) -> Option<Paces> {
        let Outlook::Forecast { clock, .. } = self.outlook(catalogue) else {
            return None;
        };
        let added = Clock {
            sd: clock.sd - self.own_clock(catalogue).sd,
            ..clock
        };
        Some(Paces {
            slow: added.factor_at(-1.0),
            middle: added.factor(),
            fast: added.factor_at(1.0),
        })
    }

    fn own_clock(&self, catalogue: &Catalogue) -> Clock {
        self.clock
            .unwrap_or_else(|| Clock::unseen(&catalogue.clock))
    }
}
