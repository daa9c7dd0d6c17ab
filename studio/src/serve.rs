//! Starting the studio, and stopping it gracefully.

use std::{net::SocketAddr, sync::Arc, time::Duration};

use axum::{http::header::InvalidHeaderValue, serve::ListenerExt};
use chrono::Utc;
use content::{Content, ContentError};
use tokio::{net::TcpListener, sync::Notify};

use crate::{
    announce::{self, AnnounceError},
    data_folder::{DataFolder, FolderError},
    demo::{self, Demo, DemoError},
    links::{
        address::PublicUrl,
        secret::{KEY_VARIABLE, KeyError, LinkKey},
    },
    logging,
    notices::{outbox, pauses},
    options::ServeOptions,
    pages::kept::KeptPages,
    photos::{Photos, PhotosError},
    record::{Origin, Record, RecordError, artists},
    reload::{self, Current},
    security::{
        cookies::{LanguageCookie, SessionCookie},
        headers,
        passwords::{PasswordError, Passwords},
        random::{self, RandomError},
    },
    site::{Site, SiteError},
    state::{Shared, Studio},
};

/// Why the studio does not start, or stopped.
#[derive(Debug, thiserror::Error)]
pub enum ServeError {
    #[error(
        "{address} cannot be listened on ({source}): is another studio running? Choose another address with --listen"
    )]
    Listen {
        address: SocketAddr,
        source: std::io::Error,
    },
    #[error(
        "{0} is not https: what clients write about their health must not travel in the open. Give the https address of your reverse proxy with --public-url"
    )]
    NotHttps(PublicUrl),
    #[error(
        "listening on {0} says nothing about how clients reach the studio: give the address with --public-url"
    )]
    NoPublicUrl(SocketAddr),
    #[error("the content has mistakes:\n{0}")]
    Content(#[from] ContentError),
    #[error(transparent)]
    Site(#[from] SiteError),
    #[error(transparent)]
    Folder(#[from] FolderError),
    #[error(transparent)]
    Record(#[from] RecordError),
    #[error(transparent)]
    Photos(#[from] PhotosError),
    #[error(transparent)]
    Key(#[from] KeyError),
    #[error(transparent)]
    Demo(#[from] DemoError),
    #[error(transparent)]
    Password(#[from] PasswordError),
    #[error(transparent)]
    Random(#[from] RandomError),
    #[error("the security headers cannot be written: {0}")]
    Headers(#[from] InvalidHeaderValue),
    #[error(transparent)]
    Announce(#[from] AnnounceError),
    #[error("the server stopped: {0}")]
    Io(#[from] std::io::Error),
}

/// How long what is under way may take after the studio was told to stop.
const LAST_ANSWERS: Duration = Duration::from_secs(10);

/// Serves until told to stop.
pub fn run(options: ServeOptions) -> Result<(), ServeError> {
    logging::start();
    tokio::runtime::Runtime::new()?.block_on(serve(options))
}

async fn serve(options: ServeOptions) -> Result<(), ServeError> {
    let site = Site::read(&options.site)?;
    let content = options
        .content
        .as_deref()
        .map_or_else(Content::built_in, Content::from_folder)?;
    let listener =
        TcpListener::bind(options.listen)
            .await
            .map_err(|source| ServeError::Listen {
                address: options.listen,
                source,
            })?;
    let address = listener.local_addr()?;
    let public_url = public_url(&options, address)?;
    let folder = DataFolder::take(&options.data)?;
    let link_key = LinkKey::load(&folder.path, std::env::var(KEY_VARIABLE).ok().as_deref())?;
    let (record, demo) = open_record(&options, &folder, &content, &link_key)?;
    let origin = demo.as_ref().map_or(Origin::Real, |_| Origin::Demo);
    let photos = Arc::new(Photos::open(&folder.path, &record, origin)?);
    let set_up_code = if record.read(artists::any)? {
        None
    } else {
        Some(random::typed_code()?)
    };

    let studio: Shared = Arc::new(Studio {
        cookie: SessionCookie::new(public_url.is_https()),
        language_cookie: LanguageCookie::new(public_url.is_https()),
        security_headers: Arc::new(headers::headers(
            &site.client_style_hash,
            public_url.is_https(),
        )?),
        behind_proxy: options.behind_proxy,
        limits: Arc::default(),
        kept_pages: KeptPages::default(),
        live: Arc::default(),
        passwords: Passwords::new()?,
        photos,
        record,
        content,
        site: Arc::new(site),
        link_key,
        public_url,
        set_up_code,
    });
    let stop_asked = told_to_stop();
    let current = Current::serving(studio.clone());
    reload::when_told(options.content.clone(), current.clone());
    outbox::start(
        &current,
        pauses::Pauses {
            first: options
                .notice_pause_ms
                .map_or(pauses::FIRST, Duration::from_millis),
        },
    );
    announce::announce(
        &studio,
        address,
        demo.as_ref(),
        options.links_json.as_deref(),
    )?;

    // Without it the second packet of an answer waits some 40 ms for the first to be acknowledged.
    let listener = listener.tap_io(|connection| {
        if let Err(error) = connection.set_nodelay(true) {
            tracing::debug!(%error, "TCP_NODELAY could not be set");
        }
    });
    let service = current
        .routes()
        .into_make_service_with_connect_info::<SocketAddr>();
    let stopping = Arc::new(Notify::new());
    let told = {
        let (stopping, live) = (stopping.clone(), studio.live.clone());
        async move {
            stop_asked.await;
            live.end();
            stopping.notify_one();
        }
    };
    let serving = axum::serve(listener, service).with_graceful_shutdown(told);
    tokio::select! {
        served = serving => served?,
        () = async { stopping.notified().await; tokio::time::sleep(LAST_ANSWERS).await } => {
            tracing::warn!("stopped before every connection had ended");
        }
    }
    tracing::info!("stopped");
    drop(folder);
    Ok(())
}

fn public_url(options: &ServeOptions, address: SocketAddr) -> Result<PublicUrl, ServeError> {
    let url = match &options.public_url {
        Some(url) => url.clone(),
        None if address.ip().is_unspecified() => return Err(ServeError::NoPublicUrl(address)),
        None => PublicUrl::of_listener(address),
    };
    if url.is_https() || url.is_loopback() || options.demo {
        Ok(url)
    } else {
        Err(ServeError::NotHttps(url))
    }
}

/// Opens the record; a demo's is thrown away and made anew, so that its times are always fresh.
fn open_record(
    options: &ServeOptions,
    folder: &DataFolder,
    content: &Content,
    key: &LinkKey,
) -> Result<(Record, Option<Demo>), ServeError> {
    let now = Utc::now();
    if !options.demo {
        return Ok((Record::open(&folder.path, Origin::Real, now)?, None));
    }
    drop(Record::open(&folder.path, Origin::Demo, now)?);
    folder.forget_record(Origin::Demo)?;
    let record = Record::open(&folder.path, Origin::Demo, now)?;
    let demo = demo::make(&record, content, key, now)?;
    Ok((record, Some(demo)))
}

/// Ctrl-C, or the service manager's SIGTERM. What is under way is finished first. Listens from the call on, so that a stop
/// asked for as soon as the address is known is a stop like any other.
#[cfg(unix)]
fn told_to_stop() -> impl Future<Output = ()> {
    use tokio::signal::unix::{SignalKind, signal};
    let listening = [SignalKind::interrupt(), SignalKind::terminate()].map(signal);
    async move {
        let [interrupt, terminate] = listening;
        tokio::select! {
            () = told(interrupt) => {}
            () = told(terminate) => {}
        }
    }
}

/// A signal that could not be listened for never comes.
#[cfg(unix)]
async fn told(signal: std::io::Result<tokio::signal::unix::Signal>) {
    match signal {
        Ok(mut signal) => {
            signal.recv().await;
        }
        Err(_) => std::future::pending().await,
    }
}

/// Ctrl-C. What is under way is finished first.
#[cfg(not(unix))]
async fn told_to_stop() {
    if tokio::signal::ctrl_c().await.is_err() {
        std::future::pending::<()>().await;
    }
}
