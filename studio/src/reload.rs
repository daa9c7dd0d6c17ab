//! Words and figures read again while the studio serves. A request is answered from one reading throughout; visits that
//! are in the record keep what they were told.

use std::{
    path::PathBuf,
    sync::{Arc, PoisonError, RwLock},
};

use axum::{
    Router,
    extract::{Request, State},
    response::Response,
};
use content::{Content, ContentError};
use tower::ServiceExt;

use crate::{routes::routes, state::Shared};

/// The studio that serves now.
#[derive(Clone)]
pub struct Current(Arc<RwLock<Serving>>);

struct Serving {
    studio: Shared,
    routes: Router,
}

impl Current {
    pub fn serving(studio: Shared) -> Self {
        let routes = routes(&studio);
        Self(Arc::new(RwLock::new(Serving { studio, routes })))
    }

    /// Every address, answered by whichever studio serves when a request arrives.
    pub fn routes(&self) -> Router {
        Router::new().fallback(answer).with_state(self.clone())
    }

    /// For what is done beside the answering of requests.
    pub fn studio(&self) -> Shared {
        let serving = self.0.read().unwrap_or_else(PoisonError::into_inner);
        serving.studio.clone()
    }

    fn now(&self) -> Router {
        let serving = self.0.read().unwrap_or_else(PoisonError::into_inner);
        serving.routes.clone()
    }

    /// Serves from other content from the next request on.
    pub fn take(&self, content: Content) {
        // Nothing is half done when a thread panics with the lock: it is only read and replaced.
        let mut serving = self.0.write().unwrap_or_else(PoisonError::into_inner);
        let studio = Arc::new(serving.studio.with_content(content));
        *serving = Serving {
            routes: routes(&studio),
            studio,
        };
    }
}

async fn answer(State(current): State<Current>, request: Request) -> Response {
    match current.now().oneshot(request).await {
        Ok(response) => response,
        Err(never) => match never {},
    }
}

/// Reads the content's folder again each time the program is sent SIGHUP. What has mistakes is not taken: each is
/// logged, and the content from before stays.
#[cfg(unix)]
pub fn when_told(folder: Option<PathBuf>, current: Current) {
    use tokio::signal::unix::{SignalKind, signal};
    // Listened for from here on, folder or not: unheard, the signal would end the program.
    let mut told = match signal(SignalKind::hangup()) {
        Ok(told) => told,
        Err(error) => {
            tracing::warn!(%error, "SIGHUP cannot be listened for: new content needs a new start");
            return;
        }
    };
    tokio::spawn(async move {
        while told.recv().await.is_some() {
            match &folder {
                Some(folder) => read_again(folder.clone(), &current).await,
                None => tracing::warn!(
                    "the content is the one built in: start with --content to change it"
                ),
            }
        }
    });
}

/// Other systems have no such signal: new content needs a new start.
#[cfg(not(unix))]
pub fn when_told(_folder: Option<PathBuf>, _current: Current) {}

#[cfg(unix)]
async fn read_again(folder: PathBuf, current: &Current) {
    let read = tokio::task::spawn_blocking(move || Content::from_folder(&folder)).await;
    match read {
        Ok(Ok(content)) => {
            let version = content.version.clone();
            current.take(content);
            tracing::info!(%version, "the content was read again");
        }
        Ok(Err(ContentError::Mistakes(mistakes))) => {
            for mistake in &mistakes {
                tracing::error!("the content has a mistake: {mistake}");
            }
            tracing::error!("the content stays as it was until these are mended");
        }
        Ok(Err(error)) => tracing::error!(%error, "the content stays as it was"),
        Err(_) => tracing::error!("the content stays as it was: reading it was broken off"),
    }
}
