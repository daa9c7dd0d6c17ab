//! Reading a question, with the name of the field that does not fit.

use serde::de::DeserializeOwned;

use super::CliError;

/// # Errors
/// Text that is no JSON; a field that is unknown, missing or of the wrong shape, by its path (`skin.sensitive`).
pub fn read<T: DeserializeOwned>(input: &str) -> Result<T, CliError> {
    let mut json = serde_json::Deserializer::from_str(input);
    let question = serde_path_to_error::deserialize(&mut json).map_err(|error| {
        let field = error.path().to_string();
        let cause = error.into_inner();
        match cause.classify() {
            serde_json::error::Category::Data => CliError::Shape {
                field: if field == "." {
                    "input".to_owned()
                } else {
                    field
                },
                what: cause.to_string(),
            },
            _ => CliError::NotJson(cause.to_string()),
        }
    })?;
    json.end()
        .map_err(|cause| CliError::NotJson(cause.to_string()))?;
    Ok(question)
}
