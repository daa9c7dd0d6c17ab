//! Whether a batch is worth a look.

use serde::Serialize;
use shared_types::catalogue::batches::BatchRules;

use super::{Group, chi_square_yates, exact::one_sided, ratio};

/// What to do, from the mildest; the words are `batches.verdict.<term>`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Stand {
    Nothing,
    Look,
    SetAside,
}

/// Why, the weightiest first; the words are `batches.because.<term>`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Because {
    SeriousPlausible,
    Serious,
    ExactTest,
    Many,
    SamePattern,
}

impl Stand {
    pub const ALL: &'static [Self] = &[Self::Nothing, Self::Look, Self::SetAside];

    pub const fn term(self) -> &'static str {
        match self {
            Self::Nothing => "nothing",
            Self::Look => "look",
            Self::SetAside => "set_aside",
        }
    }
}

impl Because {
    pub const fn term(self) -> &'static str {
        match self {
            Self::SeriousPlausible => "serious_plausible",
            Self::Serious => "serious",
            Self::ExactTest => "exact_test",
            Self::Many => "many",
            Self::SamePattern => "same_pattern",
        }
    }
}

/// Serious reports and reports alike.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Serious {
    #[serde(rename = "serious")]
    pub reports: u32,
    /// Those that the product may explain, because nothing that was noted speaks for it; at most `reports`.
    #[serde(rename = "serious_plausible")]
    pub plausible: u32,
    /// The most visits with one and the same sign reported.
    pub same_pattern: u32,
}

#[derive(Clone, Debug, PartialEq)]
pub struct Judged {
    pub stand: Stand,
    pub because: Vec<Because>,
    pub one_sided: f64,
    pub ratio: Option<f64>,
}

/// By the rules of the content. A batch with fewer reactions than elsewhere never stands out by its counts.
pub fn judge(rules: &BatchRules, with: Group, without: Group, serious: Serious) -> Judged {
    let one_sided = one_sided(with, without);
    let ratio = ratio(with, without);
    let reactions = f64::from(with.reactions);
    let many = reactions >= rules.many_reactions.value
        && is_so_many_times(with, without, rules.many_times.value)
        && chi_square_yates(with, without) >= rules.many_chi_square.value;
    let reasons = [
        (
            Because::SeriousPlausible,
            serious.plausible > 0,
            Stand::SetAside,
        ),
        (
            Because::Serious,
            serious.reports > serious.plausible,
            Stand::Look,
        ),
        (
            Because::ExactTest,
            one_sided < rules.look_below.value,
            if one_sided < rules.set_aside_below.value {
                Stand::SetAside
            } else {
                Stand::Look
            },
        ),
        (Because::Many, many, Stand::SetAside),
        (
            Because::SamePattern,
            f64::from(serious.same_pattern) >= rules.same_pattern.value,
            Stand::Look,
        ),
    ];
    let hold = || reasons.iter().filter(|(_, holds, _)| *holds);
    Judged {
        stand: hold()
            .map(|(_, _, stand)| *stand)
            .max()
            .unwrap_or(Stand::Nothing),
        because: hold().map(|(because, _, _)| *because).collect(),
        one_sided,
        ratio,
    }
}

/// Whether reactions come so many times as often as after all others. Where the others had none there is no ratio to tell,
/// and any reaction at all comes more often than so many times nothing.
fn is_so_many_times(with: Group, without: Group, times: f64) -> bool {
    let shares = with.rate().zip(without.rate());
    shares.is_some_and(|(here, elsewhere)| here > 0.0 && here >= times * elsewhere)
}
