//! The whole loop with JavaScript, from an empty record to an answer that the client has read.

use tests::{
    browser::{Browser, Engine, Outcome},
    words::{say, say_of_brows},
};

use crate::{
    artist::{self, Artist, end_on_the_wall},
    client::{self, beginning},
    hand_over::read_code,
    scene::{Scene, phone_with, seats},
};

#[tokio::test(flavor = "multi_thread")]
async fn a_visit_goes_all_the_way_round() -> Outcome {
    goes_all_the_way_round(Engine::Chromium).await
}

#[tokio::test(flavor = "multi_thread")]
async fn a_visit_goes_all_the_way_round_in_webkit() -> Outcome {
    goes_all_the_way_round(Engine::WebKit).await
}

async fn goes_all_the_way_round(engine: Engine) -> Outcome {
    let _seats = seats(2).await;
    let scene = Scene::empty().await?;
    let artist = Artist::come_with(engine, &scene, true).await?;

    // The first start, and in again by the door.
    artist.open("/").await?;
    assert_eq!(artist.path().await?, "/studio/begin");
    artist
        .write_studio(&scene.server.set_up_code(), artist::PASSWORD)
        .await?;
    artist.send().await?;
    assert_eq!(artist.path().await?, "/studio");
    artist.sign_out().await?;
    artist.open("/studio").await?;
    assert_eq!(artist.path().await?, "/studio/sign-in");
    artist
        .write_sign_in(artist::EMAIL, artist::PASSWORD)
        .await?;
    artist.send().await?;

    // The visit.
    artist.open("/studio/visits/new").await?;
    let finished = artist.write_client("Ottoline", "07700 900999").await?;
    artist.write_visit().await?;
    artist.send().await?;
    artist
        .browser
        .expect_text(&say("artist.link.unopened"))
        .await?;
    let code = read_code(&artist.browser).await?;
    println!(
        "the code: error level {}, {m} × {m} modules",
        code.error_level,
        m = code.modules
    );
    assert_eq!(
        code.address,
        code.address.to_ascii_uppercase(),
        "in capitals it stays small"
    );

    // Across the counter.
    let client = phone_with(engine, true).await?;
    client.open_page(&code.address).await?;
    for shown in [
        artist::STUDIO,
        "For Ottoline",
        "Brow wax",
        "Brow tint",
        artist::NAME,
        artist::PHONE,
        "Call 999",
    ] {
        client.expect_text(shown).await?;
    }
    // Hours by content/catalogue/treatments (common practice; the retinoid's by Day's textbook and common practice).
    for (caution, hours) in [
        ("touching", 24),
        ("water", 24),
        ("heat", 48),
        ("swimming", 48),
        ("actives", 168),
        ("exfoliation", 168),
    ] {
        let end = end_on_the_wall(finished, hours)?;
        let shown =
            end_shown_for(&client, &say_of_brows(&format!("caution.{caution}.what"))).await?;
        assert_eq!(
            shown,
            say("client.now.until").replace("{when}", &end),
            "{caution}"
        );
    }
    // The artist sees it without a hand on the screen.
    artist
        .browser
        .wait_for_text_in(".opened", &beginning("artist.link.opened"))
        .await?;

    // Something is not right, twice.
    for (number, told) in [&client::FIRST, &client::SECOND].into_iter().enumerate() {
        client::ask_what_to_do(&client).await?;
        client::write(&client, told).await?;
        client::consent(&client).await?;
        client::send(&client).await?;
        let received = beginning_with_studio("client.sending.received");
        client.wait_for_text_in(".whereabouts", &received).await?;
        client::back_to_page(&client).await?;
        client
            .wait_until("the page lists the report", async || {
                Ok(client
                    .ask("return document.querySelectorAll('#reports .report').length")
                    .await?
                    == number + 1)
            })
            .await?;
    }
    client.expect_text(&say("client.reports.waiting")).await?;

    // Of two that are as urgent the one that has waited longer stands first, with its visit beside it.
    artist.open("/studio/reports").await?;
    let first = artist.browser.text_of("ul.lines li:nth-child(1)").await?;
    let second = artist.browser.text_of("ul.lines li:nth-child(2)").await?;
    assert!(
        first.contains("Ottoline") && first.contains(client::FIRST.words),
        "{first}"
    );
    assert!(second.contains(client::SECOND.words), "{second}");
    artist.browser.follow("ul.lines li:nth-child(1) a").await?;
    for shown in [
        client::FIRST.words,
        client::FIRST.reach,
        &say("urgency.name.redness"),
        "Itch 6/10",
        &say("urgency.trend.worse"),
    ] {
        artist.browser.expect_text(shown).await?;
    }
    for shown in [
        "Brow wax",
        "Brow tint",
        "Marrow soft wax",
        "MW 7-31",
        "Likes a high arch.",
        &say("finding.topical_retinoid"),
    ] {
        artist.browser.wait_for_text_in(".beside", shown).await?;
    }

    // The answer comes to the open page by itself, without a reload.
    client
        .ask("document.documentElement.dataset.same = 'yes'")
        .await?;
    let answer = "Cool it with a clean wet cloth. I will ring you at six.";
    artist.browser.write("[name=text]", answer).await?;
    artist
        .browser
        .follow("form[action$='/answer'] button[type=submit]")
        .await?;
    artist.browser.expect_text(answer).await?;
    client.wait_for_text_in("#reports", answer).await?;
    client
        .expect_text(&format!("{} answered", artist::NAME))
        .await?;
    assert_eq!(
        client
            .ask("return document.documentElement.dataset.same")
            .await?,
        "yes",
        "it is the same page"
    );

    artist
        .browser
        .follow("form[action$='/settle'] button")
        .await?;
    client.reload().await?;
    client
        .wait_for_text_in("#reports", &say("client.reports.settled"))
        .await?;
    client.expect_text(answer).await?;

    client.expect_no_complaints().await?;
    artist.browser.expect_no_complaints().await
}

fn beginning_with_studio(key: &str) -> String {
    say(key)
        .replace("{studio}", artist::STUDIO)
        .split(". ")
        .next()
        .unwrap_or_default()
        .to_owned()
}

/// The end above the group in which a caution stands.
async fn end_shown_for(client: &Browser, caution: &str) -> Outcome<String> {
    let script = format!(
        "const of = {};
         const line = [...document.querySelectorAll('.until li summary')].find((one) => one.textContent.trim() === of);
         return line?.closest('.until').querySelector('h3 span').textContent ?? 'not on the page';",
        serde_json::Value::from(caution)
    );
    Ok(client
        .ask(&script)
        .await?
        .as_str()
        .unwrap_or_default()
        .to_owned())
}
