//! How it goes, asked again after a report: one tap, with a network and without.

use anyhow::ensure;
use tests::{
    browser::{Browser, Outcome},
    network::Weather,
    words::say,
};

use crate::{
    client::beginning,
    scene::{Scene, phone, seats},
};

/// Signe reported eleven days ago; day 7 has not been answered.
async fn asked() -> Outcome<(Scene, Browser)> {
    let scene = Scene::demo().await?;
    let client = phone(true).await?;
    client.open_page(&scene.server.client_links()[4]).await?;
    client
        .wait_for_text_in("#reports .how", &say("client.follow.ask"))
        .await?;
    client
        .ask("document.documentElement.dataset.same = 'yes'")
        .await?;
    Ok((scene, client))
}

async fn expect_told(client: &Browser) -> Outcome {
    client
        .wait_for_text_in("#reports .do", &say("urgency.advice.worse"))
        .await?;
    ensure!(
        !client.shows(&say("client.follow.ask")).await?,
        "it is not asked twice"
    );
    let same = client
        .ask("return document.documentElement.dataset.same")
        .await?;
    ensure!(same == "yes", "the plain form was sent instead");
    Ok(())
}

fn answers(scene: &Scene) -> Outcome<i64> {
    scene.count("select count(*) from follow_ups where how = 'worse' and asked_hours = 168")
}

#[tokio::test(flavor = "multi_thread")]
async fn one_tap_tells_how_it_goes() -> Outcome {
    let _seats = seats(1).await;
    let (scene, client) = asked().await?;
    client.click(".how [value=worse]").await?;
    expect_told(&client).await?;
    ensure!(answers(&scene)? == 1, "it is in the record once");
    client.expect_no_complaints().await
}

#[tokio::test(flavor = "multi_thread")]
async fn without_network_it_is_kept_and_sent_by_itself() -> Outcome {
    let _seats = seats(1).await;
    let (scene, client) = asked().await?;
    scene.network.set(Weather::Cut);
    client.click(".how [value=worse]").await?;
    client
        .wait_for_text_in(".whereabouts", &beginning("client.sending.kept"))
        .await?;
    ensure!(answers(&scene)? == 0, "nothing has arrived yet");
    // What to do when it gets worse does not wait for a network.
    client
        .wait_for_text_in("#reports .worse", &beginning("client.reports.worse"))
        .await?;
    scene.network.set(Weather::Fine);
    expect_told(&client).await?;
    ensure!(answers(&scene)? == 1, "it is in the record once");
    Ok(())
}
