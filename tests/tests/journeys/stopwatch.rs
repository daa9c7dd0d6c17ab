//! How far it is from the client's page to what to do now: taps and seconds for five of the stories that `urgency.rs` tells
//! with their sources. Seconds are this machine's and are only printed; a finger is slower, a phone may be.

use std::time::Instant;

use anyhow::{Context, ensure};
use jiff::{ToSpan, civil};
use tests::{
    browser::{Browser, Outcome},
    server::Server,
    visit_form::{VisitForm, send_and_look},
    visitor::Visitor,
};

use crate::{
    client::{self, answer, ask_what_to_do},
    scene::{Scene, phone, seats},
};

/// Somebody in need does not count questions: the whole way to an emergency answer.
const MOST_TAPS_TO_AN_EMERGENCY: usize = 8;

struct Story {
    what: &'static str,
    treatment: &'static str,
    minutes_ago: i64,
    answers: &'static [(&'static str, &'static str)],
    level: &'static str,
}

const STORIES: [Story; 5] = [
    Story {
        what: "pink after a brow wax",
        treatment: "brow_wax",
        minutes_ago: 3 * 60,
        answers: &[
            ("redness", "1"),
            ("itch", "1"),
            ("pain", "2"),
            ("trend", "better"),
        ],
        level: "expected",
    },
    Story {
        what: "a rash the day after a brow tint",
        treatment: "brow_tint",
        minutes_ago: 30 * 60,
        answers: &[
            ("skin", "rash"),
            ("redness", "2"),
            ("itch", "6"),
            ("trend", "same"),
        ],
        level: "studio",
    },
    Story {
        what: "puffy lids the day after a lash tint",
        treatment: "lash_tint",
        minutes_ago: 24 * 60,
        answers: &[
            ("eye_trouble", "yes"),
            ("eye_state", "eye_red"),
            ("swelling", "lids"),
            ("itch", "7"),
            ("trend", "worse"),
        ],
        level: "same_day",
    },
    Story {
        what: "a swollen face six hours after a brow tint",
        treatment: "brow_tint",
        minutes_ago: 6 * 60,
        answers: &[("swelling", "face"), ("trend", "worse")],
        level: "emergency",
    },
    Story {
        what: "lotion in the eye during a lash lift",
        treatment: "lash_lift",
        minutes_ago: 10,
        answers: &[
            ("product_in_eye", "yes"),
            ("eye_trouble", "yes"),
            ("eye_state", "eye_watering"),
            ("eye_pain", "4"),
        ],
        level: "emergency",
    },
];

#[tokio::test(flavor = "multi_thread")]
async fn what_to_do_is_a_few_taps_away() -> Outcome {
    let _seats = seats(1).await;
    let scene = Scene::demo().await?;
    println!("| story | level | taps | seconds |\n| --- | --- | --- | --- |");
    for story in &STORIES {
        let link = tokio::task::block_in_place(|| visit(&scene.server, story))?;
        // A phone of its own: nothing of the story before is kept on it.
        let client = phone(true).await?;
        let begun = Instant::now();
        client.open_page(&link).await?;
        ask_what_to_do(&client).await?;
        let taps = 1 + answer(&client, story.answers).await?;
        let level = level(&client).await?;
        let seconds = begun.elapsed().as_secs_f64();
        println!("| {} | {level} | {taps} | {seconds:.1} |", story.what);
        ensure!(level == story.level, "{}: {level}", story.what);
        ensure!(
            level != "emergency" || taps <= MOST_TAPS_TO_AN_EMERGENCY,
            "{}: {taps} taps",
            story.what
        );
        client.expect_no_complaints().await?;
    }
    Ok(())
}

/// The level that the page shows.
async fn level(client: &Browser) -> Outcome<String> {
    ensure!(
        client::shown(client).await? == "advice",
        "it says what to do"
    );
    let shown = client
        .ask(
            "return [...document.querySelectorAll('.level[data-level]')]
                .filter((one) => one.getClientRects().length > 0).map((one) => one.dataset.level).join(' ')",
        )
        .await?;
    Ok(shown.as_str().unwrap_or_default().to_owned())
}

/// Records the visit of a story, and gives its link.
fn visit(server: &Server, story: &Story) -> Outcome<String> {
    let artist = Visitor::demo_artist(server);
    let form = VisitForm::fresh(&artist);
    let now = form
        .date
        .parse::<civil::Date>()?
        .to_datetime(form.time.parse()?);
    let finished = now.checked_sub(story.minutes_ago.minutes())?;
    let fields = [
        ("visit_id", form.visit_id),
        ("looked_at", form.looked_at),
        ("client", String::new()),
        ("first_name", "Ottoline".to_owned()),
        ("reach", "07700 900999".to_owned()),
        ("date", finished.date().to_string()),
        ("time", finished.strftime("%H:%M").to_string()),
        ("treatments", story.treatment.to_owned()),
    ];
    let fields: Vec<(&str, &str)> = fields
        .iter()
        .map(|(name, value)| (*name, value.as_str()))
        .collect();
    let recorded = send_and_look(&artist, &fields);
    ensure!(recorded.status == 303, "{}", recorded.text());
    let screen = artist.get(recorded.location());
    let field = screen.body.split("id=\"link\"").nth(1).context("a link")?;
    let value = field.split("value=\"").nth(1).context("its value")?;
    Ok(value.split('"').next().unwrap_or_default().to_owned())
}
