//! The picture of regrowth: two brows or two lids drawn hair by hair for any day after a visit. The hairs come from the
//! seeded generator in `shared-types`, so that the picture is always the same person's.

mod figure;
mod lid;
mod meadow;
mod moving;
mod on_brow;
mod path;
mod reading;
pub mod stills;
mod strands;
mod strip;

pub use figure::regrowth_figure;
use moving::Moving;

use crate::brow::shape;

/// The picture's size in drawing units.
const WIDTH: f64 = shape::WIDTH as f64;
pub const VIEW_BOX: [i32; 2] = [shape::WIDTH, shape::HEIGHT];
