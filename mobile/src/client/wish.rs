//! The next visit: asking the studio for a time, and what the studio says to that. A plain form that posts by itself;
//! alive, it is kept on the phone and sent like a report.

use dioxus::prelude::*;
use shared_types::wish::FIELDS;

use super::{
    desk::use_desk,
    errand::Errand,
    life::{self, Live},
    reports::sent,
    use_page,
    whereabouts::Whereabouts,
};
use crate::parts::fault_text;

/// The kind of each of [`FIELDS`] and the key of what is asked.
const PARTS: [(&str, &str); FIELDS.len()] = [
    ("date", "client.wish.day"),
    ("time", "client.wish.time"),
    ("date", "client.wish.day"),
    ("time", "client.wish.time"),
    ("date", "client.wish.day"),
    ("time", "client.wish.time"),
    ("text", "client.wish.words"),
    ("text", "client.wish.reach"),
];

#[component]
pub(super) fn NextVisit() -> Element {
    let page = use_page();
    let live = use_context::<Live>();
    let words = &page.words;
    let form = &page.form;
    let studio = [("studio", page.studio_name.as_str())];
    let form_sent = live.form.read();
    let fault = |field: &str| form_sent.fault(field).map(str::to_owned);
    let sender = use_desk();
    let typist = sender.clone();
    // A form that came back to be mended has all of its fields, however little was typed. A fresh one begins with the
    // first good day.
    let came_back = form.all("wish_words").next().is_some();

    rsx! {
        section { id: "wish", aria_labelledby: "wish-title",
            h2 { id: "wish-title", {words.say("client.wish.title").to_owned()} }
            for wish in live.wishes.read().iter() {
                {sent(&page, Errand::Wish, wish, live)}
            }
            Whereabouts { errand: Errand::Wish }
            details { "open": came_back,
                summary { class: "button quiet", {words.say("client.wish.ask").to_owned()} }
                form {
                    id: Errand::Wish.form(),
                    class: "report-form",
                    method: "post",
                    // With the place to come back to, should something need mending.
                    action: "{page.path}/wishes#wish",
                    "novalidate": true,
                    onsubmit: move |event| life::submit(&event, &sender, live, Errand::Wish),
                    oninput: move |_| life::draft_changed(&*typist, Errand::Wish),

                    p { {words.fill("client.wish.intro", &studio)} }
                    input { r#type: "hidden", name: "wish_id", value: "{page.form_id}" }
                    for (at, (field, (kind, label))) in FIELDS.into_iter().zip(PARTS).enumerate() {
                        // One kind of part for all of them: the phone downloads the code of each.
                        div { class: "field", key: "{at}",
                            {fault_text(field, fault(field))}
                            label {
                                {words.fill(label, &[("n", &(at / 2 + 1).to_string())])}
                                input {
                                    r#type: kind,
                                    name: field,
                                    min: (kind == "date").then_some(&*page.first_day),
                                    aria_describedby: fault(field).map(|_| format!("fault-{field}")),
                                    "value": if at == 0 && !came_back { &page.good_day } else { form.value(field) },
                                }
                            }
                        }
                    }
                    button { r#type: "submit", class: "send", {words.fill("client.wish.send", &studio)} }
                }
            }
        }
    }
}
