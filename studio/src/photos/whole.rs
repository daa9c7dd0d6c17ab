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

/// A RIFF file says how long it is (RFC 9649 section 2.3).
pub fn riff(bytes: &[u8]) -> Result<(), PhotoFault> {
    let said = match bytes.get(4..8) {
        Some([a, b, c, d]) => u32::from_le_bytes([*a, *b, *c, *d]),
        _ => return Err(PhotoFault::Incomplete),
    };
    if (bytes.len() as u64) < u64::from(said) + 8 {
        return Err(PhotoFault::Incomplete);
    }
    Ok(())
}
