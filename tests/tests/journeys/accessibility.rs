//! What can be checked by machine of WCAG 2.2 AA, on every page, on every screen, in both colour schemes.

use std::path::{Path, PathBuf};

use anyhow::{Context, ensure};
use serde_json::{Value, json};
use tests::browser::{Browser, Outcome, PHONE, SMALL_PHONE, ScreenSize, TABLET};

use crate::{
    pages::{Gallery, Page, Side},
    scene::{phone, seats},
};

/// axe-core's rules for WCAG 2.0, 2.1 and 2.2 at A and AA, and its own good practices. Everything that can be opened
/// is open.
const AXE: &str = "
    for (const one of document.querySelectorAll('details')) one.open = true;
    const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
    return axe.run(document, { runOnly: { type: 'tag', values: tags }, resultTypes: ['violations'] }).then((found) => ({
        passes: found.passes.length,
        violations: found.violations.flatMap(({ id, help, nodes }) =>
            nodes.map((node) => `${id}: ${help}: ${node.target.join(' ')}: ${node.failureSummary}`)),
    }));";

/// WCAG 2.2 SC 1.4.10: no scrolling in two directions at 320 CSS pixels; a table may move by itself.
pub const TOO_WIDE: &str = "
    const wide = document.documentElement.clientWidth;
    const isOver = (one) => !one.closest('.wide table') && one.getBoundingClientRect().right > wide + 1;
    const over = [...document.querySelectorAll('body *')].filter((one) => isOver(one) && ![...one.children].some(isOver));
    const sideways = `the page is ${document.documentElement.scrollWidth} wide`;
    return document.documentElement.scrollWidth > wide ? [sideways, ...over.map((one) => `too wide: ${one.outerHTML.slice(0, 90)}`)] : [];";

/// WCAG 2.2 SC 1.4.4: text at twice its size, which is also as far as a phone's own setting goes (Android's, from memory).
const LARGEST_TEXT: &str = "document.documentElement.style.fontSize = '200%'";

/// WCAG 2.2 SC 2.5.8: targets of at least 24 by 24 CSS pixels; links within a sentence are excepted, and what is not
/// on the screen until it has the focus is no target of a finger's.
const TOO_SMALL: &str = "
    const inSentence = (one) => getComputedStyle(one).display === 'inline'
        && [...one.parentElement.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.data.trim());
    return [...document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary')]
        .filter((one) => !one.matches('.skip') && one.getClientRects().length > 0 && !inSentence(one))
        .map((one) => [one, (one.closest('label') ?? one).getBoundingClientRect()])
        .filter(([, { width, height }]) => width < 24 || height < 24)
        .map(([one, { width, height }]) => `${one.outerHTML.slice(0, 90)} is ${width} by ${height}`);";

#[tokio::test(flavor = "multi_thread")]
async fn no_page_shuts_anybody_out() -> Outcome {
    let _seats = seats(1).await;
    let gallery = Gallery::open().await?;
    let browser = phone(true).await?;
    let axe = std::fs::read_to_string(axe()?)?;
    browser
        .cdp(
            "Page.addScriptToEvaluateOnNewDocument",
            json!({ "source": axe }),
        )
        .await?;
    let mut faults = Vec::new();
    for page in &gallery.pages {
        page.open(&browser).await?;
        let screens: &[ScreenSize] = if page.side == Side::Artist {
            &[PHONE, TABLET]
        } else {
            &[PHONE]
        };
        for &screen in screens {
            browser.set_screen(screen).await?;
            for scheme in ["light", "dark"] {
                browser.set_scheme(scheme).await?;
                faults.extend(
                    found(
                        &browser,
                        page,
                        &format!("{} wide, {scheme}", screen.width),
                        AXE,
                    )
                    .await?,
                );
            }
        }
        browser.set_screen(SMALL_PHONE).await?;
        faults.extend(found(&browser, page, "320 wide", TOO_WIDE).await?);
        faults.extend(found(&browser, page, "320 wide", TOO_SMALL).await?);
        if page.side == Side::Client {
            browser.ask(LARGEST_TEXT).await?;
            faults.extend(found(&browser, page, "320 wide, text at 200 %", TOO_WIDE).await?);
        }
    }
    ensure!(
        faults.is_empty(),
        "{} faults:\n{}",
        faults.len(),
        faults.join("\n")
    );
    Ok(())
}

/// The client's pages in every other language: one screen and one scheme, since colours and order are the same.
#[tokio::test(flavor = "multi_thread")]
async fn no_page_shuts_anybody_out_in_any_language() -> Outcome {
    let _seats = seats(1).await;
    let gallery = Gallery::open().await?;
    let browser = phone(true).await?;
    let axe = std::fs::read_to_string(axe()?)?;
    let source = json!({ "source": axe });
    browser
        .cdp("Page.addScriptToEvaluateOnNewDocument", source)
        .await?;
    let pages = gallery.in_other_languages();
    ensure!(pages.len() > 20, "Spanish and French");
    let mut faults = Vec::new();
    for (tag, page) in &pages {
        page.open(&browser).await?;
        let lang = browser.ask("return document.documentElement.lang").await?;
        ensure!(
            lang == tag.as_str(),
            "{} is in {lang}, not {tag}",
            page.name
        );
        browser.set_screen(PHONE).await?;
        faults.extend(found(&browser, page, tag, AXE).await?);
        browser.set_screen(SMALL_PHONE).await?;
        for check in [TOO_WIDE, TOO_SMALL] {
            faults.extend(found(&browser, page, &format!("{tag}, 320 wide"), check).await?);
        }
    }
    let told = faults.join("\n");
    ensure!(faults.is_empty(), "{} faults:\n{told}", faults.len());
    Ok(())
}

pub async fn found(browser: &Browser, page: &Page, how: &str, check: &str) -> Outcome<Vec<String>> {
    let mut answer = browser.ask(check).await?;
    if check == AXE {
        // An axe that found nothing to look at would find nothing wrong either.
        ensure!(
            answer["passes"].as_u64() > Some(5),
            "axe-core did not look at {}: {answer}",
            page.name
        );
        answer = answer["violations"].take();
    }
    let Value::Array(faults) = answer else {
        anyhow::bail!("{}: {answer}", page.name)
    };
    Ok(faults
        .iter()
        .map(|fault| format!("{}, {how}: {}", page.name, fault.as_str().unwrap_or("?")))
        .collect())
}

/// axe-core's script.
fn axe() -> Outcome<PathBuf> {
    if let Some(path) = std::env::var_os("BETWEENTIMES_AXE") {
        return Ok(path.into());
    }
    let tools = Path::new(env!("CARGO_MANIFEST_DIR")).join("../target/tools");
    let kept = std::fs::read_dir(tools)
        .into_iter()
        .flatten()
        .flatten()
        .map(|tool| tool.path());
    kept.map(|tool| tool.join("node_modules/axe-core/axe.min.js"))
        .find(|script| script.is_file())
        .context("axe-core is not here: `cargo xtask test` fetches it")
}
