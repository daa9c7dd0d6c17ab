//! The code on the artist's screen, read as a phone's camera reads it.

use anyhow::{Context, ensure};
use image::imageops::{FilterType, resize};
use tests::browser::{Browser, Outcome, look::pixels};

/// What a code says, and how it is made.
pub struct Code {
    pub address: String,
    /// `L`, `M`, `Q` or `H`.
    pub error_level: char,
    pub modules: usize,
}

/// Takes a picture of the code on the screen and decodes it with a library that the studio does not use.
pub async fn read_code(artist: &Browser) -> Outcome<Code> {
    artist
        .wait_until("the code is on the screen", async || {
            Ok(artist.ask("const code = document.querySelector('img.qr'); return !!code && code.complete && code.naturalWidth > 0").await? == true)
        })
        .await?;
    // The whole screen, as a camera has it before it: WebKit's picture of one element is shifted.
    artist.find("img.qr").await?.scroll_into_view().await?;
    let picture = artist.picture().await?;
    let picture = image::DynamicImage::from(pixels(&picture)?).into_luma8();
    // Drawn at any size, its modules need not fall on whole pixels; a camera has more of them.
    let picture = resize(
        &picture,
        picture.width() * 2,
        picture.height() * 2,
        FilterType::Triangle,
    );
    let (width, height) = (picture.width() as usize, picture.height() as usize);
    let grey = |x: usize, y: usize| picture.get_pixel(x as u32, y as u32).0[0];
    let mut picture = rqrr::PreparedImage::prepare_from_greyscale(width, height, grey);
    let grids = picture.detect_grids();
    ensure!(grids.len() == 1, "{} codes are on the screen", grids.len());
    let (facts, address) = grids.first().context("no code")?.decode()?;
    // The two bits of ISO/IEC 18004 table 12.
    let error_level = *['M', 'L', 'H', 'Q']
        .get(usize::from(facts.ecc_level))
        .context("no such error level")?;
    Ok(Code {
        address,
        error_level,
        modules: facts.version.to_size(),
    })
}
