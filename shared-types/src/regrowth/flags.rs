//! What a consultation found that makes a forecast unsure, or no use at all.

use std::collections::BTreeMap;

use super::clock::Clock;
use crate::catalogue::flag::{Effect, Flag, FlagRule};

/// Whether there is a forecast.
#[derive(Clone, Debug, PartialEq)]
pub enum Outlook {
    /// By this clock, as unsure as the flags make it; `because` of which flags, in the order of [`Flag::ALL`].
    Forecast { clock: Clock, because: Vec<Flag> },
    /// None: the sentences of these flags instead.
    Off { because: Vec<Flag> },
}

/// The outlook of someone with these flags. Whatever switches off comes before whatever widens; the widest counts, since
/// nobody has measured two together. A flag without a rule switches off: to know nothing is no reason to be sure.
pub fn outlook(rules: &BTreeMap<Flag, FlagRule>, flags: &[Flag], clock: Clock) -> Outlook {
    let mut flags = flags.to_vec();
    flags.sort_unstable();
    flags.dedup();
    let effect = |flag: &Flag| rules.get(flag).map_or(&Effect::Off, |rule| &rule.effect);
    let off: Vec<Flag> = flags
        .iter()
        .copied()
        .filter(|flag| matches!(effect(flag), Effect::Off))
        .collect();
    if !off.is_empty() {
        return Outlook::Off { because: off };
    }
    let widest = flags.iter().filter_map(|flag| match effect(flag) {
        Effect::Widen(factor) => Some(factor.value),
        Effect::Off => None,
    });
    Outlook::Forecast {
        clock: clock.widened(widest.fold(1.0, f64::max)),
        because: flags,
    }
}
