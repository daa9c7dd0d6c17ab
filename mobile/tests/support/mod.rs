//! A client's page to test with: an invented studio, and words that show their keys.

use chrono::{DateTime, TimeDelta, Utc};
use shared_types::{
    page::client::{
        AfterList, AnswerCard, AreaWeeks, CautionCard, ClientPage, ComeBack, EmergencyNumber,
        Milestone, Moment, SentCard, Shows, StudioCard, WeekShare, Weeks,
    },
    page::form::Filled,
    page::picture::{Picture, Subject},
    page::zones::{ZoneNote, ZonesCard},
    visit::Area,
    words::Words,
    zones::{Mark, Place, Side, Zone, Zones},
};
use uuid::Uuid;

fn moment(at: DateTime<Utc>) -> Moment {
    Moment {
        at,
        text: format!("second {}", at.timestamp()),
    }
}

/// One zone of each mark.
fn zones() -> ZonesCard {
    let mut marks = Zones::default();
    let mut notes = Vec::new();
    for ((side, zone), &mark) in [
        (Side::Left, Zone::Tail),
        (Side::Right, Zone::Front),
        (Side::Right, Zone::Above),
    ]
    .into_iter()
    .zip(Mark::ALL)
    {
        marks.set(Place { side, zone }, Some(mark));
        notes.push(ZoneNote {
            mark,
            title: mark.to_string(),
            places: format!("{side} brow: {zone}."),
            text: "Leave it alone.".to_owned(),
        });
    }
    ZonesCard { marks, notes }
}

/// Brows by the shipped figures.
pub fn picture() -> Picture {
    Picture {
        subject: Subject::Brows,
        seed: 20_261,
        follicles: 300,
        taken_out: 320,
        figures: vec![
            0.16, 2.25, 56.0, 18.0, 90.0, 0.0, 64.0, 4.0, 7.5, 0.1, 0.5, 0.0, 0.996_49, 1.0,
        ],
        graspable: 300,
        tinted: true,
        set: false,
        last_day: 84,
        ground: Vec::new(),
    }
}

/// A page as the server would send it, `hours` after the visit.
pub fn client_page(hours: i64) -> ClientPage {
    // 2026-10-24 17:30 UTC, the evening before European clocks go back.
    let finished = DateTime::from_timestamp(1_792_863_000, 0).unwrap_or_default();
    let now = finished + TimeDelta::hours(hours);
    let caution = |id: &str, hours: u32| CautionCard {
        id: id.to_owned(),
        what: format!("No {id}"),
        why: "Because.".to_owned(),
        until: moment(finished + TimeDelta::hours(hours.into())),
        hours,
        basis: "Common practice.".to_owned(),
    };
    ClientPage {
        build: "test".to_owned(),
        now,
        as_of: moment(now).text,
        language: "en".to_owned(),
        words: Words::none(),
        studio: StudioCard {
            name: "Fernlight".to_owned(),
            artist: "Ilse".to_owned(),
            phone: "+44 0000 000000".to_owned(),
            email: "ilse@fernlight.example".to_owned(),
            emergency: EmergencyNumber {
                text: "999 or 112".to_owned(),
                dial: "999".to_owned(),
            },
        },
        first_name: "Mara".to_owned(),
        done: vec!["brow wax".to_owned(), "brow tint".to_owned()],
        treated: "your brows".to_owned(),
        finished: moment(finished),
        path: "/MY/AAAAAAAAAAAAAAAAAAAAAAAAAA".to_owned(),
        cautions: vec![
            caution("touching", 24),
            caution("water", 24),
            caution("heat", 48),
            caution("actives", 168),
        ],
        after: vec![AfterList {
            title: "Ordinary".to_owned(),
            lines: vec!["Pink skin.".to_owned(), "Dry skin.".to_owned()],
        }],
        weeks: Some(Weeks {
            areas: vec![AreaWeeks {
                area: Area::Brow,
                name: "Brows".to_owned(),
                shows: Shows::Returning,
                weeks: (1..=12)
                    .map(|week| WeekShare {
                        week,
                        visible: u16::from(week) * 80,
                        graspable: u16::from(week) * 60,
                        kept: 900 - u16::from(week) * 50,
                    })
                    .collect(),
                picture: Some(picture()),
                milestones: vec![Milestone {
                    from: "Friday 20 November".to_owned(),
                    what: "the first hairs can be seen".to_owned(),
                }],
            }],
            come_back: Some(ComeBack {
                from: "Wednesday 25 November".to_owned(),
                until: "Saturday 5 December".to_owned(),
                from_day: 32,
                until_day: 42,
                why: "Then it is worth it.".to_owned(),
                more: vec!["The tint can wait.".to_owned()],
                windows: vec![(
                    "brow wax".to_owned(),
                    "Not before Saturday, best Wednesday.".to_owned(),
                )],
            }),
            about: vec!["Based on your last visit.".to_owned()],
            confidence: "A rough guide.".to_owned(),
        }),
        zones: Some(zones()),
        before_next: vec!["Leave your brows alone.".to_owned()],
        dates: "<h2 id=\"dates-title\">Your <em>dates</em></h2>".to_owned(),
        reports: vec![SentCard {
            id: Uuid::from_u128(7),
            received: moment(now),
            gist: "Itching <script>alert(1)</script>".to_owned(),
            answers: vec![AnswerCard {
                by: "Ilse".to_owned(),
                at: moment(now),
                text: "Cool it.\nRing me.".to_owned(),
            }],
            agreed: String::new(),
            settled: false,
        }],
        form_id: Uuid::from_u128(8),
        consent_version: "2026-11".to_owned(),
        form: Filled::default(),
        wishes: vec![SentCard {
            id: Uuid::from_u128(9),
            received: moment(now),
            gist: "Thursday 3 December, 14:30 <b>".to_owned(),
            answers: vec![AnswerCard {
                by: "Ilse".to_owned(),
                at: moment(now),
                text: "Your time: Thursday 3 December, 14:30.".to_owned(),
            }],
            agreed: "Thursday 3 December, 14:30".to_owned(),
            settled: true,
        }],
        first_day: "2026-10-24".to_owned(),
        good_day: "2026-11-25".to_owned(),
    }
}
