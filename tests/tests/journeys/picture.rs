//! The picture of regrowth under the finger: it follows touch and keys, is always the same person's, says in words what
//! it shows, has stills where no script runs, and moves within a few milliseconds of scripting.

use std::time::Duration;

use anyhow::{Context, ensure};
use serde_json::{Value, json};
use tests::browser::{Browser, Outcome};

use crate::scene::{Scene, phone, seats};

/// A client 35 minutes after a brow wax and tint.
const JUST_DONE: usize = 0;

const HAIRS: &str =
    "return [...document.querySelectorAll('.hairs path')].map((one) => one.getAttribute('d'))";

#[tokio::test(flavor = "multi_thread")]
async fn the_picture_follows_keys_and_is_the_same_persons() -> Outcome {
    let _seats = seats(1).await;
    let (_scene, client) = at_the_picture(phone(true).await?).await?;
    let today = hairs(&client).await?;
    ensure!(
        today.iter().any(|path| path.matches('M').count() > 200),
        "the hairs of two brows are drawn: {:?}",
        today.iter().map(String::len).collect::<Vec<_>>()
    );
    ensure!(reading(&client).await?.starts_with("Day 0, week 1."));

    press(&client, "ArrowRight", 42).await?;
    let reading_then = reading(&client).await?;
    ensure!(
        reading_then.starts_with("Day 42, week 7."),
        "{reading_then}"
    );
    // Six weeks after: regrowth-facts 10.4 has 0.5489 visible and 0.1465 long enough to hold (3 mm).
    ensure!(
        reading_then.contains("about 5 in 10") && reading_then.contains("about 1 in 10"),
        "{reading_then}"
    );
    let spoken = client
        .ask("return document.querySelector('.day').getAttribute('aria-valuetext')")
        .await?;
    ensure!(
        spoken == reading_then,
        "a screen reader hears the same: {spoken}"
    );
    let then = hairs(&client).await?;
    ensure!(then != today, "six weeks later other hairs are there");

    press(&client, "ArrowLeft", 42).await?;
    ensure!(
        hairs(&client).await? == today,
        "back at the visit it is the same picture"
    );
    client.reload().await?;
    client
        .wait_until("the hairs are drawn again", async || {
            Ok(hairs(&client).await? == today)
        })
        .await?;
    client.expect_no_complaints().await
}

#[tokio::test(flavor = "multi_thread")]
async fn the_picture_follows_a_finger() -> Outcome {
    let _seats = seats(1).await;
    let (_scene, client) = at_the_picture(phone(true).await?).await?;
    client
        .cdp(
            "Emulation.setTouchEmulationEnabled",
            json!({"enabled": true}),
        )
        .await?;
    // The strip's weeks take 720 of its 756 units; the finger begins on the visit and stops in the middle.
    let place = client
        .ask("const box = document.querySelector('svg.strip').getBoundingClientRect(); return [box.x, box.y + box.height / 2, box.width * 720 / 756]")
        .await?;
    let number = |at: usize| place[at].as_f64().context("a number");
    let (left, y, width) = (number(0)?, number(1)?, number(2)?);
    touch(&client, "touchStart", Some((left, y))).await?;
    for part in 1..=20 {
        touch(
            &client,
            "touchMove",
            Some((left + width / 40.0 * f64::from(part), y)),
        )
        .await?;
    }
    touch(&client, "touchEnd", None).await?;
    client
        .wait_until("the finger's day is shown", async || {
            Ok(reading(&client).await?.starts_with("Day 42,"))
        })
        .await?;
    client.expect_no_complaints().await
}

#[tokio::test(flavor = "multi_thread")]
async fn without_a_script_there_are_stills_a_strip_and_a_table() -> Outcome {
    let _seats = seats(1).await;
    let (_scene, client) = at_the_weeks(phone(false).await?).await?;
    client
        .wait_until("five stills are loaded", async || {
            let widths = client
                .ask("return [...document.querySelectorAll('.stills img')].filter((one) => one.complete && one.naturalWidth > 0).length")
                .await?;
            Ok(widths == 5)
        })
        .await?;
    let shown = client
        .ask("return ['.hairs', '.day', '.reading'].filter((one) => document.querySelector(one).checkVisibility()).join()")
        .await?;
    ensure!(
        shown == "",
        "a slider that cannot move is not shown: {shown}"
    );
    client.click("#weeks .area details summary").await?;
    let rows = client
        .ask("return document.querySelectorAll('#weeks .area tbody tr').length")
        .await?;
    ensure!(rows == 13, "the visit and twelve weeks: {rows}");
    Ok(())
}

/// The figure that the project promises: at most 4 ms of scripting for a step, at 4x CPU throttling, with 600 hairs. It is
/// read off Chromium's own count of the time spent in scripts, and printed, not asserted: a busy machine would make it fail.
#[tokio::test(flavor = "multi_thread")]
async fn a_step_of_the_slider_is_timed() -> Outcome {
    const STEPS: u32 = 60;
    let _seats = seats(2).await;
    let (_scene, client) = at_the_picture(phone(true).await?).await?;
    let follicles = client
        .ask("return JSON.parse(document.getElementById('state').textContent).figures[0].picture.follicles * 2")
        .await?;
    ensure!(follicles == 600, "{follicles}");
    client.cdp("Performance.enable", json!({})).await?;
    client
        .cdp("Emulation.setCPUThrottlingRate", json!({"rate": 4}))
        .await?;
    client.ask("document.querySelector('.day').focus()").await?;
    let before = scripting(&client).await?;
    for _ in 0..STEPS {
        key(&client, "ArrowRight").await?;
        // As fast as a key repeats.
        tokio::time::sleep(Duration::from_millis(33)).await;
    }
    let whole = scripting(&client).await? - before;
    client
        .wait_until("every step has arrived", async || {
            Ok(reading(&client).await?.starts_with("Day 60,"))
        })
        .await?;
    println!(
        "a step of the slider, 4x CPU, 600 follicles: {:.2} ms of scripting (promised: at most 4)",
        whole * 1000.0 / f64::from(STEPS)
    );
    Ok(())
}

/// Seconds that the page has spent in scripts.
async fn scripting(client: &Browser) -> Outcome<f64> {
    let metrics = client.cdp("Performance.getMetrics", json!({})).await?;
    let all = metrics["metrics"].as_array().context("metrics")?;
    all.iter()
        .find(|one| one["name"] == "ScriptDuration")
        .and_then(|one| one["value"].as_f64())
        .context("the time spent in scripts")
}

/// The demo's first client, looking at the weeks between.
async fn at_the_weeks(client: Browser) -> Outcome<(Scene, Browser)> {
    let scene = Scene::demo().await?;
    client
        .open_page(&scene.server.client_links()[JUST_DONE])
        .await?;
    client
        .ask("document.querySelector('#weeks .strip').scrollIntoView({ block: 'center' })")
        .await?;
    Ok((scene, client))
}

/// As [`at_the_weeks`], with the hairs drawn.
async fn at_the_picture(client: Browser) -> Outcome<(Scene, Browser)> {
    let (scene, client) = at_the_weeks(client).await?;
    client
        .wait_until("the hairs are drawn", async || {
            Ok(hairs(&client).await?.iter().any(|path| path.len() > 1000))
        })
        .await?;
    Ok((scene, client))
}

async fn hairs(client: &Browser) -> Outcome<Vec<String>> {
    let paths = client.ask(HAIRS).await?;
    let paths = paths.as_array().context("paths")?;
    Ok(paths
        .iter()
        .map(|path| path.as_str().unwrap_or_default().to_owned())
        .collect())
}

async fn reading(client: &Browser) -> Outcome<String> {
    client.text_of(".reading").await
}

/// Presses a key on the slider so many times, as a person does: the next after the last was drawn.
async fn press(client: &Browser, key: &str, times: usize) -> Outcome {
    client.ask("document.querySelector('.day').focus()").await?;
    for _ in 0..times {
        let before = reading(client).await?;
        let code = if key == "ArrowRight" { 39 } else { 37 };
        let event =
            |kind| json!({"type": kind, "key": key, "code": key, "windowsVirtualKeyCode": code});
        client
            .cdp("Input.dispatchKeyEvent", event("rawKeyDown"))
            .await?;
        client.cdp("Input.dispatchKeyEvent", event("keyUp")).await?;
        client
            .wait_until("the day moves on", async || {
                Ok(reading(client).await? != before)
            })
            .await?;
    }
    Ok(())
}

async fn key(client: &Browser, key: &str) -> Outcome {
    let code = if key == "ArrowRight" { 39 } else { 37 };
    for kind in ["rawKeyDown", "keyUp"] {
        let event = json!({"type": kind, "key": key, "code": key, "windowsVirtualKeyCode": code});
        client.cdp("Input.dispatchKeyEvent", event).await?;
    }
    Ok(())
}

async fn touch(client: &Browser, kind: &str, at: Option<(f64, f64)>) -> Outcome {
    let points: Vec<Value> = at.iter().map(|(x, y)| json!({"x": x, "y": y})).collect();
    client
        .cdp(
            "Input.dispatchTouchEvent",
            json!({"type": kind, "touchPoints": points}),
        )
        .await?;
    // As often as a screen is drawn.
    tokio::time::sleep(Duration::from_millis(16)).await;
    Ok(())
}
