//! Dates for the client's own calendar: the next visit, what to prepare for it, and the ends of the cautions, as an
//! iCalendar file (RFC 5545) and as a link into a calendar on the web.
//!
//! Calendars are shared, shown on lock screens and read by whoever runs them. So nothing here says what was done to
//! whom or what is used on the skin, and nothing holds the link's secret: titles name the studio, and the page says
//! the rest.

mod file;
mod items;
mod web;

use chrono::{DateTime, Utc};
use shared_types::care_plan::occasion::Occasion;
use uuid::Uuid;

use crate::{pages::occasion::Telling, record::studio::Particulars};

/// What a visit's dates are made from.
#[derive(Clone, Copy)]
pub struct Calendar<'a> {
    pub visit: Uuid,
    pub telling: Telling<'a>,
    pub studio: &'a Particulars,
    /// The date to look one's best for, planned back as on the day when it was given, so that no entry moves by
    /// itself.
    pub occasion: Option<&'a Occasion>,
    /// Raised whenever anything that an entry is made from has changed.
    pub sequence: u32,
    pub now: DateTime<Utc>,
}

impl Calendar<'_> {
    /// The file; `None` when nothing is left to come, for a calendar must hold something (RFC 5545 section 3.6).
    pub fn file(&self) -> Option<String> {
        let items = items::of(self);
        (!items.is_empty()).then(|| file::write(self, &items))
    }

    /// The address that writes the next visit into a calendar on the web, or else whatever comes first.
    pub fn web_address(&self) -> Option<String> {
        let items = items::of(self);
        let visit = items.iter().find(|item| item.key == items::NEXT_VISIT);
        visit
            .or(items.first())
            .map(|item| web::address(item, &self.contact()))
    }

    /// Who the dates are from, and how to reach them.
    fn contact(&self) -> String {
        let studio = self.studio;
        let ways = [&studio.name, &studio.phone, &studio.contact_email];
        let ways = ways.into_iter().map(|way| one_line(way));
        ways.filter(|way| !way.is_empty())
            .collect::<Vec<_>>()
            .join(" · ")
    }
}

/// A text without line breaks and other control characters, which have no place in a title.
fn one_line(text: &str) -> String {
    text.split(|c: char| c.is_control() || c.is_whitespace())
        .filter(|word| !word.is_empty())
        .collect::<Vec<_>>()
        .join(" ")
}
