//! A record to try photos on.

use chrono::{DateTime, Utc};
use rusqlite::params;
use uuid::Uuid;

use crate::record::{Origin, Record, RecordError};

pub const VISIT: Uuid = Uuid::from_u128(3);
pub const LINK: Uuid = Uuid::from_u128(4);
pub const REPORT: Uuid = Uuid::from_u128(5);
pub const ARTIST: Uuid = Uuid::from_u128(1);

/// A record with a visit, its link and a report.
pub fn with_a_report(folder: &std::path::Path) -> Record {
    let record = Record::open(folder, Origin::Real, now()).unwrap();
    record
        .write_now(|record| {
            let client = Uuid::from_u128(2);
            record.execute("insert into artists values (?1, 0, 'Ilse', 'ilse@studio.example', '')", [ARTIST])?;
            record.execute("insert into clients values (?1, 0, ?2, 'Noor', '')", params![client, ARTIST])?;
            record.execute(
                "insert into visits (id, client, finished_at, recorded_at, recorded_by, treatments, findings, products, note)
                 values (?1, ?2, 0, 0, ?3, '[]', '{}', '[]', '')",
                params![VISIT, client, ARTIST],
            )?;
            record.execute(
                "insert into links (id, visit, made_at, made_by, expires_at, secret_hash) values (?1, ?2, 0, ?3, 9, x'07')",
                params![LINK, VISIT, ARTIST],
            )?;
            // Whatever else a report has is nothing to photos.
            record.pragma_update(None, "ignore_check_constraints", true)?;
            let columns: Vec<String> = record
                .prepare("select name from pragma_table_info('reports') where name not in ('id', 'visit', 'link') and \"notnull\"")?
                .query_map([], |row| row.get(0))?
                .collect::<Result<_, _>>()?;
            let blanks: String = columns.iter().map(|name| if name == "received_at" || name.starts_with("photos") { ", 0" } else { ", ''" }).collect();
            record.execute(
                &format!("insert into reports (id, visit, link, {}) values (?1, ?2, ?3{blanks})", columns.join(", ")),
                params![REPORT, VISIT, LINK],
            )?;
            record.pragma_update(None, "ignore_check_constraints", false)?;
            Ok::<_, RecordError>(())
        })
        .unwrap();
    record
}

pub fn now() -> DateTime<Utc> {
    "2026-11-26T08:00:00Z".parse().unwrap()
}
