//! Cautions of several treatments made into one list.

use chrono::TimeDelta;

use super::{Because, Caution, Entry, PlanError, PlanFor, join, your};
use crate::{
    catalogue::caution::CautionRule,
    visit::{Area, CautionKind, Finding},
    words::Words,
};

/// What one treatment calls for, with these findings.
struct Call<'a> {
    because: Because,
    area: Area,
    rule: &'a CautionRule,
    hours: u32,
    longer_for: Vec<Finding>,
}

/// All windows begin at the end of the visit, so windows of one kind overlap and merge to the latest end.
pub(super) fn merged(
    entries: &[Entry<'_>],
    visit: &PlanFor<'_>,
) -> Result<Vec<Caution>, PlanError> {
    let mut cautions = Vec::new();
    for kind in CautionKind::ALL {
        let calls: Vec<Call<'_>> = entries
            .iter()
            .flat_map(|(treatment, entry)| {
                entry
                    .cautions
                    .iter()
                    .map(move |rule| (*treatment, entry.area, rule))
            })
            .filter(|(_, _, rule)| rule.kind == *kind && visit.findings.any_of(&rule.only_with))
            .map(|(treatment, area, rule)| {
                let (hours, longer_for) = rule.hours_for(visit.findings);
                Call {
                    because: Because::Treatment(treatment),
                    area,
                    rule,
                    hours,
                    longer_for,
                }
            })
            .collect();
        cautions.extend(merge(*kind, calls, visit)?);
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
    calls.sort_by_key(|call| (std::cmp::Reverse(call.hours), call.rule.grade));
    let Some(longest) = calls.first() else {
        return Ok(None);
    };
    let mut sources = Vec::new();
    join(
        &mut sources,
        calls
            .iter()
            .flat_map(|call| call.rule.sources.iter().cloned()),
    );
    let said = calls.iter().find_map(|call| call.rule.said(visit.findings));
    let mut why = Vec::new();
    join(&mut why, calls.iter().map(|call| call.rule.why_key()));
    let until = visit
        .finished_at
        .checked_add_signed(TimeDelta::hours(longest.hours.into()))
        .ok_or(PlanError::OutOfCalendar)?;
    Ok(Some(Caution {
        kind,
        areas,
        said: said.map(str::to_owned),
        why,
        from: visit.finished_at,
        until,
        hours: longest.hours,
        because,
        grade: longest.rule.grade,
        sources,
    }))
}

impl Caution {
    /// What to leave, in the words of the client: the word `caution.<kind>.what` or
    /// `caution.<kind>.what_<said>`, with the treated places.
    pub fn what(&self, words: &Words) -> String {
        let area = your(&self.areas, words);
        let key = match &self.said {
            Some(word) => format!("caution.{}.what_{word}", self.kind),
            None => format!("caution.{}.what", self.kind),
        };
        words.fill(&key, &[("area", &area)])
    }

    /// Why: one sentence or more for each reason.
    pub fn why(&self, words: &Words) -> String {
        let area = your(&self.areas, words);
        let reasons = self.why.iter();
        reasons
            .map(|key| words.fill(key, &[("area", &area)]))
            .collect::<Vec<_>>()
            .join(" ")
    }
}
