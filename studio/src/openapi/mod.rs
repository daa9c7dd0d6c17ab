//! The JSON API in OpenAPI 3.1: printed by `studio openapi`, served at `/openapi.json`. Terms, lengths and names come from
//! the types themselves; `tests/tests/openapi` asks the real server whether it keeps to the rest.

mod answers;
mod bodies;
mod operations;

use content::Content;
use serde_json::{Value, json};

/// The description.
pub fn description(content: &Content) -> Value {
    json!({
        "openapi": "3.1.0",
        "info": {
            "title": "Betweentimes",
            "version": env!("CARGO_PKG_VERSION"),
            "license": {"name": "MIT OR Apache-2.0", "identifier": "MIT OR Apache-2.0"},
            "description":
                "What a client's page and an artist's screen ask for once they are alive. A client is whoever holds the \
                 link: its secret is the only credential, and is never logged. What is sent under an id of the sender's \
                 own may be sent again until it is answered: it is taken once, and answered the same. A refusal is a \
                 problem document (RFC 9457) whose `detail` says what to do, in the reader's language.",
        },
        "paths": operations::paths(content),
        "components": {
            "schemas": bodies::schemas(content),
            "responses": operations::refusals(),
            "securitySchemes": {
                "session": {"type": "apiKey", "in": "cookie", "name": "betweentimes",
                    "description": "Of the signed-in artist. `__Host-betweentimes` where the studio is reached by https."},
            },
        },
    })
}

/// A reference to a schema of the components.
fn of(name: &str) -> Value {
    json!({"$ref": format!("#/components/schemas/{name}")})
}

/// An object with exactly these properties. All are required but those named.
fn object(properties: Value, but: &[&str]) -> Value {
    let names = properties.as_object().into_iter().flatten();
    let required: Vec<&String> = names
        .map(|(name, _)| name)
        .filter(|name| !but.contains(&name.as_str()))
        .collect();
    json!({
        "type": "object",
        "additionalProperties": false,
        "required": required,
        "properties": properties,
    })
}
