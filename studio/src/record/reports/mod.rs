//! Reports, and what happened to each: answered, settled, opened again.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, OptionalExtension, Row, params};
use shared_types::{reaction::Report, visit::Treatment};
use uuid::Uuid;

use super::{
    RecordError,
    columns::{At, from_json, instant, to_json},
};

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
    pub report: Report,
    pub waiting: bool,
    /// Oldest first.
    pub answers: Vec<Answer>,
}

/// The studio's answer to a report.
pub struct Answer {
    pub by: String,
    pub at: DateTime<Utc>,
    pub text: String,
}

/// A report in the inbox.
pub struct Line {
    pub id: Uuid,
    pub received_at: DateTime<Utc>,
    pub report: Report,
    pub waiting: bool,
    pub answered: bool,
    pub first_name: String,
    pub treatments: Vec<Treatment>,
    pub visit_finished: DateTime<Utc>,
}

/// The columns that [`read_report`] needs.
const REPORT: &str =
    "reports.id, reports.visit, received_at, signs, since, trend, words, reports.reach, consent,
    exists (select 1 from waiting_reports where report = reports.id) as waiting";

fn read_report(row: &Row<'_>) -> Result<Report, RecordError> {
    let term = |column| -> Result<Option<String>, RecordError> {
        Ok(row.get::<_, Option<String>>(column)?)
    };
    let unreadable =
        |e: shared_types::reaction::UnknownTerm| RecordError::Unreadable(e.to_string());
    Ok(Report {
        signs: from_json(
            row.get_ref("signs")?
                .as_str()
                .map_err(rusqlite::Error::from)?,
        )?,
        since: term("since")?
            .map(|one| one.parse())
            .transpose()
            .map_err(unreadable)?,
        trend: term("trend")?
            .map(|one| one.parse())
            .transpose()
            .map_err(unreadable)?,
        words: row.get("words")?,
        reach: row.get("reach")?,
        consent: Some(row.get("consent")?),
    })
}

fn read_held(row: &Row<'_>) -> Result<Held, RecordError> {
    Ok(Held {
        id: row.get("id")?,
        visit: row.get("visit")?,
        received_at: instant(row, "received_at")?,
        report: read_report(row)?,
        waiting: row.get("waiting")?,
        answers: Vec::new(),
    })
}

/// What the record says about an id, before anything is added: `None` when it is free.
pub fn standing_of(
    record: &Connection,
    id: Uuid,
    visit: Uuid,
    report: &Report,
) -> Result<Option<Taken>, RecordError> {
    let mut statement =
        record.prepare_cached(&format!("select {REPORT} from reports where id = ?1"))?;
    let mut rows = statement.query([id])?;
    let Some(row) = rows.next()? else {
        return Ok(None);
    };
    let held = read_held(row)?;
    Ok(Some(if held.visit == visit && held.report == *report {
        Taken::Again(held.received_at)
    } else {
        Taken::IdInUse
    }))
}

/// Adds a report under the id that its sender made; the same report again under the same id adds nothing.
/// The report must be [tidied](Report::tidied) and without faults.
pub fn take(
    record: &Connection,
    id: Uuid,
    visit: Uuid,
    link: Uuid,
    report: &Report,
    now: DateTime<Utc>,
) -> Result<Taken, RecordError> {
    if let Some(taken) = standing_of(record, id, visit, report)? {
        return Ok(taken);
    }
    record.execute(
        "insert into reports (id, visit, link, received_at, signs, since, trend, words, reach, consent)
         values (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)",
        params![
            id,
            visit,
            link,
            At(now),
            to_json(&report.signs)?,
            report.since.map(|since| since.term()),
            report.trend.map(|trend| trend.term()),
            report.words,
            report.reach,
            report.consent,
        ],
    )?;
    Ok(Taken::New)
}

/// A visit's reports with their answers, newest first.
pub fn of_visit(record: &Connection, visit: Uuid) -> Result<Vec<Held>, RecordError> {
    let mut statement = record.prepare_cached(&format!(
        "select {REPORT} from reports where visit = ?1 order by received_at desc, rowid desc"
    ))?;
    let mut rows = statement.query([visit])?;
    let mut reports = Vec::new();
    while let Some(row) = rows.next()? {
        let mut held = read_held(row)?;
        held.answers = answers_to(record, held.id)?;
        reports.push(held);
    }
    Ok(reports)
}

/// One report with its answers.
pub fn by_id(record: &Connection, id: Uuid) -> Result<Option<Held>, RecordError> {
    let mut statement =
        record.prepare_cached(&format!("select {REPORT} from reports where id = ?1"))?;
    let mut rows = statement.query([id])?;
    let Some(row) = rows.next()? else {
        return Ok(None);
    };
    let mut held = read_held(row)?;
    held.answers = answers_to(record, id)?;
    Ok(Some(held))
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

/// When a report was settled last, whether or not it waits again.
pub fn settled_at(record: &Connection, report: Uuid) -> Result<Option<DateTime<Utc>>, RecordError> {
    let at: Option<At> = record
        .prepare_cached("select max(at) from report_events where report = ?1 and kind = 'settled'")?
        .query_row([report], |row| row.get(0))?;
    Ok(at.map(|at| at.0))
}

/// How many reports wait.
pub fn waiting_count(record: &Connection) -> Result<u32, RecordError> {
    Ok(record
        .prepare_cached("select count(*) from waiting_reports")?
        .query_row([], |row| row.get(0))?)
}

/// The reports that wait, newest first.
pub fn waiting(record: &Connection, limit: u32) -> Result<Vec<Line>, RecordError> {
    lines(
        record,
        &format!(
            "select {LINE} from waiting_reports join reports on reports.id = waiting_reports.report {VISIT}
             order by received_at desc limit ?1"
        ),
        limit,
    )
}

/// The reports that were settled, newest first.
pub fn settled(record: &Connection, limit: u32) -> Result<Vec<Line>, RecordError> {
    lines(
        record,
        &format!(
            "select {LINE} from reports {VISIT}
             where not exists (select 1 from waiting_reports where report = reports.id)
             order by received_at desc limit ?1"
        ),
        limit,
    )
}

const LINE: &str = "reports.id, reports.visit, received_at, signs, since, trend, words, reports.reach, consent,
    exists (select 1 from waiting_reports where report = reports.id) as waiting,
    exists (select 1 from report_events where report = reports.id and kind = 'answered') as answered,
    first_name, treatments, finished_at";
const VISIT: &str =
    "join visits on visits.id = reports.visit join clients on clients.id = visits.client";

fn lines(record: &Connection, select: &str, limit: u32) -> Result<Vec<Line>, RecordError> {
    let mut statement = record.prepare_cached(select)?;
    let mut rows = statement.query([limit])?;
    let mut lines = Vec::new();
    while let Some(row) = rows.next()? {
        lines.push(Line {
            id: row.get("id")?,
            received_at: instant(row, "received_at")?,
            report: read_report(row)?,
            waiting: row.get("waiting")?,
            answered: row.get("answered")?,
            first_name: row.get("first_name")?,
            treatments: from_json(
                row.get_ref("treatments")?
                    .as_str()
                    .map_err(rusqlite::Error::from)?,
            )?,
            visit_finished: instant(row, "finished_at")?,
        });
    }
    Ok(lines)
}

/// Adds an answer. The same id and text again add nothing; the same id with another text, which is a form filled in
/// again after going back, is another answer.
pub fn answer(
    record: &Connection,
    id: Uuid,
    report: Uuid,
    text: &str,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    let before: Option<String> = record
        .prepare_cached("select text from report_events where id = ?1 and kind = 'answered'")?
        .query_row([id], |row| row.get(0))
        .optional()?;
    let id = match before {
        Some(before) if before == text => return Ok(()),
        Some(_) => Uuid::new_v4(),
        None => id,
    };
    record.execute(
        "insert into report_events (id, report, kind, at, made_by, text) values (?1, ?2, 'answered', ?3, ?4, ?5)",
        params![id, report, At(now), by, text],
    )?;
    Ok(())
}

/// Settles a report that waits.
pub fn settle(
    record: &Connection,
    report: Uuid,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    record.execute(
        "insert into report_events (id, report, kind, at, made_by, text)
         select ?1, report, 'settled', ?3, ?4, '' from waiting_reports where report = ?2",
        params![Uuid::new_v4(), report, At(now), by],
    )?;
    Ok(())
}

/// Lets a settled report wait again.
pub fn reopen(
    record: &Connection,
    report: Uuid,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    record.execute(
        "insert into report_events (id, report, kind, at, made_by, text)
         select ?1, id, 'reopened', ?3, ?4, '' from reports
         where id = ?2 and not exists (select 1 from waiting_reports where report = ?2)",
        params![Uuid::new_v4(), report, At(now), by],
    )?;
    Ok(())
}
