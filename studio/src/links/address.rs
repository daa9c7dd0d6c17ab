//! Where the studio is reached from outside, and how a link is written.

use std::{fmt, str::FromStr};

use super::secret::Secret;

/// Why an address cannot be the studio's.
#[derive(Debug, thiserror::Error)]
pub enum AddressError {
    #[error(
        "`{0}` is not an address such as https://studio.example: give scheme and host, no path"
    )]
    Malformed(String),
}

/// The studio's public address: scheme, host and port, in lower case, without a path.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PublicUrl {
    https: bool,
    /// Host, with the port when there is one.
    authority: String,
}

impl FromStr for PublicUrl {
    type Err = AddressError;

    fn from_str(given: &str) -> Result<Self, AddressError> {
        let malformed = || AddressError::Malformed(given.to_owned());
        let uri: axum::http::Uri = given.parse().map_err(|_| malformed())?;
        let https = match uri.scheme_str() {
            Some("https") => true,
            Some("http") => false,
            _ => return Err(malformed()),
        };
        let authority = uri
            .authority()
            .ok_or_else(malformed)?
            .as_str()
            .to_ascii_lowercase();
        let bare =
            uri.query().is_none() && matches!(uri.path(), "" | "/") && !authority.contains('@');
        if bare {
            Ok(Self { https, authority })
        } else {
            Err(malformed())
        }
    }
}

impl PublicUrl {
    /// The address of a listener on this machine.
    pub fn of_listener(address: std::net::SocketAddr) -> Self {
        Self {
            https: false,
            authority: address.to_string(),
        }
    }

    pub fn is_https(&self) -> bool {
        self.https
    }

    pub fn authority(&self) -> &str {
        &self.authority
    }

    /// Whether only this machine can reach it.
    pub fn is_loopback(&self) -> bool {
        let host = match self.authority.rsplit_once(':') {
            Some((host, port)) if port.bytes().all(|c| c.is_ascii_digit()) => host,
            _ => &self.authority,
        };
        let host = host.trim_start_matches('[').trim_end_matches(']');
        host == "localhost"
            || host
                .parse::<std::net::IpAddr>()
                .is_ok_and(|ip| ip.is_loopback())
    }

    /// The link to copy and to send.
    pub fn link(&self, secret: &Secret) -> String {
        format!("{self}{}", path(secret))
    }

    /// The link as the code holds it: upper case throughout, which keeps the code in its alphanumeric mode and so
    /// smaller. Scheme and host do not care for case (RFC 3986 section 3.1 and 3.2.2), and the path is upper case.
    pub fn link_to_scan(&self, secret: &Secret) -> String {
        self.link(secret).to_ascii_uppercase()
    }
}

impl fmt::Display for PublicUrl {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "http{}://{}",
            if self.https { "s" } else { "" },
            self.authority
        )
    }
}

/// The path of a client's page.
pub fn path(secret: &Secret) -> String {
    format!("/MY/{}", secret.as_str())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn addresses_are_scheme_host_and_port() {
        for (given, written) in [
            ("https://Studio.Example", "https://studio.example"),
            ("https://studio.example/", "https://studio.example"),
            ("http://127.0.0.1:4180", "http://127.0.0.1:4180"),
        ] {
            assert_eq!(given.parse::<PublicUrl>().unwrap().to_string(), written);
        }
        for wrong in [
            "studio.example",
            "ftp://studio.example",
            "https://studio.example/path",
            "https://a@b",
            "",
        ] {
            assert!(wrong.parse::<PublicUrl>().is_err(), "{wrong}");
        }
    }

    #[test]
    fn loopback_is_known() {
        for (given, is) in [
            ("http://127.0.0.1:4180", true),
            ("http://localhost", true),
            ("http://[::1]:80", true),
            ("http://192.168.1.5:4180", false),
            ("http://localhost.example", false),
        ] {
            assert_eq!(
                given.parse::<PublicUrl>().unwrap().is_loopback(),
                is,
                "{given}"
            );
        }
    }
}
