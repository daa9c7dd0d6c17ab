//! The way between a browser and a server, which a test can cut, stall and mend: a plain TCP relay on this machine.

use std::{
    net::SocketAddr,
    sync::Arc,
    time::Duration,
};

use tokio::{
    io::copy_bidirectional,
    net::{TcpListener, TcpStream},
    sync::watch,
};

/// What the relay does with connections.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weather {
    /// Passes everything on.
    Fine,
    /// Drops what is open and refuses what is new: no network.
    Cut,
    /// Takes connections and never answers: the salon's wifi at its worst.
    Stalled,
}

/// A relay to one server.
pub struct Network {
    address: SocketAddr,
    weather: Arc<watch::Sender<Weather>>,
    target: Arc<watch::Sender<Option<SocketAddr>>>,
}

impl Network {
    /// Opens the relay on a free port; connections are refused until [`Network::lead_to`] names a server.
    pub async fn open() -> std::io::Result<Self> {
        let listener = TcpListener::bind("127.0.0.1:0").await?;
        let address = listener.local_addr()?;
        let weather = Arc::new(watch::Sender::new(Weather::Fine));
        let target = Arc::new(watch::Sender::new(None));
        tokio::spawn(accept(listener, weather.clone(), target.clone()));
        Ok(Self { address, weather, target })
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
}

async fn accept(
    listener: TcpListener,
    weather: Arc<watch::Sender<Weather>>,
    target: Arc<watch::Sender<Option<SocketAddr>>>,
) {
    while let Ok((incoming, _)) = listener.accept().await {
        let weather = weather.subscribe();
        let target = *target.borrow();
        tokio::spawn(relay(incoming, target, weather));
    }
}

/// Carries one connection until either end closes it or the weather changes.
async fn relay(mut incoming: TcpStream, target: Option<SocketAddr>, mut weather: watch::Receiver<Weather>) {
    let now = *weather.borrow_and_update();
    match (now, target) {
        (Weather::Fine, Some(server)) => {
            let Ok(mut outgoing) = TcpStream::connect(server).await else { return };
            tokio::select! {
                _ = copy_bidirectional(&mut incoming, &mut outgoing) => {}
                _ = weather.changed() => {}
            }
        }
        (Weather::Stalled, _) => {
            tokio::select! {
                _ = tokio::time::sleep(Duration::from_secs(120)) => {}
                _ = weather.changed() => {}
            }
        }
        (Weather::Cut, _) | (_, None) => {}
    }
}
