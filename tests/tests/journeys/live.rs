//! An open screen is told what comes in: the title counts, a line says so, and nothing is loaded again.

use serde_json::{Value, json};
use tests::{
    browser::{Browser, Outcome},
    report::report,
    server::Server,
    visitor::Visitor,
    words::say,
};
use uuid::Uuid;

use crate::{
    artist::Artist,
    scene::{Scene, seats},
};

/// A client of the demo reports.
async fn reports(server: &Server) -> Uuid {
    reports_of(server, report("")["answers"].clone()).await
}

/// A client of the demo reports these answers.
async fn reports_of(server: &Server, answers: Value) -> Uuid {
    let id = Uuid::new_v4();
    let path = format!(
        "{}/MY/{}",
        server.address,
        secret(&server.client_links()[0])
    );
    let mut report = report("It is red.");
    report["answers"] = answers;
    let put = move || Visitor::to("").put(&format!("{path}/reports/{id}"), &report);
    // The visitor waits for its answers, which a thread of the journeys' own must not.
    let sent = tokio::task::spawn_blocking(put).await.expect("it was sent");
    assert_eq!(sent.status, 201, "{}", sent.body);
    id
}

/// From here on the page keeps what it sounds: pitch and time of each tone, and how its sound output stands. Every tone is
/// an `OscillatorNode` that is started (Web Audio API, W3C, section 1.26).
const LISTEN: &str = "
    window.tones = [];
    const start = AudioScheduledSourceNode.prototype.start;
    AudioScheduledSourceNode.prototype.start = function (at) {
        window.tones.push([this.frequency.value, at, this.context]);
        return start.call(this, at);
    };";

/// The pitches that were sounded since the last time, in Hz.
async fn heard(browser: &Browser) -> Outcome<Value> {
    let running = "return window.tones.every(([, , context]) => context.state === 'running')";
    let awake = async || Ok(browser.ask(running).await? == true);
    browser
        .wait_until("the sound output is awake", awake)
        .await?;
    let tones = "return window.tones.splice(0).sort((a, b) => a[1] - b[1]).map(([pitch]) => pitch)";
    browser.ask(tones).await
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

    // Put away, it is gone. Nobody wished for a sound, and none was made.
    browser.click("[role=status] button").await?;
    assert_eq!(browser.text_of("[role=status]").await?, "");
    browser.ask(LISTEN).await?;
    let more = reports(&scene.server).await;
    let way = format!("[role=status] a[href='/studio/reports/{more}']");
    browser.find(&way).await?;
    assert_eq!(heard(browser).await?, json!([]));
    browser.click("[role=status] button").await?;
    // It is switched on by a touch, which lets one hear it, and stays so on this device.
    browser.click(".foot button").await?;
    browser
        .wait_for_text_in(".foot button", &say("artist.live.sound_is_on"))
        .await?;
    let bell = json!([660, 880]);
    assert_eq!(heard(browser).await?, bell);
    artist.open("/studio").await?;
    browser
        .wait_for_text_in(".foot button", &say("artist.live.sound_is_on"))
        .await?;
    browser.ask(LISTEN).await?;
    // The first touch anywhere lets the new page sound; this one changes nothing else.
    browser.click("h1").await?;
    assert_eq!(heard(browser).await?, json!([]), "nothing came in");
    reports(&scene.server).await;
    browser.wait_for_text_in("[role=status]", &said).await?;
    assert_eq!(heard(browser).await?, bell);
    // What cannot wait sounds three times.
    browser.click("[role=status] button").await?;
    reports_of(&scene.server, json!({"airway": "yes"})).await;
    let urgent = say("artist.live.report");
    let urgent = urgent.replace("{level}", &say("told_at_once.level.emergency"));
    browser.wait_for_text_in("[role=status]", &urgent).await?;
    let thrice = json!([660, 880, 660, 880, 660, 880]);
    assert_eq!(heard(browser).await?, thrice);
    // Switched off again it is silent.
    browser.click("[role=status] button").await?;
    browser.click(".foot button").await?;
    browser
        .wait_for_text_in(".foot button", &say("artist.live.sound_on"))
        .await?;
    let last = reports(&scene.server).await;
    let way = format!("[role=status] a[href='/studio/reports/{last}']");
    browser.find(&way).await?;
    assert_eq!(heard(browser).await?, json!([]));
    browser.follow("nav a[href='/studio/reports']").await?;
    browser.expect_text(&say("artist.batches.link")).await
}
