//! The whole loop with JavaScript switched off on both sides, with every form sent wrong before it is sent right.

use anyhow::ensure;
use tests::{
    browser::{Browser, Engine, Outcome},
    words::say,
};

use crate::{
    artist::{self, Artist},
    client,
    hand_over::read_code,
    scene::{Scene, phone_with, seats},
};

#[tokio::test(flavor = "multi_thread")]
async fn a_visit_goes_all_the_way_round_without_javascript() -> Outcome {
    goes_all_the_way_round(Engine::Chromium).await
}

#[tokio::test(flavor = "multi_thread")]
async fn a_visit_goes_all_the_way_round_without_javascript_in_webkit() -> Outcome {
    goes_all_the_way_round(Engine::WebKit).await
}

async fn goes_all_the_way_round(engine: Engine) -> Outcome {
    let _seats = seats(2).await;
    let scene = Scene::empty().await?;
    let artist = Artist::come_with(engine, &scene, false).await?;
    set_up(&artist, &scene.server.set_up_code()).await?;
    sign_in(&artist).await?;
    record_visit(&artist).await?;
    ensure!(
        scene.count("select count(*) from visits")? == 1,
        "one visit is in the record"
    );

    let address = read_code(&artist.browser).await?.address;
    let client = phone_with(engine, false).await?;
    client.open_page(&address).await?;
    for shown in [
        artist::STUDIO,
        "For Ottoline",
        "Brow wax",
        "No sauna",
        "Call 999",
    ] {
        client.expect_text(shown).await?;
    }
    report(&client, &scene).await?;
    ensure!(
        scene.count("select count(*) from reports")? == 1,
        "sent twice at once, it is one report"
    );
    report_again(&client, &scene, &address).await?;

    answer(&artist, &scene).await?;
    client.open_page(&address).await?;
    client
        .expect_text(&format!("{} answered", artist::NAME))
        .await?;
    client.expect_text("I will ring you at six.").await?;
    artist
        .browser
        .follow("form[action$='/settle'] button")
        .await?;
    client.open_page(&address).await?;
    client.expect_text(&say("client.reports.settled")).await?;

    // A form that comes back to be mended is an answer of 422, which the console notes; nothing else is in there.
    for browser in [&client, &artist.browser] {
        let complaints = browser.complaints().await?;
        ensure!(
            complaints.iter().all(|one| one.contains("status of 422")),
            "{complaints:#?}"
        );
    }
    Ok(())
}

async fn set_up(artist: &Artist, code: &str) -> Outcome {
    artist.open("/studio").await?;
    artist.write_studio("WRONG-CODE", "short").await?;
    artist.send().await?;
    let browser = &artist.browser;
    expect_fault(browser, "code", &say("fault.code")).await?;
    for (name, kept) in [
        ("studio_name", artist::STUDIO),
        ("phone", artist::PHONE),
        ("artist_name", artist::NAME),
    ] {
        ensure!(
            browser.value(&format!("[name={name}]")).await? == kept,
            "{name} is kept"
        );
    }
    ensure!(
        browser.is_ticked("[name=region][value=uk]").await?,
        "the region is kept"
    );
    ensure!(
        browser.value("[name=time_zone]").await? == artist::ZONE,
        "the time zone is kept"
    );
    ensure!(
        browser.value("[name=password]").await?.is_empty(),
        "a password is never written into a page"
    );

    browser.write("[name=code]", code).await?;
    browser.write("[name=password]", "short").await?;
    artist.send().await?;
    expect_fault(
        browser,
        "password",
        &say("fault.password_short").replace("{min}", "12"),
    )
    .await?;
    browser.write("[name=code]", code).await?;
    browser.write("[name=password]", artist::PASSWORD).await?;
    artist.send().await?;
    browser.expect_text(&say("artist.today.no_visits")).await?;
    artist.sign_out().await
}

async fn sign_in(artist: &Artist) -> Outcome {
    artist.open("/studio/reports").await?;
    artist
        .write_sign_in(artist::EMAIL, "four other words in a row")
        .await?;
    artist.send().await?;
    artist.browser.expect_text(&say("fault.sign_in")).await?;
    ensure!(
        artist.browser.value("[name=email]").await? == artist::EMAIL,
        "the e-mail address is kept"
    );
    artist
        .browser
        .write("[name=password]", artist::PASSWORD)
        .await?;
    artist.send().await?;
    artist.browser.expect_text(&say("artist.today.title")).await
}

async fn record_visit(artist: &Artist) -> Outcome {
    artist
        .browser
        .follow("a.button[href='/studio/visits/new']")
        .await?;
    artist.write_client("Ottoline", "07700 900999").await?;
    artist.write_visit().await?;
    for treatment in ["brow_wax", "brow_tint"] {
        artist
            .browser
            .click(&format!("[name=treatments][value={treatment}]"))
            .await?;
    }
    artist.send().await?;
    let browser = &artist.browser;
    expect_fault(browser, "treatments", &say("fault.treatments_none")).await?;
    for (name, kept) in [
        ("first_name", "Ottoline"),
        ("reach", "07700 900999"),
        ("product_1", "Marrow soft wax"),
        ("batch_1", "MW 7-31"),
        ("note", "Likes a high arch."),
    ] {
        ensure!(
            browser.value(&format!("[name={name}]")).await? == kept,
            "{name} is kept"
        );
    }
    ensure!(
        browser
            .is_ticked("[name=findings][value=topical_retinoid]")
            .await?,
        "the finding is kept"
    );
    for treatment in ["brow_wax", "brow_tint"] {
        browser
            .click(&format!("[name=treatments][value={treatment}]"))
            .await?;
    }
    // A finger that taps twice.
    send_twice(browser, "main form button[type=submit]").await?;
    browser.expect_text(&say("artist.link.unopened")).await
}

/// The client's first report: what to do now, then empty, then without consent, then tapped twice.
async fn report(client: &Browser, scene: &Scene) -> Outcome {
    client::ask_what_to_do(client).await?;
    client.write("[name=reach]", client::FIRST.reach).await?;
    client.follow("#report .send").await?;
    client::expect_fault(client, &say("fault.report_empty")).await?;
    ensure!(
        client.value("[name=reach]").await? == client::FIRST.reach,
        "the reach is kept"
    );

    // What to do now comes before anything is kept.
    client
        .open_page(
            &client
                .driver
                .current_url()
                .await?
                .to_string()
                .replace("/reports", "/trouble"),
        )
        .await?;
    client::write(client, &client::FIRST).await?;
    client.follow(".what-now").await?;
    client
        .wait_for_text_in("#advice", &say("urgency.level.studio"))
        .await?;
    client
        .wait_for_text_in("#advice", &say("urgency.advice.worse"))
        .await?;
    ensure!(
        !client
            .text_of("#advice")
            .await?
            .contains(&say("urgency.level.emergency")),
        "only what holds is told"
    );
    ensure!(
        scene.count("select count(*) from reports")? == 0,
        "nothing was kept"
    );
    client::expect_typed(client, &client::FIRST).await?;

    client.follow("#report .send").await?;
    client::expect_fault(client, &say("fault.consent")).await?;
    client::expect_typed(client, &client::FIRST).await?;

    client::consent(client).await?;
    send_twice(client, "#report .send").await?;
    client.expect_text(&say("client.reports.waiting")).await?;
    client.expect_text(client::FIRST.words).await
}

/// Going back and sending the same again changes nothing; going back and telling something else is a new report.
async fn report_again(client: &Browser, scene: &Scene, address: &str) -> Outcome {
    client.open_page(&format!("{address}/trouble")).await?;
    client::write(client, &client::SECOND).await?;
    client::consent(client).await?;
    client.follow("#report .send").await?;
    ensure!(
        scene.count("select count(*) from reports")? == 2,
        "the second report is in the record"
    );

    client.driver.back().await?;
    println!(
        "after going back: {:?}",
        client.value("[name=words]").await?
    );
    client.follow("#report .send").await?;
    ensure!(
        scene.count("select count(*) from reports")? == 2,
        "sent again after going back, it is the same report"
    );

    client.driver.back().await?;
    client.write("[name=words]", "And now it is cold.").await?;
    client.follow("#report .send").await?;
    ensure!(
        scene.count("select count(*) from reports")? == 3,
        "what was changed after going back is a new report"
    );
    for words in [
        client::FIRST.words,
        client::SECOND.words,
        "And now it is cold.",
    ] {
        client.expect_text(words).await?;
    }
    Ok(())
}

async fn answer(artist: &Artist, scene: &Scene) -> Outcome {
    artist.open("/studio/reports").await?;
    let browser = &artist.browser;
    let first = browser.text_of("ul.lines li").await?;
    ensure!(
        first.contains(client::FIRST.words),
        "the one that has waited longest stands first, not: {first}"
    );
    browser.follow("ul.lines li a").await?;
    // Blanks get past what the browser asks for.
    browser.write("[name=text]", "   ").await?;
    browser
        .follow("form[action$='/answer'] button[type=submit]")
        .await?;
    expect_fault(browser, "text", &say("fault.required")).await?;
    browser
        .write("[name=text]", "I will ring you at six.")
        .await?;
    send_twice(browser, "form[action$='/answer'] button[type=submit]").await?;
    browser.expect_text("I will ring you at six.").await?;
    ensure!(
        scene.count("select count(*) from report_events")? == 1,
        "tapped twice, it is one answer"
    );
    Ok(())
}

/// Fails unless the sentence stands beside the field, and the field says so to whoever does not see.
async fn expect_fault(browser: &Browser, field: &str, sentence: &str) -> Outcome {
    browser
        .wait_for_text_in(&format!("#fault-{field}"), sentence)
        .await?;
    let told = format!("return !!document.querySelector(\"[aria-describedby~='fault-{field}']\")");
    ensure!(
        browser.ask(&told).await? == true,
        "nothing points at the sentence for `{field}`"
    );
    Ok(())
}

/// Taps a button twice before the first tap has led anywhere.
async fn send_twice(browser: &Browser, button: &str) -> Outcome {
    browser
        .ask(&format!(
            "document.documentElement.dataset.left = 'yes';
             const button = document.querySelector(\"{button}\");
             button.click();
             button.form.submit();"
        ))
        .await?;
    browser.wait_until_left().await
}
