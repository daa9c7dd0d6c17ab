//! A real mail server on this machine (aiosmtpd, from PyPI), which keeps what it takes.

use std::{
    io::{BufRead, BufReader, Write},
    net::TcpListener,
    path::PathBuf,
    process::{Child, Command, Stdio},
    sync::{Arc, Mutex},
    thread,
};

use serde_json::{Value, json};

use crate::{python::python, wait::until};

const SCRIPT: &str = include_str!("mail_server.py");

/// What the server is like.
#[derive(Clone, Default)]
pub struct Kind {
    /// `nothing`, `starttls` or `tls`.
    pub security: &'static str,
    /// Certificate and key, PEM.
    pub certificate: Option<(PathBuf, PathBuf)>,
    /// User and password that it asks for.
    pub sign_in: Option<(&'static str, &'static str)>,
    /// What it answers to every letter instead of taking it.
    pub refuses: Option<&'static str>,
    /// Addresses that it does not know.
    pub unknown: &'static [&'static str],
}

/// A letter that it took.
#[derive(Clone, Debug)]
pub struct Letter {
    pub from: String,
    pub to: Vec<String>,
    /// As it came: header and body.
    pub raw: String,
    /// What is read, its encoding undone by Python's own library.
    pub text: String,
    /// Whether it came over TLS.
    pub safe: bool,
    pub user: Option<String>,
}

impl Letter {
    /// The value of a header field.
    pub fn header(&self, name: &str) -> &str {
        let mut lines = self.raw.lines().filter_map(|line| line.split_once(':'));
        lines
            .find(|(one, _)| one.eq_ignore_ascii_case(name))
            .map_or("", |(_, value)| value.trim())
    }
}

/// A mail server that runs. It is ended when this is dropped.
pub struct MailServer {
    child: Child,
    letters: Arc<Mutex<Vec<Letter>>>,
}

/// A port where nobody listens.
pub fn free_port() -> u16 {
    let listener = TcpListener::bind("127.0.0.1:0").expect("a free port");
    listener.local_addr().expect("its address").port()
}

impl MailServer {
    /// At a port of this machine.
    pub fn start(port: u16, kind: &Kind) -> Self {
        let mut child = Command::new(python())
            .args(["-c", SCRIPT])
            .env("PYTHONUTF8", "1")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            // It tells at length of connections that were broken off, which is what some tests are about.
            .stderr(Stdio::null())
            .spawn()
            .expect("Python starts");
        let files = kind.certificate.as_ref();
        let asked = json!({
            "port": port,
            "security": kind.security,
            "certificate": files.map(|(certificate, _)| certificate),
            "key": files.map(|(_, key)| key),
            "sign_in": kind.sign_in.map(|(user, password)| [user, password]),
            "refuses": kind.refuses,
            "unknown": kind.unknown,
        });
        let input = child.stdin.as_mut().expect("its input");
        writeln!(input, "{asked}").expect("it reads");
        let mut lines = BufReader::new(child.stdout.take().expect("its output")).lines();
        let first = lines.next().expect("the mail server listens");
        assert_eq!(first.expect("a line"), "\"listening\"");
        let letters = Arc::new(Mutex::new(Vec::new()));
        let kept = letters.clone();
        thread::spawn(move || {
            for line in lines.map_while(Result::ok) {
                let letter = serde_json::from_str(&line).expect("a letter as JSON");
                kept.lock().expect("the letters").push(read(&letter));
            }
        });
        Self { child, letters }
    }

    pub fn letters(&self) -> Vec<Letter> {
        self.letters.lock().expect("the letters").clone()
    }

    /// Waits until it has taken so many.
    pub fn wait_for(&self, count: usize) -> Vec<Letter> {
        until(&format!("{count} letters"), || {
            let letters = self.letters();
            (letters.len() >= count).then_some(letters)
        })
    }
}

fn read(letter: &Value) -> Letter {
    let text = |value: &Value| value.as_str().expect("a text").to_owned();
    let to = letter["to"].as_array().expect("addresses");
    Letter {
        from: text(&letter["from"]),
        to: to.iter().map(text).collect(),
        raw: text(&letter["raw"]),
        text: text(&letter["text"]),
        safe: letter["safe"] == true,
        user: letter["user"].as_str().map(str::to_owned),
    }
}

impl Drop for MailServer {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
