//! Photos: a picture comes in as bytes from anybody and goes out made anew, upright, shrunk, with nothing in it but its
//! pixels. Never read for what it shows.
//!
//! [`taken`] does that without touching a disk; [`work`] bounds how much of it happens at once, [`folder`] keeps what came
//! out, [`arriving`] what has come in only in part.

pub mod arriving;
mod decode;
mod fault;
pub mod folder;
mod keep;
mod whole;
pub mod work;

use axum::http::HeaderName;
use image::{
    DynamicImage, ExtendedColorType, ImageEncoder, RgbImage, codecs::jpeg::JpegEncoder,
    imageops::FilterType,
};
use shared_types::photos::{BYTES_MAX, SIDE_MAX};

pub use fault::PhotoFault;
pub use keep::{Photos, PhotosError, ToKeep};

/// How many bytes of a photo have come: the name of this header and of its companions, and what they mean, are those of the
/// IETF draft "Resumable Uploads for HTTP" (draft-ietf-httpbis-resumable-upload), from memory.
pub const UPLOAD_OFFSET: HeaderName = HeaderName::from_static("upload-offset");
/// `?1` when this is all of it.
pub const UPLOAD_COMPLETE: HeaderName = HeaderName::from_static("upload-complete");
/// How many bytes there will be.
pub const UPLOAD_LENGTH: HeaderName = HeaderName::from_static("upload-length");

/// JPEG quality, 1 to 100: what is looked at is skin, and the file is read over a phone's network.
const QUALITY: u8 = 85;

/// A picture as it is kept.
#[derive(Clone, PartialEq, Eq)]
pub struct Kept {
    /// A JPEG without metadata.
    pub jpeg: Vec<u8>,
    /// Pixels, once upright.
    pub width: u32,
    pub height: u32,
}

impl std::fmt::Debug for Kept {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(
            f,
            "{} × {}, {} bytes",
            self.width,
            self.height,
            self.jpeg.len()
        )
    }
}

/// Makes a picture anew: JPEG, PNG or WebP by its content; turned upright; at most [`SIDE_MAX`] pixels on its long side; in
/// sRGB; as a JPEG without any metadata. Takes much processor time and at most some 250 MB of memory.
///
/// # Errors
/// What is wrong with the picture.
pub fn taken(bytes: &[u8]) -> Result<Kept, PhotoFault> {
    if bytes.len() as u64 > BYTES_MAX {
        return Err(PhotoFault::TooHeavy);
    }
    let decode::Decoded {
        picture,
        orientation,
        colours,
    } = decode::decode(bytes)?;
    let small = if picture.width().max(picture.height()) > SIDE_MAX {
        picture.resize(SIDE_MAX, SIDE_MAX, FilterType::Triangle)
    } else {
        picture
    };
    let mut pixels = on_white(small);
    if let Some(profile) = colours {
        decode::to_srgb(&mut pixels, &profile);
    }
    let mut upright = DynamicImage::ImageRgb8(pixels);
    upright.apply_orientation(orientation);
    let (width, height) = (upright.width(), upright.height());
    let mut jpeg = Vec::new();
    JpegEncoder::new_with_quality(&mut jpeg, QUALITY)
        .write_image(upright.as_bytes(), width, height, ExtendedColorType::Rgb8)
        .map_err(|_| PhotoFault::Incomplete)?;
    Ok(Kept {
        jpeg,
        width,
        height,
    })
}

/// A JPEG knows no transparency: what shines through is white, as paper is.
fn on_white(picture: DynamicImage) -> RgbImage {
    if !picture.color().has_alpha() {
        return picture.into_rgb8();
    }
    let transparent = picture.into_rgba8();
    RgbImage::from_fn(transparent.width(), transparent.height(), |x, y| {
        let [red, green, blue, alpha] = transparent.get_pixel(x, y).0.map(u32::from);
        // At most 255, so it fits.
        let over = |colour: u32| ((colour * alpha + 255 * (255 - alpha)) / 255) as u8;
        [over(red), over(green), over(blue)].into()
    })
}

#[cfg(test)]
mod tests;
