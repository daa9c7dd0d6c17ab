//! Answers as forms and JSON give them.

use shared_types::urgency::{Answer, Answers, Field, HOURS_MOST};

fn hours(text: &str) -> Option<Answer> {
    let mut answers = Answers::default();
    let put = answers.put(Field::OnsetHours, text);
    put.ok().map(|()| answers.get(Field::OnsetHours))
}

/// Found by Schemathesis: more digits than a number of this machine has were refused.
#[test]
fn hours_may_have_many_digits() {
    let minutes = |minutes| Some(Answer::At(minutes));
    assert_eq!(hours("88.5"), minutes(5310));
    assert_eq!(hours("00088.500000000000000000000000001"), minutes(5310));
    assert_eq!(hours("88.546752833968129547852"), minutes(5313));
    for text in ["88.", "88.5 ", "88.5e1", "88.-5", ".5", "88.5.1"] {
        assert_eq!(hours(text), None, "{text}");
    }
}

/// A report is taken all the same; the command line says what does not fit.
#[test]
fn a_sign_later_than_now_is_out_of_order() {
    let began = |onset| {
        let visit = Answers::default().with(Field::HoursSinceVisit, Answer::At(60));
        visit.with(Field::OnsetHours, Answer::At(onset))
    };
    assert_eq!(began(60).in_order(), Ok(began(60)));
    let error = began(61).in_order().unwrap_err().to_string();
    assert!(error.starts_with("onset_hours: given `1:01`"), "{error}");
    let read: Answers = serde_json::from_str(r#"{"hours_since_visit":1,"onset_hours":2}"#).unwrap();
    assert_eq!(read, began(120));
}

/// Nobody remembers the minute: when it began may lie between two times, the second of them up to now.
#[test]
fn a_beginning_may_lie_between_two_times() {
    let between = |text: &str| {
        let mut answers = Answers::default();
        answers.put(Field::OnsetHours, text).ok()?;
        Some((answers.begun_from()?, answers.get(Field::OnsetHours)))
    };
    let minutes = |from, to| Some((from, Answer::At(to)));
    assert_eq!(between("6-12"), minutes(360, 720));
    assert_eq!(between("12-6"), minutes(360, 720));
    assert_eq!(between("0:30-1.5"), minutes(30, 90));
    assert_eq!(between("72-"), minutes(4320, HOURS_MOST * 60));
    assert_eq!(between("13"), minutes(780, 780));
    for text in ["-", "-6", "6--12", "6-12-24", "6-x", "0-87601"] {
        assert_eq!(between(text), None, "{text}");
    }
    let visit = Answers::default().put(Field::HoursSinceVisit, "6-12");
    assert!(visit.is_err());
    for text in ["6-12", "72-", "0-0", "13"] {
        let mut answers = Answers::default();
        answers.put(Field::OnsetHours, text).unwrap();
        let json = serde_json::to_string(&answers).unwrap();
        let again: Answers = serde_json::from_str(&json).unwrap();
        assert_eq!(again, answers, "{json}");
        let later = answers.with(Field::OnsetHours, Answer::At(60));
        assert_eq!(
            later.begun_from(),
            Some(60),
            "another answer is another time"
        );
    }
}

/// Where it may have begun by now it is in order, and is kept as it was answered.
#[test]
fn between_two_times_it_began_before_now() {
    let began = |time: &str| {
        let mut answers = Answers::default().with(Field::HoursSinceVisit, Answer::At(40 * 60));
        answers.put(Field::OnsetHours, time).unwrap();
        answers
    };
    assert_eq!(began("24-48").in_order(), Ok(began("24-48")));
    assert!(began("48-72").in_order().is_err());
}
