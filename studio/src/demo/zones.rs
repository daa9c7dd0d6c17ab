//! The zones that are marked in the demo, by the number of the story.

use shared_types::zones::{Mark, Place, Side, Zone, Zones};

type Marked = (Side, Zone, Mark);

const SIGNE: u32 = 5;
const YUSRA: u32 = 6;

const AT_LATEST_VISIT: &[(u32, &[Marked])] = &[
    (
        SIGNE,
        &[
            (Side::Left, Zone::Tail, Mark::LetItGrow),
            (Side::Right, Zone::Front, Mark::NothingGrows),
            (Side::Left, Zone::Below, Mark::KeepTidy),
            (Side::Right, Zone::Below, Mark::KeepTidy),
        ],
    ),
    (
        YUSRA,
        &[
            (Side::Left, Zone::Arch, Mark::LetItGrow),
            (Side::Right, Zone::Arch, Mark::LetItGrow),
            (Side::Right, Zone::Tail, Mark::LetItGrow),
        ],
    ),
];

/// The right tail came later.
const AT_EARLIER_VISITS: &[(u32, &[Marked])] = &[(
    YUSRA,
    &[
        (Side::Left, Zone::Arch, Mark::LetItGrow),
        (Side::Right, Zone::Arch, Mark::LetItGrow),
    ],
)];

pub fn at_latest_visit(story: u32) -> Zones {
    of(AT_LATEST_VISIT, story)
}

pub fn at_earlier_visits(story: u32) -> Zones {
    of(AT_EARLIER_VISITS, story)
}

fn of(all: &[(u32, &[Marked])], story: u32) -> Zones {
    let mut zones = Zones::default();
    let marked = all.iter().filter(|(number, _)| *number == story);
    for &(side, zone, mark) in marked.flat_map(|(_, marked)| *marked) {
        zones.set(Place { side, zone }, Some(mark));
    }
    zones
}
