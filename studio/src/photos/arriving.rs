//! Photos that have arrived in part: one file each, as long as what has come, so that a phone can go on where the network
//! left it. Bounded in number, per link and altogether; what nobody goes on with is swept.

use std::{
    collections::HashSet,
    fs,
    io::{self, Write},
    path::{Path, PathBuf},
    sync::{Arc, Mutex, PoisonError},
    time::{Duration, SystemTime},
};

use shared_types::photos::BYTES_MAX;
use tokio::task::spawn_blocking;
use uuid::Uuid;

use super::folder::{gone, make_private, private};

/// Photos that may be on their way by one link.
const PER_LINK: usize = 8;
/// And altogether; at 10 MB each, some 2 GB.
const ALTOGETHER: usize = 200;
/// How long one is kept that nobody goes on with. The phone keeps its own until it is told that it is here.
const STALE: Duration = Duration::from_secs(24 * 60 * 60);

/// Which photo.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Which {
    pub link: Uuid,
    pub report: Uuid,
    pub photo: Uuid,
}

/// Why a piece is not taken.
#[derive(Debug, thiserror::Error)]
pub enum PieceFault {
    #[error("what has come so far ends elsewhere, at {0}")]
    WrongOffset(u64),
    #[error("the photo grows too large")]
    TooHeavy,
    #[error("too many photos are on their way")]
    TooMany,
    #[error(transparent)]
    Io(#[from] io::Error),
}

/// The photos that have arrived in part.
pub struct Arriving {
    folder: PathBuf,
    in_hand: Mutex<HashSet<Which>>,
}

/// One of them, for as long as nobody else has it. Its work on the disk is done off the threads that serve.
pub struct InHand {
    arriving: Arc<Arriving>,
    which: Which,
}

impl Arriving {
    /// Opens `photos-arriving` in the data folder, making it when it is not there, and sweeps it.
    pub fn open(data: &Path) -> io::Result<Self> {
        let folder = data.join("photos-arriving");
        make_private(&folder)?;
        let arriving = Self {
            folder,
            in_hand: Mutex::default(),
        };
        arriving.sweep(STALE)?;
        Ok(arriving)
    }

    /// Throws away all of it: for a record that is made anew.
    pub fn forget(&self) -> io::Result<()> {
        self.sweep(Duration::ZERO).map(drop)
    }

    /// Takes one in hand; `None` while somebody has it.
    pub fn take_in_hand(self: &Arc<Self>, which: Which) -> Option<Arc<InHand>> {
        let mut in_hand = self.in_hand.lock().unwrap_or_else(PoisonError::into_inner);
        in_hand.insert(which).then(|| {
            let arriving = self.clone();
            Arc::new(InHand { arriving, which })
        })
    }

    /// How many bytes of one have come.
    pub fn offset(&self, which: Which) -> io::Result<u64> {
        match fs::metadata(self.path(which)) {
            Ok(file) => Ok(file.len()),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(0),
            Err(error) => Err(error),
        }
    }

    /// Drops what was left longer ago, and gives the names of what stays.
    fn sweep(&self, older: Duration) -> io::Result<Vec<String>> {
        let mut names = Vec::new();
        for entry in fs::read_dir(&self.folder)? {
            let entry = entry?;
            // One that another request has just finished is gone by now.
            let Ok(about) = entry.metadata() else {
                continue;
            };
            // A clock that was set back makes a file come from the future: it stays for now.
            let age = SystemTime::now().duration_since(about.modified()?);
            if age.is_ok_and(|age| age >= older) {
                gone(fs::remove_file(entry.path()))?;
            } else {
                names.push(entry.file_name().to_string_lossy().into_owned());
            }
        }
        Ok(names)
    }

    fn path(
        &self,
        Which {
            link,
            report,
            photo,
        }: Which,
    ) -> PathBuf {
        let name = [link, report, photo]
            .map(|id| id.simple().to_string())
            .join(".");
        self.folder.join(name)
    }
}

impl InHand {
    /// Adds a piece behind what has come, which must be `offset` bytes; gives how many there are now. The piece is on disk
    /// when this returns: what the phone is told of must not turn into nothing in a power cut.
    pub async fn append(self: &Arc<Self>, offset: u64, piece: Vec<u8>) -> Result<u64, PieceFault> {
        self.aside(move |one| one.append_now(offset, &piece)).await
    }

    /// Everything that has come.
    pub async fn read(self: &Arc<Self>) -> io::Result<Vec<u8>> {
        self.aside(Self::read_now).await
    }

    /// Throws away what has come.
    pub async fn drop_it(self: &Arc<Self>) -> io::Result<()> {
        self.aside(Self::drop_now).await
    }

    /// It stays in hand until the work has ended, also when nobody waits for it any more.
    async fn aside<T: Send + 'static, E: From<io::Error> + Send + 'static>(
        self: &Arc<Self>,
        work: impl FnOnce(&Self) -> Result<T, E> + Send + 'static,
    ) -> Result<T, E> {
        let one = self.clone();
        let done = spawn_blocking(move || work(&one)).await;
        done.unwrap_or_else(|stopped| Err(io::Error::other(stopped).into()))
    }

    fn append_now(&self, offset: u64, piece: &[u8]) -> Result<u64, PieceFault> {
        let so_far = self.arriving.offset(self.which)?;
        if offset != so_far {
            return Err(PieceFault::WrongOffset(so_far));
        }
        let behind = so_far + piece.len() as u64;
        if behind > BYTES_MAX {
            self.drop_now()?;
            return Err(PieceFault::TooHeavy);
        }
        if so_far == 0 {
            let others = self.arriving.sweep(STALE)?;
            let link = self.which.link.simple().to_string();
            let of_link = others.iter().filter(|name| name.starts_with(&link)).count();
            if others.len() >= ALTOGETHER || of_link >= PER_LINK {
                return Err(PieceFault::TooMany);
            }
        }
        let mut file = private()
            .create(true)
            .append(true)
            .open(self.arriving.path(self.which))?;
        file.write_all(piece)?;
        file.sync_data()?;
        Ok(behind)
    }

    fn read_now(&self) -> io::Result<Vec<u8>> {
        fs::read(self.arriving.path(self.which))
    }

    fn drop_now(&self) -> io::Result<()> {
        gone(fs::remove_file(self.arriving.path(self.which)))
    }
}

impl Drop for InHand {
    fn drop(&mut self) {
        let mut in_hand = self
            .arriving
            .in_hand
            .lock()
            .unwrap_or_else(PoisonError::into_inner);
        in_hand.remove(&self.which);
    }
}

#[cfg(test)]
mod tests {
    use std::{pin::Pin, task::Poll};

    use super::*;

    fn which(link: u128, photo: u128) -> Which {
        Which {
            link: Uuid::from_u128(link),
            report: Uuid::from_u128(9),
            photo: Uuid::from_u128(photo),
        }
    }

    #[test]
    fn pieces_join_only_where_the_last_one_ended() {
        let data = tempfile::tempdir().unwrap();
        let arriving = Arc::new(Arriving::open(data.path()).unwrap());
        let photo = arriving.take_in_hand(which(1, 1)).unwrap();
        assert_eq!(photo.append_now(0, b"abc").unwrap(), 3);
        for wrong in [0, 2, 4] {
            let refused = photo.append_now(wrong, b"xyz");
            assert!(
                matches!(refused, Err(PieceFault::WrongOffset(3))),
                "{refused:?}"
            );
        }
        assert_eq!(photo.append_now(3, b"").unwrap(), 3);
        assert_eq!(photo.append_now(3, b"de").unwrap(), 5);
        assert_eq!(photo.read_now().unwrap(), b"abcde");
        assert_eq!(arriving.offset(which(1, 1)).unwrap(), 5);
        // Also by a studio that was started anew.
        assert_eq!(
            Arriving::open(data.path())
                .unwrap()
                .offset(which(1, 1))
                .unwrap(),
            5
        );
        photo.drop_now().unwrap();
        assert_eq!(arriving.offset(which(1, 1)).unwrap(), 0);
    }

    /// Where all threads for slow work are taken, none of it is done: the thread that serves does not help out.
    #[test]
    fn the_thread_that_serves_waits_for_no_disk() {
        let data = tempfile::tempdir().unwrap();
        let arriving = Arc::new(Arriving::open(data.path()).unwrap());
        let photo = arriving.take_in_hand(which(1, 1)).unwrap();
        let runtime = tokio::runtime::Builder::new_current_thread()
            .max_blocking_threads(1)
            .build()
            .unwrap();
        runtime.block_on(async {
            for (name, work) in [
                (
                    "append",
                    &(|| outcome(photo.append(0, b"abc".to_vec()))) as &Work<'_>,
                ),
                ("read", &(|| outcome(photo.read())) as &Work<'_>),
                ("drop_it", &(|| outcome(photo.drop_it())) as &Work<'_>),
            ] {
                let (go_on, until) = std::sync::mpsc::channel::<()>();
                spawn_blocking(move || until.recv());
                let mut work = work();
                let first =
                    std::future::poll_fn(|context| Poll::Ready(work.as_mut().poll(context)));
                assert!(first.await.is_pending(), "{name}");
                drop(go_on);
                assert!(work.await, "{name}");
            }
        });
    }

    type Done<'a> = Pin<Box<dyn Future<Output = bool> + 'a>>;
    type Work<'a> = dyn Fn() -> Done<'a> + 'a;

    fn outcome<'a, T, E>(work: impl Future<Output = Result<T, E>> + 'a) -> Done<'a> {
        Box::pin(async { work.await.is_ok() })
    }

    #[test]
    fn one_hand_at_a_time() {
        let data = tempfile::tempdir().unwrap();
        let arriving = Arc::new(Arriving::open(data.path()).unwrap());
        let held = arriving.take_in_hand(which(1, 1)).unwrap();
        assert!(arriving.take_in_hand(which(1, 1)).is_none());
        assert!(arriving.take_in_hand(which(1, 2)).is_some());
        drop(held);
        assert!(arriving.take_in_hand(which(1, 1)).is_some());
    }

    #[test]
    fn one_that_grows_too_large_leaves_nothing() {
        let data = tempfile::tempdir().unwrap();
        let arriving = Arc::new(Arriving::open(data.path()).unwrap());
        let photo = arriving.take_in_hand(which(1, 1)).unwrap();
        let most = vec![7; BYTES_MAX as usize];
        assert_eq!(photo.append_now(0, &most).unwrap(), BYTES_MAX);
        assert!(matches!(
            photo.append_now(BYTES_MAX, b"x"),
            Err(PieceFault::TooHeavy)
        ));
        assert_eq!(arriving.sweep(STALE).unwrap(), [""; 0]);
    }

    #[test]
    fn a_link_has_so_many_on_their_way_and_no_more() {
        let data = tempfile::tempdir().unwrap();
        let arriving = Arc::new(Arriving::open(data.path()).unwrap());
        let append = |link, photo| {
            arriving
                .take_in_hand(which(link, photo))
                .unwrap()
                .append_now(0, b"a")
        };
        for photo in 0..PER_LINK as u128 {
            append(1, photo).unwrap();
        }
        assert!(matches!(append(1, 99), Err(PieceFault::TooMany)));
        append(2, 1).unwrap();
        arriving.forget().unwrap();
        append(1, 99).unwrap();
    }
}
