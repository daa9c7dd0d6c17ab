//! Numbers that look like chance and are the same every time: SplitMix64 (Steele, Lea & Flood 2014, "Fast splittable
//! pseudorandom number generators", OOPSLA, figure 16; the constants from memory, held by the generator's published first
//! numbers in the tests). Each number is a function of seed and place alone, so any of them can be had without the ones
//! before it, and server and phone come to the same.

/// The generator's step: 2^64 divided by the golden ratio, made odd.
const STEP: u64 = 0x9E37_79B9_7F4A_7C15;

/// The number at `place` (from 0) of the sequence of `seed`.
pub const fn number(seed: u64, place: u64) -> u64 {
    let mut z = seed.wrapping_add(STEP.wrapping_mul(place.wrapping_add(1)));
    z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    z ^ (z >> 31)
}

/// The same as a share: evenly spread over 0 to 1, 1 excluded.
pub const fn share(seed: u64, place: u64) -> f64 {
    // The upper 53 bits: as many as a double holds.
    (number(seed, place) >> 11) as f64 / (1_u64 << 53) as f64
}
