//! What the picture shows on a day, in words.

use shared_types::{
    page::{client::Shows, picture::Picture},
    regrowth::curve::Regrowth,
    words::Words,
};

/// One or two sentences; the words are those below `picture.`.
pub fn reading(picture: &Picture, shows: Shows, day: u16, words: &Words) -> String {
    let regrowth = Regrowth::of_checked(picture.parameters());
    let days = f64::from(day);
    let of_ten = |share: f64| of_ten(share, words);
    let when = words.fill(
        "picture.day",
        &[
            ("day", &day.to_string()),
            ("week", &(day / 7 + 1).to_string()),
        ],
    );
    let shares = match shows {
        Shows::Returning => words.fill(
            "picture.returning",
            &[
                ("visible", &of_ten(regrowth.visible(days))),
                (
                    "graspable",
                    &of_ten(regrowth.graspable(days, f64::from(picture.graspable) / 100.0)),
                ),
            ],
        ),
        Shows::Colour => words.fill(
            "picture.colour",
            &[("kept", &of_ten(regrowth.tint_kept(days)))],
        ),
        Shows::Set => words.fill(
            "picture.set",
            &[("kept", &of_ten(regrowth.lift_kept(days)))],
        ),
    };
    format!("{when} {shares}")
}

/// A share (0 to 1) as "about 3 in 10".
fn of_ten(share: f64, words: &Words) -> String {
    match (share * 10.0 + 0.5) as u8 {
        0 => words.say("picture.hardly_any").to_owned(),
        n @ 1..=9 => words.fill("picture.of_ten", &[("n", &n.to_string())]),
        _ => words.say("picture.nearly_all").to_owned(),
    }
}
