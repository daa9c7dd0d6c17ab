//! What a client's pages are made from.

use chrono::{DateTime, Utc};
use shared_types::{care_plan::Practice, visit::Treatment};

use super::super::wall::Wall;
use crate::{
    advice::Advice,
    error::Refusal,
    handlers::client::Holder,
    record::{
        RecordError, advice as given,
        clients::Client,
        links::{Link, Opens},
        occasions::{self, Date},
        reports, studio, versions, visits, wishes,
    },
    state::Studio,
};

/// What a page is made from, read in one go.
pub struct Source {
    pub studio: studio::Particulars,
    pub client: Client,
    pub finished_at: DateTime<Utc>,
    pub treatments: Vec<Treatment>,
    pub advice: Advice,
    pub content_version: String,
    /// Of that advice, as it is kept.
    pub sha256: [u8; 32],
    pub language: String,
    pub artist: String,
    pub reports: Vec<reports::Held>,
    /// The date to look one's best for.
    pub date: Option<Date>,
    /// As the studio works now.
    pub practice: Practice,
    pub wishes: Vec<wishes::Held>,
}

impl Source {
    /// The clock on the studio's wall, in the page's language.
    pub fn wall<'a>(&'a self, studio: &'a Studio) -> Wall<'a> {
        Wall {
            words: studio.words(&self.language).1,
            zone: self.studio.time_zone,
        }
    }
}

/// Reads what the page of a link shows to its holder.
pub fn read(studio: &Studio, holder: &Holder) -> Result<Source, Refusal> {
    read_in(studio, &holder.link, &holder.language)
}

/// Reads what the page of a link shows in a language.
pub fn read_in(studio: &Studio, link: &Link, language: &str) -> Result<Source, Refusal> {
    let source = studio.record.read(|record| {
        let gone = || RecordError::Unreadable("a link without its visit".to_owned());
        let Opens::Visit(id) = link.opens else {
            return Err(gone());
        };
        let (visit, client) = visits::by_id(record, id)?.ok_or_else(gone)?;
        let given = given::of_visit(record, id, language)?;
        Ok(Source {
            studio: studio::current(record)?.ok_or_else(gone)?,
            advice: Advice::read(&given)?,
            content_version: given.content_version,
            sha256: given.sha256,
            artist: visits::recorded_by(record, id)?,
            reports: reports::of_visit(record, id)?,
            date: occasions::of_visit(record, id)?,
            practice: versions::current(record)?,
            wishes: wishes::of_visit(record, id)?,
            client,
            finished_at: visit.finished_at,
            treatments: visit.treatments,
            language: given.language,
        })
    })?;
    Ok(source)
}
