//! The brow as it is drawn: its shape, and what stands on it.

pub mod marks;
pub mod shape;
pub mod strokes;
pub mod zones;
