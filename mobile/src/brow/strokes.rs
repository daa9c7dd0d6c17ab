//! The hairs of a drawn brow, zone by zone, as one path of short strokes: no forecast, only how a brow looks.

use std::fmt::Write;

use shared_types::{regrowth::chance, zones::Zone};

use super::{
    shape::{ALONG, LENGTH, line, place},
    zones::{Grain, span},
};

/// Rows of hairs: where their roots lie across the brow.
const ROWS: [i32; 4] = [-820, -420, 0, 420];

/// Full-grown hairs, or the few short ones of a gap that begins to close.
pub fn hairs(zone: Zone, grain: Grain, young: bool) -> String {
    let mut path = String::new();
    if matches!(zone, Zone::Above | Zone::Below) {
        return path;
    }
    let (from, until) = span(zone);
    let apart = grain.apart;
    // Each stroke begins from where the last one ended: smaller numbers, and fewer bytes to load.
    let mut pen = (0, 0);
    let mut command = 'M';
    for column in from / apart..=until / apart {
        for (row, across) in (0..).zip(ROWS) {
            // A number between 0 and 99 that looks like chance.
            let odd = |what: u64| (chance::number(what, (column * 4 + row) as u64) % 100) as i32;
            let along = column * apart + odd(1) * apart / 100;
            let sparse = if young { 3 } else { grain.every };
            if !(from..until).contains(&along) || (column + row) % sparse != 0 {
                continue;
            }
            let (dx, dy) = lean(along, row, 85 + odd(3) * 30 / 100);
            let (dx, dy) = if young { (dx / 2, dy / 2) } else { (dx, dy) };
            let (x, y) = place(along, across + odd(2) * 3 - 150);
            let (x, y, dx, dy) = (
                x / grain.unit,
                y / grain.unit,
                dx / grain.unit,
                dy / grain.unit,
            );
            for (letter, x, y) in [(command, x - pen.0, y - pen.1), ('l', dx, dy)] {
                // A minus sign parts two numbers as well as a blank.
                let blank = if y < 0 { "" } else { " " };
                let _ = write!(path, "{letter}{x}{blank}{y}");
            }
            command = 'm';
            pen = (x + dx, y + dy);
        }
    }
    path
}

/// From root to tip: up at the front, more and more along the brow towards the tail, where the upper rows lie down to
/// meet the lower ones. `percent` of the usual length.
fn lean(along: i32, row: i32, percent: i32) -> (i32, i32) {
    let (middle, breadth) = line(along);
    let length = (breadth * 8 / 10 + 30) * percent / 100;
    let flat = 10 + along * 84 / ALONG;
    let up = 96 - along * 66 / ALONG - row * (3 + along * 24 / ALONG);
    let ahead = (along + 40).min(ALONG);
    let run = (ahead - along) * LENGTH / ALONG;
    let fall = if run > 0 {
        (line(ahead).0 - middle) * 100 / run
    } else {
        0
    };
    let dx = length * flat / 100;
    (-dx, dx * fall / 100 - length * up / 100)
}
