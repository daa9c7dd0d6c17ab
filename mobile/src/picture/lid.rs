//! Where the lashes of a closed upper lid stand and how they lie. Drawn by eye, larger than a brow.

use super::strands::{Lie, Scatter, between, leftwards};

/// Drawing units in a millimetre.
pub const UNITS: f64 = 33.0;

/// The edges of both closed lids, as an SVG path.
pub const EDGES: &str = "M1190 160Q1060 315 700 315T205 140M1450 160Q1580 315 1940 315T2435 140";

/// A lash. All sweep to the outer corner; those that were set (lift) curl up at their tips.
pub fn lash(scatter: &Scatter, set: bool) -> Lie {
    const X: [(f64, f64); 6] = [
        (0.0, 1130.0),
        (0.2, 960.0),
        (0.4, 770.0),
        (0.6, 580.0),
        (0.8, 400.0),
        (1.0, 235.0),
    ];
    /// Steps outwards for one step down.
    const OUT: [(f64, f64); 4] = [(0.0, 0.1), (0.35, 0.3), (0.75, 0.85), (1.0, 1.7)];
    let [row, jitter, sway, _] = scatter.chances;
    let along = (scatter.spread + (jitter - 0.5) * 0.012).clamp(0.0, 1.0);
    let x = between(&X, along);
    let out = between(&OUT, along) + (sway - 0.5) * 0.3;
    let fall = |out: f64| leftwards(-1.0 / out.max(0.02));
    Lie {
        root: (x, edge(x) + (row - 0.5) * 16.0),
        first: fall(out),
        tip: if set {
            leftwards(0.35 - 0.3 * along)
        } else {
            fall(out * 1.5 + 0.25)
        },
    }
}

/// Height of the edge of the lid on the left at `x`.
fn edge(x: f64) -> f64 {
    const Y: [(f64, f64); 9] = [
        (205.0, 140.0),
        (287.0, 217.0),
        (396.0, 271.0),
        (534.0, 304.0),
        (700.0, 315.0),
        (866.0, 305.0),
        (1003.0, 276.0),
        (1111.0, 228.0),
        (1190.0, 160.0),
    ];
    between(&Y, x)
}
