//! A wish while it is typed, and its answer: what is typed survives a closed browser and no network, what is on its way
//! is said at the top of the page, and the answer comes to the open page by itself.

use anyhow::ensure;
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

const WORDS: &str = "After work, <b>if</b> you can.";

#[tokio::test(flavor = "multi_thread")]
async fn a_wish_survives_and_its_answer_comes_by_itself() -> Outcome {
    let _seats = seats(2).await;
    let scene = Scene::demo().await?;
    let address = scene.server.client_links().swap_remove(0);
    let storage = tempfile::tempdir()?;
    let client = kept_phone(storage.path()).await?;
    client.open_page(&address).await?;
    client
        .wait_until("the worker keeps the page", async || {
            let kept = "return caches.match(location.pathname).then((kept) => !!kept)";
            Ok(client.ask(kept).await? == true)
        })
        .await?;

    // What is typed survives, with no network at all, and stands unfolded.
    scene.network.set(Weather::Cut);
    client.click("#wish summary").await?;
    let good_day = client.value("[name=date_1]").await?;
    ensure!(!good_day.is_empty(), "the form begins with a good day");
    put(&client, "time_1", "17:30").await?;
    client.write("[name=wish_words]", WORDS).await?;
    client.close().await?;
    let client = kept_phone(storage.path()).await?;
    client.open_page(&address).await?;
    let typed = [
        ("date_1", good_day.as_str()),
        ("time_1", "17:30"),
        ("wish_words", WORDS),
    ];
    for (field, typed) in typed {
        let kept = client.value(&format!("[name={field}]")).await?;
        ensure!(kept == typed, "`{field}` is kept, not `{kept}`");
    }

    // On its way it is no draft any more, and the top of the page says where it is, also after closing.
    client.click("#wish .send").await?;
    let unsent = say("client.sending.unsent");
    client.wait_for_text_in(".unsent", &unsent).await?;
    client.close().await?;
    let client = kept_phone(storage.path()).await?;
    client.open_page(&address).await?;
    client.wait_for_text_in(".unsent", &unsent).await?;
    ensure!(
        client.value("[name=wish_words]").await?.is_empty(),
        "what is on its way is no draft any more"
    );
    scene.network.set(Weather::Fine);
    client.wait_for_text_in("#wish .report", WORDS).await?;
    ensure!(client.text_of(".unsent").await?.is_empty());

    // The bar counts it. Taken in a tap, it comes to the open page by itself, also to its top.
    client
        .ask("document.documentElement.dataset.same = 'yes'")
        .await?;
    let artist = Artist::come(&scene, true).await?;
    artist.sign_in_to_demo(&scene).await?;
    let waiting = scene.count("select count(*) from waiting_wishes")?;
    let counted = artist
        .browser
        .text_of("nav a[href='/studio/wishes'] .count")
        .await?;
    ensure!(counted == waiting.to_string(), "{counted}, not {waiting}");
    artist
        .browser
        .follow("main a[href^='/studio/wishes/']")
        .await?;
    artist.browser.expect_text(WORDS).await?;
    artist.browser.follow(".choose form button").await?;
    let says = beginning("client.wish.agreed");
    client
        .wait_for_text_in("[role=status] .lead", &says)
        .await?;
    client.wait_for_text_in("#wish .lead", "17:30").await?;
    let same = client
        .ask("return document.documentElement.dataset.same")
        .await?;
    ensure!(same == "yes", "it is the same page");
    artist.browser.expect_no_complaints().await
}

/// Any time of a day would do: so the studio says which, with a word beside, and later calls it off.
#[tokio::test(flavor = "multi_thread")]
async fn another_time_is_agreed_on_and_called_off_without_javascript() -> Outcome {
    let _seats = seats(2).await;
    let scene = Scene::demo().await?;
    let address = scene.server.client_links().swap_remove(0);
    let client = phone(false).await?;
    client.open_page(&address).await?;
    client.click("#wish summary").await?;
    client.write("[name=wish_words]", WORDS).await?;
    client.follow("#wish .send").await?;
    client.wait_for_text_in("#wish .report", WORDS).await?;

    let artist = Artist::come(&scene, false).await?;
    artist.sign_in_to_demo(&scene).await?;
    artist.open("/studio/wishes").await?;
    artist.browser.follow("ul.lines li a").await?;
    let good_day = client.value("[name=date_1]").await?;
    put(&artist.browser, "date", &good_day).await?;
    put(&artist.browser, "time", "09:15").await?;
    artist.browser.write("[name=text]", "Gladly.").await?;
    artist
        .browser
        .follow("form:has([name=text]) button")
        .await?;
    client.open_page(&address).await?;
    client.wait_for_text_in("#wish .lead", "09:15").await?;
    client.expect_text("Gladly.").await?;

    artist
        .browser
        .follow("form[action$='/call-off'] button")
        .await?;
    client.open_page(&address).await?;
    ensure!(
        client.text_of("#wish .lead").await?.is_empty(),
        "the time holds no longer"
    );
    let off = say("wish.called_off");
    client
        .expect_text(off.split('}').nth(1).unwrap_or_default())
        .await
}

/// Sets a day or a time: keys would have to be typed in the order of the browser's own language.
async fn put(browser: &Browser, field: &str, value: &str) -> Outcome {
    let script = format!(
        "const field = document.querySelector('[name={field}]');
         field.value = '{value}';
         field.dispatchEvent(new Event('input', {{ bubbles: true }}));"
    );
    browser.ask(&script).await?;
    Ok(())
}
