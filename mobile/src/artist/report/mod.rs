//! One report: what raised it comes first, then what else was said and told; its visit beside it; and what the artist
//! adds.

mod answer;
mod not_again;
mod outcome;
mod said;

use dioxus::prelude::*;
use shared_types::page::reports::ReportView;

use super::{
    before::BeforeOfVisit,
    life,
    lists::ReportLines,
    use_page,
    visit::{Facts, Told},
    waits::SettlePart,
};
use answer::AnswerPart;
use not_again::NotAgainForm;
pub(super) use not_again::not_again_list;
use outcome::OutcomeSection;
use said::{FollowedPart, PhotosPart, RaisedPart, SaidPart, ToldPart};

#[component]
pub(super) fn ReportScreen(report: ReportView) -> Element {
    let page = use_page();
    let words = &page.words;
    let visit = &report.visit;
    let done = words.list(&visit.done);
    let address = format!("/studio/reports/{}", report.id);
    life::use_seen(
        format!("{address}/seen"),
        &page.csrf,
        report.seen.is_empty(),
    );
    rsx! {
        div { class: "title-line",
            h1 { {words.fill("artist.report.title", &[("name", &visit.first_name)])} }
            p { {words.fill("artist.report.received", &[("when", &report.received.text), ("after", &report.after_visit)])} }
        }
        div { class: "two report",
            div {
                RaisedPart { report: report.clone() }
                SaidPart { said: report.said.clone() }
                FollowedPart { lines: report.followed.clone() }
                PhotosPart { photos: report.photos.clone(), to_come: report.photos_to_come.clone() }
                AnswerPart { report: report.clone() }
                SettlePart { address: address.clone(), settled: report.settled.clone() }
                div { class: "after",
                    OutcomeSection { address: address.clone(), part: report.outcome.clone() }
                    NotAgainForm { address: address.clone(), name: visit.first_name.clone(), part: report.not_again.clone() }
                }
            }
            div { class: "beside",
                section {
                    h2 { {words.say("artist.report.visit").to_owned()} }
                    p {
                        a { href: "/studio/visits/{visit.id}",
                            {words.fill("artist.visit.done", &[("done", &done), ("when", &visit.finished.text)])}
                        }
                    }
                    {not_again_list(&visit.not_again, words)}
                }
                Facts { visit: visit.clone() }
                section {
                    h2 { {words.say("artist.work.patch_tests").to_owned()} }
                    if report.patch_tests.is_empty() {
                        p { class: "hint", {words.say("artist.work.no_patch_test").to_owned()} }
                    }
                    for (at, test) in report.patch_tests.iter().enumerate() {
                        p { key: "{at}", "{test}" }
                    }
                }
                BeforeOfVisit { visit: visit.clone() }
                ToldPart { told: report.told.clone() }
                Told { visit: visit.clone(), title: words.say("artist.visit.told").to_owned() }
                if !report.others.is_empty() {
                    section {
                        h2 { {words.fill("artist.work.others", &[("name", &visit.first_name)])} }
                        ReportLines { lines: report.others.clone() }
                    }
                }
                section {
                    h2 { {words.say("artist.work.agreed_title").to_owned()} }
                    ul {
                        for (at, line) in report.consents.iter().enumerate() {
                            li { key: "{at}", "{line}" }
                        }
                    }
                }
            }
        }
    }
}
