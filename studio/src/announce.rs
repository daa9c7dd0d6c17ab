//! What is said in the terminal when the studio listens. The log says none of it.

use std::{
    fs,
    io::{self, IsTerminal, Write},
    net::SocketAddr,
    path::{Path, PathBuf},
};

use qrcode::types::QrError;
use serde::Serialize;
use uuid::Uuid;

use crate::{demo::Demo, links::qr, state::Studio};

/// Why the start could not be announced.
#[derive(Debug, thiserror::Error)]
pub enum AnnounceError {
    #[error("{path} cannot be written: {source}")]
    File { path: PathBuf, source: io::Error },
    #[error("the addresses cannot be written as JSON: {0}")]
    Json(#[from] serde_json::Error),
    #[error("the code cannot be drawn: {0}")]
    Code(#[from] QrError),
}

/// For tests that start a server of their own.
#[derive(Serialize)]
struct Links<'a> {
    address: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    sign_in: Option<SignIn<'a>>,
    client_links: Vec<String>,
    patch_test_links: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    begin_code: Option<&'a str>,
}

#[derive(Serialize)]
struct SignIn<'a> {
    email: &'a str,
    password: &'a str,
}

/// Says where the studio is and how to get in.
pub fn announce(
    studio: &Studio,
    address: SocketAddr,
    demo: Option<&Demo>,
    links_json: Option<&Path>,
) -> Result<(), AnnounceError> {
    let written = |links: &Vec<Uuid>| -> Vec<String> {
        links
            .iter()
            .map(|link| studio.public_url.link(&studio.link_key.secret_of(*link)))
            .collect()
    };
    let client_links = demo.map_or_else(Vec::new, |demo| written(&demo.links));
    let patch_test_links = demo.map_or_else(Vec::new, |demo| written(&demo.patch_test_links));
    let text = in_words(studio, demo, &client_links, &patch_test_links)?;
    // Nobody reading is no reason not to serve.
    let _ = writeln!(io::stdout(), "{text}");
    if let Some(path) = links_json {
        let links = Links {
            address: reachable(address),
            sign_in: demo.map(|demo| SignIn {
                email: demo.email,
                password: demo.password,
            }),
            client_links,
            patch_test_links,
            begin_code: studio.set_up_code.as_deref(),
        };
        write_whole(path, &serde_json::to_vec_pretty(&links)?).map_err(|source| {
            AnnounceError::File {
                path: path.to_owned(),
                source,
            }
        })?;
    }
    Ok(())
}

fn in_words(
    studio: &Studio,
    demo: Option<&Demo>,
    client_links: &[String],
    patch_test_links: &[String],
) -> Result<String, AnnounceError> {
    let address = &studio.public_url;
    let mut text = format!("\nThe studio is open at {address}/studio\n");
    if let Some(code) = &studio.set_up_code {
        text.push_str(&format!(
            "It has not been set up yet. Open {address}/studio/begin and give this set-up code: {code}\n"
        ));
    }
    if let (Some(demo), Some(link)) = (demo, client_links.first()) {
        text.push_str(&format!(
            "This is a demo: its people are invented, and it is made anew at each start.\n\n\
             The artist signs in with   {}\n\
             and the password           {}\n\n\
             One client's page is       {link}\n\
             or scan this:\n\n",
            demo.email, demo.password
        ));
        text.push_str(&qr::terminal(
            &link.to_ascii_uppercase(),
            io::stdout().is_terminal(),
        )?);
        text.push('\n');
        if let Some(link) = patch_test_links.first() {
            text.push_str(&format!("A patch test's page is     {link}\n"));
        }
    }
    Ok(text)
}

/// An address that this machine can open, where the listener takes every address.
fn reachable(address: SocketAddr) -> String {
    if address.ip().is_unspecified() {
        format!("http://127.0.0.1:{}", address.port())
    } else {
        format!("http://{address}")
    }
}

/// Whoever waits for the file finds all of it or none of it.
fn write_whole(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let draft = path.with_extension("draft");
    fs::write(&draft, bytes)?;
    fs::rename(draft, path)
}
