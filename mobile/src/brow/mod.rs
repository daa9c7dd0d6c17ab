//! The brow as it is drawn: its shape, and what stands on it.

pub mod shape;
