//! Somebody at the studio's door without JavaScript: follows no redirect by itself, keeps cookies, fills in forms.

use std::cell::RefCell;

use reqwest::{
    Method,
    blocking::{Body, Client, Response},
    header,
    redirect::Policy,
};
use serde_json::Value;

use crate::server::Server;

/// A browser's worth of state.
pub struct Visitor {
    client: Client,
    address: String,
    cookie: RefCell<Option<String>>,
}

/// What came back.
pub struct Answer {
    pub status: u16,
    pub headers: header::HeaderMap,
    /// As text.
    pub body: String,
    pub bytes: Vec<u8>,
}

impl Visitor {
    pub fn at(server: &Server) -> Self {
        Self::to(&server.address)
    }

    /// For a thread that has only the studio's address.
    pub fn to(address: &str) -> Self {
        crate::tls::ready();
        Self {
            client: Client::builder()
                .redirect(Policy::none())
                .build()
                .expect("a client"),
            address: address.to_owned(),
            cookie: RefCell::default(),
        }
    }

    /// The demo artist, signed in.
    pub fn demo_artist(server: &Server) -> Self {
        let artist = Self::at(server);
        let (email, password) = server.sign_in();
        artist.sign_in(&email, &password);
        artist
    }

    pub fn sign_in(&self, email: &str, password: &str) {
        let fields = [("email", email), ("password", password)];
        let answer = self.post("/studio/sign-in", &fields);
        assert_eq!(answer.status, 303, "{}", answer.body);
    }

    pub fn get(&self, path: &str) -> Answer {
        self.ask(Method::GET, path, &[], None)
    }

    /// Sends a form's fields, as a browser does with JavaScript switched off.
    pub fn post(&self, path: &str, fields: &[(&str, &str)]) -> Answer {
        self.post_with(path, fields, &[("sec-fetch-site", "same-origin")])
    }

    /// As [`Visitor::post`], with just these headers.
    pub fn post_with(
        &self,
        path: &str,
        fields: &[(&str, &str)],
        headers: &[(&str, &str)],
    ) -> Answer {
        let mut headers = headers.to_vec();
        headers.push(("content-type", "application/x-www-form-urlencoded"));
        self.ask(Method::POST, path, &headers, Some(encoded(fields)))
    }

    /// Sends a form of a signed-in artist's, with the token that the page at `page` carries.
    pub fn post_signed(&self, page: &str, path: &str, fields: &[(&str, &str)]) -> Answer {
        let csrf = self.get(page).hidden("csrf");
        let mut all = vec![("csrf", csrf.as_str())];
        all.extend(fields);
        self.post(path, &all)
    }

    pub fn put(&self, path: &str, json: &Value) -> Answer {
        self.put_text(path, &json.to_string())
    }

    pub fn put_text(&self, path: &str, json: &str) -> Answer {
        let headers = [
            ("content-type", "application/json"),
            ("sec-fetch-site", "same-origin"),
        ];
        self.ask(Method::PUT, path, &headers, Some(json.to_owned()))
    }

    pub fn ask(
        &self,
        method: Method,
        path: &str,
        headers: &[(&str, &str)],
        body: Option<String>,
    ) -> Answer {
        self.try_ask(method, path, headers, body)
            .expect("an answer")
    }

    /// As [`Visitor::ask`], where the studio may be gone before it has answered.
    pub fn try_ask(
        &self,
        method: Method,
        path: &str,
        headers: &[(&str, &str)],
        body: Option<String>,
    ) -> reqwest::Result<Answer> {
        self.try_send(method, path, headers, body.map(Body::from))
    }

    /// Sends bytes that are no text.
    pub fn send_bytes(
        &self,
        method: Method,
        path: &str,
        headers: &[(&str, &str)],
        body: Vec<u8>,
    ) -> Answer {
        self.try_send(method, path, headers, Some(body.into()))
            .expect("an answer")
    }

    fn try_send(
        &self,
        method: Method,
        path: &str,
        headers: &[(&str, &str)],
        body: Option<Body>,
    ) -> reqwest::Result<Answer> {
        let address = if path.starts_with('/') {
            format!("{}{path}", self.address)
        } else {
            path.to_owned()
        };
        let mut request = self.client.request(method, address);
        for (name, value) in headers {
            request = request.header(*name, *value);
        }
        if let Some(cookie) = self.cookie.borrow().as_ref() {
            request = request.header(header::COOKIE, cookie);
        }
        if let Some(body) = body {
            request = request.body(body);
        }
        let answer = Answer::read(request.send()?)?;
        if let Some(set) = answer.headers.get(header::SET_COOKIE) {
            let pair = set
                .to_str()
                .expect("a cookie in ASCII")
                .split(';')
                .next()
                .unwrap_or("")
                .to_owned();
            *self.cookie.borrow_mut() = (!pair.ends_with('=')).then_some(pair);
        }
        Ok(answer)
    }

    /// The session's cookie, name and value.
    pub fn cookie(&self) -> Option<String> {
        self.cookie.borrow().clone()
    }

    pub fn set_cookie(&self, cookie: &str) {
        *self.cookie.borrow_mut() = Some(cookie.to_owned());
    }
}

impl Answer {
    fn read(response: Response) -> reqwest::Result<Self> {
        let (status, headers) = (response.status().as_u16(), response.headers().clone());
        let bytes = response.bytes()?.to_vec();
        Ok(Self {
            status,
            headers,
            body: String::from_utf8_lossy(&bytes).into_owned(),
            bytes,
        })
    }

    pub fn header(&self, name: &str) -> &str {
        self.headers
            .get(name)
            .map_or("", |value| value.to_str().expect("a header in ASCII"))
    }

    /// Where a redirect leads.
    pub fn location(&self) -> &str {
        assert_eq!(self.status, 303, "{}", self.body);
        self.header("location")
    }

    pub fn json(&self) -> Value {
        serde_json::from_str(&self.body).unwrap_or_else(|e| panic!("{e}: {}", self.body))
    }

    /// The value of a hidden field.
    pub fn hidden(&self, name: &str) -> String {
        let tag = self
            .body
            .split("<input ")
            .skip(1)
            .filter_map(|rest| rest.split('>').next())
            .find(|tag| tag.contains(&format!("name=\"{name}\"")))
            .unwrap_or_else(|| panic!("no field `{name}` in {}", self.body));
        tag.split("value=\"")
            .nth(1)
            .and_then(|rest| rest.split('"').next())
            .expect("a value")
            .to_owned()
    }

    /// The page's text without its tags, its state and its scripts, blanks put together.
    pub fn text(&self) -> String {
        let page = self
            .body
            .split("<script type=\"application/json\"")
            .next()
            .unwrap_or("");
        let page = page.split("<body>").nth(1).unwrap_or(page);
        let mut text = String::new();
        for (at, part) in page.split('<').enumerate() {
            text.push_str(if at == 0 {
                part
            } else {
                part.split_once('>').map_or("", |(_, text)| text)
            });
            text.push(' ');
        }
        let text = text
            .replace("&#39;", "'")
            .replace("&quot;", "\"")
            .replace("&lt;", "<")
            .replace("&gt;", ">");
        text.replace("&#60;", "<")
            .replace("&#62;", ">")
            .replace("&#38;", "&")
            .replace("&amp;", "&")
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ")
    }
}

/// Percent-encodes a form's fields (application/x-www-form-urlencoded).
fn encoded(fields: &[(&str, &str)]) -> String {
    let percent = |text: &str| -> String {
        text.bytes()
            .map(|byte| match byte {
                b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'-' | b'_' | b'.' => {
                    char::from(byte).to_string()
                }
                _ => format!("%{byte:02X}"),
            })
            .collect()
    };
    fields
        .iter()
        .map(|(name, value)| format!("{}={}", percent(name), percent(value)))
        .collect::<Vec<_>>()
        .join("&")
}
