//! Photos that have arrived in part: one file each, as long as what has come, so that a phone can go on where the network
//! left it. Bounded in number, per link and altogether; what nobody goes on with is swept.

use std::{
    collections::HashSet,
    fs,
    io::{self, Write},
    path::{Path, PathBuf},
    sync::{Mutex, PoisonError},
    time::{Duration, SystemTime},
};

use shared_types::photos::BYTES_MAX;
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

/// One of them, for as long as nobody else has it.
pub struct InHand<'a> {
    arriving: &'a Arriving,
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
    pub fn take_in_hand(&self, which: Which) -> Option<InHand<'_>> {
        let mut in_hand = self.in_hand.lock().unwrap_or_else(PoisonError::into_inner);
        in_hand.insert(which).then(|| InHand {
            arriving: self,
            which,
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

impl InHand<'_> {
    /// Adds a piece behind what has come, which must be `offset` bytes; gives how many there are now. The piece is on disk
    /// when this returns: what the phone is told of must not turn into nothing in a power cut.
    pub fn append(&self, offset: u64, piece: &[u8]) -> Result<u64, PieceFault> {
        let so_far = self.arriving.offset(self.which)?;
        if offset != so_far {
            return Err(PieceFault::WrongOffset(so_far));
        }
        let behind = so_far + piece.len() as u64;
        if behind > BYTES_MAX {
            self.drop_it()?;
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

    /// Everything that has come.
    pub fn read(&self) -> io::Result<Vec<u8>> {
        fs::read(self.arriving.path(self.which))
    }

    /// Throws away what has come.
    pub fn drop_it(&self) -> io::Result<()> {
        gone(fs::remove_file(self.arriving.path(self.which)))
    }
}

impl Drop for InHand<'_> {
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
        let arriving = Arriving::open(data.path()).unwrap();
        let photo = arriving.take_in_hand(which(1, 1)).unwrap();
        assert_eq!(photo.append(0, b"abc").unwrap(), 3);
        for wrong in [0, 2, 4] {
            let refused = photo.append(wrong, b"xyz");
            assert!(
                matches!(refused, Err(PieceFault::WrongOffset(3))),
                "{refused:?}"
            );
        }
        assert_eq!(photo.append(3, b"").unwrap(), 3);
        assert_eq!(photo.append(3, b"de").unwrap(), 5);
        assert_eq!(photo.read().unwrap(), b"abcde");
        assert_eq!(arriving.offset(which(1, 1)).unwrap(), 5);
        // Also by a studio that was started anew.
        assert_eq!(
            Arriving::open(data.path())
                .unwrap()
                .offset(which(1, 1))
                .unwrap(),
            5
        );
        photo.drop_it().unwrap();
        assert_eq!(arriving.offset(which(1, 1)).unwrap(), 0);
    }

    #[test]
    fn one_hand_at_a_time() {
        let data = tempfile::tempdir().unwrap();
        let arriving = Arriving::open(data.path()).unwrap();
        let held = arriving.take_in_hand(which(1, 1)).unwrap();
        assert!(arriving.take_in_hand(which(1, 1)).is_none());
        assert!(arriving.take_in_hand(which(1, 2)).is_some());
        drop(held);
        assert!(arriving.take_in_hand(which(1, 1)).is_some());
    }

    #[test]
    fn one_that_grows_too_large_leaves_nothing() {
        let data = tempfile::tempdir().unwrap();
        let arriving = Arriving::open(data.path()).unwrap();
        let photo = arriving.take_in_hand(which(1, 1)).unwrap();
        let most = vec![7; BYTES_MAX as usize];
        assert_eq!(photo.append(0, &most).unwrap(), BYTES_MAX);
        assert!(matches!(
            photo.append(BYTES_MAX, b"x"),
            Err(PieceFault::TooHeavy)
        ));
        assert_eq!(arriving.sweep(STALE).unwrap(), [""; 0]);
    }

    #[test]
    fn a_link_has_so_many_on_their_way_and_no_more() {
        let data = tempfile::tempdir().unwrap();
        let arriving = Arriving::open(data.path()).unwrap();
        let append = |link, photo| {
            arriving
                .take_in_hand(which(link, photo))
                .unwrap()
                .append(0, b"a")
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
