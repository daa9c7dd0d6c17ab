//! What changes the advice of a visit: what the consultation found before it, and what happened during it.

use std::{fmt, str::FromStr};

use serde::{Deserialize, Serialize};

use crate::visit::{UnknownTerm, terms};

terms! {
    /// One thing that changes the advice; the names of the fields of [`Findings`].
    Finding {
        TopicalRetinoid = "topical_retinoid",
        OralRetinoid = "oral_retinoid",
        OtherActives = "other_actives",
        Sensitive = "sensitive",
        FirstTime = "first_time",
        RecentSun = "recent_sun",
        BrokenSkin = "broken_skin",
        ColdSore = "cold_sore",
        ContactLenses = "contact_lenses",
        Under18 = "under_18",
        Under16 = "under_16",
        SkinLifted = "skin_lifted",
        Concealer = "concealer",
        Pencil = "pencil",
        BarrierOil = "barrier_oil",
        SmallerSections = "smaller_sections",
    }
}

impl Finding {
    /// What a consultation asks about, before anything is done.
    pub const CONSULTATION: &'static [Finding] = &[
        Finding::TopicalRetinoid,
        Finding::OralRetinoid,
        Finding::OtherActives,
        Finding::Sensitive,
        Finding::FirstTime,
        Finding::RecentSun,
        Finding::BrokenSkin,
        Finding::ColdSore,
        Finding::ContactLenses,
        Finding::Under18,
        Finding::Under16,
    ];

    /// What the artist did or saw during the visit.
    pub const DURING_THE_VISIT: &'static [Finding] = &[
        Finding::SkinLifted,
        Finding::Concealer,
        Finding::Pencil,
        Finding::BarrierOil,
        Finding::SmallerSections,
    ];
}

/// What changes the advice. Nothing ticked means "asked, and no".
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Findings {
    /// A retinoid on the skin of the face (retinol, tretinoin, adapalene …) in use.
    pub topical_retinoid: bool,
    /// Retinoid tablets (isotretinoin …) now or within the time that the catalogue names before a wax.
    pub oral_retinoid: bool,
    /// Other active ingredients in use: acids, peels, benzoyl peroxide, vitamin C at strength.
    pub other_actives: bool,
    /// The client says, or the artist saw, that the skin reacts easily.
    pub sensitive: bool,
    /// First time that this client has this done.
    pub first_time: bool,
    /// Sunburn, or tanning within the time that the catalogue names.
    pub recent_sun: bool,
    /// Skin that is sore, broken or inflamed where the treatment would be.
    pub broken_skin: bool,
    /// A cold sore that has not healed.
    pub cold_sore: bool,
    /// The client wears contact lenses.
    pub contact_lenses: bool,
    /// The client is 16 or 17 years old.
    pub under_18: bool,
    /// The client is younger than 16.
    pub under_16: bool,
    /// Some of the top of the skin came off.
    pub skin_lifted: bool,
    /// Concealer was put on.
    pub concealer: bool,
    /// Brows were drawn with a pencil.
    pub pencil: bool,
    /// Oil or powder was put on the skin as a barrier.
    pub barrier_oil: bool,
    /// Hair was taken in smaller sections than usual, as for a first time.
    pub smaller_sections: bool,
}

impl Findings {
    pub const fn has(&self, finding: Finding) -> bool {
        match finding {
            Finding::TopicalRetinoid => self.topical_retinoid,
            Finding::OralRetinoid => self.oral_retinoid,
            Finding::OtherActives => self.other_actives,
            Finding::Sensitive => self.sensitive,
            Finding::FirstTime => self.first_time,
            Finding::RecentSun => self.recent_sun,
            Finding::BrokenSkin => self.broken_skin,
            Finding::ColdSore => self.cold_sore,
            Finding::ContactLenses => self.contact_lenses,
            Finding::Under18 => self.under_18,
            Finding::Under16 => self.under_16,
            Finding::SkinLifted => self.skin_lifted,
            Finding::Concealer => self.concealer,
            Finding::Pencil => self.pencil,
            Finding::BarrierOil => self.barrier_oil,
            Finding::SmallerSections => self.smaller_sections,
        }
    }

    /// The same findings, and `finding` among them.
    pub const fn and(mut self, finding: Finding) -> Self {
        match finding {
            Finding::TopicalRetinoid => self.topical_retinoid = true,
            Finding::OralRetinoid => self.oral_retinoid = true,
            Finding::OtherActives => self.other_actives = true,
            Finding::Sensitive => self.sensitive = true,
            Finding::FirstTime => self.first_time = true,
            Finding::RecentSun => self.recent_sun = true,
            Finding::BrokenSkin => self.broken_skin = true,
            Finding::ColdSore => self.cold_sore = true,
            Finding::ContactLenses => self.contact_lenses = true,
            Finding::Under18 => self.under_18 = true,
            Finding::Under16 => self.under_16 = true,
            Finding::SkinLifted => self.skin_lifted = true,
            Finding::Concealer => self.concealer = true,
            Finding::Pencil => self.pencil = true,
            Finding::BarrierOil => self.barrier_oil = true,
            Finding::SmallerSections => self.smaller_sections = true,
        }
        self
    }

    /// Whether any of these was found; true of an empty list, which asks for nothing.
    pub fn any_of(&self, findings: &[Finding]) -> bool {
        findings.is_empty() || findings.iter().any(|one| self.has(*one))
    }

    /// What was found, in the order of [`Finding::ALL`].
    pub fn found(&self) -> impl Iterator<Item = Finding> + '_ {
        Finding::ALL.iter().copied().filter(|one| self.has(*one))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_finding_is_asked_in_one_place_and_kept_in_its_own_field() {
        let asked = [Finding::CONSULTATION, Finding::DURING_THE_VISIT].concat();
        assert_eq!(asked, Finding::ALL);
        for finding in Finding::ALL {
            let only = Findings::default().and(*finding);
            assert_eq!(only.found().collect::<Vec<_>>(), [*finding]);
        }
    }
}
