use super::*;

fn label(product: &str, hours: u32, treatments: &[Treatment]) -> Label {
    Label {
        product: product.to_owned(),
        kind: CautionKind::Heat,
        hours,
        words: String::new(),
        treatments: treatments.to_vec(),
    }
}

#[test]
fn a_label_is_found_by_name_whatever_its_capitals_and_blanks() {
    let labels = [label("Orrin Tint ", 24, &[]), label("Velm wax", 48, &[])];
    let product = |name: &str| crate::visit::Product {
        name: name.to_owned(),
        batch: String::new(),
    };
    assert_eq!(of_products(&labels, &[product(" ORRIN tint")]), labels[..1]);
    assert_eq!(of_products(&labels, &[product("Orrin tint, brown")]), []);
    assert_eq!(of_products(&labels, &[product("É")]), []);
    assert!(label("ÉCLAT", 1, &[]).is_of("éclat"));
}

#[test]
fn of_two_labels_the_longest_counts_and_each_only_for_what_it_is_for() {
    use Treatment::{BrowTint, BrowWax};
    let labels = [
        label("a", 24, &[]),
        label("b", 72, &[BrowTint]),
        label("c", 72, &[]),
    ];
    let of = |treatment, kind| longest_label(&labels, treatment, kind).map(|one| &*one.product);
    assert_eq!(of(BrowTint, CautionKind::Heat), Some("b"));
    assert_eq!(of(BrowWax, CautionKind::Heat), Some("c"));
    assert_eq!(
        longest_label(&labels[..2], BrowWax, CautionKind::Heat),
        Some(&labels[0])
    );
    assert_eq!(of(BrowWax, CautionKind::Sun), None);
}

#[test]
fn whose_it_is_reads_as_it_is_written_and_nothing_is_the_catalogue() {
    for whose in [
        Whose::Catalogue,
        Whose::Studio {
            reason: "because".to_owned(),
        },
        Whose::Label {
            product: "Velm wax".to_owned(),
        },
    ] {
        let json = serde_json::to_string(&whose).unwrap();
        assert_eq!(serde_json::from_str::<Whose>(&json).unwrap(), whose);
    }
    assert_eq!(Whose::default(), Whose::Catalogue);
}
