//! A program that is told by webhook: it keeps what it is sent and answers as it is told to.

use std::{
    io::{BufRead, BufReader, Read, Write},
    net::{TcpListener, TcpStream},
    sync::{Arc, Mutex},
    thread,
};

use base64::{Engine, prelude::BASE64_STANDARD};
use hmac::{Hmac, KeyInit, Mac};
use serde_json::Value;
use sha2::{Digest, Sha256};
use tests::wait::until;

/// What it was sent.
#[derive(Clone, Debug)]
pub struct Message {
    pub line: String,
    pub headers: Vec<(String, String)>,
    pub body: String,
}

impl Message {
    pub fn header(&self, name: &str) -> &str {
        let found = self.headers.iter().find(|(one, _)| one == name);
        found.map_or("", |(_, value)| value)
    }

    pub fn json(&self) -> Value {
        serde_json::from_str(&self.body).expect("JSON")
    }

    /// Checks body and signature as RFC 9530 and RFC 9421 say, with nothing of the studio's own. The time it was made.
    pub fn proven(&self, secret: &str) -> i64 {
        let digest = BASE64_STANDARD.encode(Sha256::digest(self.body.as_bytes()));
        assert_eq!(self.header("content-digest"), format!("sha-256=:{digest}:"));
        let input = self.header("signature-input");
        let (label, parameters) = input.split_once('=').expect("a label");
        let (names, rest) = parameters[1..].split_once(')').expect("names");
        let mut base = String::new();
        for name in names.split(' ') {
            let field = name.trim_matches('"');
            base += &format!("{name}: {}\n", self.header(field));
        }
        for covered in ["\"content-digest\"", "\"idempotency-key\""] {
            assert!(names.contains(covered), "{names}");
        }
        base += &format!("\"@signature-params\": {parameters}");
        let mut mac = Hmac::<Sha256>::new_from_slice(secret.as_bytes()).expect("a key");
        mac.update(base.as_bytes());
        let given = self.header("signature");
        let given = given.strip_prefix(&format!("{label}=:")).expect("a label");
        let given = given.strip_suffix(':').expect("bytes");
        let given = BASE64_STANDARD.decode(given).expect("base64");
        mac.verify_slice(&given).expect("the signature is right");
        let created = rest.split(';').find_map(|one| one.strip_prefix("created="));
        created.and_then(|at| at.parse().ok()).expect("a time")
    }
}

/// It listens for as long as the test runs.
#[derive(Clone)]
pub struct Hook {
    pub address: String,
    messages: Arc<Mutex<Vec<Message>>>,
}

impl Hook {
    /// Answers with these heads in turn, the last one again and again.
    pub fn answering(heads: &[&str]) -> Self {
        let listener = TcpListener::bind("127.0.0.1:0").expect("a port");
        let address = format!("http://{}/told?room=2", listener.local_addr().expect("it"));
        let messages = Arc::new(Mutex::new(Vec::new()));
        let hook = Self { address, messages };
        let kept = hook.messages.clone();
        let heads: Vec<String> = heads.iter().map(|head| (*head).to_owned()).collect();
        thread::spawn(move || {
            for (at, stream) in listener.incoming().enumerate() {
                let head = &heads[at.min(heads.len() - 1)];
                let message = answer(stream.expect("a connection"), head);
                kept.lock().expect("the messages").push(message);
            }
        });
        hook
    }

    pub fn messages(&self) -> Vec<Message> {
        self.messages.lock().expect("the messages").clone()
    }

    pub fn wait_for(&self, count: usize) -> Vec<Message> {
        until(&format!("{count} messages"), || {
            let messages = self.messages();
            (messages.len() >= count).then_some(messages)
        })
    }
}

fn answer(mut stream: TcpStream, head: &str) -> Message {
    let mut reader = BufReader::new(stream.try_clone().expect("the stream twice"));
    let mut line = || {
        let mut text = String::new();
        reader.read_line(&mut text).expect("a line");
        text.trim_end().to_owned()
    };
    let first = line();
    let mut headers = Vec::new();
    loop {
        let text = line();
        let Some((name, value)) = text.split_once(':') else {
            break;
        };
        headers.push((name.to_ascii_lowercase(), value.trim().to_owned()));
    }
    let length = headers.iter().find(|(name, _)| name == "content-length");
    let length = length.map_or(0, |(_, value)| value.parse().expect("a length"));
    let mut body = vec![0; length];
    reader.read_exact(&mut body).expect("the body");
    write!(
        stream,
        "HTTP/1.1 {head}\r\nContent-Length: 0\r\nConnection: close\r\n\r\n"
    )
    .expect("it is answered");
    Message {
        line: first,
        headers,
        body: String::from_utf8(body).expect("UTF-8"),
    }
}
