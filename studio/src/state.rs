//! What every handler can reach, and the instant of a request.

use std::sync::Arc;

use axum::{
    extract::FromRequestParts,
    http::{HeaderMap, request::Parts},
};
use chrono::{DateTime, Utc};
use content::Content;
use shared_types::{
    page::client::{EmergencyNumber, StudioCard},
    words::Words,
};

use crate::{
    error::Refusal,
    language::Wanted,
    links::{
        address::PublicUrl,
        qr,
        secret::{LinkKey, Secret},
    },
    live::Live,
    pages::kept::KeptPages,
    photos::Photos,
    record::{Record, studio::Particulars},
    security::{
        cookies::{LanguageCookie, SessionCookie},
        headers::SecurityHeaders,
        limits::Limits,
        passwords::Passwords,
    },
    site::Site,
};

/// The running studio.
pub struct Studio {
    pub record: Record,
    pub content: Content,
    pub site: Arc<Site>,
    pub link_key: LinkKey,
    pub public_url: PublicUrl,
    /// Whether a reverse proxy of ours writes `X-Forwarded-For`.
    pub behind_proxy: bool,
    pub cookie: SessionCookie,
    pub language_cookie: LanguageCookie,
    pub security_headers: Arc<SecurityHeaders>,
    pub limits: Arc<Limits>,
    pub passwords: Passwords,
    pub photos: Arc<Photos>,
    pub kept_pages: KeptPages,
    pub live: Arc<Live>,
    /// Printed at the first start; proves that whoever sets the studio up is the one who started it.
    pub set_up_code: Option<String>,
}

pub type Shared = Arc<Studio>;

/// The language of a studio that has not been set up yet, and what stands in for one that the content has lost.
pub const FIRST_LANGUAGE: &str = "en";

impl Studio {
    /// The same studio with other content. Pages that were kept said what the old one says.
    pub fn with_content(&self, content: Content) -> Self {
        Self {
            content,
            kept_pages: KeptPages::default(),
            record: self.record.clone(),
            site: self.site.clone(),
            link_key: self.link_key.clone(),
            public_url: self.public_url.clone(),
            behind_proxy: self.behind_proxy,
            cookie: self.cookie,
            language_cookie: self.language_cookie,
            security_headers: self.security_headers.clone(),
            limits: self.limits.clone(),
            passwords: self.passwords.clone(),
            live: self.live.clone(),
            photos: self.photos.clone(),
            set_up_code: self.set_up_code.clone(),
        }
    }

    /// The words of a language, else those of [`FIRST_LANGUAGE`]; with them the language they are in.
    pub fn words<'a>(&'a self, language: &'a str) -> (&'a str, &'a Words) {
        static NONE: Words = Words::none();
        match self.content.languages.get(language) {
            Some(words) => (language, words),
            None => (
                FIRST_LANGUAGE,
                self.content.languages.get(FIRST_LANGUAGE).unwrap_or(&NONE),
            ),
        }
    }

    /// The languages that whoever sent these headers would like.
    pub fn wanted(&self, headers: &HeaderMap) -> Wanted {
        Wanted::of(self.language_cookie.read(headers), headers)
    }

    /// The emergency number where the studio is. The content is checked for having one for every region and language;
    /// should it be missing all the same, 112 is what mobile networks nearly everywhere put through (3GPP TS 22.101
    /// section 10.1.1).
    pub fn emergency(&self, region: &str, language: &str) -> EmergencyNumber {
        let everywhere = || EmergencyNumber {
            text: "112".to_owned(),
            dial: "112".to_owned(),
            rinse_minutes: self.content.rinse_minutes(),
        };
        self.content
            .emergency(region, language)
            .unwrap_or_else(everywhere)
    }

    /// What a language calls itself; its tag when the content has lost it.
    pub fn language_name<'a>(&'a self, tag: &'a str) -> &'a str {
        let words = self.content.languages.get(tag);
        words.map_or(tag, |words| words.say("language.name"))
    }

    /// Whom a client turns to, in a language; `artist` did what the page is about.
    pub fn card(&self, particulars: &Particulars, artist: &str, language: &str) -> StudioCard {
        StudioCard {
            name: particulars.name.clone(),
            artist: artist.to_owned(),
            phone: particulars.phone.clone(),
            email: particulars.contact_email.clone(),
            emergency: self.emergency(&particulars.region, language),
        }
    }

    /// The code to scan for a link, as SVG.
    pub fn code(&self, secret: &Secret) -> Result<String, Refusal> {
        qr::svg(&self.public_url.link_to_scan(secret)).map_err(|error| {
            tracing::error!(%error, "the code could not be drawn");
            Refusal::Broken
        })
    }

    /// The words of the studio's own language.
    pub fn own_words<'a>(&'a self, particulars: Option<&'a Particulars>) -> (&'a str, &'a Words) {
        self.words(particulars.map_or(FIRST_LANGUAGE, |studio| &studio.language))
    }

    /// The words of the language that somebody would like, else those of the studio's own.
    pub fn words_wanted<'a>(
        &'a self,
        wanted: &Wanted,
        particulars: Option<&'a Particulars>,
    ) -> (&'a str, &'a Words) {
        let offered = self.content.languages.keys().map(String::as_str);
        match wanted.among(offered) {
            Some(language) => self.words(language),
            None => self.own_words(particulars),
        }
    }
}

/// The instant at which a request arrived: one for the whole of its handling.
#[derive(Clone, Copy, Debug)]
pub struct Now(pub DateTime<Utc>);

impl Now {
    /// As noted by [`crate::logging`], else this moment.
    pub fn of(parts: &Parts) -> Self {
        parts
            .extensions
            .get::<Now>()
            .copied()
            .unwrap_or_else(|| Now(Utc::now()))
    }
}

impl<S: Sync> FromRequestParts<S> for Now {
    type Rejection = std::convert::Infallible;

    async fn from_request_parts(parts: &mut Parts, _: &S) -> Result<Self, Self::Rejection> {
        Ok(Now::of(parts))
    }
}
