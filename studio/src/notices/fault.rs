//! Why a notice did not go out.

/// What kind of thing went wrong; the sentence is `artist.notices.fault.<term>`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Nobody answers at that address.
    NoConnection,
    TooSlow,
    /// The connection could not be made safe.
    NotSecure,
    /// User or password were not taken.
    SignIn,
    /// The other side answered, and does not take it.
    Refused,
    /// The other side sends us on to another address, where a notice does not follow.
    Redirected,
    /// The password or the secret cannot be opened: the key that sealed it is not here any more.
    KeyLost,
    /// Something that is set cannot be used.
    Settings,
}

impl Kind {
    pub const ALL: [Self; 8] = [
        Self::NoConnection,
        Self::TooSlow,
        Self::NotSecure,
        Self::SignIn,
        Self::Refused,
        Self::Redirected,
        Self::KeyLost,
        Self::Settings,
    ];

    /// Whether it may be so for one address and not for the next; everything else that is set is the same for all.
    pub const fn is_about_an_address(self) -> bool {
        matches!(self, Self::NoConnection | Self::TooSlow | Self::Refused)
    }

    pub const fn term(self) -> &'static str {
        match self {
            Self::NoConnection => "no_connection",
            Self::TooSlow => "too_slow",
            Self::NotSecure => "not_secure",
            Self::SignIn => "sign_in",
            Self::Refused => "refused",
            Self::Redirected => "redirected",
            Self::KeyLost => "key_lost",
            Self::Settings => "settings",
        }
    }
}

/// What went wrong, and the other side's or the system's own words for it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    pub kind: Kind,
    pub detail: String,
}

/// Characters of a detail that are kept.
const LONGEST: usize = 300;

impl Fault {
    pub fn new(kind: Kind, detail: impl std::fmt::Display) -> Self {
        let detail = detail.to_string();
        let line = detail.split_whitespace().collect::<Vec<_>>().join(" ");
        Self {
            kind,
            detail: line.chars().take(LONGEST).collect(),
        }
    }

    /// With everything that an error says it came from.
    pub fn of(kind: Kind, error: &dyn std::error::Error) -> Self {
        let mut said = error.to_string();
        let mut inner = error.source();
        while let Some(error) = inner {
            let more = error.to_string();
            if !said.contains(&more) {
                said = format!("{said}: {more}");
            }
            inner = error.source();
        }
        Self::new(kind, said)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_has_a_sentence_in_every_language() {
        let content = content::Content::built_in().unwrap();
        for (tag, words) in &content.languages {
            for kind in Kind::ALL {
                let key = format!("artist.notices.fault.{}", kind.term());
                assert_ne!(words.say(&key), key, "{tag}");
            }
        }
    }

    #[test]
    fn a_detail_is_one_line_and_not_endless() {
        let fault = Fault::new(Kind::Refused, format!("a\r\n b {}", "x".repeat(1000)));
        assert!(fault.detail.starts_with("a b x"));
        assert_eq!(fault.detail.chars().count(), LONGEST);
    }
}
