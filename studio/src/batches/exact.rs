//! Exact figures for small counts.

use special::Beta;

use super::Group;

/// How often chance alone brings as many reactions to the batch or more, if all visits are alike and their reactions are
/// dealt out at random: Fisher's exact test, one-sided (hypergeometric upper tail), 0 to 1.
pub fn one_sided(with: Group, without: Group) -> f64 {
    let drawn = i64::from(with.visits);
    let reactions = i64::from(with.reactions) + i64::from(without.reactions);
    let total = drawn + i64::from(without.visits);
    let least = (reactions - i64::from(without.visits)).max(0);
    let most = drawn.min(reactions);
    // From one count to the next the chance changes by a ratio of whole numbers. All are taken relative to the likeliest, so
    // that nothing overflows.
    let up = |count: i64| {
        let more = (reactions - count) as f64 * (drawn - count) as f64;
        more / ((count + 1) as f64 * (total - reactions - drawn + count + 1) as f64)
    };
    let likeliest = ((drawn + 1) as f64 * (reactions + 1) as f64 / (total + 2) as f64) as i64;
    let likeliest = likeliest.clamp(least, most);
    let seen = i64::from(with.reactions);
    let (mut all, mut tail) = (0.0, 0.0);
    let mut weigh = |count: i64, weight: f64| {
        all += weight;
        if count >= seen {
            tail += weight;
        }
    };
    let mut weight = 1.0;
    for count in likeliest..=most {
        weigh(count, weight);
        weight *= up(count);
        if weight == 0.0 {
            break;
        }
    }
    weight = 1.0;
    for count in (least..likeliest).rev() {
        weight /= up(count);
        weigh(count, weight);
        if weight == 0.0 {
            break;
        }
    }
    (tail / all).clamp(0.0, 1.0)
}

/// The exact interval of a share (Clopper and Pearson), for a confidence between 0 and 1. From 0 to 1 without visits.
pub fn interval(group: Group, confidence: f64) -> (f64, f64) {
    let outside = (1.0 - confidence) / 2.0;
    let quantile = |p: f64, a: u32, b: u32| {
        let (a, b) = (f64::from(a), f64::from(b));
        p.inv_inc_beta(a, b, a.ln_beta(b)).clamp(0.0, 1.0)
    };
    let (reactions, none) = (
        group.reactions,
        group.visits.saturating_sub(group.reactions),
    );
    let low = if reactions == 0 {
        0.0
    } else {
        quantile(outside, reactions, none + 1)
    };
    let high = if none == 0 {
        1.0
    } else {
        quantile(1.0 - outside, reactions + 1, none)
    };
    (low, high)
}

/// How many times as often as after all others. Descriptive only; `None` when one side has no visits or the others no
/// reaction.
pub fn ratio(with: Group, without: Group) -> Option<f64> {
    let (here, elsewhere) = (with.rate()?, without.rate()?);
    (elsewhere > 0.0).then(|| here / elsewhere)
}

/// Chi-square of the fourfold table with Yates' correction; 0 when a margin is empty.
pub fn chi_square_yates(with: Group, without: Group) -> f64 {
    let (a, c) = (f64::from(with.reactions), f64::from(without.reactions));
    let (b, d) = (f64::from(with.visits) - a, f64::from(without.visits) - c);
    let margins = (a + b) * (c + d) * (a + c) * (b + d);
    let total = a + b + c + d;
    if margins > 0.0 {
        let apart = ((a * d - b * c).abs() - total / 2.0).max(0.0);
        total * apart * apart / margins
    } else {
        0.0
    }
}
