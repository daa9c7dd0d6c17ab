//! The marked zones of the brows, visit by visit. Who marked them, and when, is the visit's.

use rusqlite::{Connection, Row, params};
use shared_types::zones::{Place, Zones};
use uuid::Uuid;

use super::RecordError;

/// Adds the marks of a visit that has just been added.
pub(super) fn add(record: &Connection, visit: Uuid, zones: &Zones) -> Result<(), RecordError> {
    let mut statement = record.prepare_cached(
        "insert into zone_marks (visit, side, zone, mark) values (?1, ?2, ?3, ?4)",
    )?;
    for (Place { side, zone }, mark) in zones.marked() {
        statement.execute(params![visit, side.term(), zone.term(), mark.term()])?;
    }
    Ok(())
}

/// The marks in the column `zones`: "side zone mark" for each, with commas; nothing when there is none.
pub(super) fn read(row: &Row<'_>) -> Result<Zones, RecordError> {
    let marks: Option<String> = row.get("zones")?;
    let mut zones = Zones::default();
    for marked in marks.iter().flat_map(|marks| marks.split(',')) {
        let mut terms = marked.split(' ').map(str::to_owned);
        let mut next = || terms.next().unwrap_or_default();
        let (side, zone, mark) = (next(), next(), next());
        let unreadable = |error| RecordError::Unreadable(format!("zone_marks: {error}"));
        let place = Place {
            side: side.parse().map_err(unreadable)?,
            zone: zone.parse().map_err(unreadable)?,
        };
        zones.set(place, Some(mark.parse().map_err(unreadable)?));
    }
    Ok(zones)
}
