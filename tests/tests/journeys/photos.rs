//! Photos of a report: chosen without network, kept while the browser is killed, sent by themselves when the network is
//! back, after the report and not in its way.

use std::{path::PathBuf, time::Duration};

use anyhow::ensure;
use tests::{
    browser::{Browser, Engine, Outcome},
    network::Weather,
    photos::{files, grainy},
    words::say,
};

use crate::{
    client::{self, FIRST, beginning},
    offline::wait_until_kept,
    scene::{Scene, kept_phone_with, seats},
};

/// Browsers put what pages keep on disk a few seconds later; a phone that dies sooner was not given the time.
const ON_DISK: Duration = Duration::from_secs(8);

#[tokio::test(flavor = "multi_thread")]
async fn two_photos_without_network_outlive_the_browser() -> Outcome {
    two_photos(Engine::Chromium).await
}

#[tokio::test(flavor = "multi_thread")]
async fn two_photos_without_network_outlive_the_browser_in_webkit() -> Outcome {
    two_photos(Engine::WebKit).await
}

async fn two_photos(engine: Engine) -> Outcome {
    let _seats = seats(1).await;
    let (scene, address) = Scene::kept().await?;
    let (phone, album) = (tempfile::tempdir()?, tempfile::tempdir()?);
    let client = kept_phone_with(engine, phone.path()).await?;
    client.open_page(&address).await?;
    wait_until_kept(&client).await?;

    scene.network.set(Weather::Cut);
    client::ask_what_to_do(&client).await?;
    client::write(&client, &FIRST).await?;
    for (name, chosen) in [("left.jpg", 1_u32), ("right.jpg", 2)] {
        let file: PathBuf = album.path().join(name);
        std::fs::write(&file, grainy(900, 700, chosen))?;
        let input = client.find("#report-photos").await?;
        input.send_keys(file.to_string_lossy()).await?;
        client
            .wait_until("a small picture of it beside the button", async || {
                let script =
                    "return document.querySelectorAll('.photos [data-photo] canvas').length";
                Ok(client.ask(script).await?.as_u64() == Some(chosen.into()))
            })
            .await?;
    }
    client
        .wait_for_text_in("#photos-chosen", &say("client.tell.photo_kept"))
        .await?;
    client::consent(&client).await?;
    client::send(&client).await?;
    client::expect_fault(&client, &say("fault.consent_photos")).await?;
    client.click(".choice:has([name=consent_photos])").await?;
    client::send(&client).await?;
    client
        .wait_for_text_in(".whereabouts", &beginning("client.sending.kept"))
        .await?;
    ensure!(
        scene.count("select count(*) from reports")? == 0,
        "nothing has arrived yet"
    );

    tokio::time::sleep(ON_DISK).await;
    drop(client);
    let client = kept_phone_with(engine, phone.path()).await?;
    client.open_page(&format!("{address}/trouble")).await?;
    client
        .wait_for_text_in(".whereabouts", &beginning("client.sending.kept"))
        .await?;
    scene.network.set(Weather::Fine);
    client
        .wait_until("both photos are in the record", async || {
            Ok(scene.count("select count(*) from photos where report is not null")? == 2)
        })
        .await?;
    ensure!(
        scene.count("select count(*) from reports")? == 1,
        "one report"
    );
    ensure!(files(&scene.server, "photos") == 2, "each is one file");
    client
        .wait_until("the phone has let go of them", async || {
            Ok(still_here(&client).await? == 0)
        })
        .await?;
    Ok(())
}

/// How many photos the phone keeps.
async fn still_here(client: &Browser) -> Outcome<u64> {
    let script = "
        const path = location.pathname.split('/').slice(0, 3).join('/');
        return new Promise((resolve) => {
            const asked = indexedDB.open(`betweentimes:${path}:photos`, 1);
            asked.onsuccess = () => {
                const count = asked.result.transaction('photos').objectStore('photos').count();
                count.onsuccess = () => { asked.result.close(); resolve(count.result); };
            };
            asked.onerror = () => resolve(-1);
        });";
    Ok(client.ask(script).await?.as_u64().unwrap_or(99))
}
