//! Reading and writing files, with failures that name the file.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use crate::failure::Failure;

fn failed(action: &'static str, path: &Path) -> impl FnOnce(io::Error) -> Failure {
    move |source| Failure::File {
        action,
        path: path.to_owned(),
        source,
    }
}

pub fn read(path: &Path) -> Result<Vec<u8>, Failure> {
    fs::read(path).map_err(failed("read", path))
}

pub fn read_text(path: &Path) -> Result<String, Failure> {
    fs::read_to_string(path).map_err(failed("read", path))
}

/// Writes `bytes` to `path`, making the folders above it.
pub fn write(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder).map_err(failed("make", folder))?;
    }
    fs::write(path, bytes).map_err(failed("write", path))
}

/// A new file at `path`, for another program to write to.
pub fn create(path: &Path) -> Result<fs::File, Failure> {
    fs::File::create(path).map_err(failed("write", path))
}

pub fn copy(from: &Path, to: &Path) -> Result<(), Failure> {
    fs::copy(from, to).map(drop).map_err(failed("copy", from))
}

/// An empty folder at `path`, whatever was there before.
pub fn empty_folder(path: &Path) -> Result<(), Failure> {
    remove_folder(path)?;
    fs::create_dir_all(path).map_err(failed("make", path))
}

pub fn remove_folder(path: &Path) -> Result<(), Failure> {
    match fs::remove_dir_all(path) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => Err(failed("remove", path)(error)),
        _ => Ok(()),
    }
}

pub fn rename(from: &Path, to: &Path) -> Result<(), Failure> {
    fs::rename(from, to).map_err(failed("rename", from))
}

/// Every file under `folder` as a path relative to it, in an order that does not depend on the disk.
pub fn list(folder: &Path) -> Result<Vec<PathBuf>, Failure> {
    let mut found = Vec::new();
    let mut waiting = vec![folder.to_owned()];
    while let Some(next) = waiting.pop() {
        for entry in fs::read_dir(&next).map_err(failed("list", &next))? {
            let path = entry.map_err(failed("list", &next))?.path();
            if path.is_dir() {
                waiting.push(path);
            } else if let Ok(relative) = path.strip_prefix(folder) {
                found.push(relative.to_owned());
            }
        }
    }
    found.sort();
    Ok(found)
}
