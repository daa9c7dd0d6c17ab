//! Photos are made anew off the threads that serve, one or two at a time, so that pages stay quick however many arrive.

use std::{sync::Arc, thread, time::Duration};

use tokio::{sync::Semaphore, task::spawn_blocking, time::timeout};

use super::{Kept, PhotoFault, taken};

/// Pictures that may wait for their turn; each is at most 10 MB.
const PLACES: usize = 16;
/// How long one waits.
const TURN: Duration = Duration::from_secs(20);
/// How long one may take. Twelve megapixels took 2 s on two cores that had six times as much to do as they could.
const WORK: Duration = Duration::from_secs(10);

/// Where photos are made anew.
pub struct Workbench {
    turns: Arc<Semaphore>,
    places: Semaphore,
}

impl Default for Workbench {
    fn default() -> Self {
        // Half of what the machine has is left to the pages.
        let cores = thread::available_parallelism().map_or(1, usize::from);
        Self {
            turns: Arc::new(Semaphore::new((cores / 2).clamp(1, 2))),
            places: Semaphore::new(PLACES),
        }
    }
}

impl Workbench {
    /// As [`taken`], in turn.
    ///
    /// # Errors
    /// Also [`PhotoFault::Busy`] when too many wait, and [`PhotoFault::TooSlow`] when it takes too long.
    pub async fn taken(&self, bytes: Vec<u8>) -> Result<Kept, PhotoFault> {
        let _place = self.places.try_acquire().map_err(|_| PhotoFault::Busy)?;
        let turn = match timeout(TURN, self.turns.clone().acquire_owned()).await {
            Ok(Ok(turn)) => turn,
            _ => return Err(PhotoFault::Busy),
        };
        let work = spawn_blocking(move || {
            // Kept until the work has ended, also when nobody waits for it any more.
            let _turn = turn;
            taken(&bytes)
        });
        match timeout(WORK, work).await {
            Ok(Ok(done)) => done,
            Ok(Err(panicked)) => {
                tracing::error!(%panicked, "a decoder stopped over a photo");
                Err(PhotoFault::Incomplete)
            }
            Err(_) => Err(PhotoFault::TooSlow),
        }
    }
}
