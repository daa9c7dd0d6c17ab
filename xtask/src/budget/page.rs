//! The client's page as a phone receives it.

use crate::failure::Failure;
use crate::files;
use crate::places;

/// Bytes of the heaviest body among the addresses `below` each of `links`, in whichever language it is heaviest.
pub fn heaviest(links: &[String], below: &str) -> Result<u64, Failure> {
    let folder = places::root().join("content").join("languages");
    // A file of a language lies directly in its folder.
    let mut languages: Vec<String> = files::list(&folder)?
        .iter()
        .filter_map(|file| Some(file.parent()?.to_str()?.to_owned()))
        .collect();
    languages.dedup();
    let mut heaviest = 0;
    for link in links {
        for language in &languages {
            heaviest = heaviest.max(brotli_body(&format!("{link}{below}"), language)?.len() as u64);
        }
    }
    Ok(heaviest)
}

/// The body of `link` in a language, which must come compressed with brotli and be a page.
pub fn brotli_body(link: &str, language: &str) -> Result<Vec<u8>, Failure> {
    let failed = |what: String| Failure::Demo { what };
    let answer = minreq::get(link)
        .with_header("Accept", "text/html")
        .with_header("Accept-Encoding", "br")
        .with_header("Accept-Language", language)
        .with_timeout(30)
        .send()
        .map_err(|error| failed(format!("did not answer for the client's page: {error}")))?;
    if answer.status_code != 200 {
        return Err(failed(format!(
            "answered {} for the client's page",
            answer.status_code
        )));
    }
    let encoding = answer
        .headers
        .iter()
        .find(|(name, _)| name.eq_ignore_ascii_case("content-encoding"))
        .map_or("none", |(_, value)| value.as_str());
    if encoding != "br" {
        return Err(failed(format!(
            "was asked for brotli and sent the client's page with encoding {encoding}"
        )));
    }
    let mut html = Vec::new();
    let whole = brotli::BrotliDecompress(&mut answer.as_bytes(), &mut html).is_ok();
    if !whole || !html.windows(7).any(|word| word == b"</html>") {
        return Err(failed("sent something that is not a whole page".to_owned()));
    }
    Ok(answer.into_bytes())
}
