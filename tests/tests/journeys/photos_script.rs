//! Photos on the phone: shrunk, kept while the browser is closed, handed over once the network is back, each once. Asks the
//! script that does it, as the page does.

use anyhow::{Context, ensure};
use serde_json::{Value, json};
use tests::{
    browser::{Browser, Engine, Outcome},
    network::Weather,
    photos::{files, report, send_report},
    server::site,
    visitor::Visitor,
    words::say,
};
use uuid::Uuid;

use crate::scene::{Scene, kept_phone_with, seats};

/// The path of the demo's first client.
fn path(scene: &Scene) -> Outcome<String> {
    let link = scene.server.client_links().swap_remove(0);
    let at = link.find("/MY/").context("a link")?;
    Ok(link[at..].to_owned())
}

/// A script of the test's own in which `photos` is the module and `path` the page's.
async fn ask(browser: &Browser, script: &str) -> Outcome<Value> {
    let manifest = std::fs::read_to_string(site().join("manifest.json"))?;
    let manifest: Value = serde_json::from_str(&manifest)?;
    let module = manifest["files"]["photos.js"]
        .as_str()
        .context("the site has no photos.js")?;
    let script = format!(
        "return import('/pkg/{module}').then(async (photos) => {{
            const path = location.pathname.split('/').slice(0, 3).join('/');
            const told = [];
            const tell = (report, photo, state, sentence) => told.push([state, sentence]);
            // A picture of noise, which does not shrink well; a seed makes it another one.
            const noise = async (name, width, height, seed) => {{
                const canvas = new OffscreenCanvas(width, height);
                const pen = canvas.getContext('2d');
                const pixels = pen.createImageData(width, height);
                let state = seed;
                for (let at = 0; at < pixels.data.length; at += 1) {{
                    state = (Math.imul(state, 1103515245) + 12345) & 0x7fffffff;
                    pixels.data[at] = at % 4 === 3 ? 255 : state >> 16;
                }}
                pen.putImageData(pixels, 0, 0);
                return new File([await canvas.convertToBlob({{ type: 'image/png' }})], name);
            }};
            {script}
        }});"
    );
    browser.ask(&script).await
}

#[tokio::test(flavor = "multi_thread")]
async fn photos_wait_on_the_phone_and_arrive_once() -> Outcome {
    waits_and_arrives(Engine::Chromium).await
}

async fn waits_and_arrives(engine: Engine) -> Outcome {
    let _seats = seats(1).await;
    let scene = Scene::demo().await?;
    let link = path(&scene)?;
    let (path, report) = {
        let (address, link) = (scene.server.address.clone(), link.clone());
        tokio::task::spawn_blocking(move || {
            let id = send_report(&Visitor::to(&address), &link, &report("It itches.", 2));
            (link, id)
        })
        .await?
    };
    let address = format!("http://{}{path}", scene.network.address());
    let storage = tempfile::tempdir()?;
    let client = kept_phone_with(engine, storage.path()).await?;
    client.go(&address).await?;

    // Two are taken, one that is none is named; the large one is shrunk on the phone.
    let kept = ask(
        &client,
        &format!(
            "return photos.keep(path, '{report}', [await noise('eye.png', 3000, 1500, 1), await noise('brow.png', 300, 200, 2),
                new File(['words'], 'notes.txt')]);"
        ),
    )
    .await?;
    ensure!(kept[0]["ok"] == true && kept[1]["ok"] == true, "{kept}");
    ensure!(
        kept[2]["ok"] == false && kept[2]["why"] == "unreadable",
        "{kept}"
    );

    // Without network, and with the browser closed, they stay.
    scene.network.set(Weather::Cut);
    let hand_over = "const left = await photos.handOver(path, '', tell); return { left, told };";
    let tried = ask(&client, hand_over).await?;
    ensure!(
        tried["left"] == 2 && tried["told"][1][0] == "waiting",
        "{tried}"
    );
    client.close().await?;
    scene.network.set(Weather::Fine);
    let client = kept_phone_with(engine, storage.path()).await?;
    client.go(&address).await?;
    let noted = "return localStorage.getItem(`betweentimes:${path}:photos`);";
    ensure!(
        ask(&client, noted).await? == "2",
        "the page knows without asking the script"
    );

    // The answers get lost; then they are handed over, each once.
    scene.network.set(Weather::AnswersLost);
    let given_up = "const fetched = self.fetch; self.fetch = (address, request) => Promise.race([fetched(address, request),
        new Promise((_, gone) => setTimeout(gone, 3000))]);";
    let lost = ask(&client, &format!("{given_up} {hand_over}")).await?;
    ensure!(lost["left"] == 2, "{lost}");
    scene.network.set(Weather::Fine);
    let sent = ask(&client, hand_over).await?;
    ensure!(sent["left"] == 0, "{sent}");
    ensure!(
        sent["told"][1] == json!(["kept", ""]) && sent["told"][3] == json!(["kept", ""]),
        "{sent}"
    );
    ensure!(
        ask(&client, noted).await?.is_null(),
        "nothing is left on the phone"
    );
    ensure!(
        scene.count("select count(*) from photos")? == 2,
        "each once"
    );
    ensure!(files(&scene.server, "photos") == 2 && files(&scene.server, "photos-arriving") == 0);
    ensure!(scene.count("select max(width) from photos")? == 2048);
    ensure!(scene.count("select count(*) from photos where height = 1024")? == 1);
    Ok(())
}

#[tokio::test(flavor = "multi_thread")]
async fn one_that_is_refused_is_dropped_with_its_sentence() -> Outcome {
    let _seats = seats(1).await;
    let scene = Scene::demo().await?;
    let link = path(&scene)?;
    let client = crate::scene::phone(true).await?;
    client
        .go(&format!("{}{link}", scene.server.address))
        .await?;
    let address = scene.server.address.clone();
    let unagreed = tokio::task::spawn_blocking({
        let link = link.clone();
        move || send_report(&Visitor::to(&address), &link, &report("No photos.", 0))
    })
    .await?;

    // A report that has not arrived: it waits, however long. One that was not to have photos: it goes.
    let not_there = Uuid::new_v4();
    for report in [not_there, unagreed] {
        let keep =
            format!("return photos.keep(path, '{report}', [await noise('eye.png', 300, 200, 3)]);");
        let kept = ask(&client, &keep).await?;
        ensure!(kept[0]["ok"] == true, "{kept}");
    }
    let hand_over = "const left = await photos.handOver(path, '', tell); return { left, told };";
    let told = ask(&client, hand_over).await?;
    ensure!(
        told["left"] == 2 && told["told"][1] == json!(["waiting", ""]),
        "{told}"
    );
    ask(&client, "for (const one of (await photos.waiting(path)).slice(0, 1)) await photos.drop(path, one.photo);").await?;
    let told = ask(&client, hand_over).await?;
    let sentence = say("notice.photo_not_agreed.sentence");
    ensure!(
        told["left"] == 0 && told["told"][1] == json!(["refused", sentence]),
        "{told}"
    );

    // Four of a report, and no more; all of it can be forgotten.
    let five = format!(
        "const five = []; for (let seed = 0; seed < 5; seed += 1) five.push(await noise(`${{seed}}.png`, 30, 20, seed));
         const kept = await photos.keep(path, '{unagreed}', five);
         await photos.forget(path);
         return {{ why: kept.map((one) => one.why), left: (await photos.waiting(path)).length }};"
    );
    let five = ask(&client, &five).await?;
    ensure!(
        five == json!({"why": ["", "", "", "", "too_many"], "left": 0}),
        "{five}"
    );
    Ok(())
}

/// A hotel's sign-in page, a proxy: whoever answers in the studio's place, a photo is neither dropped nor taken for sent.
#[tokio::test(flavor = "multi_thread")]
async fn what_others_answer_costs_no_photo() -> Outcome {
    let _seats = seats(1).await;
    let scene = Scene::demo().await?;
    let link = path(&scene)?;
    let client = crate::scene::phone(true).await?;
    client
        .go(&format!("{}{link}", scene.server.address))
        .await?;
    let address = scene.server.address.clone();
    let report = tokio::task::spawn_blocking({
        let link = link.clone();
        move || send_report(&Visitor::to(&address), &link, &report("It itches.", 1))
    })
    .await?;
    let keep =
        format!("return photos.keep(path, '{report}', [await noise('eye.png', 300, 200, 3)]);");
    let kept = ask(&client, &keep).await?;
    ensure!(kept[0]["ok"] == true, "{kept}");

    for answer in [
        "new Response('<h1>Sign in</h1>', { headers: { 'content-type': 'text/html' } })",
        "new Response('<h1>No</h1>', { status: 403, headers: { 'content-type': 'text/html' } })",
        "new Response('<h1>Gone</h1>', { status: 410, headers: { 'content-type': 'text/html' } })",
        "Response.json({ detail: 'Too early' }, { status: 425 })",
        "Response.json({ type: 'about:blank' }, { status: 400, headers: { 'content-type': 'application/problem+json' } })",
        "new Response(null, { status: 204 })",
        // As a redirect that is not followed: status 0, and nothing in it.
        "Response.error()",
    ] {
        let elsewhere = format!(
            "const fetched = self.fetch; self.fetch = async () => {answer};
             const left = await photos.handOver(path, '', tell); self.fetch = fetched; return {{ left, told }};"
        );
        let tried = ask(&client, &elsewhere).await?;
        ensure!(
            tried["left"] == 1 && tried["told"][1] == json!(["waiting", ""]),
            "{answer}: {tried}"
        );
    }
    let hand_over = "const left = await photos.handOver(path, '', tell); return { left, told };";
    let sent = ask(&client, hand_over).await?;
    ensure!(
        sent["left"] == 0 && sent["told"][1] == json!(["kept", ""]),
        "{sent}"
    );
    ensure!(
        scene.count("select count(*) from photos")? == 1,
        "and it arrived"
    );
    Ok(())
}
