//! Where photos are kept: files under random names in a folder that only the studio may look into, outside of what is
//! served. A file is on disk before the record speaks of it.

use std::{
    collections::HashSet,
    fs::{self, File},
    io::{self, Write},
    path::{Path, PathBuf},
};

use data_encoding::HEXLOWER;

use super::Kept;
use crate::security::random;

/// A file that is still being written.
const DRAFT: &str = "draft";

/// The folder of the photos that are kept.
pub struct Folder(PathBuf);

impl Folder {
    /// Opens `photos` in the data folder, making it when it is not there.
    pub fn open(data: &Path) -> io::Result<Self> {
        let path = data.join("photos");
        make_private(&path)?;
        Ok(Self(path))
    }

    /// Puts a photo on disk, for good; gives the file's name.
    pub fn put(&self, photo: &Kept) -> io::Result<String> {
        let random = random::bytes::<16>().map_err(io::Error::other)?;
        let name = format!("{}.jpg", HEXLOWER.encode(&random));
        let draft = self.0.join(&name).with_extension(DRAFT);
        let written = (|| {
            let mut file = private().create_new(true).write(true).open(&draft)?;
            file.write_all(&photo.jpeg)?;
            file.sync_all()?;
            fs::rename(&draft, self.0.join(&name))?;
            // The name is on disk once its folder is.
            File::open(&self.0)?.sync_all()
        })();
        if written.is_err() {
            let _ = fs::remove_file(&draft);
        }
        written.map(|()| name)
    }

    /// The bytes of a photo.
    pub fn read(&self, name: &str) -> io::Result<Vec<u8>> {
        fs::read(self.0.join(name))
    }

    /// Erases a photo. One that is gone already is no failure.
    pub fn erase(&self, name: &str) -> io::Result<()> {
        gone(fs::remove_file(self.0.join(name)))
    }

    /// Erases every file that the record does not know: what was being put away when the studio stopped. Gives how many.
    /// A record that knows of none may be the wrong one, or a new one beside old photos: then only drafts go.
    pub fn sweep(&self, known: &HashSet<String>, is_the_photos_own: bool) -> io::Result<usize> {
        let mut swept = 0;
        for entry in fs::read_dir(&self.0)? {
            let entry = entry?;
            let name = entry.file_name().to_string_lossy().into_owned();
            let goes = name.ends_with(DRAFT) || is_the_photos_own && !known.contains(&name);
            if goes && entry.file_type()?.is_file() {
                gone(fs::remove_file(entry.path()))?;
                swept += 1;
            }
        }
        Ok(swept)
    }
}

/// Makes a folder that only its owner may look into.
pub(super) fn make_private(path: &Path) -> io::Result<()> {
    fs::create_dir_all(path)?;
    #[cfg(unix)]
    fs::set_permissions(path, std::os::unix::fs::PermissionsExt::from_mode(0o700))?;
    Ok(())
}

/// Options to open a file that only its owner may read, once it is made.
pub(super) fn private() -> fs::OpenOptions {
    let mut options = File::options();
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    options
}

pub(super) fn gone(removed: io::Result<()>) -> io::Result<()> {
    match removed {
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(()),
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn photo() -> Kept {
        Kept {
            jpeg: b"a picture".to_vec(),
            width: 1,
            height: 1,
        }
    }

    #[test]
    fn what_is_put_is_there_for_its_owner_alone_until_it_is_erased() {
        let data = tempfile::tempdir().unwrap();
        let folder = Folder::open(data.path()).unwrap();
        let name = folder.put(&photo()).unwrap();
        assert_eq!(folder.read(&name).unwrap(), b"a picture");
        assert_ne!(folder.put(&photo()).unwrap(), name);
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt;
            let mode = |path: PathBuf| fs::metadata(path).unwrap().permissions().mode() & 0o777;
            assert_eq!(mode(data.path().join("photos")), 0o700);
            assert_eq!(mode(data.path().join("photos").join(&name)), 0o600);
        }
        folder.erase(&name).unwrap();
        folder.erase(&name).unwrap();
        assert!(folder.read(&name).is_err());
    }

    #[test]
    fn what_the_record_does_not_know_is_swept() {
        let data = tempfile::tempdir().unwrap();
        let folder = Folder::open(data.path()).unwrap();
        let name = folder.put(&photo()).unwrap();
        folder.put(&photo()).unwrap();
        fs::write(data.path().join("photos/0123.draft"), "half").unwrap();
        let known = HashSet::from([name.clone()]);
        assert_eq!(folder.sweep(&known, false).unwrap(), 1, "the draft");
        assert_eq!(folder.sweep(&known, true).unwrap(), 1);
        let left: Vec<_> = fs::read_dir(data.path().join("photos"))
            .unwrap()
            .map(|entry| entry.unwrap().file_name())
            .collect();
        assert_eq!(left, [name.as_str()]);
    }
}
