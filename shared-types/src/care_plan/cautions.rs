//! Cautions of several treatments made into one list.

use chrono::TimeDelta;

use super::{
    Because, Caution, Entry, PlanError, PlanFor, join,
    own::{ChangedCaution, Label, Whose, longest_label},
    your,
};
use crate::{
    catalogue::caution::CautionRule,
    visit::{Area, CautionKind, Finding},
    words::Words,
};

/// The reason where a label alone asks for something.
const LABEL_WHY: &str = "label.why";

/// What is called for after one treatment, with these findings: by a label, else by the studio, else by the catalogue.
struct Call<'a> {
    because: Because,
    area: Area,
    /// None where only a label asks for it.
    rule: Option<&'a CautionRule>,
    own: Option<&'a ChangedCaution>,
    label: Option<&'a Label>,
    hours: u32,
    longer_for: Vec<Finding>,
    whose: Whose,
}

impl<'a> Call<'a> {
    fn of((treatment, entry): &Entry<'a>, kind: CautionKind, visit: &PlanFor<'a>) -> Option<Self> {
        let rule = entry
            .cautions
            .iter()
            .find(|rule| rule.kind == kind && visit.findings.any_of(&rule.only_with));
        let label = longest_label(visit.beside.labels, *treatment, kind);
        let own = visit.beside.own.and_then(|own| own.of(*treatment, kind));
        let (hours, longer_for, whose) = match (label, rule, own) {
            (Some(label), ..) => {
                let product = label.product.trim().to_owned();
                (label.hours, Vec::new(), Whose::Label { product })
            }
            (None, Some(rule), Some(own)) => own.hours_for(rule, visit.findings),
            (None, Some(rule), None) => {
                let (hours, longer_for) = rule.hours_for(visit.findings);
                (hours, longer_for, Whose::Catalogue)
            }
            (None, None, _) => return None,
        };
        Some(Self {
            because: Because::Treatment(*treatment),
            area: entry.area,
            rule,
            own: rule.and(own),
            label,
            hours,
            longer_for,
            whose,
        })
    }

    /// Keys of sentences that give the reason.
    fn why_key(&self) -> Option<String> {
        match (self.rule, self.own.and_then(|own| own.why.as_ref())) {
            (_, Some(_)) => None,
            (Some(rule), None) => Some(rule.why_key()),
            (None, None) => Some(LABEL_WHY.to_owned()),
        }
    }

    /// Reasons that are words already: the label's, and the studio's.
    fn own_why(&self) -> impl Iterator<Item = String> {
        let label = self.label.map(|label| label.words.clone());
        let studio = self.own.and_then(|own| own.why.clone());
        label
            .into_iter()
            .chain(studio)
            .filter(|words| !words.is_empty())
    }
}

/// All windows begin at the end of the visit, so windows of one kind overlap and merge to the latest end.
pub(super) fn merged<'a>(
    entries: &[Entry<'a>],
    visit: &PlanFor<'a>,
) -> Result<Vec<Caution>, PlanError> {
    let mut cautions = Vec::new();
    for kind in CautionKind::ALL {
        let calls = entries
            .iter()
            .filter_map(|entry| Call::of(entry, *kind, visit));
        cautions.extend(merge(*kind, calls.collect(), visit)?);
    }
    // A stable sort: kinds that end together stay in the order of `CautionKind::ALL`.
    cautions.sort_by_key(|one| one.until);
    Ok(cautions)
}

/// One caution for all calls of one kind; none when nothing calls for it.
fn merge(
    kind: CautionKind,
    mut calls: Vec<Call<'_>>,
    visit: &PlanFor<'_>,
) -> Result<Option<Caution>, PlanError> {
    let mut because: Vec<Because> = calls.iter().map(|call| call.because).collect();
    join(
        &mut because,
        calls
            .iter()
            .flat_map(|call| call.longer_for.iter().copied().map(Because::Finding)),
    );
    let mut areas = Vec::new();
    join(&mut areas, calls.iter().map(|call| call.area));
    // The longest first, and of those as long the one with the stronger backing.
    calls.sort_by_key(|call| {
        let grade = call.whose.grade(call.rule);
        (std::cmp::Reverse(call.hours), call.whose.rank(), grade)
    });
    let Some(longest) = calls.first() else {
        return Ok(None);
    };
    let mut sources = Vec::new();
    join(
        &mut sources,
        calls.iter().flat_map(|call| call.whose.sources(call.rule)),
    );
    let said = calls
        .iter()
        .find_map(|call| call.rule?.said(visit.findings));
    let mut why = Vec::new();
    join(&mut why, calls.iter().filter_map(Call::why_key));
    let mut own_why = Vec::new();
    join(&mut own_why, calls.iter().flat_map(Call::own_why));
    let own_what = match said {
        // What the artist did is never contradicted, not by the studio's own words either.
        Some(_) => None,
        None => longest.own.and_then(|own| own.what.clone()),
    };
    let is_reworded = |call: &Call<'_>| call.own.is_some_and(|own| own.why.is_some());
    let reworded = own_what.is_some() || calls.iter().any(is_reworded);
    let until = visit
        .finished_at
        .checked_add_signed(TimeDelta::hours(longest.hours.into()))
        .ok_or(PlanError::OutOfCalendar)?;
    Ok(Some(Caution {
        kind,
        areas,
        said: said.map(str::to_owned),
        why,
        own_what,
        own_why,
        reworded,
        from: visit.finished_at,
        until,
        hours: longest.hours,
        because,
        grade: longest.whose.grade(longest.rule),
        sources,
        whose: longest.whose.clone(),
    }))
}

impl Caution {
    /// What to leave, in the words of the client: the studio's own, else the word `caution.<kind>.what` or
    /// `caution.<kind>.what_<said>`, with the treated places.
    pub fn what(&self, words: &Words) -> String {
        if let Some(own) = &self.own_what {
            return own.clone();
        }
        let area = your(&self.areas, words);
        let key = match &self.said {
            Some(word) => format!("caution.{}.what_{word}", self.kind),
            None => format!("caution.{}.what", self.kind),
        };
        words.fill(&key, &[("area", &area)])
    }

    /// Why: what the label and the studio say, then one sentence or more for each reason.
    pub fn why(&self, words: &Words) -> String {
        let area = your(&self.areas, words);
        let reasons = self
            .why
            .iter()
            .map(|key| words.fill(key, &[("area", &area)]));
        let own = self.own_why.iter().cloned();
        own.chain(reasons).collect::<Vec<_>>().join(" ")
    }
}
