//! The studio's own cautions and the labels of products, merged with the shipped catalogue.

use std::sync::LazyLock;

use content::Content;
use proptest::prelude::*;
use shared_types::{
    care_plan::{
        CarePlan, Caution, Person, PlanFor, Practice,
        own::{
            AddedCaution, Beside, ChangedCaution, LABEL_SOURCE, LONGEST_HOURS, Label, OwnAdvice,
            OwnFault, STUDIO_SOURCE, Whose,
        },
        plan,
    },
    catalogue::caution::{CautionRule, Grade},
    visit::{CautionKind, Finding, Findings, Treatment},
};

use Treatment::{BrowTint, BrowWax};

static CONTENT: LazyLock<Content> = LazyLock::new(|| Content::built_in().unwrap());

fn planned(
    treatments: &[Treatment],
    findings: Findings,
    own: &OwnAdvice,
    labels: &[Label],
) -> CarePlan {
    let visit = PlanFor {
        finished_at: "2026-10-24T17:30:00Z".parse().unwrap(),
        local_date: "2026-10-24".parse().unwrap(),
        treatments,
        findings,
        person: &Person::default(),
        practice: &Practice::default(),
        beside: Beside {
            own: Some(own),
            labels,
        },
    };
    plan(&CONTENT.catalogue, &visit).unwrap()
}

fn find(plan: &CarePlan, kind: CautionKind) -> Option<&Caution> {
    plan.cautions.iter().find(|one| one.kind == kind)
}

fn rule(treatment: Treatment, kind: CautionKind) -> Option<&'static CautionRule> {
    let entry = &CONTENT.catalogue.treatments[&treatment];
    entry.cautions.iter().find(|rule| rule.kind == kind)
}

fn changed(treatment: Treatment, kind: CautionKind, hours: u32) -> ChangedCaution {
    ChangedCaution {
        treatment,
        kind,
        hours: Some(hours),
        what: None,
        why: None,
        reason: "We have seen it.".to_owned(),
    }
}

fn own(changed: ChangedCaution) -> OwnAdvice {
    OwnAdvice {
        changed: vec![changed],
        added: Vec::new(),
    }
}

fn label(kind: CautionKind, hours: u32, treatments: &[Treatment]) -> Label {
    Label {
        product: " Velm soft wax ".to_owned(),
        kind,
        hours,
        words: String::new(),
        treatments: treatments.to_vec(),
    }
}

fn any_of<T: Copy + std::fmt::Debug + 'static>(all: &'static [T]) -> impl Strategy<Value = T> {
    proptest::sample::select(all)
}

fn some_findings() -> impl Strategy<Value = Findings> {
    proptest::collection::vec(any_of(Finding::ALL), 0..4)
        .prop_map(|all| all.into_iter().fold(Findings::default(), Findings::and))
}

proptest! {
    /// "The label comes first", on every label (the issue of this work, and the grading of the fact sheets): for more and
    /// for less, over the catalogue and over the studio, whatever was found.
    #[test]
    fn a_label_always_wins(
        treatments in proptest::collection::vec(any_of(Treatment::ALL), 1..4),
        kind in any_of(CautionKind::ALL),
        hours in 1_u32..400,
        other in 1_u32..400,
        studios in 1_u32..400,
        findings in some_findings(),
    ) {
        let own = own(changed(treatments[0], kind, studios));
        let labels = [label(kind, hours, &[]), label(kind, other, &[])];
        let plan = planned(&treatments, findings, &own, &labels);
        let caution = find(&plan, kind).expect("a label asks for it");
        prop_assert_eq!(caution.hours, hours.max(other));
        prop_assert_eq!(&caution.whose, &Whose::Label { product: "Velm soft wax".to_owned() });
        prop_assert_eq!(&caution.sources, &[LABEL_SOURCE.to_owned()]);
        prop_assert_eq!(caution.grade, Grade::RegulatorOrHealthService);
        prop_assert!(!caution.why(&CONTENT.languages["en"]).is_empty());
    }

    /// Windows begin together, so the longest of what the treatments call for is what holds; a label that is for one
    /// treatment leaves the other alone.
    #[test]
    fn the_longest_holds(
        first in any_of(Treatment::ALL),
        second in any_of(Treatment::ALL),
        kind in any_of(CautionKind::ALL),
        studios in 1_u32..400,
        labels in proptest::option::of(1_u32..400),
    ) {
        let own = own(changed(first, kind, studios));
        let labels: Vec<Label> = labels.map(|hours| label(kind, hours, &[second])).into_iter().collect();
        let plan = planned(&[first, second], Findings::default(), &own, &labels);
        let by_rule = |treatment| {
            let rule = rule(treatment, kind).filter(|rule| rule.only_with.is_empty())?;
            Some(if treatment == first { studios } else { rule.hours })
        };
        let of_second = labels.first().map(|label| label.hours).or_else(|| by_rule(second));
        // The same treatment twice is one treatment, and the label is for it.
        let of_first = if first == second { None } else { by_rule(first) };
        prop_assert_eq!(find(&plan, kind).map(|one| one.hours), of_first.max(of_second));
    }

    /// Outside of the range a reason is asked for; inside none is.
    #[test]
    fn hours_outside_the_range_need_a_reason(
        treatment in any_of(Treatment::ALL),
        kind in any_of(CautionKind::ALL),
        hours in 0_u32..LONGEST_HOURS + 10,
        reasoned in any::<bool>(),
    ) {
        let mut one = changed(treatment, kind, hours);
        if !reasoned {
            one.reason = "  ".to_owned();
        }
        let fault = one.fault(&CONTENT.catalogue).map(|(field, _)| field);
        let expected = match rule(treatment, kind) {
            None => Some("kind"),
            Some(_) if hours == 0 || hours > LONGEST_HOURS => Some("hours"),
            Some(rule) if (rule.least_hours..=rule.most_hours).contains(&hours) => None,
            Some(_) => (!reasoned).then_some("reason"),
        };
        prop_assert_eq!(fault, expected);
    }
}

#[test]
fn without_anything_of_its_own_nothing_changes() {
    for treatment in Treatment::ALL {
        let plan = planned(
            &[*treatment],
            Findings::default(),
            &OwnAdvice::default(),
            &[],
        );
        for caution in &plan.cautions {
            let rule = rule(*treatment, caution.kind).unwrap();
            assert_eq!(
                (caution.hours, &caution.whose),
                (rule.hours, &Whose::Catalogue)
            );
            assert_eq!(caution.sources, rule.sources);
            assert!(!caution.reworded && caution.own_what.is_none());
        }
        assert_eq!(plan.added, []);
    }
}

/// Brow wax and heat: 48 hours, 24 to 48 by the catalogue.
#[test]
fn whose_advice_it_is() {
    let heat = |own: &OwnAdvice, labels: &[Label], treatments: &[Treatment]| {
        let plan = planned(treatments, Findings::default(), own, labels);
        let caution = find(&plan, CautionKind::Heat).unwrap();
        (
            caution.hours,
            caution.whose.term(),
            caution.sources[0].clone(),
        )
    };
    let by_studio = own(changed(BrowWax, CautionKind::Heat, 60));
    let studio = STUDIO_SOURCE.to_owned();
    assert_eq!(heat(&by_studio, &[], &[BrowWax]), (60, "studio", studio));
    let longer = [label(CautionKind::Heat, 72, &[BrowWax])];
    let by_label = LABEL_SOURCE.to_owned();
    assert_eq!(
        heat(&by_studio, &longer, &[BrowWax]),
        (72, "label", by_label.clone())
    );
    let shorter = [label(CautionKind::Heat, 12, &[BrowWax])];
    assert_eq!(
        heat(&by_studio, &shorter, &[BrowWax]),
        (12, "label", by_label)
    );
    // The label of a tint does not shorten what a wax asks for.
    let of_tint = [label(CautionKind::Heat, 12, &[BrowTint])];
    let (hours, whose, _) = heat(&by_studio, &of_tint, &[BrowWax, BrowTint]);
    assert_eq!((hours, whose), (60, "studio"));
    // As long as the catalogue says: then it is the catalogue that is named.
    let as_long = own(changed(BrowTint, CautionKind::Heat, 48));
    let (hours, whose, _) = heat(&as_long, &[], &[BrowWax, BrowTint]);
    assert_eq!((hours, whose), (48, "catalogue"));
    for id in [STUDIO_SOURCE, LABEL_SOURCE] {
        assert!(CONTENT.catalogue.sources.contains_key(id), "{id}");
    }
}

/// What was found may ask for longer than the studio does; then it is the catalogue's again.
#[test]
fn findings_still_make_it_longer() {
    let exercise = rule(BrowWax, CautionKind::Exercise).unwrap();
    let longer = exercise.hours_with[&Finding::Sensitive];
    let own = own(changed(BrowWax, CautionKind::Exercise, longer - 12));
    let sensitive = Findings::default().and(Finding::Sensitive);
    let plan = planned(&[BrowWax], sensitive, &own, &[]);
    let caution = find(&plan, CautionKind::Exercise).unwrap();
    assert_eq!((caution.hours, &caution.whose), (longer, &Whose::Catalogue));
    let plan = planned(&[BrowWax], Findings::default(), &own, &[]);
    let caution = find(&plan, CautionKind::Exercise).unwrap();
    assert_eq!(
        (caution.hours, caution.whose.term()),
        (longer - 12, "studio")
    );
}

#[test]
fn own_words_are_said_unless_they_would_contradict_the_artist() {
    let words = &CONTENT.languages["en"];
    let reworded = own(ChangedCaution {
        hours: None,
        what: Some("No make-up at all".to_owned()),
        why: Some("We like it bare.".to_owned()),
        ..changed(BrowWax, CautionKind::MakeUp, 1)
    });
    let plan = planned(&[BrowWax], Findings::default(), &reworded, &[]);
    let caution = find(&plan, CautionKind::MakeUp).unwrap();
    assert_eq!(caution.what(words), "No make-up at all");
    assert_eq!(caution.why(words), "We like it bare.");
    assert!(caution.reworded);
    let usual = rule(BrowWax, CautionKind::MakeUp).unwrap().hours;
    assert_eq!((caution.hours, &caution.whose), (usual, &Whose::Catalogue));
    let concealed = Findings::default().and(Finding::Concealer);
    let plan = planned(&[BrowWax], concealed, &reworded, &[]);
    let what = find(&plan, CautionKind::MakeUp).unwrap().what(words);
    assert!(what.contains("than your artist put on"), "{what}");
}

#[test]
fn an_added_caution_holds_after_its_treatments_and_counts_to_the_end() {
    let own = OwnAdvice {
        changed: Vec::new(),
        added: vec![AddedCaution {
            id: "massage".to_owned(),
            treatments: vec![BrowWax, BrowTint],
            what: "No facial massage".to_owned(),
            why: String::new(),
            hours: 1000,
        }],
    };
    let plan = planned(&[BrowWax], Findings::default(), &own, &[]);
    assert_eq!(plan.added.len(), 1);
    assert_eq!(
        (plan.added[0].hours, &plan.added[0].because[..]),
        (1000, &[BrowWax][..])
    );
    assert_eq!(plan.ends().last(), Some(&(plan.added[0].until, 1000)));
    assert_eq!(plan.ends().len(), plan.cautions.len() + 1);
    let other = planned(&[Treatment::LipWax], Findings::default(), &own, &[]);
    assert_eq!(other.added, []);
}

#[test]
fn what_cannot_be_taken_is_named_by_its_field() {
    let catalogue = &CONTENT.catalogue;
    let added = |id: &str, treatments: &[Treatment], what: &str, hours| AddedCaution {
        id: id.to_owned(),
        treatments: treatments.to_vec(),
        what: what.to_owned(),
        why: String::new(),
        hours,
    };
    let twice = changed(BrowWax, CautionKind::Heat, 48);
    let all = OwnAdvice {
        changed: vec![twice.clone(), twice],
        added: vec![
            added("a", &[BrowWax], "No massage", 24),
            added("a", &[BrowWax], "No massage", 24),
            added("B!", &[BrowWax], "No massage", 24),
            added("c", &[], "No massage", 24),
            added("d", &[BrowWax], " ", 24),
            added("e", &[BrowWax], "No massage", 0),
        ],
    };
    let fields: Vec<String> = all
        .faults(catalogue)
        .into_iter()
        .map(|(field, _)| field)
        .collect();
    assert_eq!(
        fields,
        [
            "changed[1].kind",
            "added[1].id",
            "added[2].id",
            "added[3].treatments",
            "added[4].what",
            "added[5].hours"
        ]
    );
    let outside = ChangedCaution {
        reason: String::new(),
        ..changed(BrowWax, CautionKind::Heat, 200)
    };
    let Some((_, fault)) = outside.fault(catalogue) else {
        panic!("outside the range")
    };
    assert!(matches!(fault, OwnFault::Reason { given: 200, .. }));
    assert!(
        fault.to_string().contains("outside the range of 24 to 48"),
        "{fault}"
    );
    let nameless = Label {
        product: " ".to_owned(),
        ..label(CautionKind::Heat, 24, &[])
    };
    assert_eq!(
        nameless.fault(catalogue).map(|(field, _)| field),
        Some("product")
    );
    assert_eq!(
        label(CautionKind::Heat, 0, &[])
            .fault(catalogue)
            .map(|(f, _)| f),
        Some("hours")
    );
}
