//! JSON by the browser's own reader and writer: the phone need not download another.

use js_sys::JSON;
use serde::{Serialize, de::DeserializeOwned};
use serde_wasm_bindgen::Serializer;

/// Reads any value, for the artist's screens: a client's page has [`super::reading`].
pub fn read<T: DeserializeOwned>(text: &str) -> Option<T> {
    serde_wasm_bindgen::from_value(JSON::parse(text).ok()?).ok()
}

/// Writes a value.
pub fn write<T: Serialize>(value: &T) -> Option<String> {
    let value = value.serialize(&Serializer::json_compatible()).ok()?;
    JSON::stringify(&value).ok()?.as_string()
}
