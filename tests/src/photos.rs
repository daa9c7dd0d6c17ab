//! Pictures as cameras and cheats make them, and somebody who sends them piece by piece.

use std::io::Cursor;

use image::{DynamicImage, ImageFormat, Rgb, RgbImage};
use reqwest::Method;
use serde_json::{Value, json};
use uuid::Uuid;

use crate::{
    server::Server,
    visitor::{Answer, Visitor},
};

/// Bytes of one piece, as the phone sends them.
pub const PIECE: usize = 256 * 1024;

/// Left half red, right half blue, so that it shows how it is held.
pub fn two_halves(width: u32, height: u32, format: ImageFormat) -> Vec<u8> {
    let half = |x, _| {
        if x < width / 2 {
            Rgb([200, 20, 20])
        } else {
            Rgb([20, 20, 200])
        }
    };
    file(RgbImage::from_fn(width, height, half).into(), format)
}

/// A picture that does not shrink well, so that it comes in several pieces. Another seed makes another picture.
pub fn grainy(width: u32, height: u32, seed: u32) -> Vec<u8> {
    let mut state = seed.wrapping_mul(2_654_435_769) | 1;
    let grain = |_, _| {
        // Marsaglia's xorshift.
        state ^= state << 13;
        state ^= state >> 17;
        state ^= state << 5;
        Rgb([state as u8, (state >> 8) as u8, (state >> 16) as u8])
    };
    file(
        RgbImage::from_fn(width, height, grain).into(),
        ImageFormat::Jpeg,
    )
}

fn file(picture: DynamicImage, format: ImageFormat) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    picture.write_to(&mut bytes, format).expect("a picture");
    bytes.into_inner()
}

/// Puts in front of a JPEG what a camera writes: held turned by a quarter (orientation 6), taken in Greenwich (JEITA CP-3451,
/// Exif 2.3, sections 4.6.2 to 4.6.6, from memory; a reader of its own confirms it in the tests), and the same as XMP.
pub fn as_a_camera_wrote_it(jpeg: &[u8]) -> Vec<u8> {
    let entry = |tag: u16, kind: u16, count: u32, value: [u8; 4]| {
        let mut entry = Vec::new();
        entry.extend(tag.to_be_bytes());
        entry.extend(kind.to_be_bytes());
        entry.extend(count.to_be_bytes());
        entry.extend(value);
        entry
    };
    let mut tiff = b"MM\0\x2a\0\0\0\x08".to_vec();
    // IFD0 at 8: orientation 6 (a SHORT, left-justified), and where the GPS IFD is.
    tiff.extend(2u16.to_be_bytes());
    tiff.extend(entry(0x0112, 3, 1, [0, 6, 0, 0]));
    tiff.extend(entry(0x8825, 4, 1, 38u32.to_be_bytes()));
    tiff.extend(0u32.to_be_bytes());
    // The GPS IFD at 38: latitude north 51° 28′ 40″, as three rationals behind it.
    tiff.extend(2u16.to_be_bytes());
    tiff.extend(entry(0x0001, 2, 2, *b"N\0\0\0"));
    tiff.extend(entry(0x0002, 5, 3, 68u32.to_be_bytes()));
    tiff.extend(0u32.to_be_bytes());
    for (number, of) in [(51u32, 1u32), (28, 1), (40, 1)] {
        tiff.extend(number.to_be_bytes());
        tiff.extend(of.to_be_bytes());
    }
    let exif = [b"Exif\0\0", &tiff[..]].concat();
    let xmp = b"http://ns.adobe.com/xap/1.0/\0<x:xmpmeta xmlns:x='adobe:ns:meta/'>GPSLatitude=51,28.66N</x:xmpmeta>";
    let segment = |data: &[u8]| {
        let length = u16::try_from(data.len() + 2)
            .expect("a short segment")
            .to_be_bytes();
        [b"\xff\xe1", &length[..], data].concat()
    };
    [&jpeg[..2], &segment(&exif), &segment(xmp), &jpeg[2..]].concat()
}

/// A PNG of one grey pixel that says that it has so many.
pub fn png_that_says(width: u32, height: u32) -> Vec<u8> {
    let mut bytes = two_halves(1, 1, ImageFormat::Png);
    bytes[16..20].copy_from_slice(&width.to_be_bytes());
    bytes[20..24].copy_from_slice(&height.to_be_bytes());
    // The header's checksum (W3C PNG annex D: CRC-32 of the chunk's kind and data).
    let sum = crc32(&bytes[12..29]).to_be_bytes();
    bytes[29..33].copy_from_slice(&sum);
    bytes
}

fn crc32(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(u32::MAX, |sum, byte| {
        (0..8).fold(sum ^ u32::from(*byte), |sum, _| {
            if sum & 1 == 1 {
                (sum >> 1) ^ 0xedb8_8320
            } else {
                sum >> 1
            }
        })
    })
}

/// A report as the living page sends it, that lets the studio keep photos, and says how many are to follow.
pub fn report(words: &str, photos: u8) -> Value {
    json!({
        "answers": {"pain": 2}, "places": [], "words": words, "reach": "",
        "consents": {"report": "2026-11", "photos": (photos > 0).then_some("2026-11"), "supplier": null},
        "photos": photos,
    })
}

/// Sends a report; gives its id.
pub fn send_report(client: &Visitor, link: &str, report: &Value) -> Uuid {
    let id = Uuid::new_v4();
    let answer = client.put(&format!("{link}/reports/{id}"), report);
    assert_eq!(answer.status, 201, "{}", answer.body);
    id
}

/// A photo on its way to a report.
pub struct Photo {
    /// Without the host.
    pub path: String,
    pub id: Uuid,
}

impl Photo {
    pub fn of(link: &str, report: Uuid) -> Self {
        Self::called(link, report, Uuid::new_v4())
    }

    pub fn called(link: &str, report: Uuid, id: Uuid) -> Self {
        Self {
            path: format!("{link}/reports/{report}/photos/{id}"),
            id,
        }
    }

    /// How much of it is here, and whether that is all.
    pub fn offset(&self, client: &Visitor) -> (u64, bool) {
        let answer = client.ask(Method::HEAD, &self.path, &[], None);
        assert_eq!(answer.status, 204, "{}", self.path);
        let complete = answer.header("upload-complete") == "?1";
        (
            answer.header("upload-offset").parse().expect("a number"),
            complete,
        )
    }

    pub fn piece(&self, client: &Visitor, offset: usize, is_last: bool, bytes: &[u8]) -> Answer {
        let offset = offset.to_string();
        let headers = [
            ("content-type", "application/partial-upload"),
            ("sec-fetch-site", "same-origin"),
            ("upload-offset", offset.as_str()),
            ("upload-complete", if is_last { "?1" } else { "?0" }),
        ];
        client.send_bytes(Method::PATCH, &self.path, &headers, bytes.to_vec())
    }

    /// Sends all of it, from where the studio is; gives the last answer.
    pub fn send(&self, client: &Visitor, bytes: &[u8]) -> Answer {
        let (offset, _) = self.offset(client);
        let mut offset = offset as usize;
        loop {
            let end = bytes.len().min(offset + PIECE);
            let is_last = end == bytes.len();
            let answer = self.piece(client, offset, is_last, &bytes[offset..end]);
            if is_last || answer.status != 204 {
                return answer;
            }
            offset = end;
        }
    }
}

/// How many files lie in a folder of the studio's data.
pub fn files(server: &Server, folder: &str) -> usize {
    std::fs::read_dir(server.home.data().join(folder)).map_or(0, Iterator::count)
}

/// A form as a browser sends it when it brings files (RFC 7578): its kind and its body.
pub fn form_with_files(
    fields: &[(&str, &str)],
    files: &[(&str, &str, &[u8])],
) -> (String, Vec<u8>) {
    const BORDER: &str = "----ends-here-7f3a";
    let mut body = Vec::new();
    for (name, value) in fields {
        body.extend(
            format!(
                "--{BORDER}\r\ncontent-disposition: form-data; name=\"{name}\"\r\n\r\n{value}\r\n"
            )
            .into_bytes(),
        );
    }
    for (name, file, bytes) in files {
        // The kind that is claimed says nothing.
        body.extend(
            format!(
                "--{BORDER}\r\ncontent-disposition: form-data; name=\"{name}\"; filename=\"{file}\"\r\n\
                 content-type: application/octet-stream\r\n\r\n"
            )
            .into_bytes(),
        );
        body.extend(*bytes);
        body.extend(b"\r\n");
    }
    body.extend(format!("--{BORDER}--\r\n").into_bytes());
    (format!("multipart/form-data; boundary={BORDER}"), body)
}

/// Sends the plain form of a report: this id, these words, ticks and files.
pub fn send_form(
    client: &Visitor,
    link: &str,
    id: &str,
    words: &str,
    ticks: &[&str],
    photos: &[(&str, &[u8])],
) -> Answer {
    let mut fields = vec![
        ("report_id", id),
        ("swelling", "local"),
        // Longer ago than the visit: it counts as that long.
        ("onset", "72"),
        ("words", words),
    ];
    fields.extend(ticks.iter().map(|tick| (*tick, "2026-11")));
    let photos: Vec<_> = photos
        .iter()
        .map(|(name, bytes)| ("photos", *name, *bytes))
        .collect();
    post_with_files(client, &format!("{link}/reports"), &fields, &photos)
}

/// Sends such a form.
pub fn post_with_files(
    visitor: &Visitor,
    path: &str,
    fields: &[(&str, &str)],
    files: &[(&str, &str, &[u8])],
) -> Answer {
    let (kind, body) = form_with_files(fields, files);
    let headers = [
        ("content-type", kind.as_str()),
        ("sec-fetch-site", "same-origin"),
    ];
    visitor.send_bytes(Method::POST, path, &headers, body)
}
