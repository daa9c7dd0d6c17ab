//! The phone's clock.

use chrono::{DateTime, Utc};

pub fn now() -> DateTime<Utc> {
    DateTime::from_timestamp_millis(js_sys::Date::now() as i64).unwrap_or_default()
}
