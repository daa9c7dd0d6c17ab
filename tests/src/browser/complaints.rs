//! What the browser has to say against a page.

use super::{Browser, Engine, Outcome, webkit};

impl Browser {
    /// What the console was told since it was last asked, on every page since: errors that nobody caught, what the
    /// content security policy refused, requests that failed, and what code wrote there itself. WebKit tells all of it
    /// again each time.
    pub async fn complaints(&self) -> Outcome<Vec<String>> {
        if self.engine == Engine::WebKit {
            return webkit::console(&self.profile);
        }
        let entries = self.driver.browser_log().await?;
        Ok(entries
            .into_iter()
            .map(|entry| format!("{}: {}", entry.level, entry.message))
            .collect())
    }

    /// Fails when there is any complaint.
    pub async fn expect_no_complaints(&self) -> Outcome {
        let complaints = self.complaints().await?;
        anyhow::ensure!(
            complaints.is_empty(),
            "the browser complains:\n{}",
            complaints.join("\n")
        );
        Ok(())
    }
}
