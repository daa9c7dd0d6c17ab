//! What stood against a treatment in the demo, and what the artist decided: one that went on in another way, and one that
//! was put off.

use chrono::TimeDelta;
use shared_types::{
    consultation::{self, Decision, Told},
    visit::{Finding, Findings, Treatment, Visit},
};

use super::{DemoError, Kind, Maker, id};
use crate::{
    pages::{before::line, wall::Wall},
    record::{consultations, consultations::Consultation, visits},
};

/// Numbers of the stories of Aurelio and Yusra.
const AURELIO: u32 = 7;
const YUSRA: u32 = 6;

impl Maker<'_> {
    /// Adds both, once the visits are there.
    pub(super) fn consult(&self) -> Result<(), DemoError> {
        if let Some((visit, _)) = visits::by_id(self.record, id(Kind::Visit, AURELIO))? {
            self.keep_consultation(
                &visit,
                Decision::ChangedTreatment,
                "A scratch under the left brow. I kept well away from it, and took less than he asked for.",
            )?;
        }
        if let Some((visit, _)) = visits::by_id(self.record, id(Kind::Visit, YUSRA))? {
            let put_off = Visit {
                id: id(Kind::PutOff, YUSRA),
                finished_at: visit.finished_at - TimeDelta::days(8),
                treatments: vec![Treatment::BrowWax],
                findings: Findings::default().and(Finding::RecentSun),
                note: String::new(),
                ..visit
            };
            self.keep_consultation(
                &put_off,
                Decision::PutOff,
                "Back from the beach yesterday, forehead still warm. New time next week.",
            )?;
        }
        Ok(())
    }

    fn keep_consultation(
        &self,
        visit: &Visit,
        decision: Decision,
        words: &str,
    ) -> Result<(), DemoError> {
        let particulars = self.particulars;
        let wall = Wall {
            words: self.words()?,
            zone: particulars.time_zone,
        };
        let at = visit.finished_at;
        let concerns = consultation::concerns(
            &self.content.catalogue,
            &consultation::Consultation {
                at,
                local_date: wall.day(at),
                treatments: &visit.treatments,
                findings: visit.findings,
                flags: &visit.flags,
                region: &particulars.region,
                retinoid_stopped_days: None,
                earlier: &[],
                patch_tests: &[],
                patch_test_days: None,
                products: &[],
                not_again: &[],
            },
        );
        let shown = concerns
            .iter()
            .map(|concern| line(self.content, concern, &wall, at));
        let kept = Consultation {
            id: visit.id,
            client: visit.client,
            has_visit: decision != Decision::PutOff,
            at,
            treatments: visit.treatments.clone(),
            findings: visit.findings,
            flags: visit.flags.clone(),
            region: particulars.region.clone(),
            language: particulars.language.clone(),
            content_version: self.content.version.clone(),
            shown: shown.collect(),
            concerns,
            told: Told {
                decision: Some(decision),
                words: words.to_owned(),
                ..Told::default()
            },
            note: String::new(),
        };
        let made_at = at + TimeDelta::minutes(2);
        consultations::add(self.record, &kept, self.artist, made_at)?;
        Ok(())
    }
}
