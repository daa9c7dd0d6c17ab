//! Where a journey takes place: a studio, the network that leads to it, and browsers on both sides.

use std::path::Path;

use tests::{
    begin,
    browser::{Browser, Engine, Opening, Outcome, PHONE, TABLET},
    network::Network,
    server::{Home, Server},
};
use tokio::sync::{Semaphore, SemaphorePermit};

/// Two browsers at once are as many as a small machine can carry.
static SEATS: Semaphore = Semaphore::const_new(2);

/// Waits until so many browsers may be opened; they may for as long as the answer is kept.
pub async fn seats(browsers: u32) -> SemaphorePermit<'static> {
    SEATS
        .acquire_many(browsers)
        .await
        .expect("the seats are never taken away")
}

/// A studio whose links lead its clients through a network of their own. The artist is in the house and goes to the
/// server itself.
pub struct Scene {
    pub server: Server,
    pub network: Network,
}

impl Scene {
    /// The demo studio.
    pub async fn demo() -> Outcome<Self> {
        Self::open(&["--demo"]).await
    }

    /// A studio that has not been set up.
    pub async fn empty() -> Outcome<Self> {
        Self::open(&[]).await
    }

    pub async fn open(options: &[&str]) -> Outcome<Self> {
        let network = Network::open().await?;
        let public = format!("http://{}", network.address());
        let options = [options, &["--public-url", &public]].concat();
        let server = Server::start(&Home::new(), &options);
        network.lead_to(server.address.trim_start_matches("http://").parse()?);
        Ok(Self { server, network })
    }

    /// A studio with one visit, whose record outlives its server; with the address of the client's page.
    pub async fn kept() -> Outcome<(Self, String)> {
        let network = Network::open().await?;
        let public = format!("http://{}", network.address());
        let home = Home::new();
        let (server, link) = tokio::task::spawn_blocking(move || {
            let server = Server::start(&home, &["--public-url", &public]);
            let link = begin::visit(&begin::begin(&server));
            (server, link)
        })
        .await?;
        network.lead_to(server.address.trim_start_matches("http://").parse()?);
        let address = format!("http://{}{link}", network.address());
        Ok((Self { server, network }, address))
    }

    /// The server dies, and another takes its place over the same record.
    pub async fn die_and_come_back(self) -> Outcome<Self> {
        let Self { server, network } = self;
        let public = format!("http://{}", network.address());
        let home = server.home.clone();
        server.kill();
        let server = Server::start(&home, &["--public-url", &public]);
        network.lead_to(server.address.trim_start_matches("http://").parse()?);
        Ok(Self { server, network })
    }

    /// The number of rows that a query about the record counts.
    pub fn count(&self, query: &str) -> Outcome<i64> {
        Ok(self
            .server
            .home
            .record()
            .query_row(query, [], |row| row.get(0))?)
    }
}

pub async fn phone(javascript: bool) -> Outcome<Browser> {
    phone_with(Engine::Chromium, javascript).await
}

pub async fn phone_with(engine: Engine, javascript: bool) -> Outcome<Browser> {
    Browser::open(Opening {
        engine,
        screen: PHONE,
        javascript,
        ..Opening::default()
    })
    .await
}

pub async fn tablet_with(engine: Engine, javascript: bool) -> Outcome<Browser> {
    Browser::open(Opening {
        engine,
        screen: TABLET,
        javascript,
        ..Opening::default()
    })
    .await
}

/// A phone that keeps what it stores in this folder, so that its browser can be closed and opened again.
pub async fn kept_phone(storage: &Path) -> Outcome<Browser> {
    kept_phone_with(Engine::Chromium, storage).await
}

pub async fn kept_phone_with(engine: Engine, storage: &Path) -> Outcome<Browser> {
    Browser::open(Opening {
        engine,
        profile: Some(storage.to_owned()),
        ..Opening::default()
    })
    .await
}
