//! Who of the demo has been here before, and what was seen then and at the latest visit of the hair that came back.

use chrono::TimeDelta;
use shared_types::{
    catalogue::flag::Flag,
    regrowth::clock::Seen,
    visit::{Area, Observation, Observed, Treatment, Visit},
};
use uuid::Uuid;

use super::{Kind, id, scenario::Story, zones};

/// What came before the visit that a client's story tells.
pub struct History {
    pub first_name: &'static str,
    /// The oldest first.
    pub visits: &'static [EarlierVisit],
    /// At the visit of the story.
    pub observations: &'static [Observation],
    pub flags: &'static [Flag],
}

/// At the same time of day as the story's visit.
pub struct EarlierVisit {
    pub days_before: i64,
    pub treatments: &'static [Treatment],
    pub observations: &'static [Observation],
}

/// What the story's client brings along; somebody new brings nothing.
fn of(first_name: &str) -> &'static History {
    HISTORIES
        .iter()
        .find(|history| history.first_name == first_name)
        .unwrap_or(&NONE)
}

/// The visits of a story's client with their links, the oldest first, the story's own last.
pub(super) fn with_history(
    number: u32,
    story: &Story,
    visit: Visit,
    link: Uuid,
) -> Vec<(Visit, Uuid)> {
    let history = of(story.first_name);
    let earlier = (1..).zip(history.visits).map(|(place, earlier)| {
        let id_number = number * 100 + place;
        let earlier = Visit {
            id: id(Kind::EarlierVisit, id_number),
            finished_at: visit.finished_at - TimeDelta::days(earlier.days_before),
            treatments: earlier.treatments.to_vec(),
            observations: earlier.observations.to_vec(),
            zones: zones::at_earlier_visits(number),
            note: String::new(),
            ..visit.clone()
        };
        (earlier, id(Kind::EarlierLink, id_number))
    });
    let mut all: Vec<_> = earlier.collect();
    all.push((
        Visit {
            observations: history.observations.to_vec(),
            flags: history.flags.to_vec(),
            ..visit
        },
        link,
    ));
    all
}

const NONE: History = History {
    first_name: "",
    visits: &[],
    observations: &[],
    flags: &[],
};

const fn brows(seen: Seen) -> Observation {
    Observation {
        area: Area::Brow,
        what: Observed::Share(seen),
    }
}

const WAX_AND_TINT: &[Treatment] = &[Treatment::BrowWax, Treatment::BrowTint];

const HISTORIES: &[History] = &[
    // Quicker than most, seen twice.
    History {
        first_name: "Yusra",
        visits: &[
            EarlierVisit {
                days_before: 75,
                treatments: WAX_AND_TINT,
                observations: &[],
            },
            EarlierVisit {
                days_before: 37,
                treatments: WAX_AND_TINT,
                observations: &[brows(Seen::ThreeQuarters)],
            },
        ],
        observations: &[brows(Seen::ThreeQuarters)],
        flags: &[],
    },
    // Slower than most, seen once, and with something that makes it unsure.
    History {
        first_name: "Kemi",
        visits: &[EarlierVisit {
            days_before: 42,
            treatments: WAX_AND_TINT,
            observations: &[],
        }],
        observations: &[
            brows(Seen::Quarter),
            Observation {
                area: Area::Brow,
                what: Observed::FirstHairs(34),
            },
        ],
        flags: &[Flag::GrowthSerum],
    },
];
