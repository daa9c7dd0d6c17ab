//! What a client does, with or without JavaScript.

use tests::{
    browser::{Browser, Outcome},
    words::say,
};

/// A client's report as it is typed.
pub struct Told {
    pub signs: &'static [&'static str],
    pub since: &'static str,
    pub trend: &'static str,
    pub words: &'static str,
    pub reach: &'static str,
}

pub const FIRST: Told = Told {
    signs: &["redness", "itching"],
    since: "within_hours",
    trend: "worse",
    words: "It itches <b>a lot</b> & I worry.",
    reach: "07700 900999",
};
pub const SECOND: Told = Told {
    signs: &["something_else"],
    since: "next_day",
    trend: "better",
    words: "Now it is only warm.",
    reach: "",
};

/// Fills in the report; the consent stays as it is.
pub async fn write(browser: &Browser, told: &Told) -> Outcome {
    for sign in told.signs {
        let sign = format!("[name=signs][value={sign}]");
        if !browser.is_ticked(&sign).await? {
            browser.click(&sign).await?;
        }
    }
    browser
        .click(&format!("[name=since][value={}]", told.since))
        .await?;
    browser
        .click(&format!("[name=trend][value={}]", told.trend))
        .await?;
    browser.write("[name=words]", told.words).await?;
    browser.write("[name=reach]", told.reach).await
}

pub async fn consent(browser: &Browser) -> Outcome {
    browser.click("[name=consent]").await
}

/// Fails unless the form still holds the report as it was typed.
pub async fn expect_typed(browser: &Browser, told: &Told) -> Outcome {
    for sign in told.signs {
        assert!(
            browser
                .is_ticked(&format!("[name=signs][value={sign}]"))
                .await?,
            "{sign} is still ticked"
        );
    }
    assert!(
        browser
            .is_ticked(&format!("[name=since][value={}]", told.since))
            .await?,
        "since is still chosen"
    );
    assert!(
        browser
            .is_ticked(&format!("[name=trend][value={}]", told.trend))
            .await?,
        "the trend is still chosen"
    );
    assert_eq!(browser.value("[name=words]").await?, told.words);
    assert_eq!(browser.value("[name=reach]").await?, told.reach);
    Ok(())
}

/// A sentence up to the first thing that is filled in.
pub fn beginning(key: &str) -> String {
    let sentence = say(key);
    sentence
        .split('{')
        .next()
        .unwrap_or_default()
        .trim()
        .to_owned()
}
