//! What travels in bodies, both ways.

use content::Content;
use serde_json::{Value, json};
use shared_types::{
    photos::{PHOTOS_MAX, SIDE_MAX},
    reaction::{How, Place, REACH_MAX, WORDS_MAX},
    urgency::Level,
    wish,
};

use super::{answers, object, of};

pub fn schemas(content: &Content) -> Value {
    let follow_ups = &content.catalogue.urgency.follow_ups().0;
    let text = json!({"type": "string"});
    let texts = json!({"type": "array", "items": text});
    let hours: Vec<u32> = [0].into_iter().chain(follow_ups.iter().copied()).collect();
    let places: Vec<&str> = Place::ALL.iter().map(|one| one.term()).collect();
    let levels: Vec<&str> = Level::ALL.iter().map(|one| one.term()).collect();
    let hows: Vec<&str> = How::ALL.iter().map(|one| one.term()).collect();
    let photos: Vec<u32> = (0..=PHOTOS_MAX).collect();
    let consent = |what: &str| {
        json!({"type": ["string", "null"], "description": format!(
            "The version of the text that was ticked; null where it was left unticked. {what}"
        )})
    };
    json!({
        "Answers": answers::schema(),
        "Consents": object(json!({
            "report": {"type": "string", "minLength": 1,
                "description": "The version of the text that was ticked. Without it nothing is taken."},
            "photos": consent("Needed where photos are to follow."),
            "supplier": consent("To pass the report on, without a name, to whoever supplied the product."),
        }), &["photos", "supplier"]),
        "Told": object(json!({
            "level": {"enum": levels},
            "rules": texts,
            "advice": texts,
            "content_version": text,
        }), &[]),
        "Report": object(json!({
            "answers": of("Answers"),
            "places": {"type": "array", "items": {"enum": places}},
            "words": {"type": "string", "maxLength": WORDS_MAX},
            "reach": {"type": "string", "maxLength": REACH_MAX,
                "description": "Telephone or e-mail; empty where the client does not wish to be contacted."},
            "consents": of("Consents"),
            "told": {"anyOf": [of("Told"), {"type": "null"}],
                "description": "What the phone told the client to do. The studio decides again and keeps both."},
            "photos": {"enum": photos, "description": "How many are to follow."},
        }), &["told", "photos"]),
        "FollowUp": object(json!({"how": {"enum": hows}}), &[]),
        "Preferred": object(json!({
            "date": {"type": "string", "format": "date",
                "description": "As on the studio's wall; from today to a year from now."},
            "time": {"type": "string", "pattern": "^(([01][0-9]|2[0-3]):[0-5][0-9])?$",
                "description": "Empty: any time on that day."},
        }), &[]),
        "Wish": object(json!({
            "times": {"type": "array", "minItems": 1, "items": of("Preferred"),
                "description": format!("The first choice first; at most {} that differ.", wish::MOST)},
            "words": {"type": "string", "maxLength": wish::WORDS_MAX},
            "reach": {"type": "string", "maxLength": wish::REACH_MAX},
        }), &[]),
        "Moment": object(json!({
            "at": {"type": "integer", "description": "Seconds since 1970, UTC."},
            "text": {"type": "string", "description": "How it is written at the studio."},
        }), &[]),
        "Receipt": object(json!({
            "id": {"type": "string", "format": "uuid"},
            "received": of("Moment"),
        }), &[]),
        "PhotoReceipt": object(json!({
            "id": {"type": "string", "format": "uuid"},
            "received": of("Moment"),
            "width": {"type": "integer", "minimum": 1, "maximum": SIDE_MAX},
            "height": {"type": "integer", "minimum": 1, "maximum": SIDE_MAX},
        }), &[]),
        "AnswerCard": object(json!({"by": text, "at": of("Moment"), "text": text}), &[]),
        "SentCard": object(json!({
            "id": {"type": "string", "format": "uuid"},
            "received": of("Moment"),
            "gist": text,
            "answers": {"type": "array", "items": of("AnswerCard")},
            "steps": texts,
            "now": texts,
            "ask": {"enum": hours},
            "agreed": text,
            "settled": {"type": "boolean"},
        }), &[]),
        "Standing": object(json!({
            "reports": {"type": "array", "items": of("SentCard")},
            "wishes": {"type": "array", "items": of("SentCard")},
        }), &[]),
        "LinkUse": object(json!({
            "opened": {"anyOf": [of("Moment"), {"type": "null"}]},
            "read_in": text,
        }), &[]),
        "Problem": object(json!({
            "type": {"type": "string", "pattern": "^/problems/[a-z_]+$"},
            "title": {"type": "string", "minLength": 1},
            "status": {"type": "integer", "minimum": 400, "maximum": 599},
            "detail": {"type": "string", "minLength": 1},
        }), &[]),
    })
}
