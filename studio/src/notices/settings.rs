//! How notices go out, as it is kept: one version each time it is changed.

use std::net::IpAddr;

use serde::{Deserialize, Serialize};

use super::{Way, seal::Sealed};

#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct NoticeSettings {
    /// `None` until it was set for the first time.
    pub mail: Option<MailSettings>,
    pub webhook: Option<WebhookSettings>,
}

impl NoticeSettings {
    /// The ways that are switched on.
    pub fn ways(&self) -> impl Iterator<Item = Way> + '_ {
        Way::ALL.into_iter().filter(|way| self.has(*way))
    }

    pub fn has(&self, way: Way) -> bool {
        match way {
            Way::Mail => self.mail.as_ref().is_some_and(|mail| mail.on),
            Way::Webhook => self.webhook.as_ref().is_some_and(|hook| hook.on),
        }
    }
}

/// The studio's own way to send mail.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct MailSettings {
    pub on: bool,
    pub host: String,
    pub port: u16,
    pub security: Security,
    /// Empty where the server asks for no sign-in.
    pub user: String,
    pub password: Option<Sealed>,
    pub from: String,
    /// One address, or several with commas between them.
    pub to: String,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct WebhookSettings {
    pub on: bool,
    pub address: String,
    pub secret: Sealed,
}

/// How the connection to the mail server is made safe.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Security {
    /// TLS from the first byte (RFC 8314 section 3.3).
    Tls,
    /// TLS once both sides have greeted each other; without it nothing is sent (RFC 3207).
    Starttls,
    /// None: only to a server on this very machine.
    Nothing,
}

impl Security {
    pub const ALL: [Self; 3] = [Self::Tls, Self::Starttls, Self::Nothing];

    pub const fn term(self) -> &'static str {
        match self {
            Self::Tls => "tls",
            Self::Starttls => "starttls",
            Self::Nothing => "nothing",
        }
    }
}

/// Whether a host is this machine, by its name or its address. A name that somebody may point elsewhere is not.
pub fn is_this_machine(host: &str) -> bool {
    let host = host.trim_start_matches('[').trim_end_matches(']');
    host.eq_ignore_ascii_case("localhost")
        || host.parse::<IpAddr>().is_ok_and(|ip| ip.is_loopback())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn this_machine_and_no_other() {
        for host in [
            "localhost",
            "LOCALHOST",
            "127.0.0.1",
            "127.9.9.9",
            "::1",
            "[::1]",
        ] {
            assert!(is_this_machine(host), "{host}");
        }
        for host in [
            "",
            "localhost.example",
            "127.0.0.1.example",
            "10.0.0.1",
            "192.168.1.1",
            "169.254.169.254",
            "0.0.0.0",
        ] {
            assert!(!is_this_machine(host), "{host}");
        }
    }
}
