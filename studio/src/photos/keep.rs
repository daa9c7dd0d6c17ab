//! Everything that a running studio has for photos.

use std::{io, path::Path, sync::Arc};

use chrono::{DateTime, Utc};
use rusqlite::Transaction;
use sha2::{Digest, Sha256};
use tokio::{
    sync::{Semaphore, SemaphorePermit},
    task::spawn_blocking,
};
use uuid::Uuid;

use super::{Kept, arriving::Arriving, folder::Folder, work::Workbench};
use crate::record::{
    Origin, Record, RecordError,
    photos::{self, Fresh, Photo, Taken, Whose},
};

/// Why photos cannot be kept.
#[derive(Debug, thiserror::Error)]
pub enum PhotosError {
    #[error("the photos in the data folder cannot be read or written: {0}")]
    Io(#[from] io::Error),
    #[error(transparent)]
    Record(#[from] RecordError),
    #[error("the studio is being stopped")]
    Closing,
}

/// The photos of a running studio.
pub struct Photos {
    folder: Arc<Folder>,
    pub arriving: Arc<Arriving>,
    pub bench: Workbench,
    /// Forms that bring photos, of which each may have one in memory.
    forms: Semaphore,
}

/// Forms with photos that are read at the same time.
const FORMS: usize = 8;

/// A photo that was made anew, and what the record is to say of it.
pub struct ToKeep {
    pub id: Uuid,
    pub visit: Uuid,
    pub whose: Whose,
    /// The version of the words that the client agreed to; and those words, where they are kept nowhere else.
    pub consent: String,
    pub agreed_to: String,
    pub photo: Kept,
    /// Bytes as they came in.
    pub sent: u32,
}

impl ToKeep {
    /// As the record takes it, once it is on disk.
    fn fresh(self, file: String) -> Fresh {
        Fresh {
            id: self.id,
            visit: self.visit,
            whose: self.whose,
            consent: self.consent,
            agreed_to: self.agreed_to,
            sha256: Sha256::digest(&self.photo.jpeg).into(),
            width: self.photo.width,
            height: self.photo.height,
            sent: self.sent,
            file,
        }
    }
}

impl Photos {
    /// Opens what the data folder holds, and sweeps what no row speaks of. A demo's record is new at each start, so nothing
    /// of it stays.
    pub fn open(data: &Path, record: &Record, origin: Origin) -> Result<Self, PhotosError> {
        let folder = Folder::open(data)?;
        let (known, any) =
            record.read(|record| Ok((photos::files(record)?, photos::any(record)?)))?;
        let swept = folder.sweep(&known, any || origin == Origin::Demo)?;
        if swept > 0 {
            tracing::info!(swept, "photos that the record does not know were erased");
        }
        let arriving = Arriving::open(data)?;
        if origin == Origin::Demo {
            arriving.forget()?;
        }
        Ok(Self {
            folder: Arc::new(folder),
            arriving: Arc::new(arriving),
            bench: Workbench::default(),
            forms: Semaphore::new(FORMS),
        })
    }

    /// A place for a form that brings photos; `None` when too many are being read.
    pub fn form(&self) -> Option<SemaphorePermit<'_>> {
        self.forms.try_acquire().ok()
    }

    /// Puts a photo on disk and then into the record; what the record does not take leaves no file.
    pub async fn keep(
        &self,
        record: &Record,
        to_keep: ToKeep,
        now: DateTime<Utc>,
    ) -> Result<Taken, PhotosError> {
        let nothing = |_: &Transaction<'_>| Ok::<_, PhotosError>(());
        let kept = self.keep_with(record, nothing, vec![to_keep], now).await?;
        let kept = kept.into_iter().next();
        Ok(kept.unwrap_or_else(|| Err(io::ErrorKind::NotFound.into()))?)
    }

    /// As [`Photos::keep`], of any number, in one transaction with what `with` adds to the record before: a stop in the
    /// middle leaves all of it or nothing. What becomes of each photo; one that the disk does not take keeps nothing else
    /// from being taken.
    ///
    /// # Errors
    /// Those of `with` and of the record, which then took nothing.
    pub async fn keep_with<E: From<PhotosError> + From<RecordError> + Send + 'static>(
        &self,
        record: &Record,
        with: impl FnOnce(&Transaction<'_>) -> Result<(), E> + Send + 'static,
        to_keep: Vec<ToKeep>,
        now: DateTime<Utc>,
    ) -> Result<Vec<io::Result<Taken>>, E> {
        let folder = self.folder.clone();
        let record = record.clone();
        // To its end, also when nobody waits for it any more.
        let keep = move || {
            let put = |one: ToKeep| folder.put(&one.photo).map(|file| one.fresh(file));
            let on_disk: Vec<io::Result<Fresh>> = to_keep.into_iter().map(put).collect();
            let fresh = || on_disk.iter().flatten();
            let taken: Result<_, E> = record.write_now(|record| {
                with(record)?;
                let add = |fresh| photos::add(record, fresh, now);
                Ok(fresh().map(add).collect::<Result<Vec<_>, _>>()?)
            });
            for (at, fresh) in fresh().enumerate() {
                let is_kept = matches!(&taken, Ok(taken) if taken.get(at) == Some(&Taken::New));
                if !is_kept && let Err(error) = folder.erase(&fresh.file) {
                    tracing::error!(%error, "a photo that is not kept could not be erased");
                }
            }
            let mut taken = taken?.into_iter();
            let each = on_disk.into_iter().map(|fresh| {
                fresh.and_then(|_| taken.next().ok_or_else(|| io::ErrorKind::NotFound.into()))
            });
            Ok(each.collect())
        };
        spawn_blocking(keep)
            .await
            .unwrap_or_else(|_| Err(PhotosError::Closing.into()))
    }

    /// A photo's JPEG.
    pub async fn read(&self, photo: &Photo) -> Result<Vec<u8>, PhotosError> {
        let (folder, file) = (self.folder.clone(), photo.file.clone());
        let read = move || Ok(folder.read(&file)?);
        spawn_blocking(read)
            .await
            .unwrap_or(Err(PhotosError::Closing))
    }

    /// Takes a photo out of the record and then erases it. Whether there was one.
    pub async fn take_out(
        &self,
        record: &Record,
        id: Uuid,
        by: Uuid,
        now: DateTime<Utc>,
    ) -> Result<bool, PhotosError> {
        let (folder, record) = (self.folder.clone(), record.clone());
        let take_out = move || {
            let photo = record.write_now(|record| photos::take_out(record, id, by, now))?;
            if let Some(photo) = &photo {
                folder.erase(&photo.file)?;
            }
            Ok(photo.is_some())
        };
        spawn_blocking(take_out)
            .await
            .unwrap_or(Err(PhotosError::Closing))
    }
}

#[cfg(test)]
mod tests {
    use std::fs;

    use super::*;
    use crate::record::photos::testing::{ARTIST, VISIT, now, with_a_report};

    fn photo(id: u128) -> ToKeep {
        ToKeep {
            id: Uuid::from_u128(id),
            visit: VISIT,
            whose: Whose::Visit { artist: ARTIST },
            consent: "2026-11".to_owned(),
            agreed_to: "Yes.".to_owned(),
            photo: Kept {
                jpeg: format!("picture {id}").into_bytes(),
                width: 2,
                height: 3,
            },
            sent: 99,
        }
    }

    fn files(data: &Path) -> usize {
        fs::read_dir(data.join("photos")).unwrap().count()
    }

    #[tokio::test]
    async fn what_the_record_does_not_take_leaves_no_file() {
        let data = tempfile::tempdir().unwrap();
        let record = with_a_report(data.path());
        let photos = Photos::open(data.path(), &record, Origin::Real).unwrap();
        for id in 1..=4 {
            let taken = photos.keep(&record, photo(id), now()).await.unwrap();
            assert_eq!((taken, files(data.path())), (Taken::New, id as usize));
        }
        for (id, answer) in [(1, Taken::IdInUse), (9, Taken::TooMany)] {
            let taken = photos.keep(&record, photo(id), now()).await.unwrap();
            assert_eq!((taken, files(data.path())), (answer, 4));
        }
        let nowhere = ToKeep {
            visit: Uuid::nil(),
            ..photo(9)
        };
        photos.keep(&record, nowhere, now()).await.unwrap_err();
        assert_eq!(files(data.path()), 4);
    }

    /// Another record in the data folder must not cost the photos that are there.
    #[test]
    fn a_record_that_knows_of_none_erases_none() {
        let data = tempfile::tempdir().unwrap();
        let record = with_a_report(data.path());
        Photos::open(data.path(), &record, Origin::Real).unwrap();
        fs::write(data.path().join("photos/0123.jpg"), "of another record").unwrap();
        fs::write(data.path().join("photos/4567.draft"), "half").unwrap();
        Photos::open(data.path(), &record, Origin::Real).unwrap();
        assert_eq!(files(data.path()), 1);
        // A demo's record is made anew at each start, so nothing in its folder is anybody's.
        Photos::open(data.path(), &record, Origin::Demo).unwrap();
        assert_eq!(files(data.path()), 0);
    }

    #[tokio::test]
    async fn one_that_is_taken_out_is_erased_and_the_others_outlive_a_start() {
        let data = tempfile::tempdir().unwrap();
        let record = with_a_report(data.path());
        let photos = Photos::open(data.path(), &record, Origin::Real).unwrap();
        for id in 1..=2 {
            photos.keep(&record, photo(id), now()).await.unwrap();
        }
        let id = Uuid::from_u128(1);
        assert!(photos.take_out(&record, id, ARTIST, now()).await.unwrap());
        assert!(!photos.take_out(&record, id, ARTIST, now()).await.unwrap());
        assert_eq!(files(data.path()), 1);
        // What a stop in the middle left behind.
        fs::write(data.path().join("photos/0123.jpg"), "no row").unwrap();
        let photos = Photos::open(data.path(), &record, Origin::Real).unwrap();
        assert_eq!(files(data.path()), 1);
        let left = record
            .read(|record| photos::of_visit(record, VISIT))
            .unwrap();
        assert!(record.read(photos::any).unwrap());
        assert_eq!(photos.read(&left[0]).await.unwrap(), b"picture 2");
    }
}
