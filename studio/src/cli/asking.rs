//! Asking a command as the tests do.

use content::Content;
use serde_json::Value;

use super::CliError;

type Command = fn(&str, &Content) -> Result<String, CliError>;

/// The answer by the shipped content, or the sentence that refuses the question.
pub fn ask(command: Command, question: &Value) -> Result<Value, String> {
    let answer = command(&question.to_string(), &Content::built_in().unwrap());
    answer
        .map(|json| serde_json::from_str(&json).unwrap())
        .map_err(|error| error.to_string())
}

/// A question with one field in another way.
pub fn with(mut question: Value, field: &str, value: Value) -> Value {
    question[field] = value;
    question
}

/// The names of an object's fields, sorted.
pub fn names(value: &Value) -> Vec<&str> {
    value
        .as_object()
        .unwrap()
        .keys()
        .map(String::as_str)
        .collect()
}
