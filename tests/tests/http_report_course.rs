//! How it goes on after a report: the latest word is what the studio reads, what nobody has answered yet is not forgotten,
//! and what rises waits again.

#![cfg(test)]

use serde_json::{Value, json};
use shared_types::urgency::{Answer, Answers, Field, Scale};
use tests::{server::Server, visitor::Visitor, words::say};
use uuid::Uuid;

const INBOX: &str = "/studio/reports";

struct Told {
    server: Server,
    artist: Visitor,
    id: Uuid,
}

impl Told {
    /// A report with these answers has come in.
    fn with(answers: &Value) -> Self {
        let server = Server::demo();
        let artist = Visitor::demo_artist(&server);
        let id = Uuid::new_v4();
        let path = format!("{}/reports/{id}", server.client_links()[0]);
        let report = json!({
            "answers": answers, "places": [], "words": "About my lids.", "reach": "",
            "consents": {"report": "2026-12", "photos": null, "supplier": null}, "told": null, "photos": 0
        });
        let sent = Visitor::at(&server).put(&path, &report);
        assert_eq!(sent.status, 201, "{}", sent.body);
        Self { server, artist, id }
    }

    fn goes(&self, hours: u32, how: &str) {
        let link = &self.server.client_links()[0];
        let path = format!("{link}/reports/{}/follow-ups/{hours}", self.id);
        let said = Visitor::at(&self.server).put(&path, &json!({"how": how}));
        assert_eq!(said.status, 200, "{}", said.body);
    }

    fn does(&self, step: &str, fields: &[(&str, &str)]) {
        let path = format!("{INBOX}/{}/{step}", self.id);
        let done = self.artist.post_signed(INBOX, &path, fields);
        assert!([204, 303].contains(&done.status), "{}", done.body);
    }

    /// Its screen up to what was written: what an artist reads first.
    fn first_words(&self) -> String {
        let screen = self.artist.get(&format!("{INBOX}/{}", self.id)).text();
        let end = screen.find("About my lids.").expect("its words");
        screen[..end].to_owned()
    }

    /// Its line in the inbox, and whether that stands among those that wait.
    fn line(&self) -> (String, bool) {
        let page = self.artist.get(INBOX).body;
        let link = format!("href=\"{INBOX}/{}\"", self.id);
        let at = page.find(&link).expect("its line");
        let waits = ["artist.reports.answered", "artist.reports.settled"]
            .iter()
            .all(|title| {
                page.find(&format!(">{}<", say(title)))
                    .is_none_or(|title| at < title)
            });
        let end = page[at..].find("</li>").expect("its end");
        (page[at..at + end].to_owned(), waits)
    }
}

/// Every sign answered with no; an hour after the visit.
fn nothing() -> Answers {
    let asked = Field::ALL.iter().copied();
    let signs = asked.filter(|field| !matches!(field.scale(), Scale::Hours));
    let none = signs.fold(Answers::default(), |all, field| {
        all.with(field, Answer::At(0))
    });
    none.with(Field::HoursSinceVisit, Answer::At(60))
}

#[test]
fn the_latest_word_is_what_is_read_first() {
    let told = Told::with(&json!({"rash": "yes", "itch": 2, "trend": "better"}));
    told.does("seen", &[]);
    assert!(told.first_words().contains(&say("urgency.trend.better")));
    assert!(!told.line().0.contains(&say("artist.reports.is_new")));
    told.server.home.let_pass(25);
    told.goes(24, "worse");
    let first = told.first_words();
    assert!(first.contains(&say("urgency.trend.worse")), "{first}");
    assert!(!first.contains(&say("urgency.trend.better")), "{first}");
    let (line, waits) = told.line();
    assert!(
        waits && line.contains(&say("urgency.trend.worse")),
        "{line}"
    );
    assert!(!line.contains(&say("urgency.trend.better")), "{line}");
    assert!(line.contains(&say("artist.reports.is_new")), "{line}");
}

#[test]
fn feeling_better_takes_nothing_from_what_nobody_has_answered() {
    let told = Told::with(&json!({"swelling": "face", "trend": "worse"}));
    let emergency = say("artist.level.emergency");
    assert!(told.first_words().contains(&emergency));
    told.server.home.let_pass(25);
    told.goes(24, "better");
    assert!(told.first_words().contains(&emergency));
    assert!(told.line().0.contains("emergency"));
    // Once the studio has answered, the latest word counts.
    told.does("answer", &[("text", "Thank you for telling us.")]);
    assert!(!told.first_words().contains(&emergency));
    assert!(told.first_words().contains(&say("artist.level.same_day")));
}

/// Rule T9 of the reference's section 9: what is still there after 48 hours is for the studio.
#[test]
fn what_stays_the_same_for_too_long_waits_again() {
    let pink = nothing()
        .with(Field::Redness, Answer::At(1))
        .with(Field::Trend, Answer::At(1));
    let told = Told::with(&serde_json::to_value(&pink).expect("JSON"));
    assert!(told.first_words().contains(&say("artist.level.expected")));
    told.does("answer", &[("text", "Thank you.")]);
    told.does("settle", &[]);
    assert!(!told.line().1);
    told.server.home.let_pass(73);
    let waiting = told.server.home.count("waiting_reports");
    told.goes(72, "same");
    assert_eq!(told.server.home.count("waiting_reports"), waiting + 1);
    let (line, waits) = told.line();
    assert!(
        waits && line.contains(&say("artist.reports.is_new")),
        "{line}"
    );
    let first = told.first_words();
    assert!(first.contains(&say("artist.level.studio")), "{first}");
    // How long it has been is the reason, and stands among the first words.
    let lasted = say("artist.work.lasted");
    let after = lasted.split('}').nth(1).expect("words after the time");
    assert!(first.contains(after), "{first}");
}

#[test]
fn whoever_thinks_better_of_it_is_heard() {
    let told = Told::with(&json!({"rash": "yes"}));
    told.server.home.let_pass(25);
    let before = told.server.home.count("follow_ups");
    for (how, kept) in [("better", 1), ("better", 1), ("worse", 2), ("worse", 2)] {
        told.goes(24, how);
        assert_eq!(told.server.home.count("follow_ups"), before + kept, "{how}");
    }
    assert!(told.first_words().contains(&say("urgency.trend.worse")));
}

#[test]
fn what_nobody_answered_is_not_read_as_a_no() {
    let screen = |answers: &Value| {
        let told = Told::with(answers);
        told.artist.get(&format!("{INBOX}/{}", told.id)).text()
    };
    let unanswered = say("artist.work.unanswered");
    let silent = screen(&json!({"itch": 2}));
    let at = silent.find(&unanswered).expect("what is not answered");
    assert!(silent[at..].contains(&say("urgency.name.airway")));
    let all = serde_json::to_value(nothing().with(Field::Itch, Answer::At(2))).expect("JSON");
    assert!(!screen(&all).contains(&unanswered));
}

/// Asked for as long after a report as reports are taken after a visit: one of day 20 is asked until its day 7 and on.
#[test]
fn a_late_report_is_asked_after_too() {
    let told = Told::with(&json!({"rash": "yes"}));
    told.server.home.let_pass(7 * 24 + 1);
    let visit = "drop trigger if exists visits_stay; update visits set finished_at = finished_at - 2400000000";
    told.server
        .home
        .record()
        .execute_batch(visit)
        .expect("a change");
    let page = Visitor::at(&told.server).get(&told.server.client_links()[0]);
    assert!(page.text().contains(&say("client.follow.ask")));
}

/// Reading its page, whoever waits for an answer reads when one usually comes.
#[test]
fn when_an_answer_usually_comes_is_said_while_one_waits() {
    let told = Told::with(&json!({"rash": "yes"}));
    let page = || {
        Visitor::at(&told.server)
            .get(&told.server.client_links()[0])
            .text()
    };
    let reply = say("client.trouble.reply");
    let end = reply.rsplit('}').next().expect("the end").trim();
    assert!(page().contains(end));
    told.does("answer", &[("text", "Thank you.")]);
    assert!(!page().contains(end));
}
