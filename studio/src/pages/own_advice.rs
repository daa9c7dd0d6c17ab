//! The studio's own cautions beside those of the catalogue, in words.

use shared_types::{
    care_plan::{
        own::{ChangedCaution, OwnAdvice, Whose},
        your,
    },
    catalogue::{caution::CautionRule, treatment::TreatmentEntry},
    page::own_advice::{CautionRow, ChangeCaution, TreatmentCautions, WhoseLine},
    visit::Treatment,
    words::Words,
};

use super::{sources, visits::done};
use crate::{advice::Advice, state::Studio};

pub fn hours(words: &Words, hours: u32) -> String {
    words.count("artist.hours", hours.into())
}

/// The cautions of one treatment.
pub fn treatment(
    studio: &Studio,
    treatment: Treatment,
    entry: &TreatmentEntry,
    own: &OwnAdvice,
    words: &Words,
) -> TreatmentCautions {
    let rows: Vec<CautionRow> = entry
        .cautions
        .iter()
        .map(|rule| row(studio, treatment, entry, rule, own, words))
        .collect();
    let own = match rows.iter().filter(|row| row.is_own).count() {
        0 => String::new(),
        _ => words.say("artist.cautions.yours").to_owned(),
    };
    TreatmentCautions {
        term: treatment.term().to_owned(),
        name: words.say(&format!("treatment.{treatment}")).to_owned(),
        rows,
        own,
    }
}

fn row(
    studio: &Studio,
    treatment: Treatment,
    entry: &TreatmentEntry,
    rule: &CautionRule,
    own: &OwnAdvice,
    words: &Words,
) -> CautionRow {
    let own = own.of(treatment, rule.kind);
    let own_hours = own.and_then(|own| own.hours);
    let own_what = own.and_then(|own| own.what.clone());
    let basis = match own {
        Some(own) => {
            let usual = range(rule, words);
            let usual = words.fill("artist.cautions.usual", &[("usual", &usual)]);
            let reason = words.fill("artist.cautions.reason_line", &[("reason", &own.reason)]);
            let yours = words.say("artist.cautions.yours_line").to_owned();
            let reason = (!own.reason.is_empty()).then_some(reason);
            let said = [Some(yours), Some(usual), reason].into_iter().flatten();
            said.collect::<Vec<_>>().join(" ")
        }
        None => sources::basis(&studio.content.catalogue, rule.grade, &[], words),
    };
    CautionRow {
        address: format!("/studio/cautions/{treatment}/{}", rule.kind),
        what: own_what.unwrap_or_else(|| what(entry, rule, words)),
        hours: hours(words, own_hours.unwrap_or(rule.hours)),
        basis,
        is_own: own.is_some(),
    }
}

/// The cautions that the studio added.
pub fn added(own: &OwnAdvice, words: &Words) -> Vec<CautionRow> {
    own.added
        .iter()
        .map(|one| CautionRow {
            address: format!("/studio/cautions/own/{}", one.id),
            what: one.what.clone(),
            hours: hours(words, one.hours),
            basis: words.fill(
                "artist.cautions.after",
                &[("treatments", &words.list(&done(&one.treatments, words)))],
            ),
            is_own: true,
        })
        .collect()
}

fn what(entry: &TreatmentEntry, rule: &CautionRule, words: &Words) -> String {
    let area = your(&[entry.area], words);
    let key = format!("caution.{}.what", rule.kind);
    words.fill(&key, &[("area", &area)])
}

/// The catalogue's hours, and the range in which the sources lie.
fn range(rule: &CautionRule, words: &Words) -> String {
    let key = if rule.least_hours == rule.most_hours {
        "artist.cautions.range_one"
    } else {
        "artist.cautions.range"
    };
    words.fill(
        key,
        &[
            ("hours", &hours(words, rule.hours)),
            ("least", &rule.least_hours.to_string()),
            ("most", &hours(words, rule.most_hours)),
        ],
    )
}

/// The screen on which one of the catalogue's cautions is changed, but for its form.
pub fn to_change(
    studio: &Studio,
    treatment: Treatment,
    entry: &TreatmentEntry,
    rule: &CautionRule,
    own: Option<&ChangedCaution>,
    words: &Words,
) -> ChangeCaution {
    let catalogue = &studio.content.catalogue;
    let longer: Vec<String> = rule
        .hours_with
        .iter()
        .map(|(finding, longer)| {
            let key = format!("finding.{finding}");
            format!("{} ({})", words.say(&key), hours(words, *longer))
        })
        .collect();
    let longer = match &longer[..] {
        [] => String::new(),
        all => words.fill("artist.cautions.longer", &[("findings", &all.join("; "))]),
    };
    let area = your(&[entry.area], words);
    ChangeCaution {
        address: format!("/studio/cautions/{treatment}/{}", rule.kind),
        treatment: words.say(&format!("treatment.{treatment}")).to_owned(),
        what: what(entry, rule, words),
        why: words.fill(&rule.why_key(), &[("area", &area)]),
        range: range(rule, words),
        longer,
        basis: sources::basis(catalogue, rule.grade, &[], words),
        sources: sources::lines(catalogue, &rule.sources),
        is_own: own.is_some(),
        ..ChangeCaution::default()
    }
}

/// Whose advice each caution of a visit is, as far as its advice says it; `name` is the studio's.
pub fn whose(studio: &Studio, advice: &Advice, name: &str, words: &Words) -> Vec<WhoseLine> {
    let catalogue = &studio.content.catalogue;
    let Some(plan) = &advice.plan else {
        return Vec::new();
    };
    let of_kinds = plan.cautions.iter().map(|caution| WhoseLine {
        what: caution.what(words),
        said: format!(
            "{} {}",
            caution.why(words),
            sources::whose_alone(caution, name, words)
        ),
        reason: match &caution.whose {
            Whose::Studio { reason } => reason.clone(),
            Whose::Catalogue | Whose::Label { .. } => String::new(),
        },
        sources: sources::lines(catalogue, &caution.sources),
    });
    let added = plan.added.iter().map(|one| WhoseLine {
        what: one.what.clone(),
        said: [
            one.why.clone(),
            words.fill("whose.studio", &[("studio", name)]),
        ]
        .join(" ")
        .trim()
        .to_owned(),
        ..WhoseLine::default()
    });
    of_kinds.chain(added).collect()
}
