//! The folder that belongs to one running studio.

use std::{
    fs::{self, File, TryLockError},
    io,
    path::{Path, PathBuf},
};

use crate::record::{FILE, Origin};

/// Held by the studio that runs on this folder; the operating system lets go of it whichever way the studio ends.
const LOCK: &str = "running.lock";

/// Why a folder cannot be used.
#[derive(Debug, thiserror::Error)]
pub enum FolderError {
    #[error("the data folder {path} cannot be used: {source}")]
    Io { path: PathBuf, source: io::Error },
    #[error(
        "another studio is running on the data folder {0}: stop it first, or give this one another folder with --data"
    )]
    Taken(PathBuf),
}

/// A data folder that is ours until this is dropped.
pub struct DataFolder {
    pub path: PathBuf,
    _lock: File,
}

impl DataFolder {
    /// Takes the folder, making it when it is not there. Only its owner may look into a new one.
    pub fn take(path: &Path) -> Result<Self, FolderError> {
        let failed = |source| FolderError::Io {
            path: path.to_owned(),
            source,
        };
        if !path.exists() {
            fs::create_dir_all(path).map_err(failed)?;
            #[cfg(unix)]
            fs::set_permissions(path, std::os::unix::fs::PermissionsExt::from_mode(0o700))
                .map_err(failed)?;
        }
        let lock = File::create(path.join(LOCK)).map_err(failed)?;
        match lock.try_lock() {
            Ok(()) => Ok(Self {
                path: path.to_owned(),
                _lock: lock,
            }),
            Err(TryLockError::WouldBlock) => Err(FolderError::Taken(path.to_owned())),
            Err(TryLockError::Error(source)) => Err(failed(source)),
        }
    }

    /// Throws the record away. Only for one whose [`Origin`] was seen to be a demo.
    pub fn forget_record(&self, seen: Origin) -> Result<(), FolderError> {
        if seen != Origin::Demo {
            return Ok(());
        }
        for ending in ["", "-wal", "-shm"] {
            match fs::remove_file(self.path.join(format!("{FILE}{ending}"))) {
                Err(source) if source.kind() != io::ErrorKind::NotFound => {
                    return Err(FolderError::Io {
                        path: self.path.clone(),
                        source,
                    });
                }
                _ => {}
            }
        }
        Ok(())
    }
}
