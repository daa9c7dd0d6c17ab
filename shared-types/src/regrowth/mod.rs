//! How hair returns after it was removed, as shares of the hairs that were there before: closed forms over a
//! semi-Markov cycle (anagen, catagen, telogen, kenogen), in days from the visit and millimetres.
//!
//! Three kinds of hair come back in three ways. Hairs that were growing below the surface at the visit were never
//! touched and surface at a steady rate. Hairs that broke show again as soon as the rest has grown to the surface.
//! Hairs that came out with the root wait for a new hair to start (the latency, an Erlang distribution) and then for
//! it to grow through the skin (the transit).
//!
//! Time enters as a number of days and leaves as a number of days. A person's own pace is learned by [`clock`] and moves
//! every parameter that is a time; [`flags`] make it unsure or switch the forecast off. [`follicles`] draws the same
//! hair by hair.

pub mod chance;
pub mod clock;
pub mod curve;
pub mod cycle;
pub mod flags;
pub mod follicles;
pub mod latency;
pub mod normal;
pub mod parameters;
pub mod tint;
