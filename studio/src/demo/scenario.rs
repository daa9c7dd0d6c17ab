//! Who is in the demo. Everybody and everything here is invented; the telephone number is one of those that Ofcom
//! keeps for drama, the e-mail addresses are below `.example` (RFC 2606).

use chrono_tz::Tz;
use shared_types::{
    care_plan::{Aim, OwnInterval, Practice, Weekday},
    reaction::Place,
    urgency::Field,
    visit::{Finding, Treatment},
};

pub struct StudioFacts {
    pub name: &'static str,
    pub phone: &'static str,
    pub email: &'static str,
    pub region: &'static str,
    pub time_zone: Tz,
}

pub const STUDIO: StudioFacts = StudioFacts {
    name: "Tamsel Lane Brows",
    phone: "020 7946 0417",
    email: "hello@tamsel-lane.example",
    region: "uk",
    time_zone: Tz::Europe__London,
};
pub const ARTIST: &str = "Ilse Marend";
pub const EMAIL: &str = "ilse@tamsel-lane.example";
pub const PASSWORD: &str = "between two visits";

/// Closed at the weekend's end, and tweezing a little later than most.
pub fn practice() -> Practice {
    Practice {
        intervals: [(
            Treatment::BrowTweeze,
            OwnInterval {
                best_days: Some(35),
                latest_days: Some(49),
                ..OwnInterval::default()
            },
        )]
        .into(),
        closed: [Weekday::Sunday, Weekday::Monday].into(),
        prefers: Aim::Balanced,
        patch_test_days: None,
    }
}

/// When a visit ended.
#[derive(Clone, Copy)]
pub enum When {
    MinutesAgo(i64),
    /// At a time of day at the studio, at least one day ago.
    DaysAgo {
        days: i64,
        hour: u32,
        minute: u32,
    },
}

/// One client's visit and what came of it.
pub struct Story {
    pub first_name: &'static str,
    pub reach: &'static str,
    pub finished: When,
    pub treatments: &'static [Treatment],
    pub findings: &'static [Finding],
    pub products: &'static [(&'static str, &'static str)],
    pub note: &'static str,
    pub opened_after_minutes: Option<i64>,
    /// A date to look one's best for, so many days after the visit; given a day after it.
    pub date_after_days: Option<u64>,
    pub report: Option<Told>,
}

/// What a client reported; one that was answered was settled two days later.
pub struct Told {
    pub after_minutes: i64,
    /// What was not answered with "no".
    pub answers: &'static [(Field, &'static str)],
    pub places: &'static [Place],
    pub words: &'static str,
    pub answer: Option<&'static str>,
}

const WAX: (&str, &str) = ("Velm soft wax", "VW 2261");
const TINT: (&str, &str) = ("Orrin tint, nut brown", "OT3-118");
const GEL: (&str, &str) = ("Tarn cooling gel", "T0407");

/// Brow visits, the latest first; then lashes and lip. A new story goes to the end: links are found by their number.
pub const STORIES: &[Story] = &[
    Story {
        first_name: "Noor",
        reach: "07700 900142",
        finished: When::MinutesAgo(35),
        treatments: &[Treatment::BrowWax, Treatment::BrowTint],
        findings: &[Finding::FirstTime],
        products: &[WAX, TINT, GEL],
        note: "Patch test clear on Monday. Wants the arch a little softer next time.",
        opened_after_minutes: None,
        date_after_days: None,
        report: None,
    },
    Story {
        first_name: "Beatriz",
        reach: "beatriz@mail.example",
        finished: When::MinutesAgo(5 * 60 + 10),
        treatments: &[Treatment::BrowWax],
        findings: &[Finding::Sensitive],
        products: &[WAX, GEL],
        note: "",
        opened_after_minutes: Some(4),
        date_after_days: None,
        report: Some(Told {
            after_minutes: 4 * 60,
            answers: &[
                (Field::Redness, "3"),
                (Field::Pain, "5"),
                (Field::Itch, "1"),
                (Field::OnsetHours, "0"),
                (Field::Trend, "worse"),
                (Field::HotTenderSpreading, "yes"),
            ],
            places: &[Place::RightBrow, Place::LeftBrow],
            words: "It is hot and red above both brows and it stings more than an hour ago. Is that still normal?",
            answer: None,
        }),
    },
    Story {
        first_name: "Odile",
        reach: "07700 900388",
        finished: When::DaysAgo {
            days: 1,
            hour: 16,
            minute: 40,
        },
        treatments: &[Treatment::BrowTweeze, Treatment::BrowTint],
        findings: &[Finding::OtherActives],
        products: &[("Orrin tint, slate", "OT5-031")],
        note: "Uses a fruit acid toner. Asked her to leave it off around the brows.",
        opened_after_minutes: Some(2),
        date_after_days: None,
        report: None,
    },
    Story {
        first_name: "Kemi",
        reach: "07700 900275",
        finished: When::DaysAgo {
            days: 3,
            hour: 11,
            minute: 15,
        },
        treatments: &[Treatment::BrowWax, Treatment::BrowTint],
        findings: &[],
        products: &[WAX, TINT],
        note: "",
        opened_after_minutes: Some(9),
        date_after_days: None,
        report: Some(Told {
            after_minutes: 2 * 24 * 60 + 95,
            answers: &[
                (Field::Rash, "yes"),
                (Field::Redness, "1"),
                (Field::Itch, "6"),
                (Field::OnsetHours, "12-24"),
                (Field::Trend, "same"),
            ],
            places: &[Place::LeftBrow],
            words: "A few small bumps under the left brow. They itch, they do not hurt.",
            answer: None,
        }),
    },
    Story {
        first_name: "Signe",
        reach: "signe@mail.example",
        finished: When::DaysAgo {
            days: 12,
            hour: 13,
            minute: 30,
        },
        treatments: &[Treatment::BrowWax],
        findings: &[Finding::TopicalRetinoid],
        products: &[WAX, GEL],
        note: "Stopped her retinol nine days ago. Waxed a small test spot first.",
        opened_after_minutes: Some(1),
        date_after_days: Some(45),
        report: Some(Told {
            after_minutes: 20 * 60,
            answers: &[
                (Field::RawSkin, "small"),
                (Field::Redness, "1"),
                (Field::Pain, "2"),
                (Field::OnsetHours, "6-12"),
                (Field::Trend, "same"),
            ],
            places: &[Place::RightBrow],
            words: "A small patch by the right brow feels raw, like a graze.",
            answer: Some(
                "Thank you for telling me, Signe. Please keep it clean and dry, and leave make-up and your retinol off \
                 it. If it spreads, weeps or hurts more, go to a pharmacist or doctor, and show them the name of the \
                 wax: Velm soft wax, batch VW 2261. I will ring you tomorrow at noon.",
            ),
        }),
    },
    Story {
        first_name: "Yusra",
        reach: "07700 900519",
        finished: When::DaysAgo {
            days: 31,
            hour: 10,
            minute: 5,
        },
        treatments: &[Treatment::BrowWax, Treatment::BrowTint],
        findings: &[],
        products: &[("Velm soft wax", "VW 2198"), TINT],
        note: "",
        opened_after_minutes: Some(3),
        date_after_days: None,
        report: None,
    },
    Story {
        first_name: "Aurelio",
        reach: "aurelio@mail.example",
        finished: When::DaysAgo {
            days: 52,
            hour: 17,
            minute: 20,
        },
        treatments: &[Treatment::BrowTweeze],
        findings: &[Finding::BrokenSkin],
        products: &[],
        note: "Only tidied between the brows.",
        opened_after_minutes: Some(45),
        date_after_days: None,
        report: None,
    },
    Story {
        first_name: "Linnea",
        reach: "07700 900633",
        finished: When::DaysAgo {
            days: 1,
            hour: 12,
            minute: 50,
        },
        treatments: &[Treatment::LashLift, Treatment::LashTint],
        findings: &[Finding::FirstTime],
        products: &[
            ("Halden lift, steps 1 to 3", "HL-0932"),
            ("Orrin lash tint, black", "OL1-204"),
        ],
        note: "Skin test clear on Thursday. Short rods, six minutes.",
        opened_after_minutes: Some(6),
        date_after_days: None,
        report: None,
    },
    Story {
        first_name: "Safiya",
        reach: "safiya@mail.example",
        finished: When::DaysAgo {
            days: 2,
            hour: 15,
            minute: 10,
        },
        treatments: &[Treatment::LipWax],
        findings: &[],
        products: &[WAX, GEL],
        note: "",
        opened_after_minutes: Some(2),
        date_after_days: None,
        report: None,
    },
];
