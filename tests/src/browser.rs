//! Headless Chromium at the size of a phone or a tablet, driven through its WebDriver.

use std::{
    net::TcpListener,
    path::{Path, PathBuf},
    process::{Child, Command, Stdio},
    time::{Duration, Instant},
};

use serde_json::{Value, json};
use thirtyfour::{ChromiumLikeCapabilities, DesiredCapabilities, WebDriver, prelude::*};

pub type Outcome<T = ()> = Result<T, Box<dyn std::error::Error + Send + Sync>>;

/// A screen that the project is judged on, in CSS pixels.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ScreenSize {
    pub width: u32,
    pub height: u32,
}

pub const PHONE: ScreenSize = ScreenSize { width: 390, height: 844 };
pub const SMALL_PHONE: ScreenSize = ScreenSize { width: 320, height: 568 };
pub const TABLET: ScreenSize = ScreenSize { width: 1024, height: 768 };

/// How a browser is opened.
#[derive(Clone, Debug)]
pub struct Opening {
    pub screen: ScreenSize,
    pub javascript: bool,
    /// A folder that outlives the browser, for journeys that close and reopen it.
    pub profile: Option<PathBuf>,
}

impl Default for Opening {
    fn default() -> Self {
        Self { screen: PHONE, javascript: true, profile: None }
    }
}

/// A running browser with its driver process. Dropping it ends both.
pub struct Browser {
    pub driver: WebDriver,
    process: Child,
    _own_profile: Option<tempfile::TempDir>,
}

impl Browser {
    pub async fn open(opening: Opening) -> Outcome<Self> {
        let port = TcpListener::bind("127.0.0.1:0")?.local_addr()?.port();
        let chromedriver = std::env::var("CHROMEDRIVER").unwrap_or_else(|_| "/usr/bin/chromedriver".to_owned());
        let process = Command::new(&chromedriver)
            .arg(format!("--port={port}"))
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .map_err(|error| format!("{chromedriver} could not be started ({error}); `cargo xtask test` installs it"))?;
        let mut process = EndOnDrop(Some(process));

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
            process: process.0.take().ok_or("the driver has ended")?,
            _own_profile: own_profile,
        };
        browser
            .cdp(
                "Emulation.setDeviceMetricsOverride",
                json!({"width": opening.screen.width, "height": opening.screen.height, "deviceScaleFactor": 2, "mobile": opening.screen.width < 600}),
            )
            .await?;
        Ok(browser)
    }

    /// Sends a DevTools command.
    pub async fn cdp(&self, command: &str, parameters: Value) -> Outcome<Value> {
        Ok(self.driver.cdp().send_raw(command, parameters).await?)
    }

    /// Follows an address and waits until it has loaded.
    pub async fn go(&self, address: &str) -> Outcome {
        self.driver.goto(address).await?;
        Ok(())
    }

    /// The element of a CSS selector, waited for.
    pub async fn find(&self, selector: &str) -> Outcome<WebElement> {
        let found = self
            .driver
            .query(By::Css(selector))
            .wait(Duration::from_secs(20), Duration::from_millis(50))
            .first()
            .await;
        match found {
            Ok(element) => Ok(element),
            Err(error) => Err(format!("no `{selector}` on {}: {error}", self.driver.current_url().await?).into()),
        }
    }

    pub async fn click(&self, selector: &str) -> Outcome {
        let element = self.find(selector).await?;
        element.scroll_into_view().await?;
        element.click().await?;
        Ok(())
    }

    /// Types into a field after emptying it.
    pub async fn write(&self, selector: &str, text: &str) -> Outcome {
        let element = self.find(selector).await?;
        element.clear().await?;
        element.send_keys(text).await?;
        Ok(())
    }

    /// Everything that can be read on the page.
    pub async fn text(&self) -> Outcome<String> {
        Ok(self.find("body").await?.text().await?)
    }

    /// Waits until the page shows `text`.
    pub async fn wait_for_text(&self, text: &str) -> Outcome {
        self.wait_until(&format!("the page shows `{text}`"), async || Ok(self.text().await?.contains(text))).await
    }

    /// Waits until the page is alive: its handlers are attached and its first effects have run.
    pub async fn wait_until_alive(&self) -> Outcome {
        self.wait_until("the page is alive", async || {
            let alive = self.driver.execute("return document.documentElement.dataset.alive === 'yes'", vec![]).await?;
            Ok(alive.json().as_bool() == Some(true))
        })
        .await
    }

    /// Asks again and again, for half a minute, until `is_so`.
    pub async fn wait_until(&self, what: &str, is_so: impl AsyncFn() -> Outcome<bool>) -> Outcome {
        let begun = Instant::now();
        loop {
            if is_so().await? {
                return Ok(());
            }
            if begun.elapsed() > Duration::from_secs(30) {
                return Err(format!("waited in vain until {what}; the page says:\n{}", self.text().await?).into());
            }
            tokio::time::sleep(Duration::from_millis(100)).await;
        }
    }

    /// What the page has complained about since it was last asked (console errors, blocked requests).
    pub async fn complaints(&self) -> Outcome<Vec<String>> {
        let log = self.driver.execute("return window.__complaints || []", vec![]).await?;
        Ok(serde_json::from_value(log.json().clone())?)
    }

    /// Collects errors from the very start of every page.
    pub async fn listen_for_complaints(&self) -> Outcome {
        let listen = "window.__complaints = [];
            addEventListener('error', (e) => __complaints.push('error: ' + (e.message || e.target?.src || e.target?.href)), true);
            addEventListener('unhandledrejection', (e) => __complaints.push('rejection: ' + e.reason));
            addEventListener('securitypolicyviolation', (e) => __complaints.push('policy: ' + e.violatedDirective + ' ' + e.blockedURI));
            const plain = console.error; console.error = (...all) => { __complaints.push('console: ' + all.join(' ')); plain(...all); };";
        self.cdp("Page.addScriptToEvaluateOnNewDocument", json!({ "source": listen })).await?;
        Ok(())
    }

    /// Light or dark, as the phone's owner has set it.
    pub async fn set_scheme(&self, scheme: &str) -> Outcome {
        self.cdp(
            "Emulation.setEmulatedMedia",
            json!({"features": [{"name": "prefers-color-scheme", "value": scheme}, {"name": "prefers-reduced-motion", "value": "reduce"}]}),
        )
        .await?;
        Ok(())
    }

    pub async fn set_screen(&self, screen: ScreenSize) -> Outcome {
        self.cdp(
            "Emulation.setDeviceMetricsOverride",
            json!({"width": screen.width, "height": screen.height, "deviceScaleFactor": 2, "mobile": screen.width < 600}),
        )
        .await?;
        Ok(())
    }

    /// The whole page as a PNG, also what lies below the screen.
    pub async fn picture(&self) -> Outcome<Vec<u8>> {
        use base64::Engine as _;
        let answer = self
            .cdp("Page.captureScreenshot", json!({"format": "png", "captureBeyondViewport": true, "fromSurface": true}))
            .await?;
        let encoded = answer["data"].as_str().ok_or("the browser sent no picture")?;
        Ok(base64::engine::general_purpose::STANDARD.decode(encoded)?)
    }

    /// Closes the browser as its owner would.
    pub async fn close(mut self) -> Outcome {
        self.driver.clone().quit().await?;
        let _ = self.process.kill();
        self.process.wait()?;
        Ok(())
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}

struct EndOnDrop(Option<Child>);

impl Drop for EndOnDrop {
    fn drop(&mut self) {
        if let Some(process) = &mut self.0 {
            let _ = process.kill();
            let _ = process.wait();
        }
    }
}

async fn connect(port: u16, opening: &Opening, profile: &Path) -> Outcome<WebDriver> {
    let begun = Instant::now();
    loop {
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
        capabilities.add_arg(&format!("--user-data-dir={}", profile.display()))?;
        if !opening.javascript {
            capabilities.add_experimental_option("prefs", json!({"profile.managed_default_content_settings.javascript": 2}))?;
        }
        match WebDriver::new(&format!("http://127.0.0.1:{port}"), capabilities).await {
            Ok(driver) => return Ok(driver),
            Err(error) if begun.elapsed() > Duration::from_secs(30) => return Err(error.into()),
            Err(_) => tokio::time::sleep(Duration::from_millis(100)).await,
        }
    }
}
