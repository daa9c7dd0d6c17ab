//! Passwords: argon2id, at the least that OWASP's Password Storage Cheat Sheet asks for (19 MiB, two passes, one lane).

use std::sync::Arc;

use argon2::{
    Argon2,
    password_hash::{PasswordHasher, PasswordVerifier, phc::PasswordHash},
};
use tokio::sync::Semaphore;

/// Shortest password, in characters (NIST SP 800-63B-4 asks for at least 8 beside another factor and 15 alone; OWASP
/// ASVS 5.0 6.2.1 for 8, 15 recommended). Twelve is our own middle for a tablet's keyboard.
pub const SHORTEST: usize = 12;
/// Longest, so that nobody has us hash a book.
pub const LONGEST: usize = 256;

/// Hashing at one time: each takes 19 MiB and a core for some 20 ms.
const AT_ONCE: usize = 2;

/// Why a password could not be hashed or looked at.
#[derive(Debug, thiserror::Error)]
#[error("the password could not be hashed: {0}")]
pub struct PasswordError(String);

/// The place where passwords are hashed, off the threads that serve, a few at a time.
#[derive(Clone)]
pub struct Passwords {
    places: Arc<Semaphore>,
    /// Nobody's: looked at for unknown accounts, so that they take as long to answer as known ones.
    nobodys: Arc<str>,
}

impl Passwords {
    pub fn new() -> Result<Self, PasswordError> {
        Ok(Self {
            places: Arc::new(Semaphore::new(AT_ONCE)),
            nobodys: hash_now("nobody's password")?.into(),
        })
    }

    /// The PHC string to keep for a password.
    pub async fn hash(&self, password: String) -> Result<String, PasswordError> {
        self.off_thread(move || hash_now(&password)).await?
    }

    /// Whether this is the password; `kept` is `None` for an unknown account, which takes as long and is always wrong.
    pub async fn is_right(
        &self,
        password: String,
        kept: Option<String>,
    ) -> Result<bool, PasswordError> {
        let known = kept.is_some();
        let kept = kept.unwrap_or_else(|| self.nobodys.to_string());
        let matches = self
            .off_thread(move || {
                let kept = PasswordHash::new(&kept).map_err(|e| PasswordError(e.to_string()))?;
                Ok::<_, PasswordError>(
                    Argon2::default()
                        .verify_password(password.as_bytes(), &kept)
                        .is_ok(),
                )
            })
            .await??;
        Ok(matches && known)
    }

    async fn off_thread<T: Send + 'static>(
        &self,
        work: impl FnOnce() -> T + Send + 'static,
    ) -> Result<T, PasswordError> {
        let place = Arc::clone(&self.places)
            .acquire_owned()
            .await
            .map_err(|e| PasswordError(e.to_string()))?;
        tokio::task::spawn_blocking(move || {
            let _place = place;
            work()
        })
        .await
        .map_err(|e| PasswordError(e.to_string()))
    }
}

/// The default of the library is argon2id, 19 MiB, two passes, one lane.
pub fn hash_now(password: &str) -> Result<String, PasswordError> {
    Argon2::default()
        .hash_password(password.as_bytes())
        .map(|hash| hash.to_string())
        .map_err(|e| PasswordError(e.to_string()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hash_says_its_parameters() {
        assert!(
            hash_now("a long enough one")
                .unwrap()
                .starts_with("$argon2id$v=19$m=19456,t=2,p=1$")
        );
    }

    #[tokio::test]
    async fn right_wrong_and_unknown() {
        let passwords = Passwords::new().unwrap();
        let kept = passwords
            .hash("a long enough one".to_owned())
            .await
            .unwrap();
        assert!(
            passwords
                .is_right("a long enough one".to_owned(), Some(kept.clone()))
                .await
                .unwrap()
        );
        assert!(
            !passwords
                .is_right("a long enough two".to_owned(), Some(kept))
                .await
                .unwrap()
        );
        assert!(
            !passwords
                .is_right("nobody's password".to_owned(), None)
                .await
                .unwrap()
        );
    }
}
