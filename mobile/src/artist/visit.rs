//! A recorded visit: the QR for the client, what the client is told, and what came back.

use dioxus::prelude::*;
use shared_types::page::{
    artist::{LinkView, VisitView},
    client::ComeBack,
};

use super::{
    Csrf, before::BeforeOfVisit, life, lists::ReportLines, look_again::LookedPart,
    photos::EndPhotosPart, reach::reach, report::not_again_list, use_page, whose::WhosePart,
    wish::WishLines, zones::ZonesSeen,
};
use crate::{parts::by_end, picture::regrowth_figure};

#[component]
pub(super) fn VisitScreen(visit: VisitView) -> Element {
    let page = use_page();
    let words = &page.words;
    let done = words.list(&visit.done);
    rsx! {
        div { class: "title-line",
            h1 { "{visit.first_name}" }
            p { {words.fill("artist.visit.done", &[("done", &done), ("when", &visit.finished.text)])} }
        }
        div { class: "two visit",
            LinkPart { id: visit.id.to_string(), link: visit.link.clone(), first_name: visit.first_name.clone() }
            div {
                if !visit.reports.is_empty() {
                    section {
                        h2 { {words.say("artist.visit.reports").to_owned()} }
                        ReportLines { lines: visit.reports.clone() }
                    }
                }
                LookedPart { visit: visit.clone() }
                if !visit.occasion.is_empty() {
                    section {
                        h2 { {words.say("artist.visit.occasion").to_owned()} }
                        for (at, sentence) in visit.occasion.iter().enumerate() {
                            p { key: "{at}", "{sentence}" }
                        }
                    }
                }
                if !visit.wishes.is_empty() {
                    section {
                        h2 { {words.say("artist.wishes.title").to_owned()} }
                        WishLines { lines: visit.wishes.clone() }
                    }
                }
                Told { visit: visit.clone(), title: words.say("artist.visit.told").to_owned() }
                WhosePart { lines: visit.whose.clone() }
                Pictures { visit: visit.clone() }
                if !visit.zones.is_empty() {
                    ZonesSeen { visit: visit.clone() }
                }
                EndPhotosPart { visit: visit.id.to_string(), first_name: visit.first_name.clone(), end: visit.photos.clone() }
                BeforeOfVisit { visit: visit.clone() }
                Facts { visit: visit.clone() }
                {not_again_list(&visit.not_again, words)}
                p { a { href: "/studio/patch-tests/new?client={visit.client}", {words.fill("artist.patch_test.for_client", &[("name", &visit.first_name)])} } }
                p { a { href: "/studio/visits/new?client={visit.client}", {words.fill("artist.visit.again", &[("name", &visit.first_name)])} } }
            }
        }
    }
}

/// The QR and the link, and whether the client has been there.
#[component]
fn LinkPart(id: String, link: LinkView, first_name: String) -> Element {
    let page = use_page();
    let words = &page.words;
    let live = life::use_link(&id, &link);
    let shut = link.url.is_empty();
    rsx! {
        section { class: "link-part",
            if shut {
                p { class: "fault",
                    match &link.revoked {
                        Some(at) => words.fill("artist.link.revoked", &[("when", &at.text)]),
                        None if link.expires.at <= page.now => words.fill("artist.link.expired", &[("when", &link.expires.text)]),
                        None => words.say("artist.link.key_lost").to_owned(),
                    }
                }
                form { method: "post", action: "/studio/visits/{id}/link",
                    Csrf {}
                    button { r#type: "submit", {words.say("artist.link.make_new").to_owned()} }
                }
            } else {
                img { class: "qr", src: "/studio/visits/{id}/qr.svg", alt: words.fill("artist.link.qr_alt", &[("name", &first_name)]), width: "320", height: "320" }
                p { class: "opened", role: "status",
                    match &*live.opened.read() {
                        Some(at) => words.fill("artist.link.opened", &[("when", &at.text)]),
                        None => words.say("artist.link.unopened").to_owned(),
                    }
                    " "
                    span { class: "also", "{live.read_in}" }
                }
                div { class: "field",
                    label { r#for: "link", {words.say("artist.link.label").to_owned()} }
                    input { id: "link", readonly: true, value: "{link.url}" }
                }
                div { class: "actions",
                    if *live.alive.read() {
                        button {
                            r#type: "button",
                            onclick: { let url = link.url.clone(); move |_| life::copy(&url, live) },
                            {words.say(if *live.copied.read() { "artist.link.copied" } else { "artist.link.copy" }).to_owned()}
                        }
                    }
                    a { class: "button", href: "/studio/visits/{id}/card", {words.say("artist.link.card").to_owned()} }
                    a { class: "button", href: "/studio/visits/{id}/hand-over", {words.say("artist.link.sheet").to_owned()} }
                }
                p { class: "hint", {words.fill("artist.link.until", &[("when", &link.expires.text)])} }
                details {
                    summary { {words.say("artist.link.close").to_owned()} }
                    p { {words.say("artist.link.close_hint").to_owned()} }
                    form { method: "post", action: "/studio/visits/{id}/revoke",
                        Csrf {}
                        button { r#type: "submit", class: "quiet", {words.say("artist.link.close_button").to_owned()} }
                    }
                }
            }
        }
    }
}

/// What the client is told, in the words of the page.
#[component]
pub(super) fn Told(visit: VisitView, title: String) -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        section { class: "told",
            h2 { "{title}" }
            for group in by_end(&visit.cautions) {
                div { key: "{group.until.at.timestamp()}",
                    h3 { {words.fill("artist.visit.until", &[("when", &group.until.text)])} }
                    ul {
                        for caution in group.cards {
                            li { key: "{caution.id}", "{caution.what}" }
                        }
                    }
                }
            }
            if let Some(back) = &visit.come_back {
                h3 { {words.say("artist.visit.next").to_owned()} }
                p {
                    {back.said(words, "artist.visit.come_back")}
                    " {back.why}"
                }
                for (at, sentence) in visit.about.iter().enumerate() {
                    p { key: "{at}", "{sentence}" }
                }
                ComeBackMore { back: back.clone() }
            }
            if let Some(zones) = &visit.zones_told {
                h3 { {words.say("artist.zones.title").to_owned()} }
                for (at, note) in zones.notes.iter().enumerate() {
                    p { key: "{at}", b { "{note.title}" } " {note.places} {note.text}" }
                }
            }
        }
    }
}

/// What else there is to know about the time to come back, and when each treatment is due by itself.
#[component]
fn ComeBackMore(back: ComeBack) -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        for sentence in &back.more {
            p { key: "{sentence}", "{sentence}" }
        }
        if !back.windows.is_empty() {
            details { class: "due",
                summary { {words.say("artist.come_back.each").to_owned()} }
                dl {
                    for (what, due) in &back.windows {
                        dt { key: "{what}", "{what}" }
                        dd { "{due}" }
                    }
                }
            }
        }
    }
}

/// The weeks between as the client sees them.
#[component]
fn Pictures(visit: VisitView) -> Element {
    let page = use_page();
    let today = (page.now - visit.finished.at).num_days().max(0) as u32;
    rsx! {
        for (at, area) in visit.areas.iter().enumerate() {
            section { key: "{at}",
                h2 { "{area.name}" }
                {regrowth_figure(area, visit.come_back.as_ref().map(ComeBack::days), today, &page.words, &format!("/studio/visits/{}/regrowth/{}", visit.id, area.area))}
            }
        }
    }
}

/// What the record says of the visit.
#[component]
pub(super) fn Facts(visit: VisitView) -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        section { class: "facts",
            h2 { {words.say("artist.visit.record").to_owned()} }
            dl {
                dt { {words.say("artist.visit.reach").to_owned()} }
                dd { if visit.reach.is_empty() { {words.say("artist.visit.nothing").to_owned()} } else { {reach(&visit.reach)} } }
                dt { {words.say("artist.visit.findings").to_owned()} }
                dd { if visit.findings.is_empty() { {words.say("artist.visit.nothing").to_owned()} } else { {visit.findings.join(" · ")} } }
                if !visit.flags.is_empty() {
                    dt { {words.say("artist.visit.flags").to_owned()} }
                    dd { {visit.flags.join(" · ")} }
                }
                dt { {words.say("artist.visit.products").to_owned()} }
                dd {
                    if visit.products.is_empty() {
                        {words.say("artist.visit.nothing").to_owned()}
                    }
                    for (at, product) in visit.products.iter().enumerate() {
                        span { class: "product", key: "{at}",
                            "{product.name}"
                            if !product.batch.is_empty() {
                                small { {words.fill("artist.visit.batch", &[("batch", &product.batch)])} }
                            }
                        }
                    }
                }
                if !visit.note.is_empty() {
                    dt { {words.say("artist.visit.note").to_owned()} }
                    dd { class: "note-text", "{visit.note}" }
                }
            }
        }
    }
}
