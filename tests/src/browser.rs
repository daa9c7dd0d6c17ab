//! Headless Chromium at the size of a phone or a tablet, driven through its WebDriver.

mod complaints;
pub mod look;
pub mod page;

use std::{
    net::TcpListener,
    os::unix::process::CommandExt,
    path::{Path, PathBuf},
    process::{Child, Command, Stdio},
    time::{Duration, Instant},
};

use anyhow::Context;
use serde_json::{Value, json};
use thirtyfour::{
    CapabilitiesHelper, ChromeCapabilities, ChromiumLikeCapabilities, DesiredCapabilities,
    WebDriver,
};

pub type Outcome<T = ()> = anyhow::Result<T>;

/// A machine under load may need long for anything.
pub const PATIENCE: Duration = Duration::from_secs(60);

/// A screen that the project is judged on, in CSS pixels.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ScreenSize {
    pub width: u32,
    pub height: u32,
}

pub const PHONE: ScreenSize = ScreenSize {
    width: 390,
    height: 844,
};
pub const SMALL_PHONE: ScreenSize = ScreenSize {
    width: 320,
    height: 568,
};
pub const TABLET: ScreenSize = ScreenSize {
    width: 1024,
    height: 768,
};

/// How a browser is opened.
#[derive(Clone, Debug)]
pub struct Opening {
    pub screen: ScreenSize,
    pub javascript: bool,
    /// A folder that outlives the browser, for journeys that close and reopen it.
    pub profile: Option<PathBuf>,
    /// Further arguments of Chromium's own command line.
    pub arguments: Vec<String>,
}

impl Default for Opening {
    fn default() -> Self {
        Self {
            screen: PHONE,
            javascript: true,
            profile: None,
            arguments: Vec::new(),
        }
    }
}

/// A running browser with its driver process. Dropping it ends both.
pub struct Browser {
    pub driver: WebDriver,
    /// Whether pages may run scripts. The tests' own questions are answered either way.
    pub javascript: bool,
    _own_profile: Option<tempfile::TempDir>,
    // After the driver: what is left of it is ended when everything else has let go.
    _process: Process,
}

impl Browser {
    pub async fn open(opening: Opening) -> Outcome<Self> {
        let port = TcpListener::bind("127.0.0.1:0")?.local_addr()?.port();
        let process = Process::start(port)?;
        let own_profile = match opening.profile {
            Some(_) => None,
            None => Some(tempfile::tempdir()?),
        };
        let profile = match (&opening.profile, &own_profile) {
            (Some(path), _) => path.as_path(),
            (None, Some(own)) => own.path(),
            (None, None) => unreachable!("one of the two was just set"),
        };
        let driver = connect(port, &opening, profile).await?;
        let browser = Self {
            driver,
            javascript: opening.javascript,
            _own_profile: own_profile,
            _process: process,
        };
        browser.set_screen(opening.screen).await?;
        Ok(browser)
    }

    /// Sends a DevTools command.
    pub async fn cdp(&self, command: &str, parameters: Value) -> Outcome<Value> {
        let answer = self.driver.cdp().send_raw(command, parameters).await;
        answer.with_context(|| format!("{command} of the browser's DevTools"))
    }

    /// Closes the browser as its owner would: it has time to write down what it keeps.
    pub async fn close(self) -> Outcome {
        self.driver.clone().quit().await?;
        Ok(())
    }
}

/// The driver's process. The browser belongs to its group, so that ending the group leaves nothing behind.
struct Process(Child);

impl Process {
    fn start(port: u16) -> Outcome<Self> {
        let chromedriver =
            std::env::var("CHROMEDRIVER").unwrap_or_else(|_| "/usr/bin/chromedriver".to_owned());
        let child = Command::new(&chromedriver)
            .arg(format!("--port={port}"))
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .process_group(0)
            .spawn()
            .with_context(|| {
                format!("{chromedriver} could not be started; `cargo xtask test` installs it")
            })?;
        Ok(Self(child))
    }
}

impl Drop for Process {
    fn drop(&mut self) {
        // They may have ended already; then there is nothing to do.
        let group = format!("-{}", self.0.id());
        let _ = Command::new("kill")
            .args(["-KILL", "--", &group])
            .stderr(Stdio::null())
            .status();
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

async fn connect(port: u16, opening: &Opening, profile: &Path) -> Outcome<WebDriver> {
    let begun = Instant::now();
    loop {
        match WebDriver::new(
            &format!("http://127.0.0.1:{port}"),
            capabilities(opening, profile)?,
        )
        .await
        {
            Ok(driver) => return Ok(driver),
            Err(error) if begun.elapsed() > PATIENCE => {
                return Err(error).context("no browser opened");
            }
            Err(_) => tokio::time::sleep(Duration::from_millis(100)).await,
        }
    }
}

fn capabilities(opening: &Opening, profile: &Path) -> Outcome<ChromeCapabilities> {
    let mut capabilities = DesiredCapabilities::chrome();
    if let Ok(chromium) = std::env::var("CHROMIUM") {
        capabilities.set_binary(&chromium)?;
    }
    for argument in [
        "--headless=new",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-dev-shm-usage",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        "--hide-scrollbars",
    ] {
        capabilities.add_arg(argument)?;
    }
    for argument in &opening.arguments {
        capabilities.add_arg(argument)?;
    }
    capabilities.add_arg(&format!("--user-data-dir={}", profile.display()))?;
    if !opening.javascript {
        let switched_off = json!({"profile.managed_default_content_settings.javascript": 2});
        capabilities.add_experimental_option("prefs", switched_off)?;
    }
    capabilities.set("goog:loggingPrefs", json!({"browser": "ALL"}))?;
    Ok(capabilities)
}
