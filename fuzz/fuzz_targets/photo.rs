//! A photo as anybody may send it. Whatever the bytes: it is refused in words, or what is kept is a plain JPEG of pixels that
//! can be read again, no larger than promised, with nothing in it about where, when and with what it was taken.

#![no_main]

use libfuzzer_sys::fuzz_target;
use shared_types::photos::SIDE_MAX;
use studio::photos::taken;

fuzz_target!(|sent: &[u8]| {
    match taken(sent) {
        Ok(kept) => {
            assert!((1..=SIDE_MAX).contains(&kept.width), "{kept:?}");
            assert!((1..=SIDE_MAX).contains(&kept.height), "{kept:?}");
            has_pixels_alone(&kept.jpeg);
            let again = taken(&kept.jpeg).expect("what was kept can be taken again");
            assert_eq!((again.width, again.height), (kept.width, kept.height));
        }
        Err(fault) => assert!(!fault.to_string().is_empty() && !fault.name().is_empty()),
    }
});

/// The segments of a JPEG (ITU-T T.81 annex B) up to its pixels: none of an application but JFIF's own, no comment.
fn has_pixels_alone(jpeg: &[u8]) {
    assert_eq!(jpeg[..2], [0xff, 0xd8]);
    let mut at = 2;
    loop {
        assert_eq!(jpeg[at], 0xff, "a marker at {at}");
        let marker = jpeg[at + 1];
        let length = usize::from(u16::from_be_bytes([jpeg[at + 2], jpeg[at + 3]]));
        match marker {
            0xda => return,
            0xe0 => assert_eq!(&jpeg[at + 4..at + 8], b"JFIF"),
            0xe1..=0xef | 0xfe => panic!("a segment {marker:x} was kept"),
            _ => {}
        }
        at += 2 + length;
    }
}
