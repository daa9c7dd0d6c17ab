//! A client's page to test with: an invented studio, and words that show their keys.

use chrono::{DateTime, TimeDelta, Utc};
use shared_types::{
    page::client::{
        AnswerCard, CautionsUntil, ClientPage, Due, Figure, Moment, SentCard, Shows, Still,
        WeekShare,
    },
    page::form::Filled,
    page::picture::{Picture, Subject},
    page::trouble::{TroublePage, TroubleStill},
    reaction::Place,
    urgency::{AdviceRule, Fact, Field, Level, LevelAdvice, Question, Rule, Rules},
    visit::{Area, Treatment},
    words::Words,
};
use uuid::Uuid;

fn moment(at: DateTime<Utc>) -> Moment {
    Moment {
        at,
        text: format!("second {}", at.timestamp()),
    }
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
    let until = |hours: i64, kinds: &[&str]| CautionsUntil {
        until: moment(finished + TimeDelta::hours(hours)),
        lead: format!("For the next {{left}}: {}.", kinds.join(" ")),
        html: kinds
            .iter()
            .map(|kind| format!("<li>No {kind}</li>"))
            .collect(),
    };
    ClientPage {
        build: "test".to_owned(),
        now,
        as_of: moment(now).text,
        words: Words::none(),
        studio_name: "Fernlight".to_owned(),
        emergency: "999 or 112".to_owned(),
        treated: "your brows".to_owned(),
        finished_at: finished,
        path: "/MY/AAAAAAAAAAAAAAAAAAAAAAAAAA".to_owned(),
        cautions: vec![
            until(24, &["touching", "water"]),
            until(48, &["heat"]),
            until(168, &["actives"]),
        ],
        due: Some(Due {
            to_come: "Come back between Wednesday and Saturday.".to_owned(),
            why: "Then it is worth it.".to_owned(),
            over: "A good time was between Wednesday and Saturday.".to_owned(),
            from_day: 32,
            until_day: 42,
        }),
        figures: vec![Figure {
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
        }],
        still: Still {
            head: "<h1>For <em>Mara</em></h1>".to_owned(),
            ..Still::default()
        },
        reports: vec![SentCard {
            id: Uuid::from_u128(7),
            received: moment(now),
            gist: "Itching <script>alert(1)</script>".to_owned(),
            answers: vec![AnswerCard {
                by: "Ilse".to_owned(),
                at: moment(now),
                text: "Cool it.\nRing me.".to_owned(),
            }],
            steps: vec!["Seen <b>.".to_owned()],
            now: vec!["Ask.".to_owned()],
            ask: 24,
            agreed: String::new(),
            settled: false,
        }],
        form_id: Uuid::from_u128(8),
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
            steps: vec!["Seen <b>.".to_owned()],
            now: vec!["Ask.".to_owned()],
            ask: 24,
            agreed: "Thursday 3 December, 14:30".to_owned(),
            settled: true,
        }],
        first_day: "2026-10-24".to_owned(),
        good_day: "2026-11-25".to_owned(),
    }
}

/// The page for when something is not right, with a rule and two questions.
pub fn trouble_page() -> TroublePage {
    let question = |id: &str, fields: &[Field]| Question {
        id: id.to_owned(),
        fields: fields.to_vec(),
        eye: false,
        none_means: Vec::new(),
        hours: Vec::new(),
    };
    let page = client_page(1);
    TroublePage {
        build: page.build,
        now: page.now,
        words: Words::none(),
        studio_name: page.studio_name,
        path: page.path,
        finished_at: page.finished_at,
        treatments: vec![Treatment::BrowWax],
        rules: Rules {
            rules: vec![Rule {
                id: "E1".to_owned(),
                level: Level::Emergency,
                when: vec![vec![Fact {
                    field: Field::Airway,
                    least: 1,
                    most: u32::MAX,
                    or_not_sure: false,
                }]],
                unless: Vec::new(),
                after: Vec::new(),
                not_after: vec![Treatment::LipWax],
                raises: Some(Level::Studio),
                unasked_is_no: false,
                unknown: true,
                advice: vec!["call_now".to_owned()],
            }],
            advice: vec![AdviceRule {
                id: "call_now".to_owned(),
                not_with: vec!["go_now".to_owned()],
                at_any_level: true,
            }],
            levels: vec![LevelAdvice {
                level: Level::Studio,
                advice: vec!["tell_studio".to_owned()],
            }],
            questions: vec![
                question("breathing", &[Field::Airway, Field::Collapse]),
                question("itch", &[Field::Itch]),
                question("trend", &[Field::Trend]),
            ],
        },
        content_version: "1-0".to_owned(),
        form_id: Uuid::from_u128(8),
        form: Filled::default(),
        still: TroubleStill::default(),
    }
}

/// Its still parts, as the server draws them.
#[allow(dead_code, reason = "not every test draws them")]
pub fn trouble_still(page: &TroublePage) -> TroubleStill {
    use mobile::client::still::trouble::{Asking, Telling, questions, tell};
    let (words, form) = (&page.words, &page.form);
    TroubleStill {
        questions: dioxus_ssr::render_element(questions(&Asking {
            words,
            rules: &page.rules,
            form,
            answered: false,
            values: &[],
            address: "/MY/A/trouble",
        })),
        tell: dioxus_ssr::render_element(tell(&Telling {
            words,
            places: Place::ALL,
            form,
            consent_version: "2026-12",
            values: &[],
        })),
        ..TroubleStill::default()
    }
}
