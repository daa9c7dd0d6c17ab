//! Answers as forms and JSON give them.

use shared_types::urgency::{Answer, Answers, Field};

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
