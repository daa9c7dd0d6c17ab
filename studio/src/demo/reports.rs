//! What the demo's clients report, and what they were answered.

use chrono::{DateTime, TimeDelta, Utc};
use shared_types::{
    reaction::{Consents, Report, Told},
    urgency::{Answer, Answers, Field, Rules},
};

use super::{DemoError, Kind, Maker, id, scenario::Story};
use crate::{
    pages::trouble::{CONSENT_VERSION, consents},
    record::reports::{self, events},
};

impl Maker<'_> {
    /// The report of a story, where it has one.
    pub(super) fn report(
        &self,
        number: u32,
        story: &Story,
        finished_at: DateTime<Utc>,
    ) -> Result<(), DemoError> {
        let Some(told) = &story.report else {
            return Ok(());
        };
        let received = finished_at + TimeDelta::minutes(told.after_minutes);
        let rules = self.content.catalogue.urgency.compiled();
        let treatments: Vec<_> = story.treatments.to_vec();
        let report = Report {
            answers: answered(&rules, told.answers),
            places: told.places.to_vec(),
            words: told.words.to_owned(),
            reach: story.reach.to_owned(),
            consents: Consents {
                report: Some(CONSENT_VERSION.to_owned()),
                ..Consents::default()
            },
            told: None,
            photos: 0,
        }
        .tidied()
        .beside(&treatments, received - finished_at);
        let told_now = |report: &Report| Told::new(&report.judge(&rules), &self.content.version);
        let report = Report {
            told: Some(told_now(&report)),
            ..report
        };
        let words = self.content.languages.get(&self.particulars.language);
        let texts = words.map_or_else(Vec::new, |words| consents(words, &self.particulars.name));
        let id_of_report = id(Kind::Report, number);
        let new = reports::New {
            id: id_of_report,
            visit: id(Kind::Visit, number),
            link: id(Kind::Link, number),
            report: &report,
            judged: &told_now(&report),
            language: &self.particulars.language,
            texts: &texts,
        };
        reports::take(self.record, &new, received)?;
        if let Some(answer) = told.answer {
            let at = received + TimeDelta::minutes(50);
            events::answer(
                self.record,
                id(Kind::Event, number),
                id_of_report,
                answer,
                self.artist,
                at,
            )?;
            events::settle(
                self.record,
                id_of_report,
                self.artist,
                at + TimeDelta::days(2),
            )?;
        }
        Ok(())
    }
}

/// Everything that is asked answered with "no", but for these.
fn answered(rules: &Rules, given: &[(Field, &str)]) -> Answers {
    let asked = rules.questions.iter().flat_map(|question| &question.fields);
    let nothing = asked.fold(Answers::default(), |answers, field| {
        answers.with(*field, Answer::At(0))
    });
    given.iter().fold(nothing, |mut answers, (field, text)| {
        // A story tells only what the form offers; what it did not would stay "no".
        let _ = answers.put(*field, text);
        answers
    })
}
