//! A client's page and a client's report when the network goes: nothing is lost, nothing comes twice, and a page that
//! was closed is forgotten.

use anyhow::ensure;
use tests::{
    browser::{Browser, Outcome},
    network::Weather,
    words::say,
};

use crate::{
    artist::Artist,
    client::{self, FIRST, beginning},
    scene::{Scene, kept_phone, phone, seats},
};

#[tokio::test(flavor = "multi_thread")]
async fn a_report_written_without_network_arrives_once() -> Outcome {
    let _seats = seats(2).await;
    let (scene, address) = demo().await?;
    let phone_storage = tempfile::tempdir()?;
    let client = kept_phone(phone_storage.path()).await?;
    client.open_page(&address).await?;
    wait_until_kept(&client).await?;

    // What is typed survives, and the page opens again, with no network at all.
    scene.network.set(Weather::Cut);
    client::ask_what_to_do(&client).await?;
    client::answer(&client, &[]).await?;
    client.write("[name=words]", "It began with").await?;
    client.close().await?;
    let client = kept_phone(phone_storage.path()).await?;
    client.open_page(&address).await?;
    client.expect_text("For Noor").await?;
    client::ask_what_to_do(&client).await?;
    ensure!(
        client::shown(&client).await? == "advice",
        "it is where it was left"
    );
    ensure!(
        client.value("[name=words]").await? == "It began with",
        "the draft is kept"
    );

    // Sent without network it is on the phone, and the page says so.
    client.write("[name=words]", FIRST.words).await?;
    client::consent(&client).await?;
    client::send(&client).await?;
    client
        .wait_for_text_in(".whereabouts", &beginning("client.sending.kept"))
        .await?;
    client.close().await?;
    let client = kept_phone(phone_storage.path()).await?;
    client.open_page(&address).await?;
    client
        .wait_for_text_in(".unsent", &say("client.sending.unsent"))
        .await?;
    client::ask_what_to_do(&client).await?;
    client
        .wait_for_text_in(".whereabouts", &beginning("client.sending.kept"))
        .await?;
    ensure!(
        client.value("[name=words]").await?.is_empty(),
        "what is on its way is no draft any more"
    );
    ensure!(count(&scene)? == 0, "nothing has arrived yet");

    // After more than a week the client is told that phones may delete what they keep.
    client
        .ask(
            "const key = Object.keys(localStorage).find((key) => key.endsWith(':unsent'));
             const kept = JSON.parse(localStorage.getItem(key));
             kept[0].since -= 7.01 * 24 * 60 * 60;
             localStorage.setItem(key, JSON.stringify(kept));",
        )
        .await?;
    client.reload().await?;
    client
        .wait_for_text_in(".whereabouts", &beginning("client.sending.kept_long"))
        .await?;

    // With the network back it goes by itself.
    scene.network.set(Weather::Fine);
    client.wait_for_text_in(".whereabouts", &received()).await?;
    client::back_to_page(&client).await?;
    client.wait_for_text_in("#reports", FIRST.words).await?;
    ensure!(count(&scene)? == 1, "it is in the record once");
    let artist = Artist::come(&scene, true).await?;
    artist.sign_in_to_demo(&scene).await?;
    artist.open("/studio/reports").await?;
    let inbox = artist.browser.text().await?;
    ensure!(
        inbox.matches(FIRST.words).count() == 1,
        "it is in the inbox once:\n{inbox}"
    );

    // Nor is it sent once more.
    client.reload().await?;
    ensure!(
        client.text_of("[role=status]").await?.trim().is_empty(),
        "nothing waits any more"
    );
    ensure!(count(&scene)? == 1, "it stays one");
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn a_closed_page_is_forgotten_by_the_phone() -> Outcome {
    let _seats = seats(2).await;
    let (scene, address) = demo().await?;
    let client = phone(true).await?;
    client.open_page(&address).await?;
    wait_until_kept(&client).await?;
    client::ask_what_to_do(&client).await?;
    client::answer(&client, &[]).await?;
    client.write("[name=words]", "It began with").await?;
    client
        .wait_until("the phone keeps the draft", async || {
            Ok(kept_keys(&client).await?.contains("draft"))
        })
        .await?;

    let artist = Artist::come(&scene, true).await?;
    artist.sign_in_to_demo(&scene).await?;
    artist
        .browser
        .follow("a[href^='/studio/visits/']:not([href$=new])")
        .await?;
    artist.browser.expect_text("Noor").await?;
    artist.browser.click(".link-part details summary").await?;
    artist
        .browser
        .follow("form[action$='/revoke'] button")
        .await?;
    artist
        .browser
        .expect_text(&beginning("artist.link.revoked"))
        .await?;

    client.go(&address).await?;
    client
        .wait_for_text(&say("notice.link_gone.heading"))
        .await?;
    client.expect_text("020 7946 0417").await?;
    client
        .wait_until("the phone has forgotten", async || {
            Ok(kept_keys(&client).await?.is_empty())
        })
        .await?;
    client
        .wait_until("the page's copy is gone", async || {
            Ok(kept_page(&client).await? == false)
        })
        .await?;

    scene.network.set(Weather::Cut);
    // The browser's own page for an address that cannot be reached; whether the driver counts it as a failure is its own.
    let _ = client.go(&address).await;
    let shown = client.text().await?;
    ensure!(
        shown.contains("ERR_"),
        "there is nothing to open without network, but the phone shows:\n{shown}"
    );
    Ok(())
}

async fn demo() -> Outcome<(Scene, String)> {
    let scene = Scene::demo().await?;
    let address = scene.server.client_links().swap_remove(0);
    Ok((scene, address))
}

/// Waits until the page would open without network.
pub async fn wait_until_kept(client: &Browser) -> Outcome {
    client
        .wait_until("the worker keeps the page", async || {
            Ok(kept_page(client).await? == true)
        })
        .await
}

/// Whether the phone has both pages, or any of them.
async fn kept_page(client: &Browser) -> Outcome<serde_json::Value> {
    client
        .ask(
            "const own = location.pathname.split('/').slice(0, 3).join('/');
             return Promise.all([own, own + '/trouble'].map((path) => caches.match(path)))
                 .then((kept) => kept.every(Boolean) || (kept.some(Boolean) ? 'one' : false))",
        )
        .await
}

/// The names under which the phone's storage keeps anything of ours.
async fn kept_keys(client: &Browser) -> Outcome<String> {
    let keys = client.ask("return Object.keys(localStorage).filter((key) => key.startsWith('betweentimes:')).join(' ')");
    Ok(keys.await?.as_str().unwrap_or_default().to_owned())
}

/// How many reports with the first words are in the record.
fn count(scene: &Scene) -> Outcome<i64> {
    let record = scene.server.home.record();
    Ok(record.query_row(
        "select count(*) from reports where words = ?1",
        [FIRST.words],
        |row| row.get(0),
    )?)
}

fn received() -> String {
    say("client.sending.received")
        .replace("{studio}", "Tamsel Lane Brows")
        .split(". ")
        .next()
        .unwrap_or("")
        .to_owned()
}
