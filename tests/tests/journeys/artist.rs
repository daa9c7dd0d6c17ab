//! What an artist does, with or without JavaScript.

use jiff::civil;
use tests::browser::{Browser, Engine, Outcome};

use crate::scene::{self, Scene};

pub const STUDIO: &str = "Pellworm Brow Room";
pub const NAME: &str = "Tilda Rake";
pub const EMAIL: &str = "tilda@pellworm.example";
pub const PASSWORD: &str = "four words in a row";
pub const PHONE: &str = "020 7946 0991";
pub const ZONE: &str = "Europe/London";

/// An artist with a browser, at the studio's own door.
pub struct Artist {
    pub browser: Browser,
    address: String,
}

impl Artist {
    pub async fn come(scene: &Scene, javascript: bool) -> Outcome<Self> {
        Self::come_with(Engine::Chromium, scene, javascript).await
    }

    pub async fn come_with(engine: Engine, scene: &Scene, javascript: bool) -> Outcome<Self> {
        Ok(Self {
            browser: scene::tablet_with(engine, javascript).await?,
            address: scene.server.address.clone(),
        })
    }

    pub async fn open(&self, path: &str) -> Outcome {
        self.browser
            .open_page(&format!("{}{path}", self.address))
            .await
    }

    /// The path of the screen that is open.
    pub async fn path(&self) -> Outcome<String> {
        Ok(self.browser.driver.current_url().await?.path().to_owned())
    }

    /// Fills in the form of the first start.
    pub async fn write_studio(&self, code: &str, password: &str) -> Outcome {
        let fields = [
            ("code", code),
            ("studio_name", STUDIO),
            ("phone", PHONE),
            ("artist_name", NAME),
            ("email", EMAIL),
            ("password", password),
        ];
        for (name, text) in fields {
            self.browser.write(&format!("[name={name}]"), text).await?;
        }
        self.browser.click("[name=region][value=uk]").await?;
        self.browser
            .click(&format!("[name=time_zone] option[value='{ZONE}']"))
            .await
    }

    pub async fn send(&self) -> Outcome {
        self.browser.follow("main form button[type=submit]").await
    }

    pub async fn sign_out(&self) -> Outcome {
        self.browser.follow("header form button").await
    }

    pub async fn write_sign_in(&self, email: &str, password: &str) -> Outcome {
        self.browser.write("[name=email]", email).await?;
        self.browser.write("[name=password]", password).await
    }

    /// The demo's artist, signed in.
    pub async fn sign_in_to_demo(&self, scene: &Scene) -> Outcome {
        let (email, password) = scene.server.sign_in();
        self.open("/studio/sign-in").await?;
        self.write_sign_in(&email, &password).await?;
        self.send().await
    }

    /// Fills in who came, and when the form says the visit ended, which is now.
    pub async fn write_client(&self, first_name: &str, reach: &str) -> Outcome<civil::DateTime> {
        self.browser.write("[name=first_name]", first_name).await?;
        self.browser.write("[name=reach]", reach).await?;
        let date: civil::Date = self.browser.value("[name=date]").await?.parse()?;
        let time: civil::Time = self.browser.value("[name=time]").await?.parse()?;
        Ok(date.to_datetime(time))
    }

    /// Ticks brow wax and tint and the retinoid, looks at what stands against that, and notes a product with its batch.
    pub async fn write_visit(&self) -> Outcome {
        for box_ in [
            "treatments][value=brow_wax",
            "treatments][value=brow_tint",
            "findings][value=topical_retinoid",
        ] {
            self.browser.click(&format!("[name={box_}]")).await?;
        }
        self.browser.follow("#look-before").await?;
        self.browser.find("#before[open] .concerns .wait").await?;
        self.open_products().await?;
        self.browser
            .write("[name=product_1]", "Marrow soft wax")
            .await?;
        self.browser.write("[name=batch_1]", "MW 7-31").await?;
        self.browser
            .write("[name=note]", "Likes a high arch.")
            .await
    }

    async fn open_products(&self) -> Outcome {
        if self
            .browser
            .ask("return document.querySelector('details.more:has([name=product_1])').open")
            .await?
            == false
        {
            self.browser
                .click("details.more:has([name=product_1]) > summary")
                .await?;
        }
        Ok(())
    }
}

/// When a caution of so many hours ends that runs from a moment on the studio's wall, as the studio writes it: worked
/// out by another library than the studio's own. The weekday alone is enough within a week.
pub fn end_on_the_wall(from: civil::DateTime, hours: i64) -> Outcome<String> {
    let from = from.in_tz(ZONE)?;
    let end = from.checked_add(jiff::SignedDuration::from_hours(hours))?;
    let days = from.date().until(end.date())?.get_days();
    let pattern = if days < 7 {
        "%A %H:%M"
    } else {
        "%A %-d %B %H:%M"
    };
    Ok(end.strftime(pattern).to_string())
}
