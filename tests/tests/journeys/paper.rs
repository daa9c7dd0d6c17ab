//! What is printed: Chromium prints it, and poppler, which shares no code with Chromium's PDF, reads it back.

use std::{path::Path, process::Command};

use anyhow::{Context, ensure};
use base64::{Engine, prelude::BASE64_STANDARD};
use content::Content;
use serde_json::json;
use shared_types::visit::{Finding, Treatment};
use tests::{
    browser::{Browser, Outcome},
    server::Server,
    visit_form::VisitForm,
    visitor::Visitor,
};

use crate::scene::{Scene, phone, seats};

/// In points, of which PDF has 72 to the inch. ISO 216 rounds A4 to 210 × 297 mm and A7 to 74 × 105 mm.
const A4: [f64; 2] = [595.28, 841.89];
const A7: [f64; 2] = [209.76, 297.64];

#[tokio::test(flavor = "multi_thread")]
async fn each_paper_is_one_page_whose_code_can_be_scanned() -> Outcome {
    let _seats = seats(1).await;
    let scene = Scene::demo().await?;
    let browser = phone(true).await?;
    let (visits, session) = std::thread::scope(|threads| {
        let visits = threads.spawn(|| visits(&scene.server));
        visits.join().map_err(|_| anyhow::anyhow!("no visits"))
    })??;
    let (name, value) = session.split_once('=').context("a cookie")?;
    browser
        .cdp(
            "Network.setCookie",
            json!({"url": scene.server.address, "name": name, "value": value}),
        )
        .await?;
    for visit in &visits {
        let at = |what: &str| format!("{}{visit}/{what}", scene.server.address);
        read_back(&browser, &at("hand-over"), A4).await?;
        read_back(&browser, &at("card"), A7).await?;
    }
    // The one with everything in it, in every language.
    for language in Content::built_in()?.languages.keys() {
        let at = |what: &str| {
            format!(
                "{}{}/{what}?language={language}",
                scene.server.address, visits[0]
            )
        };
        for (paper, size) in [("hand-over", A4), ("card", A7)] {
            read_back(&browser, &at(paper), size).await?;
            let written_in = browser.ask("return document.documentElement.lang").await?;
            ensure!(
                written_in == language.as_str(),
                "{paper} is in {written_in}, not in {language}"
            );
        }
    }
    // The client's own print, which needs no cookie.
    let link = &scene.server.client_links()[0];
    let scanned = read_back(&browser, &format!("{link}/print"), A4).await?;
    ensure!(
        scanned == link.to_uppercase(),
        "{scanned} instead of {link}"
    );
    Ok(())
}

/// The paths of two of the demo's visits, and of one with every treatment and everything that a consultation can find; and the
/// cookie of who may see them.
fn visits(server: &Server) -> Outcome<(Vec<String>, String)> {
    let artist = Visitor::demo_artist(server);
    let treatments = Treatment::ALL.iter().map(|one| ("treatments", one.term()));
    let found = Finding::CONSULTATION.iter();
    let findings = found.map(|one| ("findings", one.term()));
    let during = Finding::DURING_THE_VISIT.iter();
    let findings = findings.chain(during.map(|one| ("during", one.term())));
    let everything: Vec<(&str, &str)> = treatments
        .chain(findings)
        .chain([
            ("zone_left_tail", "let_it_grow"),
            ("zone_right_front", "nothing_grows"),
            ("zone_left_above", "keep_tidy"),
        ])
        .collect();
    // The form comes back once with what stands against such a visit.
    let form = VisitForm::fresh(&artist);
    let seen = form.send(&artist, &everything).hidden("concerns_seen");
    let knowing = [&everything[..], &[("concerns_seen", seen.as_str())]].concat();
    let recorded = form.send(&artist, &knowing);
    let visits = vec![
        recorded.location().to_owned(),
        // A plain one, and one with zones.
        "/studio/visits/00000000-0000-8000-8000-000200000001".to_owned(),
        "/studio/visits/00000000-0000-8000-8000-000200000006".to_owned(),
    ];
    Ok((visits, artist.cookie().context("the artist is signed in")?))
}

/// Prints a page and reads it back: one page of this size, and a code that says the same at 300 and at 150 dots to the
/// inch. What it says.
async fn read_back(browser: &Browser, address: &str, size: [f64; 2]) -> Outcome<String> {
    browser.go(address).await?;
    let laid_out = "const main = document.querySelector('main');
        return document.readyState === 'complete' && !!main && getComputedStyle(main).page !== 'auto'";
    browser
        .wait_until("the paper's styles are there", async || {
            Ok(browser.ask(laid_out).await? == true)
        })
        .await?;
    let printed = browser
        .cdp("Page.printToPDF", json!({"preferCSSPageSize": true}))
        .await?;
    let folder = tempfile::tempdir()?;
    let pdf = folder.path().join("paper.pdf");
    let bytes = printed["data"].as_str().context("no PDF")?;
    std::fs::write(&pdf, BASE64_STANDARD.decode(bytes)?)?;
    let facts = run(Command::new("pdfinfo").arg(&pdf))?;
    let fact = |name: &str| {
        let line = facts.lines().find_map(|line| line.strip_prefix(name));
        line.map(str::trim)
            .with_context(|| format!("no {name} in {facts}"))
    };
    ensure!(
        fact("Pages:")? == "1",
        "{address} prints on {} pages",
        fact("Pages:")?
    );
    let page = fact("Page size:")?;
    let sides: Vec<f64> = page
        .split(' ')
        .filter_map(|word| word.parse().ok())
        .collect();
    for (side, expected) in sides.iter().zip(size) {
        ensure!((side - expected).abs() < 1.5, "{address} is {page}");
    }
    let fine = decoded(&pdf, 300).with_context(|| address.to_owned())?;
    let coarse = decoded(&pdf, 150).with_context(|| address.to_owned())?;
    ensure!(fine == coarse, "{address}: {fine} and {coarse}");
    Ok(fine)
}

fn decoded(pdf: &Path, dots: u32) -> Outcome<String> {
    let root = pdf.with_file_name(format!("at-{dots}"));
    run(Command::new("pdftoppm")
        .args(["-r", &dots.to_string(), "-gray", "-png", "-singlefile"])
        .arg(pdf)
        .arg(&root))?;
    let picture = image::open(root.with_extension("png"))?.into_luma8();
    let mut picture = rqrr::PreparedImage::prepare_from_greyscale(
        picture.width() as usize,
        picture.height() as usize,
        |x, y| picture.get_pixel(x as u32, y as u32).0[0],
    );
    let grids = picture.detect_grids();
    ensure!(
        grids.len() == 1,
        "{} codes at {dots} dots to the inch",
        grids.len()
    );
    Ok(grids.first().context("no code")?.decode()?.1)
}

fn run(command: &mut Command) -> Outcome<String> {
    let answer = command
        .output()
        .with_context(|| format!("{command:?}; poppler-utils has it"))?;
    ensure!(
        answer.status.success(),
        "{command:?}: {}",
        String::from_utf8_lossy(&answer.stderr)
    );
    Ok(String::from_utf8_lossy(&answer.stdout).into_owned())
}
