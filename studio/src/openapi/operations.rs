//! What can be asked, and what is answered.

use content::Content;
use serde_json::{Map, Value, json};
use shared_types::photos::PIECE_MAX;

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
        "409": problem("The id is another one's, or it does not go on from here, or nobody agreed to it."),
        "410": problem("The link was revoked or has expired: drop every copy of its page."),
        "413": problem("The body is too long."),
        "415": problem("The body is of another kind."),
        "422": problem("It was read, and something in it cannot be taken."),
        "429": too_often,
        "500": problem("The studio's own fault."),
        "503": problem("Too much at once; the same again later."),
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
        "/MY/{secret}/reports/{id}/photos/{photo}": photos(&id("Of the report.")),
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

/// A photo goes up in pieces, each a request of its own, and goes on where it stopped: the draft of the HTTP working group on
/// resumable uploads.
fn photos(report: &Value) -> Value {
    let photo = json!({"name": "photo", "in": "path", "required": true,
        "schema": {"type": "string", "format": "uuid"}, "description": "Made by the sender."});
    let whole = json!({"type": "integer", "minimum": 0});
    let here = json!({
        "Upload-Offset": {"required": true, "schema": whole, "description": "Bytes that are here."},
        "Upload-Complete": {"required": true, "schema": {"enum": ["?0", "?1"]}},
    });
    let mut head = Operation::new("getPhotoOffset", "How much of a photo is here")
        .nothing("204", "So much.")
        .refuses(&["404", "409", "410"])
        .done();
    let mut patch = Operation::new("sendPhotoPiece", "Send the next piece of a photo")
        .gives("201", "It is whole, made anew, and kept.", "PhotoReceipt")
        .gives("200", "It was kept already.", "PhotoReceipt")
        .nothing("204", "More is to come.")
        .refuses(&["403", "404", "409", "410", "415", "422", "503"])
        .done();
    head["responses"]["204"]["headers"] = here.clone();
    for status in ["200", "201", "204"] {
        patch["responses"][status]["headers"] = here.clone();
    }
    let header = |name: &str, required: bool, schema: Value, what: &str| json!({"name": name, "in": "header", "required": required, "schema": schema, "description": what});
    patch["parameters"] = json!([
        header(
            "Upload-Offset",
            true,
            json!({"type": "string", "pattern": "^[0-9]{1,8}$"}),
            "Bytes that were sent before. Another than what is here is refused with 409, which says what is."
        ),
        header(
            "Upload-Complete",
            true,
            json!({"enum": ["?0", "?1"]}),
            "Whether it ends with this piece."
        ),
        header(
            "Upload-Length",
            false,
            json!({"type": "integer", "minimum": 0}),
            "Of the whole; where it ends with this piece, where this piece ends."
        ),
    ]);
    // OpenAPI 3.1 has no schema for bytes.
    let most = format!("Some bytes of the file as it is, at most {PIECE_MAX}.");
    patch["requestBody"] = json!({"required": true, "description": most,
        "content": {"application/partial-upload": {"schema": {}}}});
    let mut get = Operation::new("getPhoto", "The photo, for whoever sent it")
        .refuses(&["404", "410"])
        .done();
    get["responses"]["200"] = json!({"description": "Upright, without anything but its pixels.",
        "content": {"image/jpeg": {"schema": {"type": "string", "format": "binary"}}}});
    json!({"parameters": [link(), report, photo], "head": head, "patch": patch, "get": get})
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
