//! What the demo's studio asks for in its own way, and what one label says.

use shared_types::{
    care_plan::own::{AddedCaution, ChangedCaution, Label, OwnAdvice},
    visit::{CautionKind, Treatment},
};

/// One caution in its own words and for longer, and one that the catalogue does not have: both after waxing a lip.
pub fn own() -> OwnAdvice {
    OwnAdvice {
        changed: vec![ChangedCaution {
            treatment: Treatment::LipWax,
            kind: CautionKind::Exercise,
            hours: Some(48),
            what: Some("No gym, hot yoga or running".to_owned()),
            why: None,
            reason: String::new(),
        }],
        added: vec![AddedCaution {
            id: "chilli".to_owned(),
            treatments: vec![Treatment::LipWax],
            what: "No hot chilli or lemon on your lips".to_owned(),
            why: "My clients told me that it stings just after a lip wax.".to_owned(),
            hours: 24,
        }],
    }
}

/// As the pack of the lash lift says it.
pub fn labels() -> Vec<Label> {
    vec![Label {
        product: "Halden lift, steps 1 to 3".to_owned(),
        kind: CautionKind::Water,
        hours: 36,
        words: "Keep lashes dry for 36 hours.".to_owned(),
        treatments: vec![Treatment::LashLift],
    }]
}
