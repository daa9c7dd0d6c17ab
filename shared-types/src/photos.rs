//! How many photos, and how large, wherever that is asked: by the phone before it sends one, by the server when one arrives.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::page::client::Moment;

/// Photos with one report.
pub const PHOTOS_MAX: u32 = 4;
/// Bytes of a photo as it is sent: 10 MB.
pub const BYTES_MAX: u64 = 10_000_000;
/// Pixels of a photo as it is sent. What phones call 12 megapixels is up to 4 080 × 3 072, a little more than 12 000 000.
pub const PIXELS_MAX: u64 = 12 * 1024 * 1024;
/// Pixels on the long side of a photo as it is kept.
pub const SIDE_MAX: u32 = 2_048;
/// Bytes of one piece of a photo on its way: 256 KiB.
pub const PIECE_MAX: u64 = 256 * 1024;

/// What is answered when a photo has arrived whole and is kept.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PhotoReceipt {
    pub id: Uuid,
    pub received: Moment,
    /// Pixels, as it is kept.
    pub width: u32,
    pub height: u32,
}
