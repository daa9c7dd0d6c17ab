//! The way between a browser and a server, which a test can cut, stall, mend and watch: a plain TCP relay on this
//! machine.

use std::{
    net::SocketAddr,
    sync::{Arc, Mutex, PoisonError},
    time::Duration,
};

use tokio::{
    io::{AsyncRead, AsyncReadExt, AsyncWrite, AsyncWriteExt, copy, sink},
    net::{TcpListener, TcpStream},
    sync::watch,
};

use crate::traffic::{Reader, Seen};

/// What the relay does with connections.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weather {
    /// Passes everything on.
    Fine,
    /// Drops what is open and refuses what is new: no network.
    Cut,
    /// Takes connections and never answers: the salon's wifi at its worst.
    Stalled,
    /// Answers everything with 500, and asks the server nothing.
    Failing,
    /// Carries what is asked to the server, and loses what it answers.
    AnswersLost,
}

/// A relay to one server.
pub struct Network {
    address: SocketAddr,
    weather: Arc<watch::Sender<Weather>>,
    target: Arc<watch::Sender<Option<SocketAddr>>>,
    seen: Arc<Mutex<Vec<Seen>>>,
}

impl Network {
    /// Opens the relay on a free port; connections are refused until [`Network::lead_to`] names a server.
    pub async fn open() -> std::io::Result<Self> {
        let listener = TcpListener::bind("127.0.0.1:0").await?;
        let address = listener.local_addr()?;
        let weather = Arc::new(watch::Sender::new(Weather::Fine));
        let target = Arc::new(watch::Sender::new(None));
        let seen = Arc::default();
        tokio::spawn(accept(
            listener,
            weather.clone(),
            target.clone(),
            Arc::clone(&seen),
        ));
        Ok(Self {
            address,
            weather,
            target,
            seen,
        })
    }

    /// The address that the browser is given.
    pub fn address(&self) -> SocketAddr {
        self.address
    }

    pub fn lead_to(&self, server: SocketAddr) {
        self.target.send_replace(Some(server));
    }

    pub fn set(&self, weather: Weather) {
        self.weather.send_replace(weather);
    }

    /// The requests that went this way and reached the server, in the order in which they came.
    pub fn seen(&self) -> Vec<Seen> {
        self.seen
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .clone()
    }
}

async fn accept(
    listener: TcpListener,
    weather: Arc<watch::Sender<Weather>>,
    target: Arc<watch::Sender<Option<SocketAddr>>>,
    seen: Arc<Mutex<Vec<Seen>>>,
) {
    while let Ok((incoming, _)) = listener.accept().await {
        let weather = weather.subscribe();
        let target = *target.borrow();
        tokio::spawn(relay(incoming, target, weather, seen.clone()));
    }
}

/// Carries one connection until either end closes it or the weather changes.
async fn relay(
    mut incoming: TcpStream,
    target: Option<SocketAddr>,
    mut weather: watch::Receiver<Weather>,
    seen: Arc<Mutex<Vec<Seen>>>,
) {
    let now = *weather.borrow_and_update();
    match (now, target) {
        (Weather::Fine | Weather::AnswersLost, Some(server)) => {
            let Ok(mut outgoing) = TcpStream::connect(server).await else {
                return;
            };
            // Small packets must not wait for each other: times are measured through here.
            let _ = (incoming.set_nodelay(true), outgoing.set_nodelay(true));
            let (from_browser, to_browser) = incoming.split();
            let (from_server, to_server) = outgoing.split();
            tokio::select! {
                _ = both(pass_on(from_browser, to_server, &seen), back(from_server, to_browser, now)) => {}
                _ = weather.changed() => {}
            }
        }
        (Weather::Stalled, _) => {
            tokio::select! {
                _ = tokio::time::sleep(Duration::from_secs(120)) => {}
                _ = weather.changed() => {}
            }
        }
        (Weather::Failing, _) => {
            tokio::select! {
                _ = fail(&mut incoming) => {}
                _ = weather.changed() => {}
            }
        }
        (Weather::Cut, _) | (_, None) => {}
    }
}

async fn fail(incoming: &mut TcpStream) -> std::io::Result<()> {
    // What was asked is read as far as it came, so that the connection ends in good order.
    let mut asked = vec![0; 64 * 1024];
    let _ = incoming.read(&mut asked).await?;
    let answer =
        "HTTP/1.1 500 Internal Server Error\r\ncontent-length: 0\r\nconnection: close\r\n\r\n";
    incoming.write_all(answer.as_bytes()).await?;
    incoming.shutdown().await
}

async fn both(
    there: impl Future<Output = std::io::Result<()>>,
    back: impl Future<Output = std::io::Result<()>>,
) {
    let _ = tokio::join!(there, back);
}

/// Carries what the browser sends, and notes the requests in it.
async fn pass_on(
    mut from: impl AsyncRead + Unpin,
    mut to: impl AsyncWrite + Unpin,
    seen: &Mutex<Vec<Seen>>,
) -> std::io::Result<()> {
    let mut reader = Reader::default();
    let mut buffer = vec![0; 16 * 1024];
    loop {
        let length = from.read(&mut buffer).await?;
        let sent = buffer.get(..length).unwrap_or_default();
        if sent.is_empty() {
            return to.shutdown().await;
        }
        seen.lock()
            .unwrap_or_else(PoisonError::into_inner)
            .extend(reader.read(sent));
        to.write_all(sent).await?;
    }
}

async fn back(
    mut from: impl AsyncRead + Unpin,
    mut to: impl AsyncWrite + Unpin,
    weather: Weather,
) -> std::io::Result<()> {
    if weather == Weather::AnswersLost {
        copy(&mut from, &mut sink()).await?;
        // The browser waits on: a connection that ends would tell it something.
        return std::future::pending().await;
    }
    copy(&mut from, &mut to).await?;
    to.shutdown().await
}
