//! The shape of a drawn brow, in twentieths of a millimetre.
//!
//! A brow lies along its own line from the front, beside the nose, to the end of the tail: `along` runs from 0 to
//! [`ALONG`], `across` from -[`EDGE`] (the lower edge) to [`EDGE`] (the upper edge). Places outside the edges are the
//! skin above and below. Drawn is the brow on the left of the picture, its tail to the left, with y downwards; its twin
//! is the mirror image about [`MIDDLE`].
//!
//! Whole numbers throughout: the server and the phone must write the same path to the last digit.

/// Places along the brow.
pub const ALONG: i32 = 1000;
/// Places from the middle of the brow to either edge.
pub const EDGE: i32 = 1000;
/// The length of a brow: 55 mm, as a surgeon measures it (the page names 55 x 13 mm; seen on a secondary page only).
pub const LENGTH: i32 = 1100;
/// Both brows with the place between them.
pub const WIDTH: i32 = 2 * MIDDLE;
pub const HEIGHT: i32 = 620;
/// The x of the line about which the two brows mirror each other.
pub const MIDDLE: i32 = 1320;
/// The x of the front of the drawn brow.
const FRONT: i32 = MIDDLE - 140;

/// Height of the middle line, and half the breadth, at places along the brow: a soft front, an arch at two thirds, a
/// tail that runs out. Drawn by eye.
const LINE: [(i32, i32, i32); 8] = [
    (0, 372, 92),
    (90, 366, 112),
    (250, 330, 118),
    (430, 280, 106),
    (620, 232, 84),
    (760, 250, 58),
    (900, 318, 30),
    (1000, 384, 8),
];

/// Height of the middle line and half the breadth at a place along the brow, which may lie a little beyond its ends.
pub fn line(along: i32) -> (i32, i32) {
    let along = along.clamp(0, ALONG);
    let at = LINE
        .iter()
        .rposition(|point| point.0 <= along)
        .unwrap_or(0)
        .min(LINE.len() - 2);
    let (from, to) = (LINE[at], LINE[at + 1]);
    let part = |a: i32, b: i32| a + (b - a) * (along - from.0) / (to.0 - from.0);
    (part(from.1, to.1), part(from.2, to.2))
}

/// Where a place of the brow lies in the drawing.
pub fn place(along: i32, across: i32) -> (i32, i32) {
    let (middle, breadth) = line(along);
    (
        FRONT - along * LENGTH / ALONG,
        middle - across * breadth / EDGE,
    )
}

/// As [`place`], between its whole numbers; before the front and past the tail the line goes on as it ends there.
pub fn place_between(along: f64, across: f64) -> (f64, f64) {
    let whole = (along as i32).clamp(0, ALONG - 1);
    let (here, there) = (line(whole), line(whole + 1));
    let share = (along - f64::from(whole)).clamp(-200.0, 200.0);
    let part = |a: i32, b: i32| f64::from(a) + f64::from(b - a) * share;
    let breadth = part(here.1, there.1).max(6.0);
    (
        f64::from(FRONT) - along * f64::from(LENGTH) / f64::from(ALONG),
        part(here.0, there.0) - across * breadth / f64::from(EDGE),
    )
}
