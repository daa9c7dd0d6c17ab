use flate2::{Compression, Crc, write::ZlibEncoder};
use image::{ImageFormat, Rgb, Rgba, RgbaImage};
use std::io::{Cursor, Write};

use super::*;

/// Left half red, right half blue, so that it shows how it is held.
fn two_halves(width: u32, height: u32) -> DynamicImage {
    let half = |x, _| {
        if x < width / 2 {
            Rgb([200, 20, 20])
        } else {
            Rgb([20, 20, 200])
        }
    };
    RgbImage::from_fn(width, height, half).into()
}

fn file(picture: &DynamicImage, format: ImageFormat) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    picture.write_to(&mut bytes, format).unwrap();
    bytes.into_inner()
}

fn is_red(kept: &Kept, x: u32, y: u32) -> bool {
    let picture = image::load_from_memory(&kept.jpeg).unwrap().into_rgb8();
    let Rgb([red, _, blue]) = *picture.get_pixel(x, y);
    red > blue
}

/// A chunk of a PNG (W3C PNG section 5.3), its checksum by zlib's CRC-32.
fn chunk(kind: &[u8; 4], data: &[u8]) -> Vec<u8> {
    let mut crc = Crc::new();
    crc.update(kind);
    crc.update(data);
    let length = u32::try_from(data.len()).unwrap().to_be_bytes();
    [&length, &kind[..], data, &crc.sum().to_be_bytes()].concat()
}

/// A PNG in 8-bit grey that says it has this size, with these chunks behind its header.
fn png(width: u32, height: u32, chunks: &[Vec<u8>]) -> Vec<u8> {
    let header = [
        &width.to_be_bytes()[..],
        &height.to_be_bytes(),
        &[8, 0, 0, 0, 0],
    ]
    .concat();
    let mut bytes = b"\x89PNG\r\n\x1a\n".to_vec();
    bytes.extend(chunk(b"IHDR", &header));
    bytes.extend(chunks.concat());
    bytes.extend(chunk(b"IEND", b""));
    bytes
}

/// So many zeros, made small.
fn zeros(count: usize) -> Vec<u8> {
    let mut zlib = ZlibEncoder::new(Vec::new(), Compression::fast());
    let block = vec![0; 1 << 20];
    for _ in 0..count >> 20 {
        zlib.write_all(&block).unwrap();
    }
    zlib.write_all(&block[..count & ((1 << 20) - 1)]).unwrap();
    zlib.finish().unwrap()
}

#[test]
fn each_kind_is_known_by_its_content() {
    let picture = two_halves(40, 30);
    for format in [ImageFormat::Jpeg, ImageFormat::Png, ImageFormat::WebP] {
        let kept = taken(&file(&picture, format)).unwrap();
        assert_eq!((kept.width, kept.height), (40, 30), "{format:?}");
        assert!(is_red(&kept, 5, 15) && !is_red(&kept, 35, 15), "{format:?}");
    }
    for other in [
        &b"GIF89a"[..],
        b"",
        b"\xff\xd8",
        b"<svg xmlns=\"http://www.w3.org/2000/svg\"/>",
        b"RIFF\x04\0\0\0WAVE",
        b"%PDF-1.7",
    ] {
        assert_eq!(taken(other), Err(PhotoFault::Unreadable), "{other:?}");
    }
}

/// The eight ways of holding a camera, by JEITA CP-3451 (Exif) section 4.6.4 A, "Orientation"; from memory.
#[test]
fn it_is_turned_upright() {
    // Where the red half is once upright: a point in it, and its mirror image.
    let upright = [
        (1, (40, 30), (5, 15)),
        (2, (40, 30), (35, 15)),
        (3, (40, 30), (35, 15)),
        (4, (40, 30), (5, 15)),
        (5, (30, 40), (15, 5)),
        (6, (30, 40), (15, 5)),
        (7, (30, 40), (15, 35)),
        (8, (30, 40), (15, 35)),
    ];
    let jpeg = file(&two_halves(40, 30), ImageFormat::Jpeg);
    for (orientation, size, red) in upright {
        let exif = [
            &b"Exif\0\0II*\0\x08\0\0\0\x01\0\x12\x01\x03\0\x01\0\0\0"[..],
            &[orientation, 0, 0, 0],
            &[0; 4],
        ]
        .concat();
        let length = u16::try_from(exif.len() + 2).unwrap().to_be_bytes();
        let noted = [&jpeg[..2], b"\xff\xe1", &length, &exif, &jpeg[2..]].concat();
        let kept = taken(&noted).unwrap();
        assert_eq!((kept.width, kept.height), size, "{orientation}");
        let across = (size.0 - 1 - red.0, size.1 - 1 - red.1);
        assert!(
            is_red(&kept, red.0, red.1) && !is_red(&kept, across.0, across.1),
            "{orientation}"
        );
        assert!(
            !kept.jpeg.windows(4).any(|four| four == b"Exif"),
            "{orientation}"
        );
    }
}

#[test]
fn it_is_shrunk_and_never_grown() {
    let kept = taken(&file(&two_halves(4096, 1024), ImageFormat::Jpeg)).unwrap();
    assert_eq!((kept.width, kept.height), (2048, 512));
    let kept = taken(&file(&two_halves(3, 2049), ImageFormat::Png)).unwrap();
    assert_eq!((kept.width, kept.height), (3, 2048));
    let kept = taken(&file(&two_halves(2, 2), ImageFormat::Png)).unwrap();
    assert_eq!((kept.width, kept.height), (2, 2));
}

#[test]
fn what_shines_through_is_white() {
    let clear = RgbaImage::from_pixel(16, 16, Rgba([0, 0, 0, 0]));
    let kept = taken(&file(&clear.into(), ImageFormat::Png)).unwrap();
    let picture = image::load_from_memory(&kept.jpeg).unwrap().into_rgb8();
    assert!(
        picture
            .pixels()
            .all(|pixel| pixel.0.iter().all(|channel| *channel > 250))
    );
}

/// Display P3's red is redder than sRGB's can be. A red of 200 in it is 217 and more once in sRGB (W3C CSS Color 4
/// section 10, worked with its sample matrices: `color(display-p3 0.784 0.078 0.078)`).
#[test]
fn colours_of_a_wider_gamut_keep_their_red() {
    let mut plain = Vec::new();
    let mut wide = Vec::new();
    let picture = two_halves(64, 64).into_rgb8();
    let write = |into: &mut Vec<u8>, profile: Option<Vec<u8>>| {
        let mut encoder = JpegEncoder::new_with_quality(into, 95);
        if let Some(profile) = profile {
            encoder.set_icc_profile(profile).unwrap();
        }
        encoder
            .write_image(&picture, 64, 64, ExtendedColorType::Rgb8)
            .unwrap();
    };
    write(&mut plain, None);
    write(
        &mut wide,
        Some(moxcms::ColorProfile::new_display_p3().encode().unwrap()),
    );
    let red = |bytes: &[u8]| {
        let kept = taken(bytes).unwrap();
        image::load_from_memory(&kept.jpeg)
            .unwrap()
            .into_rgb8()
            .get_pixel(10, 32)
            .0[0]
    };
    let (plain, wide) = (red(&plain), red(&wide));
    assert!((195..=205).contains(&plain), "{plain}");
    assert!(wide > plain + 10, "{plain} {wide}");
}

#[test]
fn one_that_was_cut_off_is_not_taken() {
    let picture = two_halves(24, 18);
    for (format, tail) in [
        (ImageFormat::Jpeg, 0),
        (ImageFormat::Png, 12),
        (ImageFormat::WebP, 0),
    ] {
        let whole = file(&picture, format);
        for length in 0..whole.len() - tail {
            assert!(
                taken(&whole[..length]).is_err(),
                "{format:?} at {length} of {}",
                whole.len()
            );
        }
    }
    // What phones put behind a picture is no fault of it.
    let mut film = file(&picture, ImageFormat::Jpeg);
    film.extend(b"a film");
    taken(&film).unwrap();
}

#[test]
fn one_that_says_it_is_huge_is_refused_before_it_is_decoded() {
    let data = chunk(b"IDAT", &zeros(1000));
    for (width, height) in [
        (50_000, 50_000),
        (1, 20_000),
        (20_000, 1),
        (4_097, 3_073),
        (u32::MAX >> 1, u32::MAX >> 1),
    ] {
        let bytes = png(width, height, std::slice::from_ref(&data));
        assert_eq!(
            taken(&bytes),
            Err(PhotoFault::TooManyPixels),
            "{width} × {height}"
        );
    }
    // A JPEG's frame header holds its size (ITU-T T.81 section B.2.2).
    let mut jpeg = file(&two_halves(16, 16), ImageFormat::Jpeg);
    let frame = jpeg.windows(2).position(|two| two == b"\xff\xc0").unwrap();
    jpeg[frame + 5..frame + 9].copy_from_slice(&[0xff, 0xff, 0xff, 0xff]);
    assert_eq!(taken(&jpeg), Err(PhotoFault::TooManyPixels));
}

#[test]
fn twelve_megapixels_of_a_phone_are_taken() {
    let kept = taken(&file(&two_halves(4080, 3072), ImageFormat::Jpeg)).unwrap();
    assert_eq!((kept.width, kept.height), (2048, 1542));
}

/// Data that grows to far more than the picture needs is not read beyond it.
#[test]
fn one_that_unpacks_to_more_than_it_says_is_bounded() {
    let bomb = png(64, 64, &[chunk(b"IDAT", &zeros(1 << 28))]);
    assert!((bomb.len() as u64) < BYTES_MAX);
    let kept = taken(&bomb);
    assert!(
        matches!(
            kept,
            Ok(Kept {
                width: 64,
                height: 64,
                ..
            }) | Err(PhotoFault::Incomplete)
        ),
        "{kept:?}"
    );
    // The same in its colour profile (`iCCP`: a name, 0, method 0, zlib).
    let profile = [b"p\0\0".to_vec(), zeros(1 << 28)].concat();
    let bomb = png(
        64,
        64,
        &[chunk(b"iCCP", &profile), chunk(b"IDAT", &zeros(64 * 65))],
    );
    let kept = taken(&bomb);
    assert!(
        kept.is_ok()
            || matches!(
                kept,
                Err(PhotoFault::TooManyPixels | PhotoFault::Incomplete)
            ),
        "{kept:?}"
    );
}

#[test]
fn one_that_moves_is_not_taken() {
    let still = file(&two_halves(16, 16), ImageFormat::Png);
    // `acTL`: two frames, for ever (W3C PNG third edition section 11.3.6.1). It comes behind the header of 33 bytes.
    let moving = [
        &still[..33],
        &chunk(b"acTL", &[0, 0, 0, 2, 0, 0, 0, 0]),
        &still[33..],
    ]
    .concat();
    assert_eq!(taken(&moving), Err(PhotoFault::Moving));

    // RFC 9649 section 2.7: VP8X with the flag of animation, ANIM, one ANMF around the still picture's data.
    let still = file(&two_halves(16, 16), ImageFormat::WebP);
    let part = |kind: &[u8], data: &[u8]| {
        let length = u32::try_from(data.len()).unwrap().to_le_bytes();
        let pad = vec![0; data.len() % 2];
        [kind, &length, data, &pad].concat()
    };
    let frame = [
        &[0, 0, 0, 0, 0, 0, 15, 0, 0, 15, 0, 0, 100, 0, 0, 0],
        &still[12..],
    ]
    .concat();
    let parts = [
        b"WEBP".to_vec(),
        part(b"VP8X", &[0b10, 0, 0, 0, 15, 0, 0, 15, 0, 0]),
        part(b"ANIM", &[0; 6]),
        part(b"ANMF", &frame),
    ];
    assert_eq!(
        taken(&part(b"RIFF", &parts.concat())),
        Err(PhotoFault::Moving)
    );
}

#[test]
fn one_that_asks_for_too_many_passes_is_not_taken() {
    let jpeg = file(&two_halves(16, 16), ImageFormat::Jpeg);
    let scan = jpeg.windows(2).position(|two| two == b"\xff\xda").unwrap();
    let (before, end) = (&jpeg[..scan], jpeg.len() - 2);
    let many = [before, &jpeg[scan..end].repeat(40), &jpeg[end..]].concat();
    assert_eq!(taken(&many), Err(PhotoFault::TooSlow));
}

#[test]
fn one_with_too_many_bytes_is_not_taken() {
    let mut bytes = file(&two_halves(16, 16), ImageFormat::Jpeg);
    bytes.resize(BYTES_MAX as usize, 0);
    taken(&bytes).unwrap();
    bytes.push(0);
    assert_eq!(taken(&bytes), Err(PhotoFault::TooHeavy));
}
