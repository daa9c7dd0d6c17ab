//! The browser numbers the parts of a page as it draws them, and must come to the numbers that the server wrote. So
//! a page drawn from its state, and again from that state after it travelled as JSON, must be the same to the byte.
#![cfg(not(target_arch = "wasm32"))]
#![allow(
    clippy::expect_used,
    reason = "stopping on the spot is how a test fails"
)]

mod support;

use std::rc::Rc;

use dioxus::prelude::*;
use shared_types::page::{
    client::{ClientPage, Still},
    trouble::TroublePage,
};

fn draw(page: ClientPage) -> String {
    let mut dom = VirtualDom::new(mobile::client::ClientApp).with_root_context(Rc::new(page));
    dom.rebuild_in_place();
    dioxus_ssr::pre_render(&dom)
}

fn travelled(page: &ClientPage) -> ClientPage {
    let json = serde_json::to_string(page).expect("a page can be written");
    serde_json::from_str(&json).expect("and read again")
}

/// The parts that never move stay behind: without them the page is the same to the byte, and its numbers are.
#[test]
fn the_client_page_is_drawn_the_same_after_travelling() {
    for hours in [0, 23, 24, 47, 200, 24 * 30, 24 * 120] {
        let page = support::client_page(hours);
        let after = draw(travelled(&page));
        let whole = draw(page.clone());
        assert_eq!(numbers(&after), numbers(&whole), "{hours} hours");
        let moving = ClientPage {
            still: Still::default(),
            ..page
        };
        assert_eq!(after, draw(moving), "{hours} hours after the visit");
    }
}

/// The numbers by which the browser finds the parts again, in their order.
fn numbers(drawn: &str) -> Vec<&str> {
    let marks = drawn.split("node-hydration=\"").skip(1);
    let marks = marks.filter_map(|rest| rest.split('"').next());
    let comments = drawn.split("<!--node-id").skip(1);
    marks
        .chain(comments.filter_map(|rest| rest.split("-->").next()))
        .collect()
}

#[test]
fn what_never_moves_is_drawn_as_the_server_has_it() {
    let drawn = draw(support::client_page(30));
    assert!(drawn.contains("><h1>For <em>Mara</em></h1></header>"));
}

#[test]
fn a_page_without_figures_and_reports_is_drawn_too() {
    let mut page = support::client_page(1);
    page.due = None;
    page.figures.clear();
    page.reports.clear();
    page.still = Still::default();
    let drawn = draw(page.clone());
    assert_eq!(draw(travelled(&page)), drawn);
    assert!(!drawn.contains("class=\"regrowth\""));
    assert!(!drawn.contains("id=\"reports\""));
}

/// The time that was agreed on stands at the top; a fresh form begins with the first good day.
#[test]
fn the_next_visit_is_said_and_asked_for() {
    let top = |page: ClientPage| draw(page).split("id=\"now\"").next().map(str::to_owned);
    let at_the_top = |page| top(page).is_some_and(|top| top.contains("client.wish.agreed"));
    assert!(at_the_top(support::client_page(30)));
    let mut none = support::client_page(30);
    none.wishes[0].agreed.clear();
    assert!(!at_the_top(none));
    let good = "value=\"2026-11-25\"";
    let mut page = support::client_page(30);
    assert!(draw(page.clone()).contains(good));
    page.form.put("date_2", "2026-12-01");
    page.form.put("wish_words", "");
    page.form.blame("date_2", "Please choose.");
    let drawn = draw(page);
    assert!(!drawn.contains(good), "what was typed stands alone");
    assert!(drawn.contains("value=\"2026-12-01\"") && drawn.contains("fault-date_2"));
}

/// A `style` attribute or an inline handler would be blocked by the content security policy.
#[test]
fn nothing_inline_is_written() {
    let mut trouble = support::trouble_page();
    trouble.still = support::trouble_still(&trouble);
    let drawn = draw(support::client_page(30)) + &draw_trouble(trouble);
    for forbidden in [" style=", " onclick=", "<script", "javascript:"] {
        assert!(!drawn.contains(forbidden), "{forbidden} in the page");
    }
}

#[test]
fn cautions_move_to_the_end_when_they_are_over() {
    let drawn = draw(support::client_page(30));
    let over = drawn.find("client.now.over").expect("some are over");
    assert!(drawn.find("No heat").expect("heat") < over);
    assert!(drawn.find("No water").expect("water") > over);
}

fn draw_trouble(page: TroublePage) -> String {
    let mut dom =
        VirtualDom::new(mobile::client::trouble::TroubleApp).with_root_context(Rc::new(page));
    dom.rebuild_in_place();
    dioxus_ssr::pre_render(&dom)
}

/// As the client's page; with a sentence to mend as well.
#[test]
fn the_page_of_what_to_do_is_drawn_the_same_after_travelling() {
    for field in ["", "words", "consent_photos"] {
        let mut page = support::trouble_page();
        if !field.is_empty() {
            page.form.blame(field, "Please mend <this>.");
        }
        let json = serde_json::to_string(&page).expect("a page can be written");
        let travelled: TroublePage = serde_json::from_str(&json).expect("and read again");
        assert_eq!(travelled.rules, page.rules);
        let after = draw_trouble(travelled);
        page.still = support::trouble_still(&page);
        let whole = draw_trouble(page);
        assert_eq!(numbers(&after), numbers(&whole), "{field}");
        assert_eq!(
            whole.contains("Please mend &#60;this&#62;."),
            !field.is_empty(),
            "{whole}"
        );
    }
}

/// What was typed stands in the form again, also without JavaScript, and cannot break out of it.
#[test]
fn a_form_sent_back_is_filled_in() {
    let mut page = support::trouble_page();
    for (field, value) in [
        ("words", "It burns </textarea><b>"),
        ("reach", "07700 \"900\""),
        ("breathing", "airway"),
        ("itch", "7"),
        ("trend", "worse"),
        ("places", "left_lid"),
        ("consent", "2026-12"),
    ] {
        page.form.put(field, value);
    }
    page.still = support::trouble_still(&page);
    let drawn = draw_trouble(page);
    assert_eq!(drawn.matches("checked=true").count(), 5, "{drawn}");
    assert!(drawn.contains(">It burns &lt;/textarea&gt;&lt;b&gt;</textarea>"));
    assert!(
        drawn.contains("value=\"07700 &#34;900&#34;\"")
            || drawn.contains("value=\"07700 &quot;900&quot;\""),
        "{drawn}"
    );
}

/// Once the time to come back is over, the page says what to do now.
#[test]
fn a_time_that_is_over_is_said_to_be() {
    let told = |hours| draw(support::client_page(hours)).contains(">Come back between");
    assert!(told(24 * 42) && !told(24 * 43));
    let after = draw(support::client_page(24 * 43));
    assert!(after.contains(">A good time was"));
    assert!(after.contains("client.weeks.come_back_now"));
}
