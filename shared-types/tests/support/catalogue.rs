//! A small catalogue: brows waxed or tinted, and flags of both kinds.

use std::collections::BTreeMap;

use shared_types::{
    catalogue::{
        Catalogue,
        after::AfterRules,
        batches::BatchRules,
        caution::Grade,
        flag::{Effect, Flag, FlagRule},
        hair::HairFigures,
        patch_test::PatchTestRules,
        picture::PictureRules,
        rebook::RebookRules,
        treatment::{Removal, TradeInterval, TreatmentEntry},
        urgency::UrgencyRules,
        zones::ZoneRules,
    },
    visit::{Area, Treatment},
};

use super::{BROW, clock_rules, figure};

pub fn catalogue() -> Catalogue {
    let flag = |effect| FlagRule {
        effect,
        sources: Vec::new(),
    };
    Catalogue {
        after: AfterRules::default(),
        concerns: Vec::new(),
        patch_test: PatchTestRules::default(),
        version: "test".to_owned(),
        treatments: BTreeMap::from([
            (Treatment::BrowWax, entry(true)),
            (Treatment::BrowTint, entry(false)),
        ]),
        hair: BTreeMap::from([(Area::Brow, hair())]),
        clock: clock_rules(),
        flags: BTreeMap::from([
            (Flag::GrowthSerum, flag(Effect::Widen(figure(2.0)))),
            (Flag::Pregnancy, flag(Effect::Widen(figure(1.5)))),
            (Flag::Chemotherapy, flag(Effect::Off)),
        ]),
        rebook: RebookRules {
            visible_earliest: figure(0.2),
            visible_best: figure(0.3),
            graspable_best: figure(0.1),
            graspable_comfortable: figure(0.15),
            comfortable_days: figure(7.0),
            graspable_latest: figure(0.5),
            graspable_full: figure(0.5),
            tint_even: figure(0.75),
            occasion_least: figure(2.0),
            occasion_most: figure(3.0),
        },
        zones: ZoneRules {
            gap_closing: figure(0.2),
            hope_times: figure(2.0),
            longest_hope_days: figure(213.0),
        },
        picture: PictureRules {
            brow_follicles: figure(300.0),
            brow_taken_out: figure(0.32),
            lid_follicles: figure(120.0),
        },
        urgency: UrgencyRules::default(),
        batches: BatchRules {
            look_below: figure(0.05),
            set_aside_below: figure(0.01),
            same_pattern: figure(2.0),
            many_reactions: figure(3.0),
            many_times: figure(2.0),
            many_chi_square: figure(4.0),
            interval: figure(0.95),
        },
        sources: BTreeMap::new(),
    }
}

fn entry(removes: bool) -> TreatmentEntry {
    TreatmentEntry {
        area: Area::Brow,
        cautions: Vec::new(),
        interval: TradeInterval {
            earliest_days: 21,
            best_days: 28,
            latest_days: 42,
            grade: Grade::CommonPractice,
            sources: Vec::new(),
        },
        removal: removes.then(|| Removal {
            graspable_mm: figure(3.0),
            broken_fraction: figure(BROW.broken_fraction),
            grade: Grade::StudyOrTextbook,
            sources: Vec::new(),
        }),
        before_next: Vec::new(),
        tint: None,
    }
}

fn hair() -> HairFigures {
    HairFigures {
        speed_mm_per_day: figure(BROW.speed_mm_per_day),
        depth_mm: figure(BROW.depth_mm),
        anagen_days: figure(BROW.anagen_days),
        catagen_days: figure(BROW.catagen_days),
        telogen_days: figure(BROW.telogen_days),
        kenogen_days: figure(BROW.kenogen_days),
        regrown_90_days: figure(BROW.regrown_90_days),
        latency_shape: figure(BROW.latency_shape),
        latency_scale_days: BROW.latency_scale_days.map(figure),
        broken_fraction: figure(BROW.broken_fraction),
        break_depth_mm: figure(BROW.break_depth_mm),
        lost_fraction: figure(BROW.lost_fraction),
        wash_keep: figure(BROW.wash_keep),
        washes_per_day: figure(BROW.washes_per_day),
        by_age: BTreeMap::new(),
    }
}
