//! A notice by e-mail, through the studio's own mail server: the same letter to each address, sent one by one, so that an
//! address that is not taken keeps nobody else from being told.

use std::{error::Error as _, time::Duration};

use chrono::{DateTime, Utc};
use lettre::{
    Address, AsyncSmtpTransport, AsyncTransport, Message, Tokio1Executor,
    address::Envelope,
    message::{
        Mailbox, Mailboxes, SinglePart,
        header::{HeaderName, HeaderValue},
    },
    transport::smtp::{self, authentication::Credentials, client::Tls, client::TlsParameters},
};
use uuid::Uuid;

use super::{
    fault::{Fault, Kind},
    seal::What,
    settings::{MailSettings, Security, is_this_machine},
    text::Text,
    webhook::is_about_tls,
};
use crate::links::secret::LinkKey;

/// How long the other side may take for each step.
const PATIENCE: Duration = Duration::from_secs(10);

/// A notice, ready to go out.
pub struct Letter {
    raw: Vec<u8>,
    envelope: Envelope,
    transport: AsyncSmtpTransport<Tokio1Executor>,
}

impl Letter {
    pub fn of(
        settings: &MailSettings,
        key: &LinkKey,
        id: Uuid,
        text: &Text,
        now: DateTime<Utc>,
    ) -> Result<Self, Fault> {
        let message = message(settings, id, text, now)?;
        Ok(Self {
            raw: message.formatted(),
            envelope: message.envelope().clone(),
            transport: transport(settings, key)?,
        })
    }

    /// To whom it goes.
    pub fn addresses(&self) -> &[Address] {
        self.envelope.to()
    }

    /// Sends it to one of them; returns when the other side has taken it.
    pub async fn send_to(&self, address: &Address) -> Result<(), Fault> {
        let from = self.envelope.from().cloned();
        let envelope = Envelope::new(from, vec![address.clone()])
            .map_err(|error| Fault::of(Kind::Settings, &error))?;
        let sent = self.transport.send_raw(&envelope, &self.raw).await;
        let several = self.addresses().len() > 1;
        sent.map(|_| ()).map_err(|error| match fault(&error) {
            // Which of them is to be mended.
            fault if several && fault.kind.is_about_an_address() => {
                Fault::new(fault.kind, format_args!("{address}: {}", fault.detail))
            }
            fault => fault,
        })
    }
}

/// The addresses of a field; `None` when one of them is none.
pub fn addresses(field: &str) -> Option<Mailboxes> {
    let all: Mailboxes = field.parse().ok()?;
    all.iter().next().is_some().then_some(all)
}

fn message(
    settings: &MailSettings,
    id: Uuid,
    text: &Text,
    now: DateTime<Utc>,
) -> Result<Message, Fault> {
    let unusable = |what: &str| Fault::new(Kind::Settings, what);
    let from: Mailbox = settings
        .from
        .parse()
        .map_err(|_| unusable(&settings.from))?;
    let to = addresses(&settings.to).ok_or_else(|| unusable(&settings.to))?;
    // The same each time that it is tried: whoever gets it twice can tell.
    let message_id = format!("<{id}@{}>", from.email.domain());
    let mut message = Message::builder()
        .message_id(Some(message_id))
        .date(now.into())
        .from(from)
        .subject(&text.subject)
        // Nobody's absence is to be answered (RFC 3834 section 5).
        .raw_header(HeaderValue::new(
            HeaderName::new_from_ascii_str("Auto-Submitted"),
            "auto-generated".to_owned(),
        ));
    for one in to {
        message = message.to(one);
    }
    message
        .singlepart(SinglePart::plain(text.body.clone()))
        .map_err(|error| Fault::of(Kind::Settings, &error))
}

fn transport(
    settings: &MailSettings,
    key: &LinkKey,
) -> Result<AsyncSmtpTransport<Tokio1Executor>, Fault> {
    let host = settings.host.as_str();
    let tls =
        || TlsParameters::new(host.to_owned()).map_err(|error| Fault::of(Kind::NotSecure, &error));
    let tls = match settings.security {
        Security::Tls => Tls::Wrapper(tls()?),
        Security::Starttls => Tls::Required(tls()?),
        Security::Nothing if is_this_machine(host) => Tls::None,
        Security::Nothing => return Err(Fault::new(Kind::NotSecure, host)),
    };
    let mut builder = AsyncSmtpTransport::<Tokio1Executor>::builder_dangerous(host)
        .port(settings.port)
        .tls(tls)
        .timeout(Some(PATIENCE));
    if !settings.user.is_empty() {
        let password = match &settings.password {
            Some(sealed) => sealed
                .open(key, What::MailPassword)
                .ok_or_else(|| Fault::new(Kind::KeyLost, ""))?,
            None => String::new(),
        };
        builder = builder.credentials(Credentials::new(settings.user.clone(), password));
    }
    Ok(builder.build())
}

fn fault(error: &smtp::Error) -> Fault {
    // 530, 534, 535, 538: about signing in (RFC 4954 section 6).
    let about_sign_in = error
        .status()
        .is_some_and(|code| matches!(u16::from(code), 530 | 534 | 535 | 538));
    let kind = if error.is_timeout() {
        Kind::TooSlow
    } else if error.is_tls() || error.source().is_some_and(is_about_tls) {
        Kind::NotSecure
    } else if about_sign_in {
        Kind::SignIn
    } else if error.is_permanent() || error.is_transient() {
        Kind::Refused
    } else if error.is_client() {
        // Our side found that the server does not offer what is set.
        if error.to_string().contains("STARTTLS") {
            Kind::NotSecure
        } else {
            Kind::Settings
        }
    } else {
        Kind::NoConnection
    };
    Fault::of(kind, error)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn addresses_of_a_field() {
        let count = |field: &str| addresses(field).map(|all| all.iter().count());
        assert_eq!(count("ilse@tamsel.example"), Some(1));
        assert_eq!(
            count("ilse@tamsel.example, Mo <mo@tamsel.example>"),
            Some(2)
        );
        for field in [
            "",
            "ilse",
            "ilse@tamsel.example, mo",
            "a@b.example\r\nBcc: c@d.example",
        ] {
            assert_eq!(count(field), None, "{field}");
        }
    }
}
