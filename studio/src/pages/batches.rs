//! Reactions by batch, in words.

use content::Content;
use serde::Serialize;
use shared_types::{
    page::batches::{BatchLine, BatchesScreen},
    words::Words,
};

use crate::{
    batches::{Compared, Counted, Share, Stand, compare},
    record::batches::{Of, Tally},
};

/// What `studio batches` is asked, for whoever wants to do the sums again.
#[derive(Serialize)]
pub struct Question<'a> {
    batches: Vec<&'a Counted>,
}

pub fn question(tally: &Tally) -> Question<'_> {
    Question {
        batches: tally.batches.iter().map(|one| &one.counted).collect(),
    }
}

pub fn screen(tally: &Tally, content: &Content, words: &Words) -> BatchesScreen {
    let among = u32::try_from(tally.batches.len()).unwrap_or(u32::MAX);
    let rules = &content.catalogue.batches;
    let mut compared: Vec<(&Of, Compared)> = tally
        .batches
        .iter()
        .map(|one| (one, compare(&one.counted, among, rules, words)))
        .collect();
    // What to do first; of that what counts for most, which a serious report does; then what chance would bring least often.
    compared.sort_by(|(_, one), (_, other)| {
        let chance = one
            .exact_test
            .one_sided
            .total_cmp(&other.exact_test.one_sided);
        let weight = one.because.first().cmp(&other.because.first());
        other.verdict.cmp(&one.verdict).then(weight).then(chance)
    });
    let text = |number: u32| number.to_string();
    let mut counted = vec![words.fill(
        "artist.batches.counted",
        &[
            ("visits", &text(tally.visits)),
            ("opened", &text(tally.opened)),
        ],
    )];
    if tally.without_batch > 0 {
        let others = i64::from(tally.without_batch);
        counted.push(words.count("artist.batches.without_batch", others));
    }
    counted.push(words.say("artist.batches.serious").to_owned());
    BatchesScreen {
        lines: compared
            .into_iter()
            .map(|(of, one)| line(of, one, words))
            .collect(),
        counted,
    }
}

fn line(of: &Of, one: Compared, words: &Words) -> BatchLine {
    let shares = [
        share("artist.batches.with", &one.with, words),
        share("artist.batches.others", &one.without, words),
    ];
    let mut said = one.said.into_iter();
    BatchLine {
        product: of.product.clone(),
        batch: one.batch.unwrap_or_default(),
        stands_out: one.verdict > Stand::Nothing,
        verdict: said.next().unwrap_or_default(),
        said: said.collect(),
        shares: shares.to_vec(),
        serious: of.serious.clone(),
    }
}

/// In whole per cent, rounded outwards, so that the range told never is narrower than it is.
fn share(key: &str, share: &Share, words: &Words) -> String {
    let whole = |value: f64| format!("{value:.0}");
    words.fill(
        key,
        &[
            ("a", &share.reactions.to_string()),
            ("b", &share.visits.to_string()),
            ("low", &whole((share.low * 100.0).floor())),
            ("high", &whole((share.high * 100.0).ceil())),
        ],
    )
}
