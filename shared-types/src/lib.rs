//! What every side agrees on, and the rules over it: the studio's server, the phone's page and the tests all use
//! these types and these functions, so that a rule exists once.
//!
//! Pure by design: no clock, no randomness of its own, no I/O. "Now" is always an argument.

pub mod care_plan;
pub mod catalogue;
pub mod consultation;
pub mod dates;
pub mod desk;
pub mod findings;
pub mod outcome;
pub mod page;
pub mod patch_test;
pub mod photos;
pub mod reaction;
pub mod regrowth;
pub mod urgency;
pub mod visit;
pub mod wire;
pub mod wish;
pub mod words;
pub mod zones;
