//! A browser without a screen, at the size of a phone or a tablet, driven through its WebDriver: Chromium, or WebKit as a
//! stand-in for Safari.

mod chromium;
mod complaints;
pub mod look;
pub mod page;
mod process;
mod webkit;

use std::{
    net::TcpListener,
    path::{Path, PathBuf},
    time::{Duration, Instant},
};

use anyhow::{Context, ensure};
use serde_json::Value;
use thirtyfour::{Capabilities, WebDriver};

use process::Process;

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

/// What draws the pages and runs their scripts.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Engine {
    #[default]
    Chromium,
    /// WebKitGTK: the engine family of Safari, not Safari itself.
    WebKit,
}

/// How a browser is opened.
#[derive(Clone, Debug)]
pub struct Opening {
    pub engine: Engine,
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
            engine: Engine::default(),
            screen: PHONE,
            javascript: true,
            profile: None,
            arguments: Vec::new(),
        }
    }
}

/// A running browser with its driver process. Dropping it ends both, as if the machine had ended them.
pub struct Browser {
    pub driver: WebDriver,
    pub engine: Engine,
    /// Whether pages may run scripts. The tests' own questions are answered either way.
    pub javascript: bool,
    profile: PathBuf,
    // After the driver: what is left of them is ended when everything else has let go.
    _processes: Vec<Process>,
    _own_profile: Option<tempfile::TempDir>,
}

impl Browser {
    pub async fn open(opening: Opening) -> Outcome<Self> {
        let port = TcpListener::bind("127.0.0.1:0")?.local_addr()?.port();
        let own_profile = match opening.profile {
            Some(_) => None,
            None => Some(tempfile::tempdir()?),
        };
        let profile = match (&opening.profile, &own_profile) {
            (Some(path), _) => path.as_path(),
            (None, Some(own)) => own.path(),
            (None, None) => unreachable!("one of the two was just set"),
        }
        .to_owned();
        let (processes, driver) = match opening.engine {
            Engine::Chromium => {
                let driver = chromium::start(port)?;
                (
                    vec![driver],
                    connect(port, &chromium::wishes(&opening, &profile)?).await?,
                )
            }
            Engine::WebKit => {
                let processes = webkit::start(port)?;
                (
                    processes,
                    connect(port, &webkit::wishes(&opening, &profile)?).await?,
                )
            }
        };
        let browser = Self {
            driver,
            engine: opening.engine,
            javascript: opening.javascript,
            profile,
            _processes: processes,
            _own_profile: own_profile,
        };
        browser.set_screen(opening.screen).await?;
        Ok(browser)
    }

    /// Sends a DevTools command, which only Chromium knows.
    pub async fn cdp(&self, command: &str, parameters: Value) -> Outcome<Value> {
        ensure!(
            self.engine == Engine::Chromium,
            "{command}: only Chromium has DevTools"
        );
        let answer = self.driver.cdp().send_raw(command, parameters).await;
        answer.with_context(|| format!("{command} of the browser's DevTools"))
    }

    /// Closes the browser as its owner would: it has time to write down what it keeps.
    pub async fn close(self) -> Outcome {
        self.driver.clone().quit().await?;
        Ok(())
    }
}

async fn connect(port: u16, wishes: &Capabilities) -> Outcome<WebDriver> {
    crate::tls::ready();
    let begun = Instant::now();
    loop {
        match WebDriver::new(&format!("http://127.0.0.1:{port}"), wishes.clone()).await {
            Ok(driver) => return Ok(driver),
            Err(error) if begun.elapsed() > PATIENCE => {
                return Err(error).context("no browser opened");
            }
            Err(_) => tokio::time::sleep(Duration::from_millis(100)).await,
        }
    }
}

/// A program by the variable that names it, else by its usual name.
fn program(variable: &str, usual: &str) -> PathBuf {
    std::env::var_os(variable).map_or_else(|| Path::new(usual).to_owned(), PathBuf::from)
}
