//! Coming alive: under its own content security policy every page takes over what the server drew, changes nothing
//! of it, and then answers; another build's page is left alone.

use std::path::Path;

use anyhow::{Context, ensure};
use serde_json::{Value, json};
use shared_types::page::trouble::ALSO;
use tests::{
    browser::{Browser, Outcome},
    server::site,
    words::{say, say_of_brows},
};

use crate::{
    artist::Artist,
    client,
    pages::{Gallery, Page, Side},
    scene::{Scene, phone, seats},
};

/// Every element of the page in order: its name, its attributes and its own text. Left out: the marks of the
/// renderer, ids that are made anew for each page (hidden, or where a form is sent), what is only offered by a page that is alive (the hairs of the picture
/// among it), what is only there without a script, what of a form is hidden because it is not asked yet, and the questions
/// that stand with the report once there is advice.
const DRAWN: &str = r#"
    const all = [...document.getElementById('main').querySelectorAll('*')];
    const left_out = '.link-part .actions > button, .foot > button, .beginnings li, .beginnings li *, .hairs path, noscript, noscript *, details.answered, ALSO';
    return all.filter((one) => !one.matches(left_out)).map((one) => {
        const attributes = [...one.attributes]
            .filter(({ name }) => !name.startsWith('data-') && !(name === 'value' && (one.type === 'hidden' || one.name === 'secret')) && name !== 'action' && name !== 'hidden')
            .map(({ name, value }) => `${name}=${value}`).sort();
        const text = [...one.childNodes].filter((node) => node.nodeType === Node.TEXT_NODE).map((node) => node.data).join('');
        return [one.localName, ...attributes, text.replace(/\s+/g, ' ').trim()].join(' | ');
    });"#;

fn what_is_drawn() -> String {
    let also = ALSO.map(|id| format!("#ask-{id}, #ask-{id} *"));
    DRAWN.replace("ALSO", &also.join(", "))
}

#[tokio::test(flavor = "multi_thread")]
async fn coming_alive_changes_nothing_that_was_drawn() -> Outcome {
    let _seats = seats(2).await;
    let gallery = Gallery::open().await?;
    let (plain, alive) = (phone(false).await?, phone(true).await?);
    let_time_pass(&alive).await?;
    for page in gallery.pages.iter().filter(|page| page.alive) {
        expect_same(page, &plain, &alive).await?;
        if page.side == Side::Client {
            let answered = if page.address.ends_with("/trouble") {
                expect_next_question(&alive).await
            } else {
                expect_answers(&alive).await
            };
            answered.with_context(|| format!("{} does not answer rightly", page.name))?;
        }
        let complaints = alive.complaints().await?;
        // A form that comes back to be mended is an answer of 422, which the console notes.
        let graver = complaints
            .iter()
            .find(|one| page.send.is_none() || !one.contains("status of 422"));
        ensure!(graver.is_none(), "{}: {graver:?}", page.name);
    }
    Ok(())
}

/// A minute may end between the two looks, and "35 minutes to go" become 34: a third look in vain is no such thing.
async fn expect_same(page: &Page, plain: &Browser, alive: &Browser) -> Outcome {
    let mut difference = String::new();
    for _ in 0..3 {
        page.open(plain).await?;
        let drawn = lines(plain.ask(&what_is_drawn()).await?);
        ensure!(
            drawn.len() > 10,
            "{} is hardly a page: {drawn:?}",
            page.name
        );
        page.open(alive).await?;
        let taken_over = lines(alive.ask(&what_is_drawn()).await?);
        if drawn == taken_over {
            return Ok(());
        }
        let at = drawn
            .iter()
            .zip(&taken_over)
            .take_while(|(one, other)| one == other)
            .count();
        difference = format!(
            "drawn {:#?}\nalive {:#?}",
            drawn.get(at..at + 3),
            taken_over.get(at..at + 3)
        );
    }
    anyhow::bail!("{} changes as it comes alive:\n{difference}", page.name)
}

/// The page of what to do goes on by a tap.
async fn expect_next_question(client: &Browser) -> Outcome {
    // What came back to be mended is past the questions; from there one can go back to them.
    if client::shown(client).await? == "advice" {
        client.click("#advice [data-do=back]").await?;
        let shown = client::shown(client).await?;
        ensure!(shown.starts_with("ask-"), "back to the questions: {shown}");
        return Ok(());
    }
    ensure!(
        client::shown(client).await? == "ask-product_in_eye",
        "eyes come first"
    );
    client::tap(client, "product_in_eye", "no").await?;
    ensure!(
        client::shown(client).await? == "ask-eye_trouble",
        "one question at a time"
    );
    Ok(())
}

/// Parts that were taken over in the wrong places show it when they change, wherever on the page they are.
async fn expect_answers(client: &Browser) -> Outcome {
    client
        .ask(
            "document.documentElement.dataset.same = 'yes';
             document.querySelector('#wish details').open = true;
             for (const field of document.querySelectorAll('#wish-form input:not([type=hidden])')) field.value = '';",
        )
        .await?;
    client.click("#wish-form .send").await?;
    client
        .wait_for_text_in("#wish .fault", &say("fault.wish_none"))
        .await?;
    move_on(client, 400 * 24).await?;
    client
        .wait_for_text_in("#now .lead", &say_of_brows("client.now.all_over"))
        .await?;
    let today = "return document.querySelectorAll('#weeks .key.today, #weeks path.today').length";
    ensure!(
        client.ask(today).await? == 0,
        "today is still within the weeks"
    );
    let same = client
        .ask("return document.documentElement.dataset.same")
        .await?;
    ensure!(same == "yes", "the plain form was sent instead");
    Ok(())
}

/// Lets a test set the phone's clock forward.
async fn let_time_pass(browser: &Browser) -> Outcome {
    let clock =
        "window.ahead = 0; const now = Date.now; Date.now = () => now.call(Date) + window.ahead;";
    let script = json!({ "source": clock });
    browser
        .cdp("Page.addScriptToEvaluateOnNewDocument", script)
        .await?;
    Ok(())
}

fn lines(drawn: Value) -> Vec<String> {
    serde_json::from_value(drawn).unwrap_or_default()
}

#[tokio::test(flavor = "multi_thread")]
async fn a_clients_page_answers_and_moves_with_time() -> Outcome {
    let _seats = seats(1).await;
    let scene = Scene::demo().await?;
    let client = phone(true).await?;
    let_time_pass(&client).await?;
    client.open_page(&scene.server.client_links()[0]).await?;
    client
        .ask("document.documentElement.dataset.same = 'yes'")
        .await?;

    // Noor's visit ended 35 minutes ago: 25 hours on, what lasts 24 hours is over, and what lasts 48 is not.
    let over = say("client.now.over");
    let (short, long) = (
        say_of_brows("caution.touching.what"),
        say_of_brows("caution.heat.what"),
    );
    ensure!(!client.shows(&over).await?, "nothing is over yet");
    move_on(&client, 25).await?;
    client.wait_for_text_in(".until.over", &short).await?;
    ensure!(
        !client.text_of(".until.over").await?.contains(&long),
        "`{long}` still holds"
    );
    move_on(&client, 8 * 24).await?;
    client
        .wait_for_text_in("#now .lead", &say_of_brows("client.now.all_over"))
        .await?;
    // What is all over is folded away; a tap shows it.
    client.click(".until.over > summary").await?;
    client.wait_for_text_in(".until.over", &long).await?;
    let counted = "return [...document.querySelectorAll('.cautions li summary')].map((one) => one.firstChild.data)";
    let mut cautions = lines(client.ask(counted).await?);
    let all = cautions.len();
    cautions.sort();
    cautions.dedup();
    ensure!(
        all == cautions.len() && all >= 8,
        "each caution is there once: {cautions:?}"
    );
    ensure!(
        client
            .ask("return document.documentElement.dataset.same")
            .await?
            == "yes",
        "it is the same page"
    );
    client.expect_no_complaints().await
}

/// What is missing is said by the page itself, and nothing that was told is lost, whichever way somebody goes.
#[tokio::test(flavor = "multi_thread")]
async fn the_page_of_what_to_do_answers_and_goes_back() -> Outcome {
    let _seats = seats(1).await;
    let scene = Scene::demo().await?;
    let client = phone(true).await?;
    let address = format!("{}/trouble", scene.server.client_links()[0]);
    client.open_page(&address).await?;
    client
        .ask("document.documentElement.dataset.same = 'yes'")
        .await?;
    client::write(&client, &client::FIRST).await?;
    client::send(&client).await?;
    client::expect_fault(&client, &say("fault.consent")).await?;
    client::expect_typed(&client, &client::FIRST).await?;

    // Back to the first question, and forth again, one step at a time.
    client.click("#advice [data-do=back]").await?;
    let mut steps = 1;
    while client::shown(&client).await? != "ask-product_in_eye" {
        client.click(".steps-on [data-do=back]").await?;
        steps += 1;
        ensure!(steps < 40, "no way back to the first question");
    }
    for _ in 0..steps {
        client::go_on(&client).await?;
    }
    ensure!(
        client::shown(&client).await? == "advice",
        "{steps} steps forth"
    );
    client::expect_typed(&client, &client::FIRST).await?;

    // Another answer on the way is another way.
    client.click("#advice [data-do=back]").await?;
    while client::shown(&client).await? != "ask-breathing" {
        client.click(".steps-on [data-do=back]").await?;
    }
    client::tap(&client, "breathing", "airway").await?;
    client
        .wait_for_text_in("#advice", &say("urgency.level.emergency"))
        .await?;
    ensure!(
        client
            .ask("return document.documentElement.dataset.same")
            .await?
            == "yes",
        "it is the same page"
    );
    client.expect_no_complaints().await
}

/// Sets the phone's clock forward and brings the page to the front.
async fn move_on(client: &Browser, hours: u32) -> Outcome {
    client
        .ask(&format!(
            "window.ahead = {hours} * 3600e3; dispatchEvent(new Event('pageshow'))"
        ))
        .await?;
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn the_artists_screen_copies_the_link() -> Outcome {
    let _seats = seats(1).await;
    let scene = Scene::demo().await?;
    let artist = Artist::come(&scene, true).await?;
    artist.sign_in_to_demo(&scene).await?;
    let allowed = json!({"permissions": ["clipboardReadWrite", "clipboardSanitizedWrite"], "origin": scene.server.address});
    artist
        .browser
        .cdp("Browser.grantPermissions", allowed)
        .await?;
    artist
        .browser
        .follow("a[href^='/studio/visits/']:not([href$=new])")
        .await?;
    artist.browser.click(".link-part .actions > button").await?;
    artist
        .browser
        .wait_for_text_in(".link-part .actions", &say("artist.link.copied"))
        .await?;
    let copied = artist
        .browser
        .ask("return navigator.clipboard.readText()")
        .await?;
    ensure!(
        copied == *scene.server.client_links()[0],
        "what was copied: {copied}"
    );
    artist.browser.expect_no_complaints().await
}

/// Parts are matched by running number, so a page of another build must stay as it was drawn: plain, and of use.
#[tokio::test(flavor = "multi_thread")]
async fn another_builds_page_is_left_alone() -> Outcome {
    let _seats = seats(1).await;
    let other = tempfile::tempdir()?;
    copy(&site(), other.path())?;
    let manifest = other.path().join("manifest.json");
    let mut list: Value = serde_json::from_slice(&std::fs::read(&manifest)?)?;
    list["build"] = json!("another");
    std::fs::write(&manifest, list.to_string())?;
    let path = other.path().to_str().unwrap_or_default();
    let scene = Scene::open(&["--demo", "--site", path]).await?;

    let client = phone(true).await?;
    // The code has been loaded and has run when it has been made into an instance, and a little later.
    let watch = "const make = WebAssembly.instantiateStreaming;
        WebAssembly.instantiateStreaming = async (...all) => {
            const made = await make.apply(WebAssembly, all);
            setTimeout(() => { window.ran = true; }, 500);
            return made;
        };";
    client
        .cdp(
            "Page.addScriptToEvaluateOnNewDocument",
            json!({ "source": watch }),
        )
        .await?;
    client.go(&scene.server.client_links()[0]).await?;
    client
        .wait_until("the code has run", async || {
            Ok(client.ask("return window.ran").await? == true)
        })
        .await?;
    ensure!(
        client
            .ask("return document.documentElement.dataset.alive ?? 'no'")
            .await?
            == "no",
        "it was taken over"
    );
    ensure!(
        client
            .ask("return document.querySelectorAll('[data-node-hydration]').length > 0")
            .await?
            == true,
        "the marks are as they were drawn"
    );

    client.click(".ask-now").await?;
    client
        .wait_until("the whole form unfolds", async || {
            Ok(client
                .ask("const tell = document.getElementById('tell'); return !!tell && getComputedStyle(tell).visibility === 'visible'")
                .await?
                == true)
        })
        .await?;
    client::write(&client, &client::FIRST).await?;
    client::consent(&client).await?;
    client::send(&client).await?;
    client
        .wait_for_text_in("#reports", client::FIRST.words)
        .await?;
    ensure!(
        scene.count("select count(*) from reports where words like 'It itches <b>%'")? == 1,
        "the plain form works"
    );
    client.expect_no_complaints().await
}

/// Copies a folder with everything in it.
fn copy(from: &Path, to: &Path) -> Outcome {
    std::fs::create_dir_all(to)?;
    for file in std::fs::read_dir(from)? {
        let file = file?;
        let place = to.join(file.file_name());
        if file.file_type()?.is_dir() {
            copy(&file.path(), &place)?;
        } else {
            std::fs::copy(file.path(), place)?;
        }
    }
    Ok(())
}

/// A form that was posted before the page was alive, and came back to be mended: what is to be mended is in sight, and not
/// behind the questions.
#[tokio::test(flavor = "multi_thread")]
async fn a_form_that_came_back_shows_what_to_mend() -> Outcome {
    let _seats = seats(1).await;
    let (_scene, address) = Scene::kept().await?;
    let client = phone(true).await?;
    client.open_page(&format!("{address}/trouble")).await?;
    let post = "
        const form = document.getElementById('report');
        form.querySelector('[name=words]').value = 'It stings.';
        form.submit();";
    client.ask(post).await?;
    client.wait_for_text(&say("fault.consent")).await?;
    client
        .wait_until("the page is alive", async || {
            let alive = "return document.documentElement.dataset.alive === 'yes'";
            Ok(client.ask(alive).await? == true)
        })
        .await?;
    ensure!(
        client::shown(&client).await? == "advice",
        "it is past the questions"
    );
    let seen = "
        const fault = document.querySelector('#report .fault').getBoundingClientRect();
        return fault.height > 0 && fault.top >= 0 && fault.bottom <= innerHeight";
    ensure!(client.ask(seen).await? == true, "what to mend is in sight");
    ensure!(client.value("[name=words]").await? == "It stings.");
    Ok(())
}
