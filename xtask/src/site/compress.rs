//! Compressed forms, made once here so that the server never has to.

use std::io::Write;
use std::path::{Path, PathBuf};

use brotli::enc::BrotliEncoderParams;
use flate2::Compression;
use flate2::write::GzEncoder;

use crate::failure::Failure;
use crate::files;

/// Writes the brotli (`.br`, quality 11, 16 MB window) and gzip (`.gz`, level 9) forms of `file` beside it. Where
/// `before` has them already they are copied: its name carries the same digest, so its content is the same.
pub fn beside(file: &Path, bytes: &[u8], before: Option<&Path>) -> Result<(), Failure> {
    for (ending, pack) in [
        ("br", brotli as fn(&[u8]) -> std::io::Result<Vec<u8>>),
        ("gz", gzip),
    ] {
        let packed = with_ending(file, ending);
        match before
            .map(|path| with_ending(path, ending))
            .filter(|path| path.is_file())
        {
            Some(done) => files::copy(&done, &packed)?,
            None => files::write(
                &packed,
                &pack(bytes).map_err(|source| Failure::File {
                    action: "compress",
                    path: file.to_owned(),
                    source,
                })?,
            )?,
        }
    }
    Ok(())
}

fn brotli(bytes: &[u8]) -> std::io::Result<Vec<u8>> {
    let parameters = BrotliEncoderParams {
        quality: 11,
        lgwin: 24,
        ..BrotliEncoderParams::default()
    };
    let mut packed = Vec::new();
    brotli::BrotliCompress(&mut &*bytes, &mut packed, &parameters)?;
    Ok(packed)
}

fn gzip(bytes: &[u8]) -> std::io::Result<Vec<u8>> {
    let mut encoder = GzEncoder::new(Vec::new(), Compression::best());
    encoder.write_all(bytes)?;
    encoder.finish()
}

fn with_ending(path: &Path, ending: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(".");
    name.push(ending);
    name.into()
}
