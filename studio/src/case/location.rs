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

/// Where, in the form's own kinds; null where nobody said.
pub fn location(places: &[Place], answers: &Answers, treated: &[Area]) -> Value {
    let eye = EYE_SIGNS
        .iter()
        .any(|field| matches!(answers.get(*field), Answer::At(place) if place > 0));
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
    let areas: Vec<Option<Area>> = places.iter().map(|one| area_of(*one)).collect();
    let within = areas
        .iter()
        .any(|one| one.is_some_and(|area| treated.contains(&area)));
    let outside = areas
        .iter()
        .any(|one| one.is_none_or(|area| !treated.contains(&area)));
    json!({
        "places": places,
        "skin_area": told.then_some(skin),
        "scalp": null,
        "hair": null,
        "eyes": (told || eye).then_some(eye),
        "teeth": null,
        "nails": null,
        "lips": match answers.get(Field::LipMouthSwelling) {
            Answer::At(place) => Some(place > 0),
            Answer::Open | Answer::NotSure => None,
        },
        "mucosa": null,
        "other": told.then(|| any(&[Place::Elsewhere])),
        "in_application_area": told.then_some(within),
        "out_of_application_area": told.then_some(outside),
    })
}

/// The treated area that a place lies in.
fn area_of(place: Place) -> Option<Area> {
    match place {
        Place::RightBrow | Place::LeftBrow => Some(Area::Brow),
        Place::RightLid | Place::LeftLid => Some(Area::UpperLash),
        Place::UpperLip => Some(Area::UpperLip),
        Place::Chin => Some(Area::Chin),
        Place::SideOfFace => Some(Area::SideOfFace),
        Place::RightAround | Place::LeftAround | Place::Elsewhere => None,
    }
}
