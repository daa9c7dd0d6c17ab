//! The photos of the plain form, which the record takes together with their report.

use rusqlite::Transaction;
use uuid::Uuid;

use super::Holder;
use crate::{
    error::Refusal,
    handlers::posted_photos::{NotKept, Offered},
    photos::ToKeep,
    record::photos::{Taken, Whose},
    state::Studio,
};

/// What came with a report: photos that can be kept, and the names of those that cannot, and why.
pub struct OfForm {
    names: Vec<String>,
    to_keep: Vec<ToKeep>,
    not_kept: Vec<(String, NotKept)>,
}

impl OfForm {
    /// `consent` is the version of the words about photos that the report's sender agreed to.
    pub fn of(
        holder: &Holder,
        report: Uuid,
        consent: Option<String>,
        offered: Vec<Offered>,
    ) -> Self {
        let mut read = Self {
            names: Vec::new(),
            to_keep: Vec::new(),
            not_kept: Vec::new(),
        };
        for Offered { name, sent, photo } in offered {
            match (photo, &consent) {
                (Err(why), _) => read.not_kept.push((name, why)),
                (Ok(_), None) => read.not_kept.push((name, NotKept::NotAgreed)),
                (Ok(photo), Some(consent)) => {
                    read.names.push(name);
                    read.to_keep.push(ToKeep {
                        id: Uuid::new_v4(),
                        visit: holder.visit,
                        whose: Whose::Report {
                            report,
                            link: holder.link.id,
                        },
                        consent: consent.clone(),
                        agreed_to: String::new(),
                        photo,
                        sent,
                    });
                }
            }
        }
        read
    }

    /// Keeps them together with what `report` adds to the record: a stop in the middle leaves both or nothing. Gives the
    /// names of those that were not kept, and why; the report stands whatever becomes of them.
    ///
    /// # Errors
    /// What keeps the report from being taken.
    pub async fn keep(
        self,
        studio: &Studio,
        holder: &Holder,
        report: impl FnOnce(&Transaction<'_>) -> Result<(), Refusal> + Send + 'static,
    ) -> Result<Vec<(String, NotKept)>, Refusal> {
        let mut not_kept = self.not_kept;
        let kept = studio
            .photos
            .keep_with(&studio.record, report, self.to_keep, holder.now.0)
            .await?;
        for (name, kept) in self.names.into_iter().zip(kept) {
            match kept {
                Ok(Taken::New | Taken::Again(_) | Taken::IdInUse) => {}
                Ok(Taken::TooMany) => not_kept.push((name, NotKept::TooMany)),
                Err(error) => {
                    tracing::error!(%error, "a photo could not be put on disk");
                    not_kept.push((name, NotKept::Broken));
                }
            }
        }
        Ok(not_kept)
    }
}
