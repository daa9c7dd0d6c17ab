//! Every kind of page there is, for what has to hold on all of them.

use anyhow::Context;
use serde_json::json;
use tests::{
    browser::{Browser, Outcome},
    visitor::Visitor,
};

use crate::scene::Scene;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    Client,
    Artist,
}

/// One page and how to come to it.
#[derive(Clone, Debug)]
pub struct Page {
    pub name: &'static str,
    pub side: Side,
    pub address: String,
    /// The cookie, name and value, that the page is asked for with: the artist's session, or the language a client chose.
    pub session: Option<(String, String)>,
    /// The form to send as it stands, so that it comes back to be mended.
    pub send: Option<&'static str>,
    /// Whether the page comes alive at all; a notice does not.
    pub alive: bool,
}

/// The demo studio, and beside it one that is not set up yet.
pub struct Gallery {
    /// They run for as long as the pages are looked at.
    _studios: [Scene; 2],
    pub pages: Vec<Page>,
}

impl Gallery {
    pub async fn open() -> Outcome<Self> {
        Self::open_with(&[]).await
    }

    /// With more options for both studios.
    pub async fn open_with(options: &[&str]) -> Outcome<Self> {
        let demo = Scene::open(&[&["--demo"], options].concat()).await?;
        let empty = Scene::open(options).await?;
        // The visitor waits for its answers, which a thread of the journeys' own must not.
        let pages = std::thread::scope(|threads| threads.spawn(|| pages(&demo, &empty)).join());
        let pages = pages.map_err(|_| anyhow::anyhow!("the pages could not be found"))??;
        Ok(Self {
            _studios: [demo, empty],
            pages,
        })
    }

    /// The client's pages in the other languages, with the language of each.
    pub fn in_other_languages(&self) -> Vec<(String, Page)> {
        let tags = tests::words::languages();
        let others = tags.into_iter().filter(|tag| tag != "en");
        let clients = self.pages.iter().filter(|page| page.side == Side::Client);
        let clients: Vec<Page> = clients.cloned().collect();
        others
            .flat_map(|tag| {
                let in_it = |page: &Page| (tag.clone(), page.in_language(&tag));
                clients.iter().map(in_it).collect::<Vec<_>>()
            })
            .collect()
    }

    pub fn page(&self, name: &str) -> Outcome<&Page> {
        self.pages
            .iter()
            .find(|page| page.name == name)
            .with_context(|| format!("no page `{name}`"))
    }
}

impl Page {
    /// The same page of a client who chose a language on it.
    pub fn in_language(&self, tag: &str) -> Self {
        Self {
            session: Some(("betweentimes-language".to_owned(), tag.to_owned())),
            ..self.clone()
        }
    }

    /// Opens the page and waits until it is what it will be.
    pub async fn open(&self, browser: &Browser) -> Outcome {
        match &self.session {
            Some((name, value)) => {
                browser
                    .cdp(
                        "Network.setCookie",
                        json!({"url": self.address, "name": name, "value": value}),
                    )
                    .await?;
            }
            None => {
                browser
                    .cdp("Network.clearBrowserCookies", json!({}))
                    .await?;
            }
        }
        browser.go(&self.address).await?;
        self.wait(browser).await?;
        if let Some(form) = self.send {
            // `submit` asks neither the page's code nor the browser whether the form is filled in.
            browser
                .ask(&format!(
                    "document.documentElement.dataset.left = 'yes'; document.querySelector(\"{form}\").submit()"
                ))
                .await?;
            let there = "return !document.documentElement.dataset.left && document.readyState === 'complete'";
            browser
                .wait_until("the form came back", async || {
                    Ok(browser.ask(there).await? == true)
                })
                .await?;
            self.wait(browser).await?;
            browser.find(".fault").await?;
        }
        Ok(())
    }

    async fn wait(&self, browser: &Browser) -> Outcome {
        if self.alive {
            browser.wait_until_ready().await
        } else {
            Ok(())
        }
    }
}

fn pages(demo: &Scene, empty: &Scene) -> Outcome<Vec<Page>> {
    let artist = Visitor::demo_artist(&demo.server);
    let cookie = artist.cookie().context("the artist is signed in")?;
    let session = cookie
        .split_once('=')
        .map(|(name, value)| (name.to_owned(), value.to_owned()));
    let visits = named_in(&artist.get("/studio").body, "/studio/visits/");
    let reports = named_in(&artist.get("/studio/reports").body, "/studio/reports/");
    let wishes = named_in(&artist.get("/studio/wishes").body, "/studio/wishes/");
    let patch_tests = named_in(
        &artist.get("/studio/patch-tests").body,
        "/studio/patch-tests/",
    );
    // The link of the third visit is closed.
    artist.post_signed("/studio", &format!("{}/revoke", visits[2]), &[]);

    let client = |name, link: usize| Page {
        name,
        side: Side::Client,
        address: demo.server.client_links()[link].clone(),
        session: None,
        send: None,
        alive: true,
    };
    let trouble = |name, link: usize| Page {
        address: format!("{}/trouble", demo.server.client_links()[link]),
        ..client(name, link)
    };
    let patch_test = |name, link: usize| Page {
        address: demo.server.patch_test_links()[link].clone(),
        alive: false,
        ..client(name, 0)
    };
    let unknown = format!("http://{}/MY/{}", demo.network.address(), "A".repeat(26));
    let door = |name, at: &Scene, path: &str| Page {
        name,
        side: Side::Artist,
        address: format!("{}{path}", at.server.address),
        session: None,
        send: None,
        alive: true,
    };
    let screen = |name, path: &str| Page {
        session: session.clone(),
        ..door(name, demo, path)
    };
    Ok(vec![
        client("client-just-done", 0),
        client("client-hours-after-reported", 1),
        client("client-day-3-reported", 3),
        client("client-day-12-answered", 4),
        client("client-day-31", 5),
        client("client-day-52", 6),
        trouble("client-what-to-do", 0),
        trouble("client-what-to-do-lip", 8),
        Page {
            send: Some("#report"),
            ..trouble("client-report-to-mend", 6)
        },
        Page {
            send: Some("#dates form"),
            ..client("client-date-to-mend", 0)
        },
        // The good days of this one have begun, so the form of the wish names none by itself.
        Page {
            send: Some("#wish-form"),
            ..client("client-wish-to-mend", 6)
        },
        patch_test("client-patch-test", 0),
        patch_test("client-patch-test-shows", 1),
        Page {
            send: Some("form.report-form"),
            ..patch_test("client-patch-test-to-mend", 0)
        },
        Page {
            alive: false,
            address: format!("{}/print", demo.server.client_links()[0]),
            ..client("client-print", 0)
        },
        Page {
            alive: false,
            ..client("client-closed", 2)
        },
        Page {
            alive: false,
            address: unknown,
            ..client("client-unknown", 2)
        },
        door("artist-begin", empty, "/studio/begin"),
        Page {
            send: Some("main form"),
            ..door("artist-begin-to-mend", empty, "/studio/begin")
        },
        door("artist-sign-in", demo, "/studio/sign-in"),
        Page {
            send: Some("main form"),
            ..door("artist-sign-in-to-mend", demo, "/studio/sign-in")
        },
        screen("artist-today", "/studio"),
        screen("artist-new-visit", "/studio/visits/new"),
        Page {
            send: Some("form.record"),
            ..screen("artist-new-visit-to-mend", "/studio/visits/new")
        },
        screen(
            "artist-second-visit",
            "/studio/visits/new?client=00000000-0000-8000-8000-000100000004",
        ),
        screen(
            "artist-visit-seen-again",
            "/studio/visits/00000000-0000-8000-8000-000200000004",
        ),
        Page {
            send: Some("form.record"),
            ..screen(
                "artist-new-visit-put-off-earlier",
                "/studio/visits/new?client=00000000-0000-8000-8000-000100000006",
            )
        },
        screen(
            "artist-visit-decided",
            "/studio/visits/00000000-0000-8000-8000-000200000007",
        ),
        screen(
            "artist-put-off",
            "/studio/put-off/00000000-0000-8000-8000-000f00000006",
        ),
        screen("artist-visit", &visits[0]),
        screen("artist-visit-with-report", &visits[1]),
        screen("artist-visit-closed", &visits[2]),
        screen(
            "artist-visit-with-date",
            "/studio/visits/00000000-0000-8000-8000-000200000005",
        ),
        Page {
            alive: false,
            ..screen("artist-sheet", &format!("{}/hand-over", visits[0]))
        },
        Page {
            alive: false,
            ..screen("artist-card", &format!("{}/card", visits[0]))
        },
        screen("artist-patch-tests", "/studio/patch-tests"),
        screen("artist-patch-test", &patch_tests[0]),
        Page {
            send: Some("form[action$='/read']"),
            ..screen("artist-patch-test-to-mend", &patch_tests[1])
        },
        screen("artist-new-patch-test", "/studio/patch-tests/new"),
        Page {
            send: Some("form.record"),
            ..screen("artist-new-patch-test-to-mend", "/studio/patch-tests/new")
        },
        screen("artist-practice", "/studio/practice"),
        screen("artist-particulars", "/studio/particulars"),
        screen("artist-notices", "/studio/notices"),
        screen("artist-batches", "/studio/batches"),
        screen("artist-cautions", "/studio/cautions"),
        screen(
            "artist-caution-changed",
            "/studio/cautions/lip_wax/exercise",
        ),
        screen("artist-caution-added", "/studio/cautions/own/chilli"),
        Page {
            send: Some("main form"),
            ..screen("artist-caution-to-mend", "/studio/cautions/new")
        },
        screen("artist-labels", "/studio/labels"),
        Page {
            send: Some("main .two > form"),
            ..screen("artist-label-to-mend", "/studio/labels")
        },
        screen("artist-reports", "/studio/reports"),
        screen("artist-report", &reports[0]),
        screen("artist-report-settled", &reports[2]),
        Page {
            send: Some("form[action$='/outcome']"),
            ..screen("artist-outcome-to-mend", &reports[0])
        },
        Page {
            send: Some("form[action$='/not-again']"),
            ..screen("artist-not-again-to-mend", &reports[0])
        },
        screen("artist-replies", "/studio/reports/replies"),
        Page {
            alive: false,
            ..screen("artist-case", &format!("{}/case", reports[0]))
        },
        Page {
            send: Some("form[action$='/answer']"),
            ..screen("artist-answer-to-mend", &reports[0])
        },
        screen("artist-wishes", "/studio/wishes"),
        screen("artist-wish", &wishes[0]),
        screen("artist-wish-agreed", &wishes[1]),
        Page {
            send: Some("form:has(textarea)"),
            ..screen("artist-wish-to-mend", &wishes[0])
        },
        Page {
            alive: false,
            ..screen("artist-nothing-here", "/studio/nowhere")
        },
    ])
}

/// The paths below `prefix` that a page leads to, in its order.
fn named_in(page: &str, prefix: &str) -> Vec<String> {
    let way = format!("href=\"{prefix}");
    let ids = page.split(&way).skip(1).filter_map(|rest| rest.get(..36));
    ids.filter(|id| id.parse::<uuid::Uuid>().is_ok())
        .map(|id| format!("{prefix}{id}"))
        .collect()
}
