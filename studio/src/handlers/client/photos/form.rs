//! The photos of the plain form, once its report is in the record.

use uuid::Uuid;

use super::Holder;
use crate::{
    error::Refusal,
    handlers::posted_photos::{NotKept, Offered},
    photos::ToKeep,
    record::photos::{Taken, Whose, announced},
    state::Studio,
};

/// Keeps those that came with a report of the holder's visit; gives the names of those that were not, and why. The report
/// stays whatever becomes of them.
///
/// # Errors
/// Only where the record or the disk fails.
pub async fn keep_of_form(
    studio: &Studio,
    holder: &Holder,
    report: Uuid,
    photos: Vec<Offered>,
) -> Result<Vec<(String, NotKept)>, Refusal> {
    let visit = holder.visit;
    let found = studio
        .record
        .look(|record| announced(record, visit, report))?;
    let consent = found.and_then(|found| found.consent);
    let mut not_kept = Vec::new();
    for Offered { name, sent, photo } in photos {
        let photo = match (photo, &consent) {
            (Err(why), _) => {
                not_kept.push((name, why));
                continue;
            }
            (Ok(_), None) => {
                not_kept.push((name, NotKept::NotAgreed));
                continue;
            }
            (Ok(photo), Some(_)) => photo,
        };
        let to_keep = ToKeep {
            id: Uuid::new_v4(),
            visit,
            whose: Whose::Report {
                report,
                link: holder.link.id,
            },
            consent: consent.clone().unwrap_or_default(),
            agreed_to: String::new(),
            photo,
            sent,
        };
        match studio
            .photos
            .keep(&studio.record, to_keep, holder.now.0)
            .await?
        {
            Taken::New | Taken::Again(_) | Taken::IdInUse => {}
            Taken::TooMany => not_kept.push((name, NotKept::TooMany)),
        }
    }
    Ok(not_kept)
}
