//! Server-sent events, read as they come (WHATWG HTML, "Server-sent events").

use std::{
    io::{BufRead, BufReader},
    sync::mpsc::{Receiver, RecvTimeoutError, channel},
    thread,
    time::Duration,
};

use reqwest::{
    blocking::{Client, Response},
    header,
};
use serde_json::Value;

/// A machine under load may need long.
const PATIENCE: Duration = Duration::from_secs(60);

/// A stream that is read by a thread of its own.
pub struct Events {
    pub kind: String,
    pub headers: header::HeaderMap,
    events: Receiver<(String, String)>,
}

impl Events {
    /// Opens the stream at an address with this cookie; the answer when it is none.
    pub fn open(address: &str, cookie: Option<&str>) -> Result<Self, Box<Response>> {
        crate::tls::ready();
        let client = Client::builder().timeout(None).build().expect("a client");
        let mut request = client
            .get(address)
            .header(header::ACCEPT, "text/event-stream")
            .header(header::ACCEPT_ENCODING, "gzip, br");
        if let Some(cookie) = cookie {
            request = request.header(header::COOKIE, cookie);
        }
        let answer = request.send().expect("an answer");
        if answer.status() != 200 {
            return Err(Box::new(answer));
        }
        let headers = answer.headers().clone();
        let kind = headers.get(header::CONTENT_TYPE);
        let kind = kind.and_then(|kind| kind.to_str().ok()).unwrap_or_default();
        let (tell, events) = channel();
        let stream = Self {
            kind: kind.to_owned(),
            headers: headers.clone(),
            events,
        };
        thread::spawn(move || {
            let (mut event, mut data) = (String::new(), String::new());
            for line in BufReader::new(answer).lines().map_while(Result::ok) {
                if line.is_empty() {
                    let one = (std::mem::take(&mut event), std::mem::take(&mut data));
                    if one != Default::default() && tell.send(one).is_err() {
                        return;
                    }
                } else if let Some(name) = line.strip_prefix("event:") {
                    event = name.trim().to_owned();
                } else if let Some(text) = line.strip_prefix("data:") {
                    data += text.trim();
                }
            }
        });
        Ok(stream)
    }

    /// The next event, its name and its data; `None` when the stream has ended.
    pub fn next(&self) -> Option<(String, String)> {
        match self.events.recv_timeout(PATIENCE) {
            Ok(event) => Some(event),
            Err(RecvTimeoutError::Disconnected) => None,
            Err(RecvTimeoutError::Timeout) => panic!("waited in vain for an event"),
        }
    }

    /// The data of the next event, which has to be of this name, as JSON.
    pub fn json(&self, name: &str) -> Value {
        let (event, data) = self.next().expect("the stream has not ended");
        assert_eq!(event, name, "{data}");
        serde_json::from_str(&data).expect("JSON")
    }
}
