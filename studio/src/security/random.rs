//! Randomness from the operating system.

use data_encoding::{BASE32_NOPAD, BASE64URL_NOPAD};

/// The operating system gave no randomness; nothing secret can be made.
#[derive(Debug, thiserror::Error)]
#[error("the operating system gave no random bytes: {0}")]
pub struct RandomError(#[from] getrandom::Error);

/// `N` random bytes.
pub fn bytes<const N: usize>() -> Result<[u8; N], RandomError> {
    let mut bytes = [0; N];
    getrandom::fill(&mut bytes)?;
    Ok(bytes)
}

/// 256 random bits as text for a cookie.
pub fn token() -> Result<String, RandomError> {
    Ok(BASE64URL_NOPAD.encode(&bytes::<32>()?))
}

/// 75 random bits for somebody to type, in three groups of five: A–Z and 2–7.
pub fn typed_code() -> Result<String, RandomError> {
    let text = BASE32_NOPAD.encode(&bytes::<10>()?);
    Ok(format!("{}-{}-{}", &text[..5], &text[5..10], &text[10..15]))
}
