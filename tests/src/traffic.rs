//! Requests read from the bytes that a browser sends (HTTP/1.1, RFC 9112), as far as counting them needs.

/// A request that passed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Seen {
    pub method: String,
    /// Path and query.
    pub target: String,
    /// What the browser wants it for (`Sec-Fetch-Dest`): `document`, `script`, `serviceworker`, `image`, `empty`.
    pub destination: String,
}

/// Reads one connection, however its bytes are cut into pieces.
#[derive(Default)]
pub struct Reader {
    pending: Vec<u8>,
    /// Bytes of a body that are still to come.
    body: usize,
}

impl Reader {
    /// The requests whose head is complete with these bytes.
    pub fn read(&mut self, bytes: &[u8]) -> Vec<Seen> {
        self.pending.extend_from_slice(bytes);
        let mut found = Vec::new();
        loop {
            let skipped = self.body.min(self.pending.len());
            self.pending.drain(..skipped);
            self.body -= skipped;
            let Some(end) = self.pending.windows(4).position(|four| four == b"\r\n\r\n") else {
                return found;
            };
            let head: Vec<u8> = self.pending.drain(..end + 4).collect();
            let head = String::from_utf8_lossy(&head);
            self.body = header(&head, "content-length").parse().unwrap_or(0);
            let mut line = head.split(' ');
            let mut word = || line.next().unwrap_or_default().to_owned();
            found.push(Seen {
                method: word(),
                target: word(),
                destination: header(&head, "sec-fetch-dest").to_owned(),
            });
        }
    }
}

fn header<'a>(head: &'a str, name: &str) -> &'a str {
    let mut lines = head.lines().filter_map(|line| line.split_once(':'));
    lines
        .find(|(one, _)| one.eq_ignore_ascii_case(name))
        .map_or("", |(_, value)| value.trim())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn requests_are_found_wherever_the_bytes_are_cut() {
        let sent = b"PUT /a HTTP/1.1\r\nHost: h\r\nContent-Length: 7\r\n\r\n{\r\n\r\n}xGET /b?c HTTP/1.1\r\nSec-Fetch-Dest: script\r\n\r\n";
        for cut in 0..sent.len() {
            let (one, other) = sent.split_at(cut);
            let mut reader = Reader::default();
            let found: Vec<Seen> = reader
                .read(one)
                .into_iter()
                .chain(reader.read(other))
                .collect();
            let brief: Vec<_> = found
                .iter()
                .map(|seen| (&*seen.method, &*seen.target, &*seen.destination))
                .collect();
            // The body is 7 bytes with a blank line among them, which is no request's head.
            assert_eq!(
                brief,
                [("PUT", "/a", ""), ("GET", "/b?c", "script")],
                "cut at {cut}"
            );
        }
    }
}
