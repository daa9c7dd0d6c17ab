//! Where it is, in the official form's own kinds.

use serde_json::{Value, json};
use shared_types::{
    reaction::Place,
    urgency::{Answer, Answers, Field},
    visit::Area,
};

/// Signs in the eye itself.
const EYE_SIGNS: [Field; 9] = [
    Field::ProductInEye,
    Field::EyeRed,
    Field::EyeWatering,
    Field::EyePain,
    Field::EyeCannotOpen,
    Field::LightHurts,
    Field::VisionChange,
    Field::EyeDarkRed,
    Field::ObjectInEye,
];

/// Whether there are signs in an eye; `None` while that was not answered.
fn eyes(answers: &Answers) -> Option<bool> {
    let mut signs = EYE_SIGNS.iter().map(|field| answers.get(*field));
    if signs
        .clone()
        .any(|answer| matches!(answer, Answer::At(place) if place > 0))
    {
        return Some(true);
    }
    let no = Answer::At(0);
    let none = answers.get(Field::EyeTrouble) == no || signs.all(|answer| answer == no);
    none.then_some(false)
}

/// Where, in the form's own kinds; null where nobody said.
pub(super) fn location(places: &[Place], answers: &Answers, treated: &[Area]) -> Value {
    let any = |of: &[Place]| places.iter().any(|one| of.contains(one));
    let told = !places.is_empty();
    let skin = any(&[
        Place::RightBrow,
        Place::LeftBrow,
        Place::RightLid,
        Place::LeftLid,
        Place::RightAround,
        Place::LeftAround,
        Place::UpperLip,
        Place::Chin,
        Place::SideOfFace,
    ]);
    let is_treated = |place: &Place| areas_of(*place).iter().any(|area| treated.contains(area));
    let within = places.iter().any(is_treated);
    let outside = places.iter().any(|place| !is_treated(place));
    json!({
        "places": places,
        "skin_area": skin.then_some(true),
        "scalp": null,
        "hair": null,
        "eyes": eyes(answers),
        "teeth": null,
        "nails": null,
        "lips": match answers.get(Field::LipMouthSwelling) {
            Answer::At(place) => Some(place > 0),
            Answer::Open | Answer::NotSure => None,
        },
        "mucosa": null,
        "other": any(&[Place::Elsewhere]).then_some(true),
        "in_application_area": told.then_some(within),
        "out_of_application_area": told.then_some(outside),
    })
}

/// The areas that a place may lie in.
fn areas_of(place: Place) -> &'static [Area] {
    match place {
        Place::RightBrow | Place::LeftBrow => &[Area::Brow],
        Place::RightLid | Place::LeftLid => &[Area::UpperLash, Area::LowerLash],
        Place::UpperLip => &[Area::UpperLip],
        Place::Chin => &[Area::Chin],
        Place::SideOfFace => &[Area::SideOfFace],
        Place::RightAround | Place::LeftAround | Place::Elsewhere => &[],
    }
}
