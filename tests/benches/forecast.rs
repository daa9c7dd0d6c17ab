//! What a forecast costs on the server: the whole of one visit, and the picture's hairs as days and hairs grow.
//!
//! Figures are compared within one run; those of the last run stand in DEVELOPERS.md.

use chrono::{DateTime, Utc};
use chrono_tz::Tz;
use content::Content;
use criterion::{BenchmarkId, Criterion, Throughput, criterion_group, criterion_main};
use shared_types::{
    care_plan::{self, Person, Practice, own::Beside},
    regrowth::{
        clock::{Clock, Evidence},
        curve::Regrowth,
        follicles::Follicle,
    },
    visit::{Area, Findings, Treatment, Visit},
    zones::Zones,
};
use studio::advice::{self, Advice};
use uuid::Uuid;

fn visit() -> Visit {
    Visit {
        id: Uuid::from_u128(1),
        client: Uuid::from_u128(2),
        finished_at: DateTime::<Utc>::from_timestamp(1_792_863_000, 0).expect("a time"),
        treatments: vec![Treatment::BrowWax, Treatment::BrowTint],
        findings: Findings::default(),
        flags: Vec::new(),
        zones: Zones::default(),
        products: Vec::new(),
        observations: Vec::new(),
        note: String::new(),
    }
}

/// Cautions, windows, weeks, milestones and the picture's figures, in words, ready for the record.
fn whole_visit(bench: &mut Criterion) {
    let content = Content::built_in().expect("the content");
    let visit = visit();
    let unknown = Person::default();
    let evidence: Vec<Evidence> = [(64.0, 56.0), (40.0, 41.0), (27.0, 30.0)]
        .into_iter()
        .filter_map(|(predicted, observed)| Evidence::of_days(predicted, observed))
        .collect();
    let known = Person {
        clock: Some(Clock::observed(&content.catalogue.clock, &evidence)),
        visits_seen: 3,
        flags: Vec::new(),
    };
    let practice = Practice::default();
    let mut group = bench.benchmark_group("the whole forecast of one visit");
    for (name, person) in [
        ("of a new client", &unknown),
        ("after three sightings", &known),
    ] {
        group.bench_function(name, |bench| {
            bench.iter(|| {
                let whose = advice::For {
                    language: "en",
                    zone: Tz::Europe__London,
                    person,
                    practice: &practice,
                    house: advice::House {
                        name: "Tamsel Lane Brows",
                        beside: Beside::default(),
                    },
                    earlier_zones: &[],
                };
                Advice::give(&content, &visit, whose).expect("advice")
            });
        });
    }
    group.finish();
}

/// Should grow with the product of days and hairs, and no faster.
fn days_times_hairs(bench: &mut Criterion) {
    let content = Content::built_in().expect("the content");
    let regrowth = care_plan::regrowth(&content.catalogue, Area::Brow, 1.0).expect("brows");
    let mut group = bench.benchmark_group("hair by hair");
    for (days, hairs) in [
        (1, 600),
        (7, 600),
        (28, 600),
        (84, 600),
        (28, 150),
        (28, 2400),
    ] {
        group.throughput(Throughput::Elements(days * hairs));
        group.bench_with_input(
            BenchmarkId::from_parameter(format!("{days} days x {hairs} hairs")),
            &(days, hairs),
            |bench, (days, hairs)| {
                let follicles: Vec<Follicle> = (0..*hairs)
                    .map(|place| Follicle::draw(&regrowth, 1, place))
                    .collect();
                bench.iter(|| shown(&regrowth, &follicles, *days));
            },
        );
    }
    group.finish();
}

/// Hairs to be seen, summed over the days.
fn shown(regrowth: &Regrowth, follicles: &[Follicle], days: u64) -> usize {
    (0..days)
        .map(|day| {
            let on_the_day = |one: &&Follicle| one.after_removal(regrowth, day as f64).shows();
            follicles.iter().filter(on_the_day).count()
        })
        .sum()
}

criterion_group!(benches, whole_visit, days_times_hairs);
criterion_main!(benches);
