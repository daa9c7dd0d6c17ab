//! What the studio adds to a report that a phone sent, and when it is asked again how it goes.

use chrono::{DateTime, TimeDelta, Utc};
use shared_types::{
    page::form::Filled,
    reaction::{Consents, FollowUp, FollowUps, How, Place, Report},
    urgency::{Answer, Answers, Field},
    visit::Treatment,
};

fn report(minutes: u32) -> Report {
    Report {
        answers: Answers::default().with(Field::HoursSinceVisit, Answer::At(minutes)),
        places: Vec::new(),
        words: String::new(),
        reach: String::new(),
        consents: Consents::default(),
        told: None,
        photos: 0,
    }
}

/// A report that waited on the phone is judged by the time at which it was answered, and no phone's clock can make a visit
/// older than it is.
#[test]
fn the_time_of_the_answers_counts_within_what_has_passed() {
    let since = |sent: Report| {
        let kept = sent.beside(&[Treatment::LashTint], TimeDelta::minutes(100));
        assert_eq!(kept.answers.treatments, [Treatment::LashTint]);
        kept.answers.get(Field::HoursSinceVisit)
    };
    assert_eq!(since(report(40)), Answer::At(40));
    assert_eq!(since(report(101)), Answer::At(100));
    let mut unsaid = report(0);
    unsaid.answers.set(Field::HoursSinceVisit, Answer::Open);
    assert_eq!(since(unsaid.clone()), Answer::At(100));
    unsaid.answers.treatments = vec![Treatment::BrowWax];
    assert_eq!(since(unsaid), Answer::At(100));
    let future = report(3).beside(&[], TimeDelta::minutes(-5));
    assert_eq!(future.answers.get(Field::HoursSinceVisit), Answer::At(0));
}

/// Nothing began after it was told.
#[test]
fn a_beginning_lies_before_now() {
    let mut sent = report(90);
    sent.answers.set(Field::OnsetHours, Answer::At(6 * 60));
    let kept = sent.beside(&[], TimeDelta::minutes(90));
    assert_eq!(kept.answers.get(Field::OnsetHours), Answer::At(90));
    // Between two times it may have: what was answered stays.
    let mut between = report(90);
    between.answers.put(Field::OnsetHours, "0-6").unwrap();
    let kept = between.beside(&[], TimeDelta::minutes(90));
    assert_eq!(kept.answers.text(Field::OnsetHours).as_deref(), Some("0-6"));
    let mut between = report(90);
    between.answers.put(Field::OnsetHours, "6-12").unwrap();
    let kept = between.beside(&[], TimeDelta::minutes(90));
    assert_eq!(
        kept.answers.text(Field::OnsetHours).as_deref(),
        Some("1:30")
    );
}

#[test]
fn a_report_needs_an_answer_or_words_and_consents_of_its_own() {
    let keys =
        |report: &Report| -> Vec<&str> { report.faults().iter().map(|fault| fault.key).collect() };
    let empty = report(90);
    assert_eq!(keys(&empty), ["fault.report_empty", "fault.consent"]);
    let mut told = report(90);
    told.answers.set(Field::Itch, Answer::NotSure);
    told.consents.report = Some("1".to_owned());
    assert!(keys(&told).is_empty());
    told.photos = 2;
    assert_eq!(keys(&told), ["fault.consent_photos"]);
    told.consents.photos = Some("1".to_owned());
    assert!(keys(&told).is_empty());
    told.photos = 5;
    assert_eq!(keys(&told), ["fault.photos_many"]);
}

#[test]
fn places_stand_once_and_in_order() {
    let mut form = Filled::default();
    for place in ["left_lid", "right_brow", "left_lid"] {
        form.put("places", place);
    }
    let read = Report::from_form(Answers::default(), &form).unwrap();
    assert_eq!(read.places, [Place::RightBrow, Place::LeftLid]);
    form.put("places", "knee");
    assert!(Report::from_form(Answers::default(), &form).is_err());
}

fn at(hours: i64) -> DateTime<Utc> {
    DateTime::UNIX_EPOCH + TimeDelta::hours(hours)
}

#[test]
fn each_question_is_asked_from_its_time_to_the_next() {
    let asked = FollowUps(vec![24, 72, 168]);
    let due = |now| asked.due(at(0), at(now), at(21 * 24));
    assert_eq!(due(23), None);
    assert_eq!(due(24), Some(24));
    assert_eq!(due(71), Some(24));
    assert_eq!(due(72), Some(72));
    assert_eq!(due(168), Some(168));
    assert_eq!(due(21 * 24), Some(168));
    assert_eq!(due(21 * 24 + 1), None);
    let next = |now| asked.next(at(0), at(now));
    assert_eq!(next(0), Some(at(24)));
    assert_eq!(next(24), Some(at(72)));
    assert_eq!(next(168), None);
}

#[test]
fn how_it_goes_runs_through_the_same_answers_later() {
    let mut first = report(60);
    first.answers.set(Field::Rash, Answer::At(1));
    let later = FollowUp { how: How::Worse }.upon(&first, TimeDelta::hours(24));
    assert_eq!(later.answers.text(Field::Trend).as_deref(), Some("worse"));
    assert_eq!(later.answers.get(Field::Rash), Answer::At(1));
    assert_eq!(
        later.answers.get(Field::HoursSinceVisit),
        Answer::At(25 * 60)
    );
}

/// The words of the answer are those of the question in the rules.
#[test]
fn one_scale_for_how_it_goes() {
    for how in How::ALL {
        let mut answers = Answers::default();
        assert!(answers.put(Field::Trend, how.term()).is_ok(), "{how}");
    }
}
