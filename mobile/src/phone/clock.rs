//! The phone's clock.

use chrono::{DateTime, Utc};
use shared_types::urgency::whole_minutes;

/// Whole minutes since an instant.
pub fn minutes_since(at: DateTime<Utc>) -> u32 {
    whole_minutes(now() - at)
}

pub fn now() -> DateTime<Utc> {
    DateTime::from_timestamp_millis(js_sys::Date::now() as i64).unwrap_or_default()
}
