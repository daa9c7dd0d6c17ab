//! How far the record has come for one client's page.

use rusqlite::{Connection, OptionalExtension};

use super::{
    RecordError,
    links::{self, COLUMNS, Link},
};

/// What the page of a visit depends on beside the clock. Everything in it is only ever added to, so that counting is
/// enough: while the counts are the same, so is the page.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Stamp {
    reports: i64,
    report_events: i64,
    reports_seen: i64,
    follow_ups: i64,
    occasions: i64,
    wishes: i64,
    wish_events: i64,
    studio_version: i64,
    practice_version: i64,
}

impl Stamp {
    /// How often anything has changed that the entries of the client's calendar are made from: their SEQUENCE
    /// (RFC 5545 section 3.8.7.4).
    pub fn calendar_sequence(&self) -> u32 {
        u32::try_from(self.occasions + self.studio_version + self.practice_version)
            .unwrap_or(u32::MAX)
    }
}

/// A link, the stamp of its page, and the languages that its advice was given in, the first given first.
pub type Found = (Link, Stamp, Vec<String>);

/// What the link leads to whose secret has this SHA-256: one statement, since every request of a client's begins with
/// it. Looking a hash up gives away nothing about the secret by its timing.
pub fn of_link(record: &Connection, secret_hash: &[u8; 32]) -> Result<Option<Found>, RecordError> {
    let mut statement = record.prepare_cached(&format!(
        "select {COLUMNS},
                (select count(*) from reports where reports.visit = links.visit) as reports,
                (select count(*) from reports join report_events on report_events.report = reports.id
                 where reports.visit = links.visit) as report_events,
                (select count(*) from reports join report_seen on report_seen.report = reports.id
                 where reports.visit = links.visit) as reports_seen,
                (select count(*) from reports join follow_ups on follow_ups.report = reports.id
                 where reports.visit = links.visit) as follow_ups,
                (select count(*) from occasions where occasions.visit = links.visit) as occasions,
                (select count(*) from wishes where wishes.visit = links.visit) as wishes,
                (select count(*) from wishes join wish_events on wish_events.wish = wishes.id
                 where wishes.visit = links.visit) as wish_events,
                (select max(version) from studio_versions) as studio_version,
                (select count(*) from practice_versions) as practice_version,
                (select group_concat(language, ' ' order by place) from advice where advice.visit = links.visit) as languages
         from links where secret_hash = ?1"
    ))?;
    let found = statement.query_row([secret_hash], |row| {
        let stamp = Stamp {
            reports: row.get("reports")?,
            report_events: row.get("report_events")?,
            reports_seen: row.get("reports_seen")?,
            follow_ups: row.get("follow_ups")?,
            occasions: row.get("occasions")?,
            wishes: row.get("wishes")?,
            wish_events: row.get("wish_events")?,
            studio_version: row.get("studio_version")?,
            practice_version: row.get("practice_version")?,
        };
        let languages: Option<String> = row.get("languages")?;
        let languages = languages.unwrap_or_default();
        let languages = languages.split_whitespace().map(str::to_owned).collect();
        Ok((links::read(row)?, stamp, languages))
    });
    Ok(found.optional()?)
}
