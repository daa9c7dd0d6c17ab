//! The client's page: what to avoid and until when, the weeks between, and what to do when something is not right.

mod after;
mod come_back;
pub mod dates;
mod emergency;
pub mod errand;
pub mod life;
mod now;
mod report_form;
mod reports;
mod weeks;
mod wish;
mod zones;

use std::rc::Rc;

use dioxus::prelude::*;
use shared_types::page::client::ClientPage;

use errand::Errand;
use life::{Live, Sending};
use now::Now;
use report_form::ReportForm;
use reports::ReportsSection;
use weeks::WeeksBetween;
use wish::NextVisit;

/// The page's state, shared by its parts. It never changes while the page is open; what does is in [`Live`].
pub type Page = Rc<ClientPage>;

pub(crate) fn use_page() -> Page {
    use_hook(consume_context::<Page>)
}

/// The root. Expects a [`ClientPage`] as root context.
#[component]
pub fn ClientApp() -> Element {
    let page = use_hook(|| provide_context(Rc::new(consume_context::<ClientPage>())));
    let live = use_context_provider(|| Live::new(&page));
    life::use_life(page.clone(), live);

    let words = &page.words;
    let done = page.words.list(&page.done);
    rsx! {
        a { class: "skip", href: "#now", {words.say("client.head.skip").to_owned()} }
        header { class: "head",
            p { class: "studio", "{page.studio.name}" }
            h1 { {words.fill("client.head.for", &[("name", &page.first_name)])} }
            p { class: "done", {words.fill("client.head.done", &[("done", &done), ("when", &page.finished.text)])} }
            nav { class: "paths", aria_label: words.say("client.head.paths"),
                a { href: "#now", {words.say("client.now.short").to_owned()} }
                a { href: "#weeks", {words.say("client.weeks.short").to_owned()} }
                a { class: "worry", href: "#trouble", {words.say("client.trouble.short").to_owned()} }
            }
        }
        main {
            Notices {}
            ReportsSection {}
            Now {}
            if !page.after.is_empty() {
                {after::lists(&page)}
            }
            if page.weeks.is_some() {
                WeeksBetween {}
            }
            NextVisit {}
            if let Some(card) = &page.zones {
                {zones::section(card, words)}
            }
            if !page.dates.is_empty() {
                section { id: "dates", aria_labelledby: "dates-title", dangerous_inner_html: page.dates.clone() }
            }
            section { id: "trouble", aria_labelledby: "trouble-title",
                h2 { id: "trouble-title", {words.say("client.trouble.title").to_owned()} }
                {emergency::card(&page)}
                ReportForm {}
            }
        }
        {foot(&page)}
    }
}

/// What has to be known before anything else: what is still on this phone, a time that was agreed on, and, when the studio could not be
/// reached, which moment the page is from.
#[component]
fn Notices() -> Element {
    let page = use_page();
    let live = use_context::<Live>();
    rsx! {
        div { role: "status",
            for errand in Errand::ALL {
                if matches!(*live.sending(errand).read(), Sending::Kept) {
                    p { class: "unsent",
                        a { href: "#{errand.form()}", {page.words.say("client.sending.unsent").to_owned()} }
                    }
                }
            }
            for wish in live.wishes.read().iter().filter(|wish| !wish.agreed.is_empty()).take(1) {
                p { class: "lead", key: "{wish.id}",
                    a { href: "#wish", {page.words.fill("client.wish.agreed", &[("when", &wish.agreed)])} }
                }
            }
            if *live.offline.read() {
                p { class: "offline", {page.words.fill("client.offline.note", &[("when", &page.as_of)])} }
            }
        }
    }
}

/// Who to turn to, what the page is not, and who can see it.
fn foot(page: &ClientPage) -> Element {
    let words = &page.words;
    let studio = &page.studio;
    rsx! {
        footer {
            h2 { {words.fill("client.foot.title", &[("artist", &studio.artist), ("studio", &studio.name)])} }
            p { class: "contact",
                if !studio.phone.is_empty() {
                    a { href: "tel:{studio.phone}", "{studio.phone}" }
                }
                if !studio.email.is_empty() {
                    a { href: "mailto:{studio.email}", "{studio.email}" }
                }
            }
            p { {words.say("client.foot.label_first").to_owned()} }
            p { {words.say("client.foot.who_sees").to_owned()} }
        }
    }
}
