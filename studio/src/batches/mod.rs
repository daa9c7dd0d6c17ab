//! Reactions after one batch of a product against all other visits of the studio.
//!
//! The studio knows every visit, so this is a comparison of two shares, not of reports among reports. It counts visits, one
//! for each client and day. With so few an exact test is used; one serious report outranks any statistic. Nothing here
//! says what caused a reaction.

mod compared;
mod exact;
mod judged;
mod signs;

pub use compared::{Compared, Counted, Counts, ExactTest, Share, compare};
pub use exact::{chi_square_yates, interval, one_sided, ratio};
pub use judged::{Because, Judged, Serious, Stand, judge};
pub use signs::signs;

/// Visits that used something, or did not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Group {
    /// Visits after which a reaction was reported; at most `visits`.
    pub reactions: u32,
    pub visits: u32,
}

impl Group {
    /// The share with a reaction; `None` without visits.
    pub fn rate(self) -> Option<f64> {
        (self.visits > 0).then(|| f64::from(self.reactions) / f64::from(self.visits))
    }
}
