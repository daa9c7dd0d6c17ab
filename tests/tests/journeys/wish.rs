//! A wish for a time: written without network it arrives once, is answered in a tap, and the client reads it; and the
//! same without JavaScript.

use anyhow::ensure;
use chrono::{Days, NaiveDate, Utc};
use tests::{
    browser::{Browser, Outcome},
    network::Weather,
    words::say,
};

use crate::{
    artist::Artist,
    client::beginning,
    scene::{Scene, kept_phone, phone, seats},
};

const WORDS: &str = "After work if you can.";
const TIME: &str = "17:30";

#[tokio::test(flavor = "multi_thread")]
async fn a_wish_written_without_network_arrives_once_and_is_answered() -> Outcome {
    let _seats = seats(2).await;
    let scene = Scene::demo().await?;
    let address = scene.server.client_links().swap_remove(0);
    let before = wishes(&scene)?;
    let storage = tempfile::tempdir()?;
    let client = kept_phone(storage.path()).await?;
    client.open_page(&address).await?;
    let kept = "return caches.match(location.pathname).then((kept) => !!kept)";
    client
        .wait_until("the worker keeps the page", async || {
            Ok(client.ask(kept).await? == true)
        })
        .await?;

    // Asked for with no network at all: it is on the phone, and the page says so.
    scene.network.set(Weather::Cut);
    write(&client).await?;
    client.click("#wish-form .send").await?;
    let still_here = beginning("client.sending.kept");
    client
        .wait_for_text_in(".wish-whereabouts", &still_here)
        .await?;
    client.close().await?;
    let client = kept_phone(storage.path()).await?;
    client.open_page(&address).await?;
    client
        .wait_for_text_in(".wish-whereabouts", &still_here)
        .await?;
    ensure!(wishes(&scene)? == before, "nothing has arrived yet");

    // With the network back it goes by itself, once.
    scene.network.set(Weather::Fine);
    client
        .wait_until("the page lists the wish", async || {
            Ok(client.text_of("#wish").await?.contains(WORDS))
        })
        .await?;
    ensure!(wishes(&scene)? == before + 1, "it is in the record once");

    // The artist finds it on the first screen and takes the time in a tap.
    let artist = Artist::come(&scene, true).await?;
    artist.sign_in_to_demo(&scene).await?;
    take_the_first_time(&artist).await?;
    let agreed = say("client.wish.agreed");
    let agreed = agreed.split("{when}").next().unwrap_or_default();
    client.reload().await?;
    client.wait_for_text_in("#wish .lead", agreed).await?;
    let told = client.text_of("#wish .lead").await?;
    ensure!(told.contains(TIME), "the time is told: {told}");
    client.reload().await?;
    ensure!(wishes(&scene)? == before + 1, "it stays one");
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn a_wish_is_asked_and_answered_without_javascript() -> Outcome {
    let _seats = seats(2).await;
    let scene = Scene::demo().await?;
    let address = scene.server.client_links().swap_remove(0);
    let before = wishes(&scene)?;
    let client = phone(false).await?;
    client.open_page(&address).await?;
    // A time without its day comes back with a sentence and what was typed.
    client.click("#wish details summary").await?;
    set(&client, "date_1", "").await?;
    set(&client, "time_1", TIME).await?;
    client.write("#wish [name=wish_words]", WORDS).await?;
    client.follow("#wish-form .send").await?;
    client.expect_text(&say("fault.wish_day")).await?;
    ensure!(client.value("#wish [name=time_1]").await? == TIME);
    ensure!(wishes(&scene)? == before, "nothing is half taken");
    set(&client, "date_1", &day()).await?;
    client.follow("#wish-form .send").await?;
    client.expect_text(WORDS).await?;
    ensure!(wishes(&scene)? == before + 1);

    let artist = Artist::come(&scene, false).await?;
    artist.sign_in_to_demo(&scene).await?;
    take_the_first_time(&artist).await?;
    client.open_page(&address).await?;
    let told = client.text_of("#wish .lead").await?;
    ensure!(told.contains(TIME), "the time is told: {told}");
    Ok(())
}

/// From the first screen to the answer.
async fn take_the_first_time(artist: &Artist) -> Outcome {
    artist.open("/studio/wishes").await?;
    let listed = artist
        .browser
        .text_of(".lines .unanswered:first-child")
        .await?;
    ensure!(listed.contains("Noor"), "{listed}");
    artist
        .browser
        .follow(".lines .unanswered:first-child a")
        .await?;
    artist.browser.expect_text(WORDS).await?;
    artist
        .browser
        .follow(".choose li:first-child button")
        .await?;
    Ok(())
}

/// Fills in one day with a time, and a few words.
async fn write(client: &Browser) -> Outcome {
    client.click("#wish details summary").await?;
    set(client, "date_1", &day()).await?;
    set(client, "time_1", TIME).await?;
    client.write("#wish [name=wish_words]", WORDS).await
}

/// Sets a date or a time; how a browser lets one type it differs with its language.
async fn set(client: &Browser, field: &str, value: &str) -> Outcome {
    let script = format!(
        "const field = document.querySelector('#wish [name={field}]'); field.value = '{value}'; \
         field.dispatchEvent(new Event('input', {{ bubbles: true }}))"
    );
    client.ask(&script).await.map(drop)
}

/// A day within the range that the demo's first client is advised.
fn day() -> String {
    let today: NaiveDate = Utc::now().date_naive();
    (today + Days::new(38)).to_string()
}

fn wishes(scene: &Scene) -> Outcome<i64> {
    scene.count("select count(*) from wishes")
}
