//! What can be wrong with a question; told on standard error, exit status 2.

#[derive(Debug, thiserror::Error)]
pub enum CliError {
    /// The input is no JSON at all.
    #[error("the input cannot be read as JSON: {0}")]
    NotJson(String),
    /// A field that is unknown, missing, or of the wrong shape. `what` says what was given and what is allowed.
    #[error("{field}: {what}")]
    Shape { field: String, what: String },
    /// A value of the right shape that is not allowed.
    #[error("{field}: given `{given}`; allowed is {allowed}")]
    Value {
        field: String,
        given: String,
        allowed: String,
    },
    /// The answer could not be written as JSON.
    #[error("the answer cannot be written: {0}")]
    Answer(#[source] serde_json::Error),
}

impl CliError {
    pub(super) fn value(
        field: impl Into<String>,
        given: impl ToString,
        allowed: impl Into<String>,
    ) -> Self {
        Self::Value {
            field: field.into(),
            given: given.to_string(),
            allowed: allowed.into(),
        }
    }
}
