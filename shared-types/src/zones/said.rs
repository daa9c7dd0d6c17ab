//! Places in words.

use super::{Place, Side, Zone};
use crate::words::Words;

/// "Left brow: arch and tail. Right brow: skin above." What is the same on both sides is said once.
///
/// Keys: `side.left`, `side.right` and `side.both` with `{zones}`, and `zone.<term>`.
pub fn said(words: &Words, places: impl Iterator<Item = Place>) -> String {
    let (mut left, mut right): (Vec<Zone>, Vec<Zone>) = (Vec::new(), Vec::new());
    for place in places {
        match place.side {
            Side::Left => left.push(place.zone),
            Side::Right => right.push(place.zone),
        }
    }
    let one = |key: &str, zones: &[Zone]| {
        let names: Vec<String> = zones
            .iter()
            .map(|zone| words.say(&format!("zone.{zone}")).to_owned())
            .collect();
        words.fill(key, &[("zones", &words.list(&names))])
    };
    if left == right && !left.is_empty() {
        return one("side.both", &left);
    }
    [("side.left", left), ("side.right", right)]
        .into_iter()
        .filter(|(_, zones)| !zones.is_empty())
        .map(|(key, zones)| one(key, &zones))
        .collect::<Vec<_>>()
        .join(" ")
}
