//! Passwords and shared secrets that the studio needs again, sealed before they go into the record: a copy of the record
//! alone opens none of them.

use data_encoding::BASE64;
use ring::aead::{Aad, CHACHA20_POLY1305, LessSafeKey, NONCE_LEN, Nonce, UnboundKey};
use serde::{Deserialize, Serialize};

use crate::{links::secret::LinkKey, security::random};

const PURPOSE: &str = "seal of what notices need";

/// What is sealed, so that one cannot be put in the place of the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    MailPassword,
    WebhookSecret,
}

impl What {
    const fn name(self) -> &'static [u8] {
        match self {
            Self::MailPassword => b"mail password",
            Self::WebhookSecret => b"webhook secret",
        }
    }
}

/// A text that only whoever has the studio's key can read: a random nonce and ChaCha20-Poly1305 (RFC 8439), in base64.
#[derive(Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Sealed(String);

/// Sealing needs randomness, and a key of the right length.
#[derive(Debug, thiserror::Error)]
pub enum SealError {
    #[error(transparent)]
    Random(#[from] random::RandomError),
    #[error("the cipher did not take its key")]
    Cipher,
}

impl Sealed {
    pub fn close(key: &LinkKey, what: What, text: &str) -> Result<Self, SealError> {
        let nonce = random::bytes::<NONCE_LEN>()?;
        let cipher = cipher(key).ok_or(SealError::Cipher)?;
        let mut body = text.as_bytes().to_vec();
        cipher
            .seal_in_place_append_tag(
                Nonce::assume_unique_for_key(nonce),
                Aad::from(what.name()),
                &mut body,
            )
            .map_err(|_| SealError::Cipher)?;
        let mut whole = nonce.to_vec();
        whole.extend(body);
        Ok(Self(BASE64.encode(&whole)))
    }

    /// The text; `None` when it was sealed with another key, for something else, or was tampered with.
    pub fn open(&self, key: &LinkKey, what: What) -> Option<String> {
        let whole = BASE64.decode(self.0.as_bytes()).ok()?;
        let (nonce, body) = whole.split_at_checked(NONCE_LEN)?;
        let nonce = Nonce::try_assume_unique_for_key(nonce).ok()?;
        let mut body = body.to_vec();
        let text = cipher(key)?
            .open_in_place(nonce, Aad::from(what.name()), &mut body)
            .ok()?;
        String::from_utf8(text.to_vec()).ok()
    }
}

/// Says nothing of what is in it.
impl std::fmt::Debug for Sealed {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Sealed")
    }
}

fn cipher(key: &LinkKey) -> Option<LessSafeKey> {
    let key = key.for_purpose(PURPOSE);
    let key = UnboundKey::new(&CHACHA20_POLY1305, &key).ok()?;
    Some(LessSafeKey::new(key))
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::*;

    fn key(digit: &str) -> LinkKey {
        LinkKey::load(Path::new("unused"), Some(&digit.repeat(64))).unwrap()
    }

    #[test]
    fn only_the_same_key_opens_it_and_only_as_what_it_is() {
        let sealed = Sealed::close(&key("a"), What::MailPassword, "pa55 wörd").unwrap();
        assert_eq!(
            sealed.open(&key("a"), What::MailPassword).as_deref(),
            Some("pa55 wörd")
        );
        assert_eq!(sealed.open(&key("b"), What::MailPassword), None);
        assert_eq!(sealed.open(&key("a"), What::WebhookSecret), None);
        let again = Sealed::close(&key("a"), What::MailPassword, "pa55 wörd").unwrap();
        assert_ne!(sealed, again, "the same text does not look the same");
    }

    #[test]
    fn what_was_tampered_with_stays_shut() {
        let sealed = Sealed::close(&key("a"), What::MailPassword, "x").unwrap();
        let whole = BASE64.decode(sealed.0.as_bytes()).unwrap();
        for at in 0..whole.len() {
            let mut changed = whole.clone();
            changed[at] ^= 1;
            let changed = Sealed(BASE64.encode(&changed));
            assert_eq!(changed.open(&key("a"), What::MailPassword), None, "{at}");
        }
        for short in ["", "AAAA", "not base64"] {
            let short = Sealed(short.to_owned());
            assert_eq!(short.open(&key("a"), What::MailPassword), None);
        }
    }
}
