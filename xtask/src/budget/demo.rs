//! The real server with its demonstration data, on a free port, for as long as a figure needs it.

use std::path::Path;
use std::process::{Child, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use serde_json::Value;

use crate::child;
use crate::failure::Failure;
use crate::files;
use crate::places;
use crate::say;
use crate::site::Site;

/// A machine under load may need long to fill in the demonstration data.
const PATIENCE: Duration = Duration::from_secs(120);

pub struct Demo {
    server: Child,
    /// The addresses of the clients' pages; at least one.
    pub client_links: Vec<String>,
}

impl Drop for Demo {
    fn drop(&mut self) {
        // It may have ended by itself, and then there is nothing left to end.
        let _ = self.server.kill();
        let _ = self.server.wait();
    }
}

pub fn start(studio: &Path, site: &Site) -> Result<Demo, Failure> {
    say::step("Starting the server to weigh the client's page");
    let folder = places::target().join("budget").join("demo");
    files::empty_folder(&folder)?;
    let links = folder.join("links.json");
    let log = files::create(&folder.join("log.txt"))?;
    let mut serve = child::command(studio);
    serve
        .args(["serve", "--demo", "--listen", "127.0.0.1:0", "--site"])
        .arg(&site.folder)
        .arg("--data")
        .arg(folder.join("data"))
        .arg("--links-json")
        .arg(&links)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(log);
    let server = serve
        .spawn()
        .map_err(|source| child::start_failure(&serve, "The demonstration server", source))?;
    let mut demo = Demo {
        server,
        client_links: Vec::new(),
    };
    demo.client_links = wait_for_links(&mut demo.server, &links)?;
    Ok(demo)
}

/// Waits until the server listens, which is when it has written its links.
fn wait_for_links(server: &mut Child, links: &Path) -> Result<Vec<String>, Failure> {
    let failed = |what: &str| Failure::Demo {
        what: what.to_owned(),
    };
    let begun = Instant::now();
    loop {
        if links.is_file() {
            // A file that is only half written does not parse yet.
            if let Ok(written) = serde_json::from_str::<Value>(&files::read_text(links)?) {
                let links: Vec<String> = written["client_links"]
                    .as_array()
                    .into_iter()
                    .flatten()
                    .filter_map(|link| link.as_str().map(str::to_owned))
                    .collect();
                return if links.is_empty() {
                    Err(failed("named no client's link"))
                } else {
                    Ok(links)
                };
            }
        }
        if !matches!(server.try_wait(), Ok(None)) {
            return Err(failed("ended before it listened"));
        }
        if begun.elapsed() > PATIENCE {
            return Err(failed("did not listen within two minutes"));
        }
        thread::sleep(Duration::from_millis(100));
    }
}
