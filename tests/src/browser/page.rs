//! Reading and using the page that is open.

use std::time::{Duration, Instant};

use anyhow::{Context, anyhow, bail};
use serde_json::Value;
use thirtyfour::{WebElement, prelude::*};

use super::{Browser, Outcome, PATIENCE};

const PAUSE: Duration = Duration::from_millis(100);

impl Browser {
    /// Follows an address and waits until the page has loaded and, where pages may run scripts, is alive.
    pub async fn open_page(&self, address: &str) -> Outcome {
        self.go(address).await?;
        self.wait_until_ready().await
    }

    /// Follows an address and waits until it has loaded.
    pub async fn go(&self, address: &str) -> Outcome {
        self.driver.goto(address).await?;
        Ok(())
    }

    pub async fn reload(&self) -> Outcome {
        self.driver.refresh().await?;
        self.wait_until_ready().await
    }

    /// The element of a CSS selector, waited for.
    pub async fn find(&self, selector: &str) -> Outcome<WebElement> {
        let found = self
            .driver
            .query(By::Css(selector))
            .wait(PATIENCE, PAUSE)
            .first()
            .await;
        match found {
            Ok(element) => Ok(element),
            Err(error) => {
                bail!(
                    "no `{selector}` on {}: {error}",
                    self.driver.current_url().await?
                )
            }
        }
    }

    pub async fn click(&self, selector: &str) -> Outcome {
        let element = self.find(selector).await?;
        element.scroll_into_view().await?;
        element
            .click()
            .await
            .with_context(|| format!("clicking `{selector}`"))
    }

    /// Types into a field after emptying it.
    pub async fn write(&self, selector: &str, text: &str) -> Outcome {
        let element = self.find(selector).await?;
        element.clear().await?;
        // WebKit's driver refuses to type nothing.
        if text.is_empty() {
            return Ok(());
        }
        element
            .send_keys(text)
            .await
            .with_context(|| format!("typing into `{selector}`"))
    }

    /// Clicks what leads to another page (or to the same page anew), and waits until that one is ready.
    pub async fn follow(&self, selector: &str) -> Outcome {
        self.ask("document.documentElement.dataset.left = 'yes'")
            .await?;
        self.click(selector).await?;
        self.wait_until_left().await
    }

    /// Waits until the page that was marked as left has made way for another that is ready.
    pub async fn wait_until_left(&self) -> Outcome {
        let there =
            "return !document.documentElement.dataset.left && document.readyState === 'complete'";
        self.wait_until("another page is there", async || {
            Ok(self.ask(there).await? == true)
        })
        .await?;
        self.wait_until_ready().await
    }

    /// Runs a script of the test's own in the page, and gives what it returns.
    pub async fn ask(&self, script: &str) -> Outcome<Value> {
        let answer = self.driver.execute(script, vec![]).await;
        Ok(answer
            .with_context(|| format!("asking the page `{script}`"))?
            .json()
            .clone())
    }

    /// What a field holds.
    pub async fn value(&self, selector: &str) -> Outcome<String> {
        Ok(self
            .find(selector)
            .await?
            .prop("value")
            .await?
            .unwrap_or_default())
    }

    pub async fn is_ticked(&self, selector: &str) -> Outcome<bool> {
        Ok(self.find(selector).await?.is_selected().await?)
    }

    /// Everything that can be read on the page.
    pub async fn text(&self) -> Outcome<String> {
        self.text_of("body").await
    }

    /// What can be read in the first element of a selector; nothing when there is none.
    pub async fn text_of(&self, selector: &str) -> Outcome<String> {
        let script = format!(
            "return document.querySelector({})?.innerText ?? ''",
            Value::from(selector)
        );
        self.ask(&script)
            .await?
            .as_str()
            .map(str::to_owned)
            .ok_or_else(|| anyhow!("the page has no text"))
    }

    /// Waits until `text` can be read on the page. Capitals, line breaks and blanks make no difference: they are the
    /// style's to choose.
    pub async fn wait_for_text(&self, text: &str) -> Outcome {
        self.wait_for_text_in("body", text).await
    }

    pub async fn wait_for_text_in(&self, selector: &str, text: &str) -> Outcome {
        self.wait_until(&format!("`{selector}` shows `{text}`"), async || {
            Ok(plain(&self.text_of(selector).await?).contains(&plain(text)))
        })
        .await
    }

    /// Fails unless `text` can be read now.
    pub async fn expect_text(&self, text: &str) -> Outcome {
        let shown = self.text().await?;
        if !plain(&shown).contains(&plain(text)) {
            bail!(
                "`{text}` is not on {}:\n{shown}",
                self.driver.current_url().await?
            );
        }
        Ok(())
    }

    /// Whether `text` can be read now.
    pub async fn shows(&self, text: &str) -> Outcome<bool> {
        Ok(plain(&self.text().await?).contains(&plain(text)))
    }

    /// Waits until the page is alive, where pages may run scripts: its handlers are attached and its first effects
    /// have run.
    pub async fn wait_until_ready(&self) -> Outcome {
        if !self.javascript {
            return Ok(());
        }
        self.wait_until("the page is alive", async || {
            Ok(self
                .ask("return document.documentElement.dataset.alive ?? ''")
                .await?
                == "yes")
        })
        .await
    }

    /// Asks again and again, for as long as it is bearable, until `is_so`.
    pub async fn wait_until(&self, what: &str, is_so: impl AsyncFn() -> Outcome<bool>) -> Outcome {
        let begun = Instant::now();
        loop {
            if is_so().await? {
                return Ok(());
            }
            if begun.elapsed() > PATIENCE {
                let (address, text) = (self.driver.current_url().await?, self.text().await?);
                let said = self.complaints().await?.join("\n");
                bail!("waited in vain until {what}; {address} says:\n{text}\n{said}");
            }
            tokio::time::sleep(PAUSE).await;
        }
    }
}

/// A text without what its style decides.
pub fn plain(text: &str) -> String {
    text.split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
        .to_lowercase()
}
