//! Whatever goes wrong on the way, a report arrives, and once: a double tap, a server that answers 500, one that hangs, one
//! that dies after the report is on disk and before it has said so. In both engines.

use anyhow::ensure;
use tests::{
    browser::{Browser, Engine, Outcome},
    network::Weather,
    report::report,
    words::say,
};

use crate::{
    client::{self, FIRST, beginning},
    scene::{Scene, phone_with, seats},
};

macro_rules! in_both {
    ($($chromium:ident, $webkit:ident: $journey:ident;)+) => { $(
        #[tokio::test(flavor = "multi_thread")]
        async fn $chromium() -> Outcome {
            let _seats = seats(1).await;
            $journey(Engine::Chromium).await
        }
        #[tokio::test(flavor = "multi_thread")]
        async fn $webkit() -> Outcome {
            let _seats = seats(1).await;
            $journey(Engine::WebKit).await
        }
    )+ };
}

in_both! {
    tapped_twice, tapped_twice_in_webkit: tapped_twice_on;
    answered_500, answered_500_in_webkit: answered_500_on;
    hanging, hanging_in_webkit: hanging_on;
    dead_after_the_commit, dead_after_the_commit_in_webkit: dead_after_the_commit_on;
}

async fn tapped_twice_on(engine: Engine) -> Outcome {
    let (scene, client) = written(engine).await?;
    client
        .ask("const send = document.querySelector('#report .send'); send.click(); send.click(); send.click();")
        .await?;
    expect_once(&scene, &client).await
}

async fn answered_500_on(engine: Engine) -> Outcome {
    sent_through(engine, Weather::Failing, "kept").await
}

async fn hanging_on(engine: Engine) -> Outcome {
    sent_through(engine, Weather::Stalled, "trying").await
}

async fn sent_through(engine: Engine, weather: Weather, said: &str) -> Outcome {
    let (scene, client) = written(engine).await?;
    scene.network.set(weather);
    client::send(&client).await?;
    client
        .wait_for_text_in(
            ".whereabouts",
            &beginning(&format!("client.sending.{said}")),
        )
        .await?;
    ensure!(count(&scene)? == 0, "nothing has arrived yet");
    scene.network.set(Weather::Fine);
    expect_once(&scene, &client).await
}

/// The studio has the report on disk, and the phone cannot know: the worst moment.
async fn dead_after_the_commit_on(engine: Engine) -> Outcome {
    let (scene, client) = written(engine).await?;
    scene.network.set(Weather::AnswersLost);
    client::send(&client).await?;
    client
        .wait_until("the report is on disk", async || Ok(count(&scene)? == 1))
        .await?;
    client.expect_text(&say("client.sending.trying")).await?;
    let scene = scene.die_and_come_back().await?;
    scene.network.set(Weather::Fine);
    expect_once(&scene, &client).await
}

/// Two tabs of a page share its draft and its id. What the second one says is another report, and arrives as one.
#[tokio::test(flavor = "multi_thread")]
async fn another_tab_sent_its_own_first() -> Outcome {
    let _seats = seats(1).await;
    let (scene, client) = written(Engine::Chromium).await?;
    let first = report("From the other tab.");
    let send = format!(
        "const id = document.querySelector('[name=report_id]').value;
         const path = location.pathname.replace('/trouble', '');
         const request = {{ method: 'PUT', headers: {{ 'content-type': 'application/json' }}, body: JSON.stringify({first}) }};
         return fetch(`${{path}}/reports/${{id}}`, request).then((answer) => answer.status);"
    );
    ensure!(client.ask(&send).await? == 201, "the other tab's is taken");
    client::send(&client).await?;
    client
        .wait_until("both are in the record", async || Ok(count(&scene)? == 2))
        .await?;
    client::back_to_page(&client).await?;
    client.wait_for_text_in("#reports", FIRST.words).await?;
    client.expect_text("From the other tab.").await
}

/// A client who has written a report and not sent it.
async fn written(engine: Engine) -> Outcome<(Scene, Browser)> {
    let (scene, address) = Scene::kept().await?;
    let client = phone_with(engine, true).await?;
    client.open_page(&format!("{address}/trouble")).await?;
    client::write(&client, &FIRST).await?;
    client::consent(&client).await?;
    Ok((scene, client))
}

async fn expect_once(scene: &Scene, client: &Browser) -> Outcome {
    let received = say("client.sending.received").replace("{studio}", "Pellworm Brows");
    let received = received.split(". ").next().unwrap_or_default().to_owned();
    client.wait_for_text_in(".whereabouts", &received).await?;
    client::back_to_page(client).await?;
    client.wait_for_text_in("#reports", FIRST.words).await?;
    ensure!(count(scene)? == 1, "it is in the record once");
    let kept =
        "return Object.keys(localStorage).filter((key) => /(unsent|draft)$/.test(key)).join(' ')";
    ensure!(
        client.ask(kept).await? == "",
        "nothing of it is left on the phone"
    );
    Ok(())
}

fn count(scene: &Scene) -> Outcome<i64> {
    scene.count("select count(*) from reports")
}
