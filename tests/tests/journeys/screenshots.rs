//! Every page as it looks, for eyes to judge, and the two pictures of the README.

use std::{
    collections::HashSet,
    fs,
    path::{Path, PathBuf},
};

use anyhow::ensure;
use tests::browser::{Browser, Outcome, PHONE, SMALL_PHONE, TABLET, look::pixels};

use crate::{
    pages::Gallery,
    scene::{phone, seats},
};

#[tokio::test(flavor = "multi_thread")]
async fn every_page_is_photographed() -> Outcome {
    let _seats = seats(1).await;
    let folder = folder()?;
    let gallery = Gallery::open().await?;
    let browser = phone(true).await?;
    for page in &gallery.pages {
        page.open(&browser).await?;
        for screen in [PHONE, SMALL_PHONE, TABLET] {
            browser.set_screen(screen).await?;
            for scheme in ["light", "dark"] {
                browser.set_scheme(scheme).await?;
                let file = folder.join(format!("{}-{}-{scheme}.png", page.name, screen.width));
                keep(&browser.whole_picture().await?, screen.width, &file)?;
            }
        }
    }
    browser.set_screen(SMALL_PHONE).await?;
    browser.set_scheme("light").await?;
    for (tag, page) in gallery.in_other_languages() {
        page.open(&browser).await?;
        let file = folder.join(format!("{}-{tag}-320-light.png", page.name));
        keep(&browser.whole_picture().await?, SMALL_PHONE.width, &file)?;
    }
    for_the_readme(&gallery, &browser, &folder).await
}

async fn for_the_readme(gallery: &Gallery, browser: &Browser, folder: &Path) -> Outcome {
    browser.set_scheme("light").await?;
    for (name, page, screen) in [
        ("readme-client.png", "client-just-done", PHONE),
        ("readme-artist.png", "artist-visit", TABLET),
    ] {
        browser.set_screen(screen).await?;
        gallery.page(page)?.open(browser).await?;
        keep(&browser.picture().await?, screen.width, &folder.join(name))?;
    }
    Ok(())
}

/// Writes a picture down, unless there is nothing to see in it.
fn keep(png: &[u8], width: u32, file: &Path) -> Outcome {
    fs::write(file, png)?;
    let picture = pixels(png)?;
    let colours: HashSet<[u8; 4]> = picture.pixels().step_by(31).map(|pixel| pixel.0).collect();
    let file = file.display();
    ensure!(
        colours.len() > 20,
        "{file} has {} colours: there is nothing to see",
        colours.len()
    );
    ensure!(
        picture.width() == width,
        "{file} is {} pixels wide, not {width}",
        picture.width()
    );
    Ok(())
}

/// An empty folder in the target folder.
fn folder() -> Outcome<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../target/screenshots");
    if folder.exists() {
        fs::remove_dir_all(&folder)?;
    }
    fs::create_dir_all(&folder)?;
    Ok(folder)
}
