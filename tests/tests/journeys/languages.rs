//! A client chooses another language, on a phone that keeps the page: it stays in that language, also without network.

use anyhow::ensure;
use tests::{
    browser::{Browser, Outcome},
    network::Weather,
    words::{languages, say_in},
};

use crate::{
    artist::Artist,
    offline::wait_until_kept,
    scene::{Scene, phone, seats},
};

/// Follows the link to a language and waits until the page is alive again.
async fn choose(client: &Browser, tag: &str) -> Outcome {
    client.follow(&format!(".languages a[lang={tag}]")).await?;
    client.wait_until_ready().await
}

async fn expect(client: &Browser, tag: &str) -> Outcome {
    let lang = client.ask("return document.documentElement.lang").await?;
    ensure!(lang == tag, "the page is in {lang}, not {tag}");
    client
        .expect_text(&say_in(tag, "client.trouble.title"))
        .await
}

#[tokio::test(flavor = "multi_thread")]
async fn the_chosen_language_is_kept_on_the_phone_and_told_to_the_artist() -> Outcome {
    let _seats = seats(2).await;
    let scene = Scene::demo().await?;
    let address = scene.server.client_links()[0].clone();
    let client = phone(true).await?;
    client.open_page(&address).await?;
    wait_until_kept(&client).await?;
    expect(&client, "en").await?;

    choose(&client, "es").await?;
    expect(&client, "es").await?;
    let is_alone = client
        .ask("return location.pathname.split('/').length")
        .await?;
    ensure!(is_alone == 3, "back at the page's own address");

    // Without network the page stays as it was last shown, whatever is chosen.
    scene.network.set(Weather::Cut);
    client.reload().await?;
    client.wait_until_ready().await?;
    expect(&client, "es").await?;
    choose(&client, "fr").await?;
    expect(&client, "es").await?;

    // With the network back, choosing works again, and choosing back.
    scene.network.set(Weather::Fine);
    choose(&client, "fr").await?;
    expect(&client, "fr").await?;
    choose(&client, "es").await?;
    expect(&client, "es").await?;

    // Each was noted once, and the artist reads which.
    let shown = "select count(*) from languages_shown";
    client
        .wait_until("every language was noted", async || {
            Ok(scene.count(shown)? == i64::try_from(languages().len())?)
        })
        .await?;
    let artist = Artist::come(&scene, true).await?;
    artist.sign_in_to_demo(&scene).await?;
    artist
        .open("/studio/visits/00000000-0000-8000-8000-000200000001")
        .await?;
    for tag in languages() {
        let name = say_in(&tag, "language.name");
        artist.browser.expect_text(&name).await?;
    }
    Ok(())
}
