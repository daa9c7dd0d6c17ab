//! What to do, or to leave, before the next visit.

use super::{Because, Before, Entry, join, your};
use crate::{visit::Findings, words::Words};

/// The rules of all treatments; where two treatments share an id, the first one's lead counts (`content` checks that
/// they agree).
pub(super) fn before(entries: &[Entry<'_>], findings: Findings) -> Vec<Before> {
    let mut all: Vec<Before> = Vec::new();
    for (treatment, entry) in entries {
        for rule in &entry.before_next {
            let found = rule
                .findings
                .iter()
                .filter(|one| findings.has(**one))
                .map(|one| Because::Finding(*one));
            let because = std::iter::once(Because::Treatment(*treatment)).chain(found);
            match all.iter_mut().find(|one| one.id == rule.id) {
                Some(known) => {
                    join(&mut known.areas, [entry.area]);
                    join(&mut known.because, because);
                    join(&mut known.sources, rule.sources.iter().cloned());
                }
                None => all.push(Before {
                    id: rule.id.clone(),
                    areas: vec![entry.area],
                    act: rule.act,
                    lead: rule.lead,
                    because: because.collect(),
                    grade: rule.grade,
                    sources: rule.sources.clone(),
                }),
            }
        }
    }
    // Treatments before findings, as everywhere.
    for one in &mut all {
        one.because
            .sort_by_key(|because| matches!(because, Because::Finding(_)));
    }
    all
}

impl Before {
    /// The sentence for the client: the word `before.<id>`, with the number of its lead and the treated places.
    pub fn sentence(&self, words: &Words) -> String {
        let number = self
            .lead
            .named()
            .map(|(_, n)| n.to_string())
            .unwrap_or_default();
        words.fill(
            &format!("before.{}", self.id),
            &[("n", &number), ("area", &your(&self.areas, words))],
        )
    }
}
