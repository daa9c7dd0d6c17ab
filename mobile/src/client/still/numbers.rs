//! The strip of weeks as a table.

use dioxus::prelude::*;
use shared_types::{
    page::client::{AreaWeeks, Shows},
    words::Words,
};

/// Thousandths as "of a hundred", rounded.
fn of_hundred(thousandths: u16) -> String {
    ((thousandths + 5) / 10).to_string()
}

/// The heading of what is kept, beside what returns.
fn kept_key(shows: Shows) -> &'static str {
    match shows {
        Shows::Set => "picture.key.set",
        Shows::Colour | Shows::Returning => "picture.key.colour",
    }
}

/// The strip as a table, for those who want figures and for those who cannot see the drawing.
pub(super) fn numbers(words: &Words, area: &AreaWeeks) -> Element {
    let returning = area.shows == Shows::Returning;
    let kept = area.weeks.iter().any(|week| week.kept > 0);
    let caption = if returning {
        "client.weeks.caption"
    } else {
        "client.weeks.caption_kept"
    };
    rsx! {
        details {
            summary { {words.say("client.weeks.numbers").to_owned()} }
            // With the largest text it is wider than a phone, and moves by itself.
            div { class: "wide", role: "region", tabindex: "0", aria_label: words.say(caption).to_owned(),
                table {
                    caption { {words.say(caption).to_owned()} }
                    thead {
                        tr {
                            th { scope: "col", {words.say("client.weeks.week").to_owned()} }
                            if returning {
                                th { scope: "col", {words.say("picture.key.visible").to_owned()} }
                                th { scope: "col", {words.say("picture.key.graspable").to_owned()} }
                            }
                            if kept {
                                th { scope: "col", {words.say(kept_key(area.shows)).to_owned()} }
                            }
                        }
                    }
                    tbody {
                        for week in &area.weeks {
                            tr { key: "{week.week}",
                                th { scope: "row", "{week.week}" }
                                if returning {
                                    td { {of_hundred(week.visible)} }
                                    td { {of_hundred(week.graspable)} }
                                }
                                if kept {
                                    td { {of_hundred(week.kept)} }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}
