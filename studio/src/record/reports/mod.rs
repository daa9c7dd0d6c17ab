//! Reports as they came, with what was told, agreed to, answered, and how it went on. What else happened to them is in
//! [`events`], the lists of them in [`inbox`].

pub mod consents;
pub mod events;
pub mod follow_ups;
pub mod inbox;

use chrono::{DateTime, Utc};
use rusqlite::{Connection, Row, params};
use shared_types::{
    reaction::{Consents, FollowUp, Report, Told},
    urgency::Level,
};
use uuid::Uuid;

use super::{
    RecordError,
    columns::{At, instant, json, maybe_instant, maybe_term, term, to_json},
    notices,
};
use consents::Text;
use follow_ups::Followed;

/// What became of a report that was sent.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Taken {
    /// It is in the record now.
    New,
    /// The very same report was there already; since when.
    Again(DateTime<Utc>),
    /// Another report has this id.
    IdInUse,
}

/// A report as the record holds it.
pub struct Held {
    pub id: Uuid,
    pub visit: Uuid,
    pub received_at: DateTime<Utc>,
    /// With what the phone had told.
    pub report: Report,
    /// What the studio decided.
    pub judged: Told,
    /// In which its sender read.
    pub language: String,
    pub seen_at: Option<DateTime<Utc>>,
    pub waiting: bool,
    /// Of the studio, oldest first.
    pub answers: Vec<Answer>,
    /// Oldest first.
    pub followed: Vec<Followed>,
}

impl Held {
    /// The level that counts: that of the latest word. A word that the studio has not answered yet keeps its level, also
    /// when its sender feels better since.
    pub fn level(&self) -> Level {
        let answered = self.answers.last().map(|answer| answer.at);
        let open = |at: DateTime<Utc>| answered.is_none_or(|answered| answered < at);
        let followed = self.followed.iter();
        let words = followed.map(|one| (one.answered_at, one.judged.level));
        let words = words.chain([(self.received_at, self.judged.level)]);
        let unanswered = words.filter(|(at, _)| open(*at)).map(|(_, level)| level);
        unanswered.fold(self.latest_level(), Level::max)
    }

    /// The level of the latest word about how it goes, else the report's own.
    pub fn latest_level(&self) -> Level {
        self.latest().1.level
    }

    /// The report as its sender said last how it goes, and what was decided on that.
    pub fn latest(&self) -> (Report, &Told) {
        match self.followed.last() {
            Some(one) => {
                let later = FollowUp { how: one.how };
                let since = one.answered_at - self.received_at;
                (later.upon(&self.report, since), &one.judged)
            }
            None => (self.report.clone(), &self.judged),
        }
    }

    /// Since when it waits for the studio: its arrival, or the last word that raised it.
    pub fn waits_since(&self) -> DateTime<Utc> {
        let raised = self.followed.iter().rfind(|one| one.raised);
        raised.map_or(self.received_at, |one| one.answered_at)
    }

    /// Whether nobody at the studio has looked at it since.
    pub fn is_unseen(&self) -> bool {
        self.seen_at.is_none_or(|at| at < self.waits_since())
    }

    /// Whether the studio has answered since then.
    pub fn is_answered(&self) -> bool {
        let since = self.waits_since();
        self.answers.iter().any(|answer| answer.at >= since)
    }
}

/// The studio's answer to a report.
pub struct Answer {
    pub by: String,
    pub at: DateTime<Utc>,
    pub text: String,
}

/// A report as it is to be added. It must be [tidied](Report::tidied), [beside](Report::beside) its visit and without
/// faults.
pub struct New<'a> {
    pub id: Uuid,
    pub visit: Uuid,
    pub link: Uuid,
    pub report: &'a Report,
    /// What the studio decided.
    pub judged: &'a Told,
    /// BCP 47, and the texts in it of what was agreed to.
    pub language: &'a str,
    pub texts: &'a [Text],
}

/// The columns that [`read_report`] and [`read_judged`] need.
const REPORT: &str = "reports.id, reports.visit, reports.received_at, reports.answers, reports.places, reports.words,
    reports.reach, reports.photos_announced, reports.language, reports.level, reports.rules, reports.advice,
    reports.content_version, reports.told_level, reports.told_rules, reports.told_advice, reports.told_content_version,
    (select version from report_consents where report = reports.id and purpose = 'report') as consent_report,
    (select version from report_consents where report = reports.id and purpose = 'photos') as consent_photos,
    (select version from report_consents where report = reports.id and purpose = 'supplier') as consent_supplier,
    (select at from report_seen where report = reports.id) as seen_at,
    exists (select 1 from waiting_reports where report = reports.id) as waiting";

fn read_report(row: &Row<'_>) -> Result<Report, RecordError> {
    let told = match maybe_term(row, "told_level")? {
        Some(level) => Some(Told {
            level,
            rules: json(row, "told_rules")?,
            advice: json(row, "told_advice")?,
            content_version: row.get("told_content_version")?,
        }),
        None => None,
    };
    Ok(Report {
        answers: json(row, "answers")?,
        places: json(row, "places")?,
        words: row.get("words")?,
        reach: row.get("reach")?,
        consents: Consents {
            report: row.get("consent_report")?,
            photos: row.get("consent_photos")?,
            supplier: row.get("consent_supplier")?,
        },
        told,
        photos: row.get("photos_announced")?,
    })
}

fn read_judged(row: &Row<'_>) -> Result<Told, RecordError> {
    Ok(Told {
        level: term(row, "level")?,
        rules: json(row, "rules")?,
        advice: json(row, "advice")?,
        content_version: row.get("content_version")?,
    })
}

fn read_held(record: &Connection, row: &Row<'_>) -> Result<Held, RecordError> {
    let id = row.get("id")?;
    Ok(Held {
        id,
        visit: row.get("visit")?,
        received_at: instant(row, "received_at")?,
        report: read_report(row)?,
        judged: read_judged(row)?,
        language: row.get("language")?,
        seen_at: maybe_instant(row, "seen_at")?,
        waiting: row.get("waiting")?,
        answers: answers_to(record, id)?,
        followed: follow_ups::of_report(record, id)?,
    })
}

/// What the record says about an id, before anything is added: `None` when it is free.
pub fn standing_of(
    record: &Connection,
    id: Uuid,
    visit: Uuid,
    report: &Report,
) -> Result<Option<Taken>, RecordError> {
    let Some(held) = by_id(record, id)? else {
        return Ok(None);
    };
    Ok(Some(
        if held.visit == visit && said_the_same(&held.report, report) {
            Taken::Again(held.received_at)
        } else {
            Taken::IdInUse
        },
    ))
}

/// Whether two reports say the same, whenever they arrived and whatever the studio added to their answers.
pub fn said_the_same(one: &Report, other: &Report) -> bool {
    let bare = |report: &Report| {
        let mut bare = report.clone();
        bare.answers.treatments.clear();
        bare.answers.set(
            shared_types::urgency::Field::HoursSinceVisit,
            shared_types::urgency::Answer::Open,
        );
        bare
    };
    bare(one) == bare(other)
}

/// Adds a report under the id that its sender made; the same report again under the same id adds nothing.
pub fn take(record: &Connection, new: &New<'_>, now: DateTime<Utc>) -> Result<Taken, RecordError> {
    let report = new.report;
    if let Some(taken) = standing_of(record, new.id, new.visit, report)? {
        return Ok(taken);
    }
    let told = report.told.as_ref();
    record.execute(
        "insert into reports (id, visit, link, received_at, answers, places, words, reach, photos_announced, language,
            level, rules, advice, content_version, told_level, told_rules, told_advice, told_content_version)
         values (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16, ?17, ?18)",
        params![
            new.id,
            new.visit,
            new.link,
            At(now),
            to_json(&report.answers)?,
            to_json(&report.places)?,
            report.words,
            report.reach,
            report.photos,
            new.language,
            new.judged.level.term(),
            to_json(&new.judged.rules)?,
            to_json(&new.judged.advice)?,
            new.judged.content_version,
            told.map(|told| told.level.term()),
            told.map(|told| to_json(&told.rules)).transpose()?,
            told.map(|told| to_json(&told.advice)).transpose()?,
            told.map(|told| told.content_version.as_str()),
        ],
    )?;
    consents::add(record, new, now)?;
    notices::enqueue(record, new.id, new.judged.level, now)?;
    Ok(Taken::New)
}

/// A visit's reports, newest first.
pub fn of_visit(record: &Connection, visit: Uuid) -> Result<Vec<Held>, RecordError> {
    let mut statement = record.prepare_cached(&format!(
        "select {REPORT} from reports where visit = ?1 order by received_at desc, rowid desc"
    ))?;
    let mut rows = statement.query([visit])?;
    let mut reports = Vec::new();
    while let Some(row) = rows.next()? {
        reports.push(read_held(record, row)?);
    }
    Ok(reports)
}

/// One report.
pub fn by_id(record: &Connection, id: Uuid) -> Result<Option<Held>, RecordError> {
    let mut statement =
        record.prepare_cached(&format!("select {REPORT} from reports where id = ?1"))?;
    let mut rows = statement.query([id])?;
    match rows.next()? {
        Some(row) => read_held(record, row).map(Some),
        None => Ok(None),
    }
}

fn answers_to(record: &Connection, report: Uuid) -> Result<Vec<Answer>, RecordError> {
    let mut statement = record.prepare_cached(
        "select name, at, text from report_events join artists on artists.id = report_events.made_by
         where report = ?1 and kind = 'answered' order by at, report_events.rowid",
    )?;
    let answers = statement
        .query_map([report], |row| {
            Ok(Answer {
                by: row.get("name")?,
                at: instant(row, "at")?,
                text: row.get("text")?,
            })
        })?
        .collect::<Result<_, _>>()?;
    Ok(answers)
}
