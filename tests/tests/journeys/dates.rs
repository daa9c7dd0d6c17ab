//! A date to look one's best for, from the client's phone to the artist's screen and back, with and without JavaScript.

use anyhow::ensure;
use jiff::{Timestamp, ToSpan};
use tests::{
    browser::{Browser, Outcome},
    visitor::Visitor,
    words::say,
};

use crate::scene::{Scene, phone, seats};

/// A date so many days from now at the demo's studio.
fn in_days(days: i64) -> Outcome<String> {
    let today = Timestamp::now().in_tz("Europe/London")?.date();
    Ok(today.checked_add(days.days())?.to_string())
}

/// Chooses a date, as the phone's own picker does, and sends it.
async fn give(client: &Browser, date: &str) -> Outcome {
    if client
        .ask("return document.querySelector('#dates details').open")
        .await?
        == false
    {
        client.click("#dates summary").await?;
    }
    client
        .ask(&format!("document.querySelector('#date').value = '{date}'"))
        .await?;
    client.follow("#dates form button").await
}

async fn there_and_back(javascript: bool) -> Outcome {
    let _seats = seats(1).await;
    let scene = Scene::demo().await?;
    let client = phone(javascript).await?;
    let address = scene.server.client_links()[0].clone();
    client.open_page(&address).await?;
    client.expect_text(&say("dates.ask")).await?;

    give(&client, &in_days(-3)?).await?;
    client.expect_text(&say("occasion.fault.past")).await?;
    ensure!(
        client.value("#date").await? == in_days(-3)?,
        "what was typed is kept"
    );

    give(&client, &in_days(40)?).await?;
    let path = client
        .ask("return location.pathname + location.hash")
        .await?;
    ensure!(
        path.as_str().is_some_and(|path| path.ends_with("#dates")),
        "{path}"
    );
    let plan = client.text_of("#dates").await?;
    for shown in [
        "Come to the studio",
        "Most artists say 2 to 3 days before is best.",
    ] {
        ensure!(plan.contains(shown), "{shown}: {plan}");
    }
    let steps = client.text_of("#dates .steps").await?;
    for step in ["Stop using retinol", "skin test", "No sunbathing"] {
        ensure!(steps.contains(step), "{step}: {steps}");
    }
    ensure!(
        screen(&scene, "Noor has a date on").await?,
        "the artist sees it"
    );

    give(&client, &in_days(9)?).await?;
    client
        .expect_text(&say("occasion.trouble.soon_after"))
        .await?;
    client.click("#dates summary").await?;
    client.follow("#dates button[name=remove]").await?;
    client.expect_text(&say("dates.ask")).await?;
    ensure!(
        !screen(&scene, "Noor has a date on").await?,
        "it is gone from there, too"
    );
    ensure!(
        scene.count(
            "select count(*) from occasions where visit in
        (select id from visits order by finished_at desc limit 1)"
        )? == 3,
        "three rows, one for each change"
    );
    Ok(())
}

/// Whether the artist's screen of the first visit says something.
async fn screen(scene: &Scene, said: &str) -> Outcome<bool> {
    // The visitor waits for its answers, which a thread of the journeys' own must not.
    let shown = std::thread::scope(|threads| {
        let look = || {
            let artist = Visitor::demo_artist(&scene.server);
            artist
                .get("/studio/visits/00000000-0000-8000-8000-000200000001")
                .text()
        };
        threads.spawn(look).join()
    });
    let shown = shown.map_err(|_| anyhow::anyhow!("the artist's screen"))?;
    Ok(shown.contains(said))
}

#[tokio::test(flavor = "multi_thread")]
async fn a_date_is_given_on_the_phone_and_planned_back_from() -> Outcome {
    there_and_back(true).await
}

#[tokio::test(flavor = "multi_thread")]
async fn a_date_is_given_without_javascript() -> Outcome {
    there_and_back(false).await
}

/// The worker keeps the page for later, and never the calendar, which would be out of date.
#[tokio::test(flavor = "multi_thread")]
async fn the_phone_keeps_no_calendar_file() -> Outcome {
    let _seats = seats(1).await;
    let scene = Scene::demo().await?;
    let client = phone(true).await?;
    client.open_page(&scene.server.client_links()[0]).await?;
    let kept = "return caches.open('pages').then((pages) => pages.keys())
        .then((kept) => kept.map((one) => new URL(one.url).pathname))";
    client
        .wait_until("the worker has kept both pages", async || {
            Ok(client
                .ask(kept)
                .await?
                .as_array()
                .is_some_and(|kept| kept.len() == 2))
        })
        .await?;
    client.click("#dates a[href$='/calendar']").await?;
    client
        .wait_until("the studio was asked for the file", async || {
            Ok(scene
                .server
                .home
                .output()
                .contains("/MY/{secret}/calendar.ics"))
        })
        .await?;
    // It was answered; what the worker does with an answer it does at once.
    tokio::time::sleep(std::time::Duration::from_millis(500)).await;
    let kept = client.ask(kept).await?;
    ensure!(
        kept.as_array().is_some_and(|kept| kept.len() == 2),
        "{kept}"
    );
    Ok(())
}
