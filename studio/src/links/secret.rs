//! The secret of a link: derived from the link's id and a key that lies outside the record, so that the studio can
//! show it again while a copy of the record alone opens nothing.

use std::{fs, io::Write, path::Path};

use chrono::{DateTime, Utc};
use data_encoding::{BASE32_NOPAD, HEXLOWER_PERMISSIVE};
use hmac::{Hmac, KeyInit, Mac};
use sha2::{Digest, Sha256};
use uuid::Uuid;

use crate::{record::links::Link, security::random};

/// The key's file in the data folder. Whoever copies the record for safe keeping needs it too.
pub const KEY_FILE: &str = "link.key";
/// The environment's name for the key, 64 hexadecimal digits; it goes before the file.
pub const KEY_VARIABLE: &str = "BETWEENTIMES_LINK_KEY";

/// Characters of a secret: 26 of base32 are 130 bits. OWASP ASVS 5.0 7.2.3 asks for 128, W3C TAG's "Good Practices for
/// Capability URLs" for 120.
pub const LENGTH: usize = 26;

/// Why there is no key.
#[derive(Debug, thiserror::Error)]
pub enum KeyError {
    #[error("the link key {path} cannot be read or made: {source}")]
    File {
        path: String,
        source: std::io::Error,
    },
    #[error(
        "{place} does not hold a link key ({wanted}); put the right one back, or every link that was given out is lost"
    )]
    Malformed { place: String, wanted: &'static str },
    #[error(transparent)]
    Random(#[from] random::RandomError),
}

/// The key that every secret is derived from.
#[derive(Clone)]
pub struct LinkKey([u8; 32]);

/// What stands in a link: 26 characters of A–Z and 2–7. Not `Debug`: it must not slip into a log.
#[derive(Clone, PartialEq, Eq)]
pub struct Secret(String);

impl LinkKey {
    /// The key from the environment, else from the data folder, where it is made when it is not there.
    pub fn load(folder: &Path, from_environment: Option<&str>) -> Result<Self, KeyError> {
        if let Some(given) = from_environment {
            let bytes = HEXLOWER_PERMISSIVE
                .decode(given.trim().as_bytes())
                .ok()
                .and_then(|b| b.try_into().ok());
            return bytes.map(Self).ok_or(KeyError::Malformed {
                place: KEY_VARIABLE.to_owned(),
                wanted: "64 hexadecimal digits",
            });
        }
        let path = folder.join(KEY_FILE);
        let place = path.display().to_string();
        match fs::read(&path) {
            Ok(bytes) => bytes.try_into().map(Self).map_err(|_| KeyError::Malformed {
                place,
                wanted: "32 bytes",
            }),
            Err(e) if e.kind() == std::io::ErrorKind::NotFound => {
                let key = random::bytes()?;
                write_privately(&path, &key).map_err(|source| KeyError::File {
                    path: place,
                    source,
                })?;
                Ok(Self(key))
            }
            Err(source) => Err(KeyError::File {
                path: place,
                source,
            }),
        }
    }

    /// The secret of a link that may still be shown: not when it no longer opens anything, nor when this is not the
    /// key that it was made with (the key's file was lost and made anew).
    pub fn showable(&self, link: &Link, now: DateTime<Utc>) -> Option<Secret> {
        let secret = self.secret_of(link.id);
        (link.lives(now) && secret.hash() == link.secret_hash).then_some(secret)
    }

    /// The secret of a link: the first 130 bits of HMAC-SHA256(key, link id).
    pub fn secret_of(&self, link: Uuid) -> Secret {
        let mut text = BASE32_NOPAD.encode(&self.mac(link.as_bytes()));
        text.truncate(LENGTH);
        Secret(text)
    }

    /// Another key for another purpose: HMAC-SHA256(key, purpose). No purpose is as short as a link's id, so that none
    /// gives a link's secret away.
    pub fn for_purpose(&self, purpose: &'static str) -> [u8; 32] {
        debug_assert!(purpose.len() > 16);
        self.mac(purpose.as_bytes())
    }

    fn mac(&self, of: &[u8]) -> [u8; 32] {
        // `new` wants a key of the hash's block length; shorter ones are filled up with noughts (RFC 2104 section 2).
        let mut block = [0; 64];
        block[..32].copy_from_slice(&self.0);
        let mut mac = Hmac::<Sha256>::new(&block.into());
        mac.update(of);
        mac.finalize().into_bytes().into()
    }
}

impl Secret {
    /// Reads a secret from an address, in whichever case it was typed. `None` when it cannot be one.
    pub fn read(given: &str) -> Option<Self> {
        let text = given.to_ascii_uppercase();
        let spelt = text.len() == LENGTH
            && text
                .bytes()
                .all(|c| c.is_ascii_uppercase() || (b'2'..=b'7').contains(&c));
        spelt.then_some(Self(text))
    }

    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// What the record knows of it.
    pub fn hash(&self) -> [u8; 32] {
        Sha256::digest(self.0.as_bytes()).into()
    }
}

fn write_privately(path: &Path, bytes: &[u8]) -> std::io::Result<()> {
    let mut options = fs::OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    let mut file = options.open(path)?;
    file.write_all(bytes)?;
    // A link that was handed out must still open after a power cut.
    file.sync_all()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_secret_has_26_characters_of_a_to_z_and_2_to_7_and_is_the_same_each_time() {
        let key = LinkKey([7; 32]);
        let id = Uuid::from_u128(1);
        let secret = key.secret_of(id);
        assert!(Secret::read(secret.as_str()).unwrap() == secret);
        assert!(key.secret_of(id) == secret);
        assert!(key.secret_of(Uuid::from_u128(2)) != secret);
        assert!(LinkKey([8; 32]).secret_of(id) != secret);
    }

    /// RFC 4231 test case 2 has a short key, as ours is: the padding by hand must give the published MAC.
    #[test]
    fn the_mac_is_hmac_sha256() {
        let mut block = [0; 64];
        block[..4].copy_from_slice(b"Jefe");
        let mut mac = Hmac::<Sha256>::new(&block.into());
        mac.update(b"what do ya want for nothing?");
        assert_eq!(
            HEXLOWER_PERMISSIVE.encode(&mac.finalize().into_bytes()),
            "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843"
        );
    }

    #[test]
    fn what_cannot_be_a_secret_is_not_one() {
        assert!(Secret::read("").is_none());
        assert!(Secret::read(&"A".repeat(25)).is_none());
        assert!(Secret::read(&"A".repeat(27)).is_none());
        assert!(Secret::read(&format!("{}1", "A".repeat(25))).is_none());
        assert!(Secret::read(&format!("{}é", "A".repeat(24))).is_none());
        assert!(Secret::read(&"a".repeat(26)).is_some());
    }

    #[cfg(unix)]
    #[test]
    fn the_key_is_made_once_and_only_its_owner_reads_it() {
        use std::os::unix::fs::PermissionsExt;
        let folder = std::env::temp_dir().join(format!("betweentimes-key-{}", Uuid::new_v4()));
        fs::create_dir(&folder).unwrap();
        let first = LinkKey::load(&folder, None).unwrap();
        let second = LinkKey::load(&folder, None).unwrap();
        assert_eq!(first.0, second.0);
        assert_eq!(
            fs::metadata(folder.join(KEY_FILE))
                .unwrap()
                .permissions()
                .mode()
                & 0o777,
            0o600
        );
        fs::write(folder.join(KEY_FILE), b"short").unwrap();
        assert!(matches!(
            LinkKey::load(&folder, None),
            Err(KeyError::Malformed { .. })
        ));
        fs::remove_dir_all(folder).unwrap();
    }
}
