//! An open screen is told what comes in: the title counts, a line says so, and nothing is loaded again.

use tests::{browser::Outcome, report::report, server::Server, visitor::Visitor, words::say};
use uuid::Uuid;

use crate::{
    artist::Artist,
    scene::{Scene, seats},
};

/// A client of the demo reports.
async fn reports(server: &Server) -> Uuid {
    let id = Uuid::new_v4();
    let path = format!(
        "{}/MY/{}",
        server.address,
        secret(&server.client_links()[0])
    );
    let put = move || Visitor::to("").put(&format!("{path}/reports/{id}"), &report("It is red."));
    // The visitor waits for its answers, which a thread of the journeys' own must not.
    let sent = tokio::task::spawn_blocking(put).await.expect("it was sent");
    assert_eq!(sent.status, 201, "{}", sent.body);
    id
}

fn secret(link: &str) -> &str {
    link.rsplit('/').next().expect("a secret")
}

#[tokio::test(flavor = "multi_thread")]
async fn a_report_shows_on_the_open_screen_and_under_no_hand() -> Outcome {
    let _seats = seats(1).await;
    let scene = Scene::demo().await?;
    let artist = Artist::come(&scene, true).await?;
    let browser = &artist.browser;
    artist.open("/studio/sign-in").await?;
    let (email, password) = scene.server.sign_in();
    artist.write_sign_in(&email, &password).await?;
    artist.send().await?;
    artist.open("/studio/practice").await?;
    // What the artist is in the middle of.
    browser.click("[name=closed][value=monday]").await?;
    browser
        .ask("document.documentElement.dataset.same = 'yes'; scrollTo(0, 200)")
        .await?;
    let before = browser.ask("return document.title").await?;
    assert!(
        before
            .as_str()
            .is_some_and(|title| title.starts_with("(3) ")),
        "two reports and a wish of the demo wait: {before}"
    );
    let ticked = browser.is_ticked("[name=closed][value=monday]").await?;

    let id = reports(&scene.server).await;
    let said = say("artist.live.report").replace("{level}", &say("told_at_once.level.studio"));
    browser.wait_for_text_in("[role=status]", &said).await?;
    let title = browser.ask("return document.title").await?;
    assert!(
        title
            .as_str()
            .is_some_and(|title| title.starts_with("(4) ")),
        "{title}"
    );
    let counted = browser
        .text_of("nav a[href='/studio/reports'] .count")
        .await?;
    assert_eq!(counted, "3");
    let way = "return document.querySelector('[role=status] a').getAttribute('href')";
    assert_eq!(browser.ask(way).await?, format!("/studio/reports/{id}"));
    let same = "return document.documentElement.dataset.same === 'yes' && scrollY === 200";
    assert_eq!(
        browser.ask(same).await?,
        true,
        "nothing was loaded or moved"
    );
    assert_eq!(
        browser.is_ticked("[name=closed][value=monday]").await?,
        ticked
    );

    // Put away, it is gone; the sound is switched on by a touch, and stays so on this device.
    browser.click("[role=status] button").await?;
    assert_eq!(browser.text_of("[role=status]").await?, "");
    browser.click(".foot button").await?;
    browser
        .wait_for_text_in(".foot button", &say("artist.live.sound_is_on"))
        .await?;
    artist.open("/studio").await?;
    browser
        .wait_for_text_in(".foot button", &say("artist.live.sound_is_on"))
        .await?;
    browser.follow("nav a[href='/studio/reports']").await?;
    browser.expect_text(&say("artist.batches.link")).await
}
