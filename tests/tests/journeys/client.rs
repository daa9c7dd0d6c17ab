//! What a client does, with or without JavaScript.

use anyhow::ensure;
use tests::{
    browser::{Browser, Outcome},
    words::say,
};

/// A client's report as it is told.
pub struct Told {
    /// Question and answer; whatever else is asked is answered with "no", "none" or the like.
    pub answers: &'static [(&'static str, &'static str)],
    pub words: &'static str,
    pub reach: &'static str,
}

pub const FIRST: Told = Told {
    answers: &[("redness", "2"), ("itch", "6"), ("trend", "worse")],
    words: "It itches <b>a lot</b> & I worry.",
    reach: "07700 900999",
};
pub const SECOND: Told = Told {
    answers: &[("redness", "1"), ("pain", "4")],
    words: "Now it is only warm.",
    reach: "",
};

/// From the client's page to the one that says what to do.
pub async fn ask_what_to_do(browser: &Browser) -> Outcome {
    browser.follow(".ask-now").await
}

/// And back.
pub async fn back_to_page(browser: &Browser) -> Outcome {
    browser.follow(".head .back").await
}

/// Answers the questions, one at a time where the page is alive, and gives how many taps it took to the advice.
pub async fn answer(browser: &Browser, answers: &[(&str, &str)]) -> Outcome<usize> {
    if browser
        .ask("return document.documentElement.dataset.alive ?? ''")
        .await?
        != "yes"
    {
        for (question, given) in answers {
            tap(browser, question, given).await?;
        }
        return Ok(answers.len());
    }
    let mut taps = 0;
    loop {
        let shown = shown(browser).await?;
        if shown == "advice" {
            return Ok(taps);
        }
        ensure!(taps < 60, "no end to the questions: {shown}");
        let Some(question) = shown.strip_prefix("ask-") else {
            browser.click("#rinse [data-do=on]").await?;
            taps += 1;
            continue;
        };
        let mine: Vec<_> = answers.iter().filter(|(of, _)| *of == question).collect();
        if mine.is_empty() {
            tap(browser, question, &nothing(browser, question).await?).await?;
            taps += 1;
        }
        for (_, given) in &mine {
            tap(browser, question, given).await?;
            taps += 1;
        }
        // Signs are ticked, and then it goes on by a tap of its own, unless it is an emergency.
        let several = format!("return !!document.querySelector('#ask-{question} [type=checkbox]')");
        let still = self::shown(browser).await? == shown;
        if still && !mine.is_empty() && browser.ask(&several).await? == true {
            go_on(browser).await?;
            taps += 1;
        }
    }
}

/// What of the page asks or tells now: the id of its part.
pub async fn shown(browser: &Browser) -> Outcome<String> {
    let shown = browser
        .ask(
            "return [...document.querySelectorAll('.ask, #rinse, #advice')]
                .find((one) => one.getClientRects().length > 0)?.id ?? 'nothing'",
        )
        .await?;
    Ok(shown.as_str().unwrap_or_default().to_owned())
}

pub async fn go_on(browser: &Browser) -> Outcome {
    browser.click(".steps-on [data-do=on]").await
}

pub async fn tap(browser: &Browser, question: &str, given: &str) -> Outcome {
    browser
        .click(&format!("#ask-{question} .choice:has([value=\"{given}\"])"))
        .await
}

/// The answer that says "no" to a question.
async fn nothing(browser: &Browser, question: &str) -> Outcome<String> {
    let script = format!(
        "const given = [...document.querySelectorAll('#ask-{question} input')].map((one) => one.value);
         return ['no', 'none', 'same', '0'].find((one) => given.includes(one)) ?? given[0]"
    );
    let answer = browser.ask(&script).await?;
    Ok(answer.as_str().unwrap_or_default().to_owned())
}

/// Tells all of it; the consent stays as it is.
pub async fn write(browser: &Browser, told: &Told) -> Outcome {
    answer(browser, told.answers).await?;
    // What was not asked on the way, because nothing depends on it, stands with the report.
    for (question, given) in told.answers {
        if !browser
            .is_ticked(&format!("[name={question}][value=\"{given}\"]"))
            .await?
        {
            tap(browser, question, given).await?;
        }
    }
    browser.write("[name=words]", told.words).await?;
    browser.write("[name=reach]", told.reach).await
}

pub async fn consent(browser: &Browser) -> Outcome {
    browser.click(".choice:has([name=consent])").await
}

pub async fn send(browser: &Browser) -> Outcome {
    browser.click("#report .send").await
}

/// Fails unless the form still holds the report as it was told.
pub async fn expect_typed(browser: &Browser, told: &Told) -> Outcome {
    for (question, given) in told.answers {
        let answer = format!("[name={question}][value=\"{given}\"]");
        ensure!(
            browser.is_ticked(&answer).await?,
            "{answer} is still chosen"
        );
    }
    ensure!(
        browser.value("[name=words]").await? == told.words,
        "the words are kept"
    );
    ensure!(
        browser.value("[name=reach]").await? == told.reach,
        "the reach is kept"
    );
    Ok(())
}

/// Waits for the sentence that says what needs mending.
pub async fn expect_fault(browser: &Browser, sentence: &str) -> Outcome {
    browser.wait_for_text_in("#report .fault", sentence).await
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
