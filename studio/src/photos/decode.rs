//! From a file's bytes to pixels, within limits.

use std::io::Cursor;

use image::{
    DynamicImage, ImageDecoder, ImageError, ImageResult, Limits, RgbImage,
    codecs::{jpeg::JpegDecoder, png::PngDecoder, webp::WebPDecoder},
    metadata::Orientation,
};
use moxcms::{ColorProfile, DataColorSpace, Layout, TransformOptions};
use shared_types::photos::PIXELS_MAX;

use super::{PhotoFault, whole};

/// Pixels of the longer side. Together with [`PIXELS_MAX`] it bounds what shrinking needs in between.
const LONGEST_SIDE: u32 = 16_384;
/// Bytes that a decoder may set aside: [`PIXELS_MAX`] pixels of four channels of 16 bits are 101 MB.
const MEMORY_MAX: u64 = 128 * 1024 * 1024;

pub struct Decoded {
    pub picture: DynamicImage,
    pub orientation: Orientation,
    /// The colour profile that is written in the file.
    pub colours: Option<Vec<u8>>,
}

/// Decodes a JPEG, PNG or WebP, known by how its bytes begin.
pub fn decode(bytes: &[u8]) -> Result<Decoded, PhotoFault> {
    let read = Cursor::new(bytes);
    // JPEG: ITU-T T.81 table B.1. PNG: W3C PNG section 5.2. WebP: RFC 9649 section 2.4.
    if bytes.starts_with(b"\xff\xd8\xff") {
        whole::jpeg(bytes)?;
        pixels(JpegDecoder::new(read).map_err(fault)?)
    } else if bytes.starts_with(b"\x89PNG\r\n\x1a\n") {
        let decoder = PngDecoder::with_limits(read, limits()).map_err(fault)?;
        if decoder.is_apng().map_err(fault)? {
            return Err(PhotoFault::Moving);
        }
        pixels(decoder)
    } else if bytes.starts_with(b"RIFF") && bytes.get(8..12) == Some(b"WEBP") {
        whole::riff(bytes)?;
        let decoder = WebPDecoder::new(read).map_err(fault)?;
        if decoder.has_animation() {
            return Err(PhotoFault::Moving);
        }
        pixels(decoder)
    } else {
        Err(PhotoFault::Unreadable)
    }
}

fn limits() -> Limits {
    let mut limits = Limits::default();
    limits.max_image_width = Some(LONGEST_SIDE);
    limits.max_image_height = Some(LONGEST_SIDE);
    limits.max_alloc = Some(MEMORY_MAX);
    limits
}

fn pixels(mut decoder: impl ImageDecoder) -> Result<Decoded, PhotoFault> {
    let (width, height) = decoder.dimensions();
    if u64::from(width) * u64::from(height) > PIXELS_MAX {
        return Err(PhotoFault::TooManyPixels);
    }
    decoder.set_limits(limits()).map_err(fault)?;
    // Without a note on how the picture was held it is upright already; a broken note is none.
    let orientation = decoder.orientation().unwrap_or(Orientation::NoTransforms);
    let colours = decoder.icc_profile().unwrap_or(None);
    let picture: ImageResult<_> = DynamicImage::from_decoder(decoder);
    Ok(Decoded {
        picture: picture.map_err(fault)?,
        orientation,
        colours,
    })
}

fn fault(error: ImageError) -> PhotoFault {
    match error {
        ImageError::Limits(_) => PhotoFault::TooManyPixels,
        ImageError::Unsupported(_) => PhotoFault::Unreadable,
        _ => PhotoFault::Incomplete,
    }
}

/// Brings colours from the file's own profile to sRGB, which is what a file without a profile is taken for: many phones
/// write a wider gamut, in which red would look pale without its profile. A profile that cannot be read changes nothing.
pub fn to_srgb(pixels: &mut RgbImage, profile: &[u8]) {
    let Ok(from) = ColorProfile::new_from_slice(profile) else {
        return;
    };
    if from.color_space != DataColorSpace::Rgb {
        return;
    }
    let to = ColorProfile::new_srgb();
    let Ok(change) =
        from.create_transform_8bit(Layout::Rgb, &to, Layout::Rgb, TransformOptions::default())
    else {
        return;
    };
    let mut changed = vec![0; pixels.as_raw().len()];
    if change.transform(pixels.as_raw(), &mut changed).is_ok() {
        pixels.copy_from_slice(&changed);
    }
}
