use super::{
    testing::{ARTIST, LINK, REPORT, VISIT, now, with_a_report},
    *,
};

fn fresh(id: u128, whose: Whose) -> Fresh {
    Fresh {
        id: Uuid::from_u128(id),
        visit: VISIT,
        whose,
        consent: "2026-11".to_owned(),
        agreed_to: String::new(),
        file: format!("{id}.jpg"),
        sha256: [id as u8; 32],
        width: 2,
        height: 3,
        sent: 99,
    }
}

const OF_REPORT: Whose = Whose::Report {
    report: REPORT,
    link: LINK,
};
const OF_VISIT: Whose = Whose::Visit { artist: ARTIST };

#[test]
fn four_of_a_report_and_four_of_the_visits_end() {
    let folder = tempfile::tempdir().unwrap();
    let record = with_a_report(folder.path());
    record
        .write_now(|record| {
            for (first, whose) in [(10, OF_REPORT), (20, OF_VISIT)] {
                for id in first..first + 4 {
                    assert_eq!(add(record, &fresh(id, whose), now())?, Taken::New);
                }
                assert_eq!(add(record, &fresh(first, whose), now())?, Taken::IdInUse);
                assert_eq!(
                    add(record, &fresh(first + 4, whose), now())?,
                    Taken::TooMany
                );
            }
            let ids = |photos: Vec<Photo>| -> Vec<u128> {
                photos.iter().map(|photo| photo.id.as_u128()).collect()
            };
            assert_eq!(ids(of_report(record, REPORT)?), [10, 11, 12, 13]);
            assert_eq!(ids(of_visit(record, VISIT)?), [20, 21, 22, 23]);
            let one = by_id(record, Uuid::from_u128(12))?.unwrap();
            assert_eq!(
                (one.report, one.width, one.height, one.sent),
                (Some(REPORT), 2, 3, 99)
            );
            assert_eq!(one.received_at, now());
            Ok::<_, RecordError>(())
        })
        .unwrap();
}

#[test]
fn the_same_picture_is_kept_once() {
    let folder = tempfile::tempdir().unwrap();
    let record = with_a_report(folder.path());
    record
        .write_now(|record| {
            add(record, &fresh(10, OF_REPORT), now())?;
            let mut again = fresh(11, OF_REPORT);
            again.sha256 = [10; 32];
            let first = Uuid::from_u128(10);
            assert_eq!(add(record, &again, now())?, Taken::Again(first));
            assert_eq!(of_report(record, REPORT)?.len(), 1);
            // Whoever sends what the artist has photographed too has sent something of their own.
            again.whose = OF_VISIT;
            assert_eq!(add(record, &again, now())?, Taken::New);
            Ok::<_, RecordError>(())
        })
        .unwrap();
}

#[test]
fn one_that_was_taken_out_leaves_its_row_and_its_place() {
    let folder = tempfile::tempdir().unwrap();
    let record = with_a_report(folder.path());
    record
        .write_now(|record| {
            for id in 20..24 {
                add(record, &fresh(id, OF_VISIT), now())?;
            }
            let id = Uuid::from_u128(21);
            assert_eq!(take_out(record, id, ARTIST, now())?.unwrap().file, "21.jpg");
            assert_eq!(take_out(record, id, ARTIST, now())?, None);
            assert_eq!(by_id(record, id)?, None);
            assert!(exists(record, id)?);
            assert_eq!(add(record, &fresh(21, OF_VISIT), now())?, Taken::IdInUse);
            let names = ["20.jpg", "22.jpg", "23.jpg"].map(str::to_owned);
            assert_eq!(files(record)?, HashSet::from(names));
            assert_eq!(add(record, &fresh(24, OF_VISIT), now())?, Taken::New);
            let refused = record.execute("update photos set consent = 'other'", []);
            assert!(
                refused
                    .unwrap_err()
                    .to_string()
                    .contains("never overwritten")
            );
            let refused = record.execute("update photo_events set at = 0", []);
            assert!(
                refused
                    .unwrap_err()
                    .to_string()
                    .contains("never overwritten")
            );
            Ok::<_, RecordError>(())
        })
        .unwrap();
}

#[test]
fn a_photo_is_somebodys_and_was_agreed_to() {
    let folder = tempfile::tempdir().unwrap();
    let record = with_a_report(folder.path());
    let refused = |change: fn(&mut Fresh)| {
        let mut fresh = fresh(10, OF_REPORT);
        change(&mut fresh);
        record
            .write_now(|record| add(record, &fresh, now()))
            .unwrap_err()
            .to_string()
    };
    assert!(refused(|fresh| fresh.consent.clear()).contains("CHECK"));
    assert!(refused(|fresh| fresh.visit = Uuid::nil()).contains("FOREIGN KEY"));
    let nobody = Whose::Visit {
        artist: Uuid::nil(),
    };
    record
        .write_now(|record| add(record, &fresh(10, nobody), now()))
        .unwrap_err();
}
