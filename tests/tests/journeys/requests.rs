//! What a first visit costs the client: requests, counted where they arrive, and times on a slow phone.

use std::{
    collections::BTreeMap,
    path::Path,
    sync::{Arc, Mutex, PoisonError},
    time::{Duration, Instant},
};

use anyhow::ensure;
use serde_json::{Value, json};
use tests::{
    browser::{Browser, Opening, Outcome},
    network::Weather,
    traffic::Seen,
};
use tokio::{io::AsyncReadExt, net::TcpListener};

use crate::scene::{Scene, seats};

/// Rounds of which the middle one counts.
const ROUNDS: usize = 3;
/// Nothing more is to come when nothing has come for so long.
const QUIET: Duration = Duration::from_secs(3);

#[tokio::test(flavor = "multi_thread")]
async fn a_first_visit_asks_for_little_and_of_nobody_else() -> Outcome {
    // Nobody else may slow this machine down while times are taken.
    let _seats = seats(2).await;
    let asked = count().await?;
    let mut times = BTreeMap::new();
    for _ in 0..ROUNDS {
        for (what, time) in time().await? {
            times.entry(what).or_insert_with(Vec::new).push(time);
        }
    }
    let times: BTreeMap<&str, f64> = times
        .into_iter()
        .map(|(what, all)| (what, median(all)))
        .collect();
    println!("{asked:#?}\n{times:#?}");
    ensure!(
        asked.other_hosts.is_empty(),
        "other hosts were asked: {:?}",
        asked.other_hosts
    );
    let found = json!({
        "after_page": asked.page.len(),
        "by_the_worker": asked.worker.len(),
        "other_hosts": asked.other_hosts.len(),
        "times_ms": times,
    });
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../target/budget");
    std::fs::create_dir_all(&folder)?;
    std::fs::write(folder.join("requests.json"), found.to_string())?;
    Ok(())
}

/// What a first visit asked for after the page itself.
#[derive(Debug)]
struct Asked {
    /// By the page, and by the browser for it: script, wasm, icon, what the page tells the studio.
    page: Vec<String>,
    /// For the worker and by it, to keep the page: its script, the page again, and those of the page's files that are
    /// not in the browser's cache.
    worker: Vec<String>,
    other_hosts: Vec<String>,
}

/// Opens a page for the first time and counts until it is alive, kept on the phone, and quiet.
async fn count() -> Outcome<Asked> {
    let scene = Scene::demo().await?;
    let elsewhere = Elsewhere::open().await?;
    let client = Browser::open(Opening {
        arguments: vec![elsewhere.argument()],
        ..Opening::default()
    })
    .await?;
    client.open_page(&scene.server.client_links()[0]).await?;
    let kept = "return caches.match(location.pathname).then((kept) => !!kept)";
    client
        .wait_until("the worker keeps the page", async || {
            Ok(client.ask(kept).await? == true)
        })
        .await?;
    wait_until_quiet(&scene).await;
    let own = "return performance.getEntriesByType('resource').map(({ name }) => name.replace(location.origin, ''))";
    let own: Vec<String> = serde_json::from_value(client.ask(own).await?)?;
    let seen = scene.network.seen();
    let mut other_hosts = elsewhere.calls();
    other_hosts.extend(
        own.iter()
            .filter(|address| address.contains("://"))
            .cloned(),
    );
    // What the policy refused was never sent, but somebody meant to.
    client.expect_no_complaints().await?;
    ensure!(
        seen.first()
            .is_some_and(|first| first.destination == "document"),
        "the page comes first: {seen:#?}"
    );
    let (page, worker): (Vec<&Seen>, Vec<&Seen>) = tell_apart(&seen[1..], own);
    let named = |all: Vec<&Seen>| {
        all.iter()
            .map(|one| format!("{} {}", one.method, one.target))
            .collect()
    };
    Ok(Asked {
        page: named(page),
        worker: named(worker),
        other_hosts,
    })
}

/// The page lists what it asked for itself (Resource Timing), each time it asked. The icon the browser asks for on its
/// behalf, and says so in the request (`Sec-Fetch-Dest`). What is left is the worker's script, and what it asked for.
fn tell_apart(seen: &[Seen], mut own: Vec<String>) -> (Vec<&Seen>, Vec<&Seen>) {
    seen.iter().partition(|one| {
        let listed = own
            .iter()
            .position(|path| *path == one.target)
            .map(|at| own.swap_remove(at))
            .is_some();
        listed || one.destination == "image"
    })
}

async fn wait_until_quiet(scene: &Scene) {
    let mut last = (scene.network.seen().len(), Instant::now());
    while last.1.elapsed() < QUIET {
        tokio::time::sleep(Duration::from_millis(100)).await;
        let now = scene.network.seen().len();
        if now != last.0 {
            last = (now, Instant::now());
        }
    }
}

/// Milliseconds of one first visit on a slow phone in a slow network, and of the visit after it from the phone's own
/// copy. Slow 4G and the processor as in Lighthouse's mobile preset (core/config/constants.js).
async fn time() -> Outcome<Vec<(&'static str, f64)>> {
    let scene = Scene::demo().await?;
    let client = Browser::open(Opening::default()).await?;
    let watch = "new MutationObserver((_, watcher) => {
            if (document.documentElement.dataset.alive) { window.aliveAt = performance.now(); watcher.disconnect(); }
        }).observe(document, { attributes: true, subtree: true, attributeFilter: ['data-alive'] });";
    client
        .cdp(
            "Page.addScriptToEvaluateOnNewDocument",
            json!({ "source": watch }),
        )
        .await?;
    client
        .cdp("Emulation.setCPUThrottlingRate", json!({"rate": 4}))
        .await?;
    client.cdp("Network.enable", json!({})).await?;
    let slow_4g = json!({
        "offline": false, "latency": 150, "downloadThroughput": 1.6e6 / 8.0, "uploadThroughput": 750e3 / 8.0,
    });
    client
        .cdp("Network.emulateNetworkConditions", slow_4g)
        .await?;
    let address = &scene.server.client_links()[0];
    client.open_page(address).await?;
    let cold = milestones(&client).await?;
    let kept = "return caches.match(location.pathname).then((kept) => !!kept)";
    client
        .wait_until("the worker keeps the page", async || {
            Ok(client.ask(kept).await? == true)
        })
        .await?;

    client.cdp("Network.emulateNetworkConditions", json!({"offline": false, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1})).await?;
    scene.network.set(Weather::Cut);
    client.go("about:blank").await?;
    client.open_page(address).await?;
    let again = milestones(&client).await?;
    client.close().await?;
    Ok(vec![
        ("first paint, slow 4G, 4x CPU", cold.0),
        ("alive, slow 4G, 4x CPU", cold.1),
        ("first paint again from the phone's copy, 4x CPU", again.0),
        ("alive again from the phone's copy, 4x CPU", again.1),
    ])
}

/// First paint and coming alive, in milliseconds from the start of the navigation.
async fn milestones(client: &Browser) -> Outcome<(f64, f64)> {
    let paint = "return performance.getEntriesByType('paint').find(({ name }) => name === 'first-contentful-paint')?.startTime ?? null";
    client
        .wait_until("something is painted", async || {
            Ok(client.ask(paint).await? != Value::Null)
        })
        .await?;
    let number = |value: Value| value.as_f64().unwrap_or(f64::NAN);
    Ok((
        number(client.ask(paint).await?),
        number(client.ask("return window.aliveAt").await?),
    ))
}

fn median(mut all: Vec<f64>) -> f64 {
    all.sort_by(f64::total_cmp);
    all.get(all.len() / 2).copied().unwrap_or(f64::NAN)
}

/// Every host but this machine: the browser finds all of them here, where nobody answers and each call is noted.
struct Elsewhere {
    port: u16,
    calls: Arc<Mutex<Vec<String>>>,
}

impl Elsewhere {
    async fn open() -> Outcome<Self> {
        let listener = TcpListener::bind("127.0.0.1:0").await?;
        let port = listener.local_addr()?.port();
        let calls = Arc::<Mutex<Vec<String>>>::default();
        let noted = calls.clone();
        tokio::spawn(async move {
            while let Ok((mut call, _)) = listener.accept().await {
                let noted = noted.clone();
                tokio::spawn(async move {
                    let mut first = [0; 1024];
                    let length = call.read(&mut first).await.unwrap_or(0);
                    let said = String::from_utf8_lossy(first.get(..length).unwrap_or_default())
                        .into_owned();
                    let names =
                        said.split(|c: char| !(c.is_ascii_alphanumeric() || ".-".contains(c)));
                    let name =
                        names.max_by_key(|name| if name.contains('.') { name.len() } else { 0 });
                    noted
                        .lock()
                        .unwrap_or_else(PoisonError::into_inner)
                        .push(name.unwrap_or_default().to_owned());
                });
            }
        });
        Ok(Self { port, calls })
    }

    fn argument(&self) -> String {
        // What the browser calls of its own accord, whatever is switched off: its makers' services, and the search
        // engine that Debian sets. A page that called them would list it.
        let own = [
            "*.google.com",
            "*.googleapis.com",
            "*.gstatic.com",
            "*.duckduckgo.com",
        ];
        let own = own.map(|host| format!("MAP {host} ~NOTFOUND")).join(",");
        format!(
            "--host-resolver-rules={own},MAP * 127.0.0.1:{},EXCLUDE 127.0.0.1",
            self.port
        )
    }

    /// The host that each call named, in a TLS greeting or in a plain request.
    fn calls(&self) -> Vec<String> {
        self.calls
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .clone()
    }
}
