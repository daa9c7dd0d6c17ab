//! The phone's clock.

use chrono::{DateTime, Utc};

/// Whole minutes since an instant.
pub fn minutes_since(at: DateTime<Utc>) -> u32 {
    u32::try_from((now() - at).num_minutes().max(0)).unwrap_or(u32::MAX)
}

pub fn now() -> DateTime<Utc> {
    DateTime::from_timestamp_millis(js_sys::Date::now() as i64).unwrap_or_default()
}
