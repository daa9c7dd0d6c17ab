//! What the studio and the labels say beside the catalogue, as the command line asks for it.

use chrono::SecondsFormat;
use chrono_tz::Tz;
use content::Content;
use serde::Serialize;
use shared_types::{
    care_plan::{
        Added, Caution,
        own::{self, Label, OwnAdvice, OwnFault},
    },
    words::Words,
};

use super::super::CliError;

#[derive(Serialize)]
pub struct Line<'a> {
    id: &'a str,
    from: String,
    until: String,
    until_local: String,
    hours: u32,
    because: Vec<&'static str>,
    what: &'a str,
    why: &'a str,
}

/// Whose a caution is that is not the catalogue's alone.
#[derive(Serialize)]
pub struct Whose<'a> {
    /// Who set the hours: catalogue, studio or label.
    whose: &'static str,
    /// Whose label it is.
    #[serde(skip_serializing_if = "Option::is_none")]
    product: Option<&'a str>,
    /// Why the studio's hours are outside the range.
    #[serde(skip_serializing_if = "Option::is_none")]
    reason: Option<&'a str>,
    what: String,
    why: String,
}

/// None for a caution in which only the catalogue has a say.
pub fn whose<'a>(caution: &'a Caution, words: &Words) -> Option<Whose<'a>> {
    let (product, reason) = match &caution.whose {
        own::Whose::Label { product } => (Some(product.as_str()), None),
        own::Whose::Studio { reason } if !reason.is_empty() => (None, Some(reason.as_str())),
        own::Whose::Studio { .. } => (None, None),
        own::Whose::Catalogue if caution.reworded => (None, None),
        own::Whose::Catalogue => return None,
    };
    Some(Whose {
        whose: caution.whose.term(),
        product,
        reason,
        what: caution.what(words),
        why: caution.why(words),
    })
}

/// The cautions that the studio added.
pub fn answer(added: &[Added], zone: Tz) -> Vec<Line<'_>> {
    let lines = added.iter().map(|one| Line {
        id: &one.id,
        from: one.from.to_rfc3339_opts(SecondsFormat::AutoSi, true),
        until: one.until.to_rfc3339_opts(SecondsFormat::AutoSi, true),
        until_local: one
            .until
            .with_timezone(&zone)
            .to_rfc3339_opts(SecondsFormat::AutoSi, false),
        hours: one.hours,
        because: one.because.iter().map(|one| one.term()).collect(),
        what: &one.what,
        why: &one.why,
    });
    lines.collect()
}

/// # Errors
/// The first value that cannot be taken, by its field.
pub fn check(own: &OwnAdvice, labels: &[Label], content: &Content) -> Result<(), CliError> {
    let catalogue = &content.catalogue;
    let of_own = own.faults(catalogue).into_iter();
    let of_own = of_own.map(|(field, fault)| (format!("own.{field}"), fault));
    let of_labels = labels.iter().enumerate().filter_map(|(index, label)| {
        let (field, fault) = label.fault(catalogue)?;
        Some((format!("labels[{index}].{field}"), fault))
    });
    let refuse = |(field, fault): (String, OwnFault)| CliError::Shape {
        field,
        what: fault.to_string(),
    };
    of_own
        .chain(of_labels)
        .map(refuse)
        .next()
        .map_or(Ok(()), Err)
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::super::care_plan;
    use crate::cli::asking::{self, names};

    fn ask(own: Value, labels: Value) -> Result<Value, String> {
        let question = json!({
            "finished_at": "2026-10-24T18:30:00+01:00",
            "time_zone": "Europe/London",
            "treatments": ["brow_wax", "brow_tint"],
            "own": own,
            "labels": labels,
        });
        asking::ask(care_plan, &question)
    }

    fn caution(answer: &Value, id: &str) -> Value {
        let mut all = answer["cautions"].as_array().unwrap().iter();
        all.find(|one| one["id"] == id).unwrap().clone()
    }

    /// Heat after a brow wax: 48 hours by the catalogue, which lies between 24 and 48.
    #[test]
    fn a_label_comes_before_the_studio_and_the_studio_before_the_catalogue() {
        let own = json!({"changed": [{"treatment": "brow_wax", "kind": "heat", "hours": 30}]});
        let studio = caution(&ask(own.clone(), json!([])).unwrap(), "heat");
        assert_eq!(
            (&studio["hours"], &studio["whose"]),
            (&json!(30), &json!("studio"))
        );
        assert_eq!(studio["until"], "2026-10-25T23:30:00Z");
        assert!(studio.get("reason").is_none());
        for hours in [72, 6] {
            let labels = json!([{"product": "Velm soft wax", "kind": "heat", "hours": hours}]);
            let label = caution(&ask(own.clone(), labels).unwrap(), "heat");
            assert_eq!(
                (&label["hours"], &label["whose"]),
                (&json!(hours), &json!("label"))
            );
            assert_eq!(label["product"], "Velm soft wax");
            assert_eq!(label["source"], json!(["product_label"]));
        }
        let plain = caution(&ask(json!({}), json!([])).unwrap(), "heat");
        assert_eq!(plain["hours"], 48);
        assert!(!names(&plain).contains(&"whose"));
    }

    #[test]
    fn added_cautions_are_answered_by_themselves() {
        let own = json!({"added": [
            {"id": "massage", "treatments": ["brow_tint"], "what": "No facial massage", "hours": 72}
        ]});
        let answer = ask(own, json!([])).unwrap();
        let added = &answer["own_cautions"][0];
        assert_eq!(added["until_local"], "2026-10-27T17:30:00+00:00");
        assert_eq!(
            (&added["what"], &added["because"]),
            (&json!("No facial massage"), &json!(["brow_tint"]))
        );
    }

    #[test]
    fn what_cannot_be_taken_is_refused_by_its_field() {
        let own = |own: Value| ask(own, json!([])).unwrap_err();
        let changed = |hours: Value| json!({"changed": [{"treatment": "brow_wax", "kind": "heat", "hours": hours}]});
        assert_eq!(
            own(changed(json!(200))),
            "own.changed[0].reason: 200 hours are outside the range of 24 to 48; allowed are those, or others with a `reason`"
        );
        assert_eq!(
            own(changed(json!(0))),
            "own.changed[0].hours: 0 hours; allowed is 1 to 8784"
        );
        assert!(own(changed(json!("two"))).starts_with("own.changed[0].hours: invalid type"));
        assert!(own(json!({"changes": []})).starts_with("own.changes: unknown field `changes`"));
        let steam = json!({"changed": [{"treatment": "brow_wax", "kind": "steam", "hours": 24}]});
        assert!(own(steam).starts_with("own.changed[0].kind: `brow_wax` has no caution `steam`"));
        let label = |label: Value| ask(json!({}), json!([label])).unwrap_err();
        let odd = label(json!({"product": "Velm", "kind": "heat", "hours": 9, "batch": "V"}));
        assert!(
            odd.starts_with("labels[0].batch: unknown field `batch`"),
            "{odd}"
        );
        let none = label(json!({"product": " ", "kind": "heat", "hours": 9}));
        assert!(
            none.starts_with("labels[0].product: the product has no name"),
            "{none}"
        );
    }
}
