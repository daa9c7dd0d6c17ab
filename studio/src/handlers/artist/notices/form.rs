//! The form that sets how the studio is told at once.

use shared_types::page::form::Filled;

use super::super::check::Check;
use crate::{
    error::Refusal,
    notices::{
        mail,
        seal::{SealError, Sealed, What},
        settings::{MailSettings, NoticeSettings, Security, WebhookSettings, is_this_machine},
        webhook,
    },
    pages,
    state::Studio,
};

pub const FIELDS: &[&str] = &[
    "mail",
    "host",
    "port",
    "security",
    "user",
    "password",
    "from",
    "to",
    "webhook",
    "address",
    "secret",
    "new_secret",
];

/// Characters.
const HOST: usize = 253;
const LINE: usize = 200;
const ADDRESS: usize = 1000;
const SECRET: std::ops::RangeInclusive<usize> = 32..=128;

/// The form of what is set, without what is kept sealed.
pub fn filled(settings: &NoticeSettings) -> Filled {
    let mut form = Filled::default();
    match &settings.mail {
        Some(mail) => {
            if mail.on {
                form.put("mail", "yes");
            }
            form.put("host", &mail.host);
            form.put("port", mail.port.to_string());
            form.put("security", mail.security.term());
            form.put("user", &mail.user);
            form.put("from", &mail.from);
            form.put("to", &mail.to);
        }
        None => form.put("security", Security::Tls.term()),
    }
    if let Some(hook) = &settings.webhook {
        if hook.on {
            form.put("webhook", "yes");
        }
        form.put("address", &hook.address);
    }
    form
}

/// Field and sentence, for each that needs mending.
pub type Faults = Vec<(String, String)>;

/// What the form sets, or what needs mending in it. A way that is switched off stays as it was.
pub fn read(
    studio: &Studio,
    form: &Filled,
    before: NoticeSettings,
) -> Result<Result<NoticeSettings, Faults>, Refusal> {
    let particulars = pages::artist::particulars(studio)?;
    let mut check = Check::new(form, studio.words(&particulars.language).1);
    let mail = if form.has("mail", "yes") {
        read_mail(studio, form, &mut check, before.mail.as_ref())?
    } else {
        before.mail.map(|mail| MailSettings { on: false, ..mail })
    };
    let webhook = if form.has("webhook", "yes") {
        read_webhook(studio, form, &mut check, before.webhook)?
    } else {
        let off = |hook| WebhookSettings { on: false, ..hook };
        before.webhook.map(off)
    };
    let faults = check.faults();
    Ok(if faults.is_empty() {
        Ok(NoticeSettings { mail, webhook })
    } else {
        Err(faults)
    })
}

fn read_mail(
    studio: &Studio,
    form: &Filled,
    check: &mut Check<'_>,
    before: Option<&MailSettings>,
) -> Result<Option<MailSettings>, Refusal> {
    let host = check.needed("host", HOST);
    let is_name = |c: char| c.is_ascii_alphanumeric() || ".-:[]".contains(c);
    if !host.is_empty() && !host.chars().all(is_name) {
        check.fault("host", "fault.notice_host", &[]);
    }
    let port = check.needed("port", 5).parse().unwrap_or(0_u16);
    if port == 0 {
        check.fault("port", "fault.notice_port", &[]);
    }
    let chosen = Security::ALL
        .into_iter()
        .find(|one| one.term() == form.value("security"));
    match chosen {
        None => check.fault("security", "fault.unknown_choice", &[]),
        Some(Security::Nothing) if !is_this_machine(&host) => {
            check.fault("security", "fault.notice_security", &[]);
        }
        Some(_) => {}
    }
    let security = chosen.unwrap_or(Security::Tls);
    let user = check.text("user", LINE);
    let from = check.needed("from", LINE);
    if mail::addresses(&from).is_none_or(|all| all.iter().count() != 1) {
        check.fault("from", "fault.email", &[]);
    }
    let to = check.needed("to", LINE);
    if mail::addresses(&to).is_none() {
        check.fault("to", "fault.notice_to", &[]);
    }
    let typed = form.value("password");
    let kept = before.and_then(|before| {
        // A password goes to nobody else than for whom it was typed.
        let same = (&before.host, before.port, before.security, &before.user)
            == (&host, port, security, &user);
        before.password.clone().filter(|_| same)
    });
    let password = if user.is_empty() {
        None
    } else if !typed.is_empty() {
        if typed.chars().count() > LINE {
            check.fault("password", "fault.too_long", &[("max", &LINE.to_string())]);
        }
        Some(seal(studio, What::MailPassword, typed)?)
    } else {
        if kept.is_none() {
            check.fault("password", "fault.notice_password", &[]);
        }
        kept
    };
    Ok(Some(MailSettings {
        on: true,
        host,
        port,
        security,
        user,
        password,
        from,
        to,
    }))
}

fn read_webhook(
    studio: &Studio,
    form: &Filled,
    check: &mut Check<'_>,
    before: Option<WebhookSettings>,
) -> Result<Option<WebhookSettings>, Refusal> {
    let address = check.needed("address", ADDRESS);
    if webhook::address(&address).is_none() {
        check.fault("address", "fault.notice_address", &[]);
    }
    let kept = before
        .map(|before| before.secret)
        .filter(|_| !form.has("new_secret", "yes"));
    let secret = match kept {
        Some(secret) => secret,
        None => {
            let offered = form.value("secret");
            let whole = offered.bytes().all(|byte| byte.is_ascii_graphic());
            if !(whole && SECRET.contains(&offered.len())) {
                check.fault("secret", "fault.notice_secret", &[]);
            }
            seal(studio, What::WebhookSecret, offered)?
        }
    };
    Ok(Some(WebhookSettings {
        on: true,
        address,
        secret,
    }))
}

fn seal(studio: &Studio, what: What, text: &str) -> Result<Sealed, Refusal> {
    Sealed::close(&studio.link_key, what, text).map_err(|error: SealError| {
        tracing::error!(%error, "a password or secret could not be sealed");
        Refusal::Broken
    })
}
