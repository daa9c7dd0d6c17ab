//! The picture under the slider. It is drawn once the page is alive; before, its place is kept.

use std::rc::Rc;

use dioxus::prelude::*;
use shared_types::{
    page::{
        client::Shows,
        picture::{Picture, Subject},
    },
    regrowth::curve::Regrowth,
    words::Words,
};

use super::{
    VIEW_BOX, lid,
    reading::reading,
    strands::{Paths, Strand, draw, strands},
};

/// Everything that does not change from day to day.
struct Drawing {
    regrowth: Regrowth,
    strands: Vec<Strand>,
}

/// The hairs on a day, what they show in words, and the slider that chooses the day. Nothing is drawn where a script does
/// not run: the page offers [`super::stills`] there.
#[component]
pub fn Moving(picture: Picture, shows: Shows, today: u32, words: Words) -> Element {
    let last = picture.last_day;
    let first = u16::try_from(today).map_or(last, |today| today.min(last));
    let mut day = use_signal(|| first);
    let mut drawing = use_signal(|| None::<Rc<Drawing>>);
    let said = reading(&picture, shows, *day.read(), &words);
    let tinted = picture.tinted;
    let on_lids = picture.subject == Subject::UpperLashes;
    let paths = match &*drawing.read() {
        Some(drawing) => draw(&drawing.strands, &drawing.regrowth, f64::from(*day.read())),
        None => Paths::default(),
    };
    use_effect(move || {
        let regrowth = Regrowth::of_checked(picture.parameters());
        let strands = strands(&picture, &regrowth);
        drawing.set(Some(Rc::new(Drawing { regrowth, strands })));
    });
    let left = paths.left_class(tinted);
    rsx! {
        svg { class: "hairs", view_box: "0 0 {VIEW_BOX[0]} {VIEW_BOX[1]}", "aria-hidden": "true",
            if on_lids {
                path { class: "lid", d: lid::EDGES }
            }
            path { class: "new", d: paths.new }
            path { class: "back", d: paths.back }
            path { class: left, d: paths.left }
        }
        p { class: "reading", "{said}" }
        input {
            class: "day",
            r#type: "range",
            min: "0",
            max: "{last}",
            "value": "{first}",
            aria_label: words.say("picture.slider"),
            aria_valuetext: "{said}",
            oninput: move |event| {
                if let Ok(chosen) = event.value().parse() {
                    day.set(chosen);
                }
            },
        }
    }
}
