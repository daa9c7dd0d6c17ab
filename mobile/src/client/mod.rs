//! The client's page: what to avoid and until when, the weeks between, and what to do when something is not right.

pub mod choice;
pub mod desk;
pub mod errand;
pub mod life;
mod now;
mod reports;
pub mod still;
pub mod trouble;
mod weeks;
mod whereabouts;
mod wish;

use std::rc::Rc;

use dioxus::prelude::*;
use shared_types::page::client::ClientPage;

use desk::Desk;
use errand::Errand;
use life::{Live, Sending};
use now::Now;
use reports::ReportsSection;
use weeks::WeeksBetween;
use wish::NextVisit;

/// The page's state, shared by its parts. It never changes while the page is open; what does is in [`Live`].
pub type Page = Rc<ClientPage>;

pub(crate) fn use_page() -> Page {
    use_hook(consume_context::<Page>)
}

/// The root. Expects a [`Page`] as root context.
#[component]
pub fn ClientApp() -> Element {
    let page = use_page();
    let live = use_context_provider(|| Live::new(&page));
    use_context_provider(|| page.clone() as Desk);
    life::use_life(page.clone(), live);

    let words = &page.words;
    let still = &page.still;
    rsx! {
        a { class: "skip", href: "#now", {words.say("client.head.skip").to_owned()} }
        header { class: "head", dangerous_inner_html: still.head.clone() }
        main {
            Notices {}
            ReportsSection {}
            Now {}
            {still_part(&still.after)}
            WeeksBetween {}
            NextVisit {}
            {still_part(&still.zones)}
            {still_part(&still.dates)}
            section { id: "trouble", aria_labelledby: "trouble-title",
                h2 { id: "trouble-title", {words.say("client.trouble.title").to_owned()} }
                {still_part(&still.emergency)}
            }
        }
        footer { dangerous_inner_html: still.foot.clone() }
    }
}

/// A part that the server drew. On the phone it is empty: the document has it, and as it never changes, nothing is
/// written over it.
fn still_part(html: &str) -> Element {
    rsx! {
        div { dangerous_inner_html: html.to_owned() }
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
                        a { href: "{page.path}{errand.way()}", {page.words.say("client.sending.unsent").to_owned()} }
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
