//! The client's page of a patch test: when to look again, what to look for, what to do. Only the server draws it, so no
//! phone downloads any of this.

mod form;
mod told;

use dioxus::prelude::*;
use shared_types::page::patch_tests::PatchTestPage;

use crate::client::still;

/// The sentence of a key below `patch_test.`, with the studio's name filled in.
fn say(page: &PatchTestPage, key: &str) -> String {
    let key = format!("patch_test.{key}");
    page.words.fill(&key, &[("studio", &page.studio.name)])
}

/// The whole page. `languages` are the links to it in other languages, as HTML.
pub fn patch_test(page: &PatchTestPage, languages: &str) -> Element {
    let words = &page.words;
    let put_on = words.fill("patch_test.put_on", &[("when", &page.put_on.text)]);
    rsx! {
        a { class: "skip", href: "#look", {say(page, "skip")} }
        header { class: "head",
            div { dangerous_inner_html: languages.to_owned() }
            p { class: "studio", "{page.studio.name}" }
            h1 { {say(page, "title")} }
            p { class: "done", "{page.first_name} · {put_on}" }
            nav { class: "paths", aria_label: words.say("client.head.paths"),
                a { href: "#look", {say(page, "look.short")} }
                a { href: "#see", {say(page, "see.short")} }
                a { class: "worry", href: "#trouble", {say(page, "react.short")} }
            }
        }
        main {
            // Whoever says that the skin reacts reads first what to do.
            if page.reacts {
                {trouble(page, &say(page, "react.now"))}
            }
            {told::told(page)}
            {look(page)}
            {see(page)}
            if !page.reacts {
                {trouble(page, &say(page, "react.title"))}
            }
            {form::tell(page)}
            section { id: "decides", aria_labelledby: "decides-title",
                h2 { id: "decides-title", {say(page, "decides.title")} }
                p { {say(page, "decides.looks")} }
                p { {say(page, "decides.reacts")} }
                p { {say(page, "decides.no_promise")} }
            }
        }
        footer { {still::contact(words, &page.studio)} }
    }
}

/// The exact times, and which comes next.
fn look(page: &PatchTestPage) -> Element {
    let words = &page.words;
    let when =
        |key: &str, when: &str| words.fill(&format!("patch_test.look.{key}"), &[("when", when)]);
    let next = page.looks.iter().find(|look| !look.over);
    rsx! {
        section { id: "look", aria_labelledby: "look-title",
            h2 { id: "look-title", {say(page, "look.title")} }
            match (next, page.looks.last()) {
                (Some(next), _) => rsx! { p { class: "lead", {when("next", &next.at.text)} } },
                (None, Some(last)) => rsx! { p { class: "lead", {when("last", &last.at.text)} } },
                (None, None) => rsx! {},
            }
            ul { class: "milestones",
                for look in &page.looks {
                    li { key: "{look.hours}", div { class: "when", "{look.at.text}" }
                        div { class: "basis",
                            {words.fill("patch_test.look.after", &[("n", &look.hours.to_string())])}
                            if look.over {
                                " · "
                                {say(page, "look.over")}
                            }
                        }
                    }
                }
            }
            p { {say(page, "look.between")} }
            if page.days_to_watch > 0 {
                p { {words.fill("patch_test.look.days", &[("n", &page.days_to_watch.to_string())])} }
            }
            p { class: "basis", {say(page, "look.label")} }
            dl { class: "steps",
                {fact(&say(page, "where"), &page.place)}
                {fact(&say(page, "product"), &page.product)}
                {fact(&say(page, "for"), &words.list(&page.treatments))}
            }
        }
    }
}

fn fact(term: &str, text: &str) -> Element {
    rsx! {
        div {
            dt { "{term}" }
            dd { "{text}" }
        }
    }
}

/// What may show, in plain words, and what is ordinary.
fn see(page: &PatchTestPage) -> Element {
    rsx! {
        section { id: "see", aria_labelledby: "see-title",
            h2 { id: "see-title", {say(page, "see.title")} }
            ul {
                for key in ["see.colour", "see.feel", "see.shape", "see.broken"] {
                    li { key: "{key}", {say(page, key)} }
                }
            }
            p { {say(page, "see.touch")} }
            h3 { {say(page, "see.ordinary_title")} }
            p { {say(page, "see.ordinary")} }
            h3 { {say(page, "see.meanwhile_title")} }
            p { {say(page, "see.meanwhile")} }
        }
    }
}

/// What to do when the skin reacts: the emergency card first, as on the page of a visit.
fn trouble(page: &PatchTestPage, title: &str) -> Element {
    rsx! {
        section { id: "trouble", aria_labelledby: "trouble-title",
            h2 { id: "trouble-title", "{title}" }
            {still::emergency(&page.words, &page.studio.emergency)}
            ol {
                for key in ["react.wash", "react.leave", "react.help", "react.no_treatment"] {
                    li { key: "{key}", {say(page, key)} }
                }
            }
            p { b { {say(page, "react.worse")} } }
        }
    }
}
