//! Told at once: a notice that a report needs somebody, by e-mail and by webhook. It says that, how urgent it is, and where
//! to look: never who wrote it, nor anything about health. What has to go out is in the record (`record/notices`), so that a
//! stop of the studio or of the other side loses nothing.

pub mod fault;
pub mod mail;
pub mod outbox;
pub mod pauses;
pub mod seal;
pub mod settings;
pub mod signature;
pub mod text;
pub mod webhook;

use std::fmt;

/// A way by which notices go out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    Mail,
    Webhook,
}

impl Way {
    pub const ALL: [Self; 2] = [Self::Mail, Self::Webhook];

    pub const fn term(self) -> &'static str {
        match self {
            Self::Mail => "mail",
            Self::Webhook => "webhook",
        }
    }
}

impl fmt::Display for Way {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.term())
    }
}
