//! The schema grows by numbered files, each run once, in order, whole or not at all.

use rusqlite::Connection;

use super::RecordError;

/// In order; the count that has been run is SQLite's `user_version`. A file that has been released is never edited.
const STEPS: &[&str] = &[
    include_str!("schema/0001_first_record.sql"),
    include_str!("schema/0002_practice.sql"),
    include_str!("schema/0003_observations_and_flags.sql"),
    include_str!("schema/0004_zones.sql"),
    include_str!("schema/0005_occasions.sql"),
    include_str!("schema/0006_wishes.sql"),
    include_str!("schema/0007_languages.sql"),
];

/// Brings the schema up to date.
pub fn run(connection: &mut Connection) -> Result<(), RecordError> {
    let known = STEPS.len() as i64;
    let found: i64 = connection.pragma_query_value(None, "user_version", |row| row.get(0))?;
    if found > known {
        return Err(RecordError::Newer { found, known });
    }
    for (number, step) in (1..).zip(STEPS).skip(usize::try_from(found).unwrap_or(0)) {
        let transaction = connection.transaction()?;
        transaction.execute_batch(step)?;
        transaction.pragma_update(None, "user_version", number)?;
        transaction.commit()?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_second_run_changes_nothing() {
        let mut connection = Connection::open_in_memory().unwrap();
        run(&mut connection).unwrap();
        run(&mut connection).unwrap();
        let version: i64 = connection
            .pragma_query_value(None, "user_version", |row| row.get(0))
            .unwrap();
        assert_eq!(version, STEPS.len() as i64);
    }

    /// As a studio's record was before advice was kept in every language.
    #[test]
    fn advice_from_before_is_still_there_and_still_stays() {
        let mut connection = Connection::open_in_memory().unwrap();
        for step in &STEPS[..6] {
            connection.execute_batch(step).unwrap();
        }
        connection.pragma_update(None, "user_version", 6).unwrap();
        let artist = "insert into artists values (x'01', 0, '', 'a@b', '')";
        let client = "insert into clients values (x'02', 0, x'01', '', '')";
        let visit = "insert into visits (id, client, finished_at, recorded_at, recorded_by, treatments, findings, products, note)
                     values (zeroblob(16), x'02', 0, 0, x'01', '[]', '[]', '[]', '')";
        let advice = "insert into advice values (zeroblob(16), 'en', '1-0', '{}', zeroblob(32))";
        for insert in [artist, client, visit, advice] {
            connection.execute(insert, []).unwrap();
        }
        run(&mut connection).unwrap();
        let given = super::super::advice::of_visit(&connection, uuid::Uuid::nil(), "fr").unwrap();
        assert_eq!(
            [given.language, given.content_version, given.body],
            ["en", "1-0", "{}"]
        );
        let change = connection.execute("update advice set body = ''", []);
        assert!(
            change
                .unwrap_err()
                .to_string()
                .contains("never overwritten")
        );
    }

    #[test]
    fn a_newer_record_is_left_alone() {
        let mut connection = Connection::open_in_memory().unwrap();
        connection.pragma_update(None, "user_version", 99).unwrap();
        assert!(matches!(
            run(&mut connection),
            Err(RecordError::Newer { found: 99, .. })
        ));
    }
}
