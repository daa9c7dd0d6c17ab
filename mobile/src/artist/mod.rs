//! The artist's screens: for a tablet with the gloves just off, and for the phone in the pocket.

mod batches;
mod before;
mod begin;
mod desk;
mod fields;
pub mod life;
mod lists;
pub mod live;
mod look_again;
mod notices;
mod own_advice;
mod particulars;
mod patch_tests;
mod photos;
mod practice;
mod reach;
mod record_visit;
mod report;
mod sign_in;
mod today;
mod visit;
mod waits;
mod whose;
mod wish;
mod zones;

use std::rc::Rc;

use dioxus::prelude::*;
use shared_types::page::artist::{ArtistPage, Notice, Screen};

use fields::{Choices, Csrf, SettingsTop, TextArea, TextField, WholeFault};

/// The page's state, shared by its parts.
pub type Page = Rc<ArtistPage>;

pub(crate) fn use_page() -> Page {
    use_hook(consume_context::<Page>)
}

/// The root. Expects a [`Page`] as root context.
#[component]
pub fn ArtistApp() -> Element {
    let page = use_page();
    life::use_alive();
    live::use_live(&page);
    let signed_in = !page.csrf.is_empty();
    rsx! {
        a { class: "skip", href: "#main-part", {page.words.say("artist.skip").to_owned()} }
        header { class: "bar",
            p { class: "studio", "{page.studio_name}" }
            if signed_in {
                Ways {}
            }
        }
        main { id: "main-part",
            if !page.not_told.is_empty() {
                p { class: "troubled",
                    span { "{page.not_told}" }
                    a { href: "/studio/notices#ways", {page.words.say("artist.notices.not_told_why").to_owned()} }
                }
            }
            match &page.screen {
                Screen::Begin(screen) => rsx! { begin::BeginScreen { screen: screen.clone() } },
                Screen::SignIn(screen) => rsx! { sign_in::SignInScreen { screen: screen.clone() } },
                Screen::Today(screen) => rsx! { today::TodayScreen { screen: screen.clone() } },
                Screen::RecordVisit(screen) => rsx! { record_visit::RecordVisitScreen { screen: (**screen).clone() } },
                Screen::Visit(screen) => rsx! { visit::VisitScreen { visit: (**screen).clone() } },
                Screen::PutOff(screen) => rsx! { before::PutOffScreen { put_off: (**screen).clone() } },
                Screen::Practice(screen) => rsx! { practice::PracticeForm { screen: screen.clone() } },
                Screen::Notices(screen) => rsx! { notices::NoticesForm { screen: screen.clone() } },
                Screen::Batches(screen) => rsx! { batches::BatchesList { screen: screen.clone() } },
                Screen::Cautions(screen) => rsx! { own_advice::CautionsList { screen: screen.clone() } },
                Screen::Caution(screen) => rsx! { own_advice::ChangeCautionForm { screen: screen.clone() } },
                Screen::AddCaution(screen) => rsx! { own_advice::AddCautionForm { screen: screen.clone() } },
                Screen::Labels(screen) => rsx! { own_advice::LabelsForm { screen: screen.clone() } },
                Screen::Particulars(screen) => rsx! { particulars::ParticularsChange { screen: screen.clone() } },
                Screen::Reports(screen) => rsx! { lists::ReportsScreen { screen: screen.clone() } },
                Screen::Report(screen) => rsx! { report::ReportScreen { report: (**screen).clone() } },
                Screen::Desk(screen) => rsx! { desk::DeskForm { screen: screen.clone() } },
                Screen::Wishes(screen) => rsx! { wish::WishesScreen { screen: screen.clone() } },
                Screen::Wish(screen) => rsx! { wish::WishScreen { wish: (**screen).clone() } },
                Screen::NewPatchTest(screen) => rsx! { patch_tests::NewPatchTestScreen { screen: (**screen).clone() } },
                Screen::PatchTests(screen) => rsx! { patch_tests::PatchTestsScreen { screen: screen.clone() } },
                Screen::PatchTest(screen) => rsx! { patch_tests::PatchTestScreen { test: (**screen).clone() } },
                Screen::Notice(screen) => rsx! { NoticeScreen { notice: screen.clone() } },
            }
        }
        if signed_in {
            live::NewsLine {}
            live::SoundSwitch {}
        }
    }
}

/// Where the artist can go from every screen.
#[component]
fn Ways() -> Element {
    let page = use_page();
    let words = &page.words;
    let waiting = use_context::<live::LiveScreen>().waiting;
    let (reports, wishes) = (waiting.read().reports, waiting.read().wishes);
    rsx! {
        nav { aria_label: words.say("artist.ways.label"),
            a { href: "/studio", {words.say("artist.ways.today").to_owned()} }
            a { href: "/studio/visits/new", {words.say("artist.ways.record").to_owned()} }
            a { href: "/studio/reports",
                {words.say("artist.ways.reports").to_owned()}
                if reports > 0 {
                    " "
                    b { class: "count", "{reports}" }
                }
            }
            a { href: "/studio/wishes",
                {words.say("artist.ways.wishes").to_owned()}
                if wishes > 0 {
                    " "
                    b { class: "count", "{wishes}" }
                }
            }
            a { href: "/studio/practice", {words.say("artist.ways.practice").to_owned()} }
        }
        form { method: "post", action: "/studio/sign-out",
            Csrf {}
            button { r#type: "submit", class: "quiet", {words.say("artist.ways.sign_out").to_owned()} }
        }
    }
}

#[component]
fn NoticeScreen(notice: Notice) -> Element {
    rsx! {
        section { class: "narrow",
            h1 { "{notice.heading}" }
            p { "{notice.sentence}" }
            for (at, onward) in notice.onward.iter().enumerate() {
                p { key: "{at}", a { href: "{onward.address}", "{onward.text}" } }
            }
        }
    }
}
