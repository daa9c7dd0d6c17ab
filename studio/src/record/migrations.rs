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
    include_str!("schema/0008_patch_tests.sql"),
    include_str!("schema/0009_consultations.sql"),
    include_str!("schema/0010_own_advice.sql"),
    include_str!("schema/0011_reports_by_questions.sql"),
    include_str!("schema/0012_photos.sql"),
    include_str!("schema/0013_notices.sql"),
    include_str!("schema/0014_artist_at_work.sql"),
    include_str!("schema/0015_notice_recipients.sql"),
];

/// Brings the schema up to date.
pub fn run(connection: &mut Connection) -> Result<(), RecordError> {
    let known = STEPS.len() as i64;
    let found: i64 = connection.pragma_query_value(None, "user_version", |row| row.get(0))?;
    if found > known {
        return Err(RecordError::Newer { found, known });
    }
    // A table that is made anew is dropped for a moment, so what refers to it is checked at the end of each step and not on
    // the way (SQLite, "Making Other Kinds Of Table Schema Changes").
    connection.pragma_update(None, "foreign_keys", "off")?;
    for (number, step) in (1..).zip(STEPS).skip(usize::try_from(found).unwrap_or(0)) {
        let transaction = connection.transaction()?;
        transaction.execute_batch(step)?;
        check_references(&transaction)?;
        transaction.pragma_update(None, "user_version", number)?;
        transaction.commit()?;
    }
    connection.pragma_update(None, "foreign_keys", "on")?;
    Ok(())
}

fn check_references(connection: &Connection) -> Result<(), RecordError> {
    let broken: i64 =
        connection.query_row("select count(*) from pragma_foreign_key_check", [], |row| {
            row.get(0)
        })?;
    if broken > 0 {
        let what = format!("{broken} rows refer to something that is not there");
        return Err(RecordError::Unreadable(what));
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

    /// The record of a studio from before there were patch tests keeps its links, and what happened to them.
    #[test]
    fn links_outlive_the_table_they_were_in() {
        let mut connection = Connection::open_in_memory().unwrap();
        for step in &STEPS[..7] {
            connection.execute_batch(step).unwrap();
        }
        connection.pragma_update(None, "user_version", 7).unwrap();
        connection
            .execute_batch(
                "pragma foreign_keys = on;
                 insert into artists values (x'01', 0, 'Ilse', 'ilse@studio.example', '');
                 insert into clients values (x'02', 0, x'01', 'Noor', '');
                 insert into visits (id, client, finished_at, recorded_at, recorded_by, treatments, findings, products, note)
                     values (x'03', x'02', 0, 0, x'01', '[]', '{}', '[]', '');
                 insert into links values (x'04', x'03', 7, x'01', 9, x'05');
                 insert into link_events values (x'04', 'opened', 8, null);",
            )
            .unwrap();
        run(&mut connection).unwrap();
        let link: (Vec<u8>, i64, i64) = connection
            .query_row(
                "select visit, made_at, at from links join link_events on link = links.id",
                [],
                |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)),
            )
            .unwrap();
        assert_eq!(link, (vec![3], 7, 8));
        let refused = |statement: &str| connection.execute(statement, []).unwrap_err().to_string();
        let overwritten = refused("update links set expires_at = 0");
        assert!(overwritten.contains("never overwritten"), "{overwritten}");
        let of_nothing =
            refused("insert into links values (x'06', null, null, 0, x'01', 0, x'07')");
        assert!(of_nothing.contains("CHECK"), "{of_nothing}");
        let of_nobody =
            refused("insert into links values (x'06', x'99', null, 0, x'01', 0, x'07')");
        assert!(of_nobody.contains("FOREIGN KEY"), "{of_nobody}");
    }

    /// The record of a studio from when signs were ticked: what was ticked stays readable, and what may be more urgent waits
    /// as that.
    #[test]
    fn reports_from_before_there_were_questions_wait_by_what_was_ticked() {
        let mut connection = Connection::open_in_memory().unwrap();
        for step in &STEPS[..10] {
            connection.execute_batch(step).unwrap();
        }
        connection.pragma_update(None, "user_version", 10).unwrap();
        connection
            .execute_batch(
                "insert into artists values (x'01', 0, 'Ilse', 'ilse@studio.example', '');
                 insert into clients values (x'02', 0, x'01', 'Noor', '');
                 insert into visits (id, client, finished_at, recorded_at, recorded_by, treatments, findings, products, note)
                     values (x'03', x'02', 0, 0, x'01', '[]', '{}', '[]', '');
                 insert into advice values (x'03', 'fr', 0, '1-0', '{}', zeroblob(32));
                 insert into links (id, visit, made_at, made_by, expires_at, secret_hash)
                     values (x'04', x'03', 7, x'01', 9, x'05');",
            )
            .unwrap();
        let note = "\n(Sorted later by what was ticked; the client was not told so.)";
        // What was ticked, since when, how it goes, and words; then the words and the level they are kept with.
        let reports = [
            ("[]", None, None, "It itches.", "It itches.", "studio"),
            ("[]", None, Some("better"), "", "(better)", "studio"),
            (
                r#"["redness","itching"]"#,
                Some("next_day"),
                Some("same"),
                "Red.",
                "Red.\n(redness, itching; began: next_day; same)",
                "studio",
            ),
            (
                r#"["swelling"]"#,
                None,
                Some("same"),
                "",
                "(swelling; same)",
                "studio",
            ),
            (
                r#"["swelling"]"#,
                None,
                Some("worse"),
                "",
                "(swelling; worse)",
                "same_day",
            ),
            (
                r#"["bumps_or_blisters"]"#,
                None,
                Some("worse"),
                "",
                "(bumps_or_blisters; worse)",
                "same_day",
            ),
            (
                r#"["redness"]"#,
                None,
                Some("worse"),
                "",
                "(redness; worse)",
                "studio",
            ),
            (
                r#"["pain_or_burning","eye_red_or_watering"]"#,
                None,
                None,
                "",
                "(pain_or_burning, eye_red_or_watering)",
                "same_day",
            ),
            (
                r#"["eye_red_or_watering"]"#,
                None,
                None,
                "",
                "(eye_red_or_watering)",
                "studio",
            ),
            (
                r#"["vision_change"]"#,
                None,
                None,
                "Blurred.",
                "Blurred.\n(vision_change)",
                "emergency",
            ),
        ];
        for (number, (signs, since, trend, words, ..)) in (0_u128..).zip(reports) {
            let report = (uuid::Uuid::from_u128(number), signs, since, trend, words);
            connection
                .execute(
                    "insert into reports (id, visit, link, received_at, signs, since, trend, words, reach, consent)
                     values (?1, x'03', x'04', 8, ?2, ?3, ?4, ?5, 'Ring me.', '2026-10')",
                    report,
                )
                .unwrap();
        }
        connection
            .execute(
                "delete from waiting_reports where report = ?1",
                [uuid::Uuid::nil()],
            )
            .unwrap();
        run(&mut connection).unwrap();
        for (number, (signs, _, _, _, words, level)) in (0_u128..).zip(reports) {
            let id = uuid::Uuid::from_u128(number);
            let kept: (String, String, String, String) = connection
                .query_row(
                    "select words, level, language, reach from reports where id = ?1",
                    [id],
                    |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?, row.get(3)?)),
                )
                .unwrap();
            let expected = match level {
                "studio" => words.to_owned(),
                _ => format!("{words}{note}"),
            };
            let expected = (
                expected,
                level.to_owned(),
                "fr".to_owned(),
                "Ring me.".to_owned(),
            );
            assert_eq!(kept, expected, "{signs}");
            let consent: (String, String) = connection
                .query_row(
                    "select version, text from report_consents where report = ?1 and purpose = 'report'",
                    [id],
                    |row| Ok((row.get(0)?, row.get(1)?)),
                )
                .unwrap();
            assert_eq!(consent, ("2026-10".to_owned(), String::new()));
            // What was settled stays so, and what waited waits.
            let waits: bool = connection
                .query_row(
                    "select exists (select 1 from waiting_reports where report = ?1)",
                    [id],
                    |row| row.get(0),
                )
                .unwrap();
            assert_eq!(waits, number != 0, "{signs}");
        }
        let change = connection.execute("update reports set level = 'studio'", []);
        assert!(
            change
                .unwrap_err()
                .to_string()
                .contains("never overwritten")
        );
    }

    #[test]
    fn a_reference_to_nothing_is_found() {
        let connection = Connection::open_in_memory().unwrap();
        let tables = "pragma foreign_keys = off; create table a (id primary key);
                      create table b (a references a (id)); insert into b values (1);";
        connection.execute_batch(tables).unwrap();
        assert!(check_references(&connection).is_err());
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
