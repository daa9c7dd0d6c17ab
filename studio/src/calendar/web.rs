//! A link that fills in an entry of a calendar on the web, for phones that do not know what to do with a file. It
//! tells nobody anything until it is followed.

use chrono::{Days, NaiveDate, TimeDelta};

use super::items::{Item, When};

const PAGE: &str = "https://calendar.google.com/calendar/render";
/// Such a page wants an end that lies after the beginning.
const MOMENT: TimeDelta = TimeDelta::minutes(15);

pub fn address(item: &Item, details: &str) -> String {
    let dates = match item.when {
        When::At(at) => {
            let utc = |at: chrono::DateTime<chrono::Utc>| at.format("%Y%m%dT%H%M%SZ").to_string();
            format!("{}/{}", utc(at), utc(at + MOMENT))
        }
        When::Days(span) => {
            let day = |day: NaiveDate| day.format("%Y%m%d").to_string();
            let end = span.until.checked_add_days(Days::new(1));
            format!("{}/{}", day(span.from), day(end.unwrap_or(span.until)))
        }
    };
    let query = form_urlencoded::Serializer::new(String::new())
        .append_pair("action", "TEMPLATE")
        .append_pair("text", &item.title)
        .append_pair("dates", &dates)
        .append_pair("details", details)
        .finish();
    format!("{PAGE}?{query}")
}
