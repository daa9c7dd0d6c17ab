//! A real studio in a process of its own, on a free port, with a data folder that goes when the test is over.

use std::{
    ffi::OsStr,
    fs::{self, File},
    path::{Path, PathBuf},
    process::{Child, Command, ExitStatus, Stdio},
    sync::Arc,
    thread,
    time::{Duration, Instant},
};

use serde_json::Value;
use tempfile::TempDir;

/// A machine under load may need long to start.
const PATIENCE: Duration = Duration::from_secs(60);

/// Where a studio's files are; several starts may share them.
#[derive(Clone)]
pub struct Home(Arc<TempDir>);

impl Home {
    pub fn new() -> Self {
        Self(Arc::new(
            tempfile::tempdir().expect("a folder for the test"),
        ))
    }

    pub fn data(&self) -> PathBuf {
        self.0.path().join("data")
    }

    /// The record, for looking at it or for changing what no page lets one change.
    pub fn record(&self) -> rusqlite::Connection {
        let record =
            rusqlite::Connection::open(self.data().join("record.sqlite")).expect("the record");
        record
            .busy_timeout(Duration::from_secs(10))
            .expect("a busy time-out");
        record
    }

    /// Lets so many hours pass for reports: all that happened to them happened so much earlier.
    pub fn let_pass(&self, hours: u32) {
        let millis = i64::from(hours) * 3_600_000;
        let earlier = format!(
            "drop trigger if exists reports_stay; drop trigger if exists report_events_stay;
             drop trigger if exists report_seen_stays; drop trigger if exists follow_ups_stay;
             update reports set received_at = received_at - {millis};
             update report_events set at = at - {millis};
             update report_seen set at = at - {millis};
             update follow_ups set answered_at = answered_at - {millis};"
        );
        self.record().execute_batch(&earlier).expect("a change");
    }

    /// How many rows of it there are: a table, and a condition if need be.
    pub fn count(&self, what: &str) -> i64 {
        let query = format!("select count(*) from {what}");
        let count = self.record().query_row(&query, [], |row| row.get(0));
        count.expect("a count")
    }

    /// Everything that the studios started here have said so far.
    pub fn output(&self) -> String {
        fs::read_to_string(self.0.path().join("output.txt")).unwrap_or_default()
    }
}

impl Default for Home {
    fn default() -> Self {
        Self::new()
    }
}

/// A studio that runs. It is ended when this is dropped.
pub struct Server {
    child: Child,
    pub home: Home,
    /// "http://127.0.0.1:PORT"
    pub address: String,
    links: Value,
}

impl Server {
    /// The demo studio.
    pub fn demo() -> Self {
        Self::start(&Home::new(), &["--demo"])
    }

    /// A studio that has not been set up.
    pub fn empty() -> Self {
        Self::start(&Home::new(), &[])
    }

    /// A studio on these files, with more options.
    pub fn start(home: &Home, options: &[&str]) -> Self {
        Self::start_with(home, options, &[])
    }

    /// As [`Server::start`], with these variables in its environment.
    pub fn start_with(home: &Home, options: &[&str], environment: &[(&str, &str)]) -> Self {
        Self::launch(home, options, environment).unwrap_or_else(|status| {
            panic!("the studio did not start ({status}):\n{}", home.output());
        })
    }

    /// As [`Server::start`]; the exit status when it ended instead of listening.
    pub fn try_start(home: &Home, options: &[&str]) -> Result<Self, ExitStatus> {
        Self::launch(home, options, &[])
    }

    fn launch(
        home: &Home,
        options: &[&str],
        environment: &[(&str, &str)],
    ) -> Result<Self, ExitStatus> {
        let links = home.0.path().join("links.json");
        let _ = fs::remove_file(&links);
        let output = File::options()
            .create(true)
            .append(true)
            .open(home.0.path().join("output.txt"))
            .expect("a file for the output");
        // A write beyond a limit is to fail as on a full disk, and not to end the studio.
        let mut child = Command::new("env")
            .arg("--ignore-signal=XFSZ")
            .arg(binary())
            .arg("serve")
            .arg("--data")
            .arg(home.data())
            .arg("--links-json")
            .arg(&links)
            .args(or_else(options, "--listen", "127.0.0.1:0".as_ref()))
            .args(or_else(options, "--site", site().as_os_str()))
            .args(options)
            .envs(environment.iter().copied())
            .stdin(Stdio::null())
            .stdout(output.try_clone().expect("the output twice"))
            .stderr(output)
            .spawn()
            .unwrap_or_else(|e| {
                panic!(
                    "{} does not start ({e}): run `cargo build -p studio`",
                    binary().display()
                )
            });
        let begun = Instant::now();
        loop {
            // The file is put in place when the studio listens, and whole.
            if let Ok(text) = fs::read_to_string(&links) {
                let links: Value = serde_json::from_str(&text).expect("the links are JSON");
                let address = links["address"].as_str().expect("an address").to_owned();
                return Ok(Self {
                    child,
                    home: home.clone(),
                    address,
                    links,
                });
            }
            if let Some(status) = child.try_wait().expect("the studio's state") {
                return Err(status);
            }
            assert!(
                begun.elapsed() < PATIENCE,
                "the studio does not listen:\n{}",
                home.output()
            );
            thread::sleep(Duration::from_millis(5));
        }
    }

    /// The demo artist's e-mail address and password.
    pub fn sign_in(&self) -> (String, String) {
        let part = |name: &str| {
            self.links["sign_in"][name]
                .as_str()
                .expect("a demo")
                .to_owned()
        };
        (part("email"), part("password"))
    }

    /// The demo clients' links, the latest visit first.
    pub fn client_links(&self) -> Vec<String> {
        self.links_named("client_links")
    }

    /// The links of the demo's patch tests: one to be read today, one that shows something, two that were clear.
    pub fn patch_test_links(&self) -> Vec<String> {
        self.links_named("patch_test_links")
    }

    fn links_named(&self, name: &str) -> Vec<String> {
        let links = self.links[name].as_array().expect("links");
        links
            .iter()
            .filter_map(Value::as_str)
            .map(str::to_owned)
            .collect()
    }

    /// The code that a studio is set up with.
    pub fn set_up_code(&self) -> String {
        self.links["begin_code"]
            .as_str()
            .expect("a studio that is not set up")
            .to_owned()
    }

    /// Asks it to stop, as a service manager does, and waits until it has.
    pub fn stop(mut self) -> ExitStatus {
        let asked = Command::new("kill")
            .args(["-TERM", &self.child.id().to_string()])
            .status();
        assert!(
            asked.is_ok_and(|status| status.success()),
            "SIGTERM could not be sent"
        );
        self.child.wait().expect("the studio's end")
    }

    /// Asks it to read its content again (SIGHUP).
    pub fn read_again(&self) {
        let asked = Command::new("kill")
            .args(["-HUP", &self.child.id().to_string()])
            .status();
        assert!(
            asked.is_ok_and(|status| status.success()),
            "SIGHUP could not be sent"
        );
    }

    /// From now on no file of it takes another byte, as on a full disk: the kernel refuses every write (`RLIMIT_FSIZE`,
    /// setrlimit(2), which says `EFBIG` where a disk says `ENOSPC`).
    pub fn fill_the_disk(&self) {
        self.limit_files("0:");
    }

    /// There is room again.
    pub fn clear_the_disk(&self) {
        self.limit_files("unlimited:");
    }

    /// The soft limit alone: whoever set it may lift it.
    fn limit_files(&self, limit: &str) {
        let limited = Command::new("prlimit")
            .args(["--pid", &self.child.id().to_string()])
            .arg(format!("--fsize={limit}"))
            .status();
        assert!(
            limited.is_ok_and(|status| status.success()),
            "the studio's files could not be limited"
        );
    }

    /// Ends it at once, in the middle of whatever it does (SIGKILL).
    pub fn kill(mut self) {
        self.child.kill().expect("SIGKILL");
        self.child.wait().expect("the studio's end");
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        // It may have ended already; then there is nothing to do.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// An option with its value, unless the test names it itself.
fn or_else<'a>(options: &[&str], name: &'a str, value: &'a OsStr) -> Vec<&'a OsStr> {
    if options.contains(&name) {
        Vec::new()
    } else {
        vec![name.as_ref(), value]
    }
}

/// The studio's binary: `BETWEENTIMES_STUDIO`, else the one that `cargo build` makes.
pub fn binary() -> PathBuf {
    std::env::var_os("BETWEENTIMES_STUDIO")
        .map_or_else(|| target().join("debug").join("studio"), PathBuf::from)
}

/// The browser side: `BETWEENTIMES_SITE`, else the one that `cargo xtask build` makes.
pub fn site() -> PathBuf {
    std::env::var_os("BETWEENTIMES_SITE").map_or_else(|| target().join("site"), PathBuf::from)
}

fn target() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("..")
        .join("target")
}
