//! How a webhook shows that it came from the studio and that nobody changed it on the way: an HTTP message signature
//! (RFC 9421) by HMAC-SHA-256 (section 3.3.3; RFC 2104) over header fields, one of which digests the body (RFC 9530), and
//! over the time at which it was made.

use data_encoding::BASE64;
use hmac::{Hmac, KeyInit, Mac};
use sha2::{Digest, Sha256};

/// The name of the one signature that a message of ours carries.
const LABEL: &str = "studio";

/// The two header fields of a signature.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Signature {
    /// `Signature-Input`
    pub input: String,
    /// `Signature`
    pub signature: String,
}

/// Signs header fields, names in lower case with their values, at a time in seconds since 1970-01-01 UTC.
pub fn sign(key: &[u8], fields: &[(&str, &str)], created: i64, key_id: &str) -> Signature {
    let names: Vec<String> = fields
        .iter()
        .map(|(name, _)| format!("\"{name}\""))
        .collect();
    let parameters = format!("({});created={created};keyid=\"{key_id}\"", names.join(" "));
    // The signature base (section 2.5): a line for each field, and the parameters as the last one.
    let mut base = String::new();
    for (name, value) in fields {
        base.push_str(&format!("\"{name}\": {value}\n"));
    }
    base.push_str(&format!("\"@signature-params\": {parameters}"));
    Signature {
        input: format!("{LABEL}={parameters}"),
        signature: format!("{LABEL}=:{}:", BASE64.encode(&hmac(key, base.as_bytes()))),
    }
}

/// The `Content-Digest` of a body (RFC 9530 section 2).
pub fn content_digest(body: &[u8]) -> String {
    format!("sha-256=:{}:", BASE64.encode(&Sha256::digest(body)))
}

fn hmac(key: &[u8], text: &[u8]) -> [u8; 32] {
    // A key that is longer than the hash's block is digested first, a shorter one filled up with noughts (RFC 2104
    // section 2).
    let mut block = [0; 64];
    let digested;
    let key = if key.len() > block.len() {
        digested = Sha256::digest(key);
        digested.as_slice()
    } else {
        key
    };
    for (place, byte) in block.iter_mut().zip(key) {
        *place = *byte;
    }
    let mut mac = Hmac::<Sha256>::new(&block.into());
    mac.update(text);
    mac.finalize().into_bytes().into()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 9421 appendix B.2.5, with the shared secret of B.1.5. (Typed from memory; that the printed signature comes out
    /// shows that they are right.)
    #[test]
    fn the_worked_example_of_rfc_9421() {
        let key = BASE64
            .decode(
                b"uzvJfB4u3N0Jy4T7NZ75MDVcr8zSTInedJtkgcu46YW4XByzNJjxBdtjUkdJPBtbmHhIDi6pcl8jsasjlTMtDQ==",
            )
            .unwrap();
        let fields = [
            ("date", "Tue, 20 Apr 2021 02:07:55 GMT"),
            ("@authority", "example.com"),
            ("content-type", "application/json"),
        ];
        let signed = sign(&key, &fields, 1_618_884_473, "test-shared-secret");
        assert_eq!(
            signed.input,
            "studio=(\"date\" \"@authority\" \"content-type\");created=1618884473;keyid=\"test-shared-secret\""
        );
        assert_eq!(
            signed.signature,
            "studio=:pxcQw6G3AjtMBQjwo8XzkZf/bws5LelbaMk5rGIGtE8=:"
        );
    }

    /// RFC 4231 test case 6: a key of 131 bytes.
    #[test]
    fn a_key_longer_than_a_block() {
        let mac = hmac(
            &[0xaa; 131],
            b"Test Using Larger Than Block-Size Key - Hash Key First",
        );
        assert_eq!(
            data_encoding::HEXLOWER.encode(&mac),
            "60e431591ee0b67f0d8a26aacbf5b77f8e0bc6213728c5140546040f0ee37f54"
        );
    }

    /// RFC 9530 section 2 and appendix B.1: the digest of `{"hello": "world"}` and a line feed.
    #[test]
    fn the_digest_of_rfc_9530() {
        assert_eq!(
            content_digest(b"{\"hello\": \"world\"}\n"),
            "sha-256=:RK/0qy18MlBSVnWgjwz6lZEWjP/lF5HF9bvEF8FabDg=:"
        );
    }
}
