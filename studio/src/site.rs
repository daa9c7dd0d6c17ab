//! What browsers fetch beside the pages: scripts, wasm, styles and pictures, as `cargo xtask build` made them. All of
//! it is a few hundred kilobytes, read once at the start.

use std::{
    collections::{BTreeMap, HashMap},
    fs,
    path::{Path, PathBuf},
};

use axum::{
    body::Bytes,
    http::{HeaderMap, HeaderValue, header},
    response::{IntoResponse, Response},
};
use data_encoding::BASE64;
use serde::Deserialize;
use sha2::{Digest, Sha256};

use crate::{
    cache::Cache,
    compress::{Encoding, accepted},
};

/// Why the site cannot be used.
#[derive(Debug, thiserror::Error)]
pub enum SiteError {
    #[error(
        "the browser side is not built: {path} cannot be read ({source}); run `cargo xtask build`, or name its folder with --site"
    )]
    File {
        path: PathBuf,
        source: std::io::Error,
    },
    #[error("{path} is not a list of the browser side's files ({source}); run `cargo xtask build`")]
    Manifest {
        path: PathBuf,
        source: serde_json::Error,
    },
    #[error("{path} does not list `{file}`; run `cargo xtask build`")]
    Missing { path: PathBuf, file: &'static str },
}

#[derive(Deserialize)]
struct Manifest {
    build: String,
    files: BTreeMap<String, String>,
}

/// The addresses that pages name.
#[derive(Clone, Debug)]
pub struct Addresses {
    pub client_script: String,
    pub artist_script: String,
    pub artist_style: String,
    pub print_style: String,
    /// The client's page below its first screen.
    pub client_style_below: String,
    /// The icon itself, as a `data:` address: it is smaller than the request for it would be.
    pub icon: String,
    /// Keeps and hands over a report's photos.
    pub photos_script: String,
    /// Makes a phone forget its copy of a page whose link no longer opens.
    pub forget_script: String,
}

/// The browser side, ready to hand out.
pub struct Site {
    pub build: String,
    pub addresses: Addresses,
    /// The client's style block, inline in its page.
    pub client_style: String,
    /// Its SHA-256 in base64, for the content security policy.
    pub client_style_hash: String,
    files: HashMap<String, File>,
    worker: File,
}

struct File {
    kind: HeaderValue,
    plain: Bytes,
    brotli: Option<Bytes>,
    gzip: Option<Bytes>,
}

impl Site {
    /// Reads the site in `folder`.
    pub fn read(folder: &Path) -> Result<Self, SiteError> {
        let path = folder.join("manifest.json");
        let manifest: Manifest =
            serde_json::from_slice(&read(&path)?).map_err(|source| SiteError::Manifest {
                path: path.clone(),
                source,
            })?;
        let address = |file: &'static str| match manifest.files.get(file) {
            Some(name) => Ok(format!("/pkg/{name}")),
            None => Err(SiteError::Missing {
                path: path.clone(),
                file,
            }),
        };
        let addresses = Addresses {
            client_script: address("client.js")?,
            artist_script: address("artist.js")?,
            artist_style: address("artist.css")?,
            print_style: address("print.css")?,
            client_style_below: address("client/below.css")?,
            icon: {
                let file = address("icon.svg")?;
                let drawing = read(&folder.join(file.trim_start_matches("/pkg/")))?;
                format!("data:image/svg+xml;base64,{}", BASE64.encode(&drawing))
            },
            photos_script: address("photos.js")?,
            forget_script: address("forget.js")?,
        };
        let style_file = address("client.css")?;
        let files = manifest
            .files
            .values()
            .map(|name| Ok((name.clone(), File::read(&folder.join(name))?)))
            .collect::<Result<HashMap<_, _>, SiteError>>()?;
        let client_style = match files.get(style_file.trim_start_matches("/pkg/")) {
            Some(file) => String::from_utf8_lossy(&file.plain).into_owned(),
            None => {
                return Err(SiteError::Missing {
                    path,
                    file: "client.css",
                });
            }
        };
        Ok(Self {
            client_style_hash: BASE64.encode(&Sha256::digest(client_style.as_bytes())),
            client_style,
            build: manifest.build,
            addresses,
            files,
            worker: File::read(&folder.join("worker.js"))?,
        })
    }

    /// A file below `/pkg/`.
    pub fn file(&self, name: &str, asked: &HeaderMap) -> Option<Response> {
        self.files
            .get(name)
            .map(|file| file.answer(asked, Cache::Forever))
    }

    /// The service worker's script.
    pub fn worker(&self, asked: &HeaderMap) -> Response {
        self.worker.answer(asked, Cache::AskAgain)
    }
}

impl File {
    fn read(path: &Path) -> Result<Self, SiteError> {
        let beside = |ending: &str| {
            let mut name = path.as_os_str().to_owned();
            name.push(ending);
            fs::read(name).ok().map(Bytes::from)
        };
        Ok(Self {
            kind: HeaderValue::from_static(kind(path)),
            plain: read(path)?.into(),
            brotli: beside(".br"),
            gzip: beside(".gz"),
        })
    }

    fn answer(&self, asked: &HeaderMap, cache: Cache) -> Response {
        let (body, encoding) = match (accepted(asked), &self.brotli, &self.gzip) {
            (Some(Encoding::Brotli), Some(brotli), _) => (brotli, Some(Encoding::Brotli)),
            (Some(_), _, Some(gzip)) => (gzip, Some(Encoding::Gzip)),
            _ => (&self.plain, None),
        };
        let mut response = body.clone().into_response();
        let headers = response.headers_mut();
        headers.insert(header::CONTENT_TYPE, self.kind.clone());
        headers.insert(header::CACHE_CONTROL, cache.header());
        headers.insert(header::VARY, HeaderValue::from_static("accept-encoding"));
        if let Some(encoding) = encoding {
            headers.insert(header::CONTENT_ENCODING, encoding.header());
        }
        response
    }
}

fn read(path: &Path) -> Result<Vec<u8>, SiteError> {
    fs::read(path).map_err(|source| SiteError::File {
        path: path.to_owned(),
        source,
    })
}

/// The media type by the name's ending (IANA). Browsers compile wasm while it arrives only with its own type.
fn kind(path: &Path) -> &'static str {
    match path.extension().and_then(|ending| ending.to_str()) {
        Some("js") => "text/javascript; charset=utf-8",
        Some("wasm") => "application/wasm",
        Some("css") => "text/css; charset=utf-8",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        Some("json") => "application/json",
        _ => "application/octet-stream",
    }
}
