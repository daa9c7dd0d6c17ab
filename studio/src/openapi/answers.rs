//! The answers of a report, by the scale of each field.

use serde_json::{Map, Value, json};
use shared_types::{
    urgency::{Field, HOURS_MOST, NOT_SURE, Scale},
    visit::Treatment,
};

/// Every field may be left out, or be null: both leave it open, which is not "no".
pub fn schema() -> Value {
    let fields = Field::ALL.iter().filter(|field| !field.is_derived());
    let mut properties: Map<String, Value> = fields
        .map(|field| (field.term().to_owned(), of_field(*field)))
        .collect();
    let treatments: Vec<&str> = Treatment::ALL.iter().map(|one| one.term()).collect();
    properties.insert(
        "treatments".to_owned(),
        json!({
            "type": ["array", "null"],
            "items": {"enum": treatments},
            "description": "The studio knows what was done, and goes by that.",
        }),
    );
    json!({
        "type": "object",
        "additionalProperties": false,
        "properties": properties,
        "description": "`onset_hours` beyond `hours_since_visit` is taken as just now: a sign that has begun did so before now.",
    })
}

fn of_field(field: Field) -> Value {
    let mut schema = of_scale(field.scale());
    if field == Field::OnsetHours
        && let Some(ways) = schema["anyOf"].as_array_mut()
    {
        ways.push(
            json!({"type": "string", "pattern": "^0*[0-9]{1,4}-(0*[0-9]{1,4})?$",
            "description": "Between two times as 6-12; up to now as 72-."}),
        );
    }
    schema
}

fn of_scale(scale: Scale) -> Value {
    match scale {
        Scale::OneOf(terms) => {
            let mut allowed: Vec<Value> = terms.iter().map(|term| json!(term)).collect();
            allowed.push(json!(NOT_SURE));
            allowed.push(Value::Null);
            if terms == ["no", "yes"] {
                allowed.extend([json!(true), json!(false)]);
            }
            json!({ "enum": allowed })
        }
        Scale::UpTo(most) => {
            let digits: Vec<String> = (0..=most).map(|number| number.to_string()).collect();
            json!({"anyOf": [
                {"type": "integer", "minimum": 0, "maximum": most},
                {"type": "string", "pattern": format!("^0*({})$", digits.join("|"))},
                {"enum": [NOT_SURE, null]},
            ]})
        }
        Scale::Hours => json!({"anyOf": [
            {"type": "number", "minimum": 0, "maximum": HOURS_MOST},
            {"type": "string", "pattern": "^0*[0-9]{1,4}(\\.[0-9]+|:[0-5][0-9])?$",
                "description": "Hours as 3, 0.5 or 1:30."},
            {"enum": [NOT_SURE, null]},
        ]}),
    }
}
