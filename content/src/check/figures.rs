//! The figures of the regrowth model, of rebooking and of the picture.

use shared_types::{
    catalogue::{
        Catalogue,
        figure::{Figure, Unit},
    },
    regrowth::{curve::Regrowth, parameters::Parameters},
};

use super::Review;
use crate::files::{BATCHES, CLOCK, HAIR, PICTURE, REBOOK, ZONES};

pub fn check(catalogue: &Catalogue, found: &mut Review<'_>) {
    for (area, figures) in &catalogue.hair {
        for (name, figure, unit) in figures.all() {
            check_figure(catalogue, HAIR, &[area.term(), name], figure, unit, found);
        }
        let parameters = Parameters::from(figures);
        if let Err(error) = Regrowth::new(parameters) {
            found.note(HAIR, &[area.term(), error.name], error.to_string());
        }
        for (age, figures) in &figures.by_age {
            let path = |name| [area.term(), "by_age", age.term(), name];
            for (name, figure, unit) in figures.all() {
                check_figure(catalogue, HAIR, &path(name), figure, unit, found);
            }
            if let Err(error) = Regrowth::new(parameters.at_age(figures)) {
                found.note(HAIR, &path(error.name), error.to_string());
            }
        }
    }
    for (name, figure, unit) in catalogue.clock.all() {
        check_figure(catalogue, CLOCK, &[name], figure, unit, found);
    }
    if let Some((name, allowed)) = catalogue.clock.fault() {
        found.note(CLOCK, &[name, "value"], format!("allowed is {allowed}"));
    }
    for (name, figure, unit) in catalogue.rebook.all() {
        check_figure(catalogue, REBOOK, &[name], figure, unit, found);
    }
    for (name, figure, unit) in catalogue.zones.all() {
        check_figure(catalogue, ZONES, &[name], figure, unit, found);
    }
    if let Some((name, allowed)) = catalogue.zones.fault() {
        found.note(ZONES, &[name, "value"], format!("allowed is {allowed}"));
    }
    for (name, figure, unit) in catalogue.batches.all() {
        check_figure(catalogue, BATCHES, &[name], figure, unit, found);
    }
    if let Some((name, allowed)) = catalogue.batches.fault() {
        found.note(BATCHES, &[name, "value"], format!("allowed is {allowed}"));
    }
    for (name, figure, unit) in catalogue.picture.all() {
        check_figure(catalogue, PICTURE, &[name], figure, unit, found);
    }
    if let Some((name, allowed)) = catalogue.picture.fault() {
        found.note(PICTURE, &[name, "value"], format!("allowed is {allowed}"));
    }
    for (name, figure, unit) in catalogue.rebook.all() {
        let days = figure.value;
        if unit == Unit::Day && (days < 0.0 || days.fract() != 0.0) {
            let what = format!("{days} days: write a whole number");
            found.note(REBOOK, &[name, "value"], what);
        }
    }
    let (least, most) = catalogue.rebook.occasion_days();
    if least > most {
        let what = format!(
            "from {least} days before a date to {most}: exchange `occasion_least` and `occasion_most`"
        );
        found.note(REBOOK, &["occasion_least", "value"], what);
    }
}

/// One figure: its unit, its range, its source.
pub fn check_figure(
    catalogue: &Catalogue,
    file: &str,
    path: &[&str],
    figure: &Figure,
    unit: Unit,
    found: &mut Review<'_>,
) {
    let at = |last| [path, &[last]].concat();
    if figure.unit != unit {
        found.note(
            file,
            &at("unit"),
            format!("the unit is `{}`; here it has to be `{unit}`", figure.unit),
        );
    }
    let Figure {
        value, low, high, ..
    } = figure;
    if low > high {
        found.note(
            file,
            &at("low"),
            format!("the range runs from {low} down to {high}; exchange `low` and `high`"),
        );
    } else if !(low..=high).contains(&value) {
        found.note(
            file,
            &at("value"),
            format!("{value} is outside its range of {low} to {high}"),
        );
    }
    if !catalogue.sources.contains_key(&figure.source) {
        found.note(file, &at("source"), unknown_source(&figure.source));
    }
}

pub fn unknown_source(id: &str) -> String {
    format!("the source `{id}` is not in catalogue/sources.toml; add it there or correct the name")
}
