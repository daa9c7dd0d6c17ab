//! Whether a file has arrived whole: decoders draw what is there of a file that was cut off and call it a picture.

use super::PhotoFault;

/// Passes over the picture that one JPEG may ask for; cameras use one, progressive files some ten. Each costs as much as
/// decoding the whole picture, and takes a few bytes to ask for.
const PASSES_MAX: u32 = 32;

/// A JPEG has an end marker behind its first scan, and not absurdly many scans (ITU-T T.81 section B.1). What follows the
/// end marker is nobody's concern: phones put films and further pictures there.
pub fn jpeg(bytes: &[u8]) -> Result<(), PhotoFault> {
    let mut passes = 0;
    // Behind the start marker.
    let mut at = 2;
    loop {
        let Marker { code, behind } = marker(bytes, at).ok_or(PhotoFault::Incomplete)?;
        at = match code {
            0xd9 if passes > 0 => return Ok(()),
            0xd9 => return Err(PhotoFault::Incomplete),
            // TEM, RST and SOI stand alone.
            0x01 | 0xd0..=0xd8 => behind,
            _ => {
                if code == 0xda {
                    passes += 1;
                    if passes > PASSES_MAX {
                        return Err(PhotoFault::TooSlow);
                    }
                }
                match bytes.get(behind..behind + 2) {
                    // The length counts itself.
                    Some(&[high, low]) => {
                        behind + usize::from(u16::from_be_bytes([high, low])).max(2)
                    }
                    _ => return Err(PhotoFault::Incomplete),
                }
            }
        };
    }
}

struct Marker {
    code: u8,
    /// Where it has ended.
    behind: usize,
}

/// The next marker: 0xff, then neither another 0xff, which fills, nor 0x00, which says that the 0xff was data.
fn marker(bytes: &[u8], from: usize) -> Option<Marker> {
    let rest = bytes.get(from..)?;
    let at = rest
        .windows(2)
        .position(|pair| pair[0] == 0xff && !matches!(pair[1], 0x00 | 0xff))?;
    Some(Marker {
        code: rest[at + 1],
        behind: from + at + 2,
    })
}

/// A RIFF file says how long it is, and so does each chunk in it (RFC 9649 section 2.3). One that says more than there is
/// would have its reader set aside as much.
pub fn riff(bytes: &[u8]) -> Result<(), PhotoFault> {
    let said = match bytes.get(4..8) {
        Some([a, b, c, d]) => u32::from_le_bytes([*a, *b, *c, *d]),
        _ => return Err(PhotoFault::Incomplete),
    };
    let end = u64::from(said) + 8;
    if (bytes.len() as u64) < end {
        return Err(PhotoFault::Incomplete);
    }
    // Behind `RIFF`, its length and `WEBP`.
    let mut at = 12_u64;
    while at + 8 <= end {
        let size = usize::try_from(at)
            .ok()
            .and_then(|at| bytes.get(at + 4..at + 8));
        let Some([a, b, c, d]) = size else {
            return Err(PhotoFault::Incomplete);
        };
        let size = u64::from(u32::from_le_bytes([*a, *b, *c, *d]));
        if at + 8 + size > end {
            return Err(PhotoFault::Incomplete);
        }
        // Chunks begin at even places.
        at += 8 + size + size % 2;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Found by fuzzing: a note of 3 GB in a file of 360 bytes.
    #[test]
    fn a_chunk_says_no_more_than_there_is() {
        let file = |says: u32| {
            let chunks = [
                &b"VP8L"[..],
                &4_u32.to_le_bytes(),
                b"abcd",
                b"EXIF",
                &says.to_le_bytes(),
                b"MM",
            ];
            let chunks = chunks.concat();
            let length = u32::try_from(chunks.len() + 4).unwrap().to_le_bytes();
            [&b"RIFF"[..], &length, b"WEBP", &chunks].concat()
        };
        assert_eq!(riff(&file(2)), Ok(()));
        for says in [3, 0xc3c3_c38c, u32::MAX] {
            assert_eq!(riff(&file(says)), Err(PhotoFault::Incomplete));
        }
    }
}
