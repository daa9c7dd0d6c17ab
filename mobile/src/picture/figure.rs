//! Picture, slider and strip as one figure, for the client's page and the artist's screens alike.

use std::fmt::Write;

use dioxus::prelude::*;
use shared_types::{page::client::Figure, words::Words};

use super::{Moving, VIEW_BOX, stills::DAYS, strip};

/// How hair returns from day to day. `come_back` and `today` are in days from the visit; `words` holds the keys below `picture.`; below
/// the address `stills` lie the picture's files by day.
pub fn regrowth_figure(
    figure: &Figure,
    come_back: Option<[u16; 2]>,
    today: u32,
    words: &Words,
    stills: &str,
) -> Element {
    rsx! {
        figure { class: "regrowth",
            div { class: "stage",
                if let Some(picture) = figure.picture.clone() {
                    Moving { picture, shows: figure.shows, today, words: words.only(&["picture."]) }
                    noscript { dangerous_inner_html: as_stills(stills, words) }
                }
                {strip::strip(figure, come_back, today, words)}
            }
            {strip::key(figure, come_back, today, words)}
        }
    }
}

/// Five small pictures, where no script runs.
fn as_stills(address: &str, words: &Words) -> String {
    // What is there for pages without a script, a script need not know: the browser has it from the server.
    if cfg!(target_arch = "wasm32") {
        return String::new();
    }
    let [width, height] = VIEW_BOX;
    let mut html = String::from("<div class=\"stills\">");
    for day in DAYS {
        let when = words.fill("picture.still", &[("day", &day.to_string())]);
        // Writing to a String cannot fail. Address and words come from the server.
        let _ = write!(
            html,
            "<figure><img src=\"{address}/{day}.svg\" alt=\"\" width=\"{}\" height=\"{}\"><figcaption>{when}</figcaption></figure>",
            width / 20,
            height / 20
        );
    }
    html.push_str("</div>");
    html
}
