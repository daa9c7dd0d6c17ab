//! A draft that was closed comes back: its words always, its answers for as long as they can still be true.

use anyhow::ensure;
use tests::browser::Outcome;

use crate::{
    client::{self, FIRST, shown},
    scene::{Scene, phone, seats},
};

#[tokio::test(flavor = "multi_thread")]
async fn answers_of_a_draft_are_asked_for_anew_after_hours() -> Outcome {
    let _seats = seats(1).await;
    let (_scene, address) = Scene::kept().await?;
    let client = phone(true).await?;
    let trouble = format!("{address}/trouble");
    client.open_page(&trouble).await?;
    client::write(&client, &FIRST).await?;
    let (words, id) = ("[name=words]", "[name=report_id]");
    let kept = client.value(id).await?;

    client.open_page(&trouble).await?;
    ensure!(
        shown(&client).await? == "advice",
        "what was answered just now holds"
    );
    client::expect_typed(&client, &FIRST).await?;

    let earlier = "
        const key = Object.keys(localStorage).find((key) => key.endsWith(':draft'));
        const draft = JSON.parse(localStorage.getItem(key));
        const at = draft.values.find(([name]) => name === 'kept_at');
        at[1] = `${at[1] - 7 * 3600}`;
        localStorage.setItem(key, JSON.stringify(draft));";
    client.ask(earlier).await?;
    client.open_page(&trouble).await?;
    ensure!(
        shown(&client).await? == "ask-product_in_eye",
        "it asks anew: {}",
        shown(&client).await?
    );
    ensure!(
        client.value(words).await? == FIRST.words,
        "the words are kept"
    );
    ensure!(
        client.value("[name=reach]").await? == FIRST.reach,
        "and how to be reached"
    );
    ensure!(
        client.value(id).await? == kept,
        "it is the same report, with its photos"
    );
    Ok(())
}
