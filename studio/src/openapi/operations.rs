//! What can be asked, and what is answered.

use content::Content;
use serde_json::{Map, Value, json};

use super::of;
use crate::links::secret;

/// Refusals that any operation may give, by status.
const ANY: [&str; 6] = ["400", "405", "408", "413", "429", "500"];

/// Every refusal is a problem document.
pub fn refusals() -> Value {
    let problem = |what: &str| {
        json!({
            "description": what,
            "content": {"application/problem+json": {"schema": of("Problem")}},
        })
    };
    let mut too_often = problem("Too often: again after so many seconds.");
    too_often["headers"] =
        json!({"Retry-After": {"required": true, "schema": {"type": "integer", "minimum": 1}}});
    let mut method = problem("Not with this method.");
    method["headers"] = json!({"Allow": {"required": true, "schema": {"type": "string"}}});
    json!({
        "400": problem("It could not be read; the detail names the field."),
        "401": problem("Not signed in."),
        "403": problem("Another site sent this."),
        "404": problem("There is no such link, report or question."),
        "405": method,
        "408": problem("It did not arrive in time."),
        "409": problem("The id is another one's."),
        "410": problem("The link was revoked or has expired: drop every copy of its page."),
        "413": problem("The body is too long."),
        "415": problem("The body is of another kind."),
        "422": problem("It was read, and something in it cannot be taken."),
        "429": too_often,
        "500": problem("The studio's own fault."),
    })
}

pub fn paths(content: &Content) -> Value {
    let questions = &content.catalogue.urgency.follow_ups().0;
    let hours = json!({"name": "hours", "in": "path", "required": true, "schema": {"enum": questions},
        "description": "Which question, in hours from the report. It is there once its time has come."});
    let id = |what: &str| {
        json!({"name": "id", "in": "path", "required": true,
            "schema": {"type": "string", "format": "uuid"}, "description": what})
    };
    let language = json!({"name": "language", "in": "query", "schema": {"type": "string"},
        "description": "BCP 47: that of the page that was shown, where a kept one was."});
    json!({
        "/MY/{secret}/reports/{id}": {
            "parameters": [link(), id("Made by the sender.")],
            "put": Operation::new("sendReport", "Tell the studio that something is not right")
                .takes("Report").gives("201", "It is on disk.", "Receipt")
                .gives("200", "The very same was there already.", "Receipt")
                .refuses(&["403", "404", "409", "410", "415", "422"]).done(),
        },
        "/MY/{secret}/reports/{id}/follow-ups/{hours}": {
            "parameters": [link(), id("Of the report."), hours],
            "put": Operation::new("answerFollowUp", "Say how it goes, when it is asked again")
                .takes("FollowUp").gives("200", "It is on disk; the first answer counts.", "Receipt")
                .refuses(&["403", "404", "410", "415", "422"]).done(),
            "post": {
                "operationId": "answerFollowUpByForm",
                "summary": "The same by a page's form, answered by a page",
                "requestBody": {"required": true, "content": {
                    "application/x-www-form-urlencoded": {"schema": of("FollowUp")}}},
                "responses": {
                    "303": {"description": "To the client's page, which says what to do now."},
                    "4XX": {"description": "What is wrong, as a page.",
                        "content": {"text/html; charset=utf-8": {"schema": {"type": "string"}}}},
                },
            },
        },
        "/MY/{secret}/wishes/{id}": {
            "parameters": [link(), id("Made by the sender.")],
            "put": Operation::new("sendWish", "Wish for a time at the studio")
                .takes("Wish").gives("201", "It is on disk.", "Receipt")
                .gives("200", "The very same was there already.", "Receipt")
                .refuses(&["403", "404", "409", "410", "415", "422"]).done(),
        },
        "/MY/{secret}/standing": {
            "parameters": [link()],
            "get": Operation::new("getStanding", "Where the client's reports and wishes stand")
                .gives("200", "All of them, the latest first.", "Standing")
                .refuses(&["404", "410"]).done(),
        },
        "/MY/{secret}/opened": {
            "parameters": [link(), language],
            "post": Operation::new("noteOpened", "Say that the page was opened, and in which language")
                .refuses(&["403", "404", "410"]).nothing("204", "It is noted; the first time counts.").done(),
        },
        "/studio/visits/{id}/opened": {
            "parameters": [id("Of the visit.")],
            "get": Operation::new("getLinkUse", "Whether the client has opened the page of a visit")
                .by_the_artist().gives("200", "When, and in which languages.", "LinkUse")
                .refuses(&["401", "404"]).done(),
        },
        "/healthz": {
            "get": Operation::new("getHealth", "Whether the record can be read")
                .text("200", "It can.").refuses(&[]).done(),
        },
        "/openapi.json": {
            "get": Operation::new("getDescription", "This description")
                .any("200", "OpenAPI 3.1.").refuses(&[]).done(),
        },
    })
}

fn link() -> Value {
    let pattern = format!("^[A-Z2-7]{{{}}}$", secret::LENGTH);
    json!({"name": "secret", "in": "path", "required": true,
        "schema": {"type": "string", "pattern": pattern}, "description": "The secret of a client's link."})
}

struct Operation {
    value: Value,
    responses: Map<String, Value>,
}

impl Operation {
    fn new(id: &str, summary: &str) -> Self {
        Self {
            value: json!({"operationId": id, "summary": summary}),
            responses: Map::new(),
        }
    }

    fn takes(mut self, schema: &str) -> Self {
        self.value["requestBody"] =
            json!({"required": true, "content": {"application/json": {"schema": of(schema)}}});
        self
    }

    fn by_the_artist(mut self) -> Self {
        self.value["security"] = json!([{"session": []}]);
        self
    }

    fn gives(self, status: &str, what: &str, schema: &str) -> Self {
        self.answers(status, what, "application/json", &of(schema))
    }

    fn any(self, status: &str, what: &str) -> Self {
        self.answers(status, what, "application/json", &json!({"type": "object"}))
    }

    fn text(self, status: &str, what: &str) -> Self {
        let kind = "text/plain; charset=utf-8";
        self.answers(status, what, kind, &json!({"type": "string"}))
    }

    fn answers(mut self, status: &str, what: &str, kind: &str, schema: &Value) -> Self {
        let response = json!({"description": what, "content": {kind: {"schema": schema}}});
        self.responses.insert(status.to_owned(), response);
        self
    }

    fn nothing(mut self, status: &str, what: &str) -> Self {
        self.responses
            .insert(status.to_owned(), json!({ "description": what }));
        self
    }

    /// Beside those that any operation may give.
    fn refuses(mut self, statuses: &[&str]) -> Self {
        for status in ANY.iter().chain(statuses) {
            let response = json!({"$ref": format!("#/components/responses/{status}")});
            self.responses.insert((*status).to_owned(), response);
        }
        self
    }

    fn done(mut self) -> Value {
        self.value["responses"] = Value::Object(self.responses);
        self.value
    }
}
