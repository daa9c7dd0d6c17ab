//! How fast the server draws the client's page, against a static file of the same bytes from nginx on the same machine
//! under the same load. Both run in turn, so that a machine that slows down slows both; quote the ratio.

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use super::demo;
use super::page;
use crate::child;
use crate::failure::Failure;
use crate::files;
use crate::places;
use crate::say;
use crate::server::{self, Profile};
use crate::setup::program;
use crate::site;

const PORT: u16 = 4189;
const ROUNDS: usize = 5;
/// Connections that ask again as soon as they are answered.
const CONNECTIONS: &str = "-c32";
const SECONDS: &str = "-d4";

/// Prints requests per second of both, round by round, and the ratio of the medians.
pub fn load() -> Result<ExitCode, Failure> {
    let site = site::build_bundled()?;
    let studio = server::build(Profile::Release)?;
    let why = "Comparing the server's speed needs it.";
    let nginx = program::ensure("nginx", "nginx-light", why)?;
    let wrk = program::ensure("wrk", "wrk", why)?;

    let demo = demo::start(&studio, &site)?;
    let link = demo.client_links.first().map_or("", String::as_str);
    let same_bytes = Nginx::serve(&nginx, &page::brotli_body(link, "en")?)?;
    say::step("Asking both in turn (about forty seconds)");
    let mut ours = Vec::new();
    let mut theirs = Vec::new();
    for _ in 0..ROUNDS {
        theirs.push(requests_per_second(&wrk, &same_bytes.address)?);
        ours.push(requests_per_second(&wrk, link)?);
    }
    print(&ours, &theirs);
    Ok(ExitCode::SUCCESS)
}

fn print(ours: &[f64], theirs: &[f64]) {
    println!(
        "one page, {} connections, {ROUNDS} rounds in turn; requests per second",
        &CONNECTIONS[2..]
    );
    println!("  nginx, a file of the same bytes  {theirs:9.0?}");
    println!("  studio, the client's page          {ours:9.0?}");
    println!(
        "  ratio of the medians             {:9.2}   (at least 0.30 is wanted)",
        median(ours) / median(theirs)
    );
}

/// nginx with one file, for as long as it is compared with.
struct Nginx {
    address: String,
    program: PathBuf,
    settings: PathBuf,
}

impl Nginx {
    fn serve(program: &Path, body: &[u8]) -> Result<Self, Failure> {
        let folder = places::target().join("budget").join("nginx");
        files::empty_folder(&folder)?;
        files::write(&folder.join("page"), body)?;
        let settings = folder.join("nginx.conf");
        let inside = folder.display();
        let text = format!(
            "worker_processes auto; pid {inside}/pid; error_log {inside}/errors;
             events {{ worker_connections 1024; }}
             http {{
                 access_log off; sendfile on; tcp_nodelay on; default_type text/html;
                 client_body_temp_path {inside}/body; proxy_temp_path {inside}/proxy;
                 fastcgi_temp_path {inside}/fastcgi; uwsgi_temp_path {inside}/uwsgi; scgi_temp_path {inside}/scgi;
                 server {{ listen 127.0.0.1:{PORT}; root {inside}; add_header Content-Encoding br; }}
             }}"
        );
        files::write(&settings, text.as_bytes())?;
        child::run(
            child::command(program).arg("-c").arg(&settings),
            "Starting nginx",
        )?;
        Ok(Self {
            address: format!("http://127.0.0.1:{PORT}/page"),
            program: program.to_owned(),
            settings,
        })
    }
}

impl Drop for Nginx {
    fn drop(&mut self) {
        let mut stop = child::command(&self.program);
        stop.arg("-c").arg(&self.settings).args(["-s", "stop"]);
        // What cannot be stopped is told by the next start, whose port is taken.
        let _ = child::answer(&mut stop);
    }
}

fn requests_per_second(wrk: &Path, address: &str) -> Result<f64, Failure> {
    let mut command = child::command(wrk);
    command.args([
        "-t2",
        CONNECTIONS,
        SECONDS,
        "-H",
        "Accept-Encoding: br",
        address,
    ]);
    let said = child::answer(&mut command).unwrap_or_default();
    let rate = said
        .lines()
        .find_map(|line| line.strip_prefix("Requests/sec:"))
        .and_then(|rate| rate.trim().parse().ok());
    match rate {
        // A refusal is quickly given; it must not pass for a page.
        Some(rate) if !said.contains("Non-2xx") => Ok(rate),
        _ => Err(Failure::Demo {
            what: format!("was not answered well under load: {said}"),
        }),
    }
}

fn median(figures: &[f64]) -> f64 {
    let mut sorted = figures.to_vec();
    sorted.sort_by(f64::total_cmp);
    sorted.get(sorted.len() / 2).copied().unwrap_or(f64::NAN)
}
