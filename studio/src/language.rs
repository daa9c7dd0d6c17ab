//! Which language somebody reads in: the one they chose on the page, else those that their phone asks for.

use axum::http::{HeaderMap, header};

/// More than this many are not a person's wishes.
const MOST: usize = 20;

/// The languages that somebody would like, the best first.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Wanted(Vec<String>);

impl Wanted {
    /// What was chosen, then what `Accept-Language` names by falling weight (RFC 9110 section 12.5.4). A weight of nought
    /// is not wanted; one that cannot be read counts as none.
    pub fn of(chosen: Option<&str>, asked: &HeaderMap) -> Self {
        let lines = asked.get_all(header::ACCEPT_LANGUAGE).iter();
        let mut ranges: Vec<(&str, f32)> = lines
            .filter_map(|line| line.to_str().ok())
            .flat_map(|line| line.split(','))
            .take(MOST)
            .map(weighted)
            .filter(|(range, weight)| !range.is_empty() && *weight > 0.0)
            .collect();
        // Stable: of two with the same weight the first stays the first.
        ranges.sort_by(|(_, one), (_, other)| other.total_cmp(one));
        let asked = ranges.into_iter().map(|(range, _)| range);
        Self(chosen.into_iter().chain(asked).map(str::to_owned).collect())
    }

    /// The best of the languages that are offered. A wish is cut from its end until it fits one (RFC 4647 section 3.4):
    /// `es-MX` finds `es`. `None` when nothing fits, or when anything would do.
    pub fn among<'a>(&self, offered: impl Iterator<Item = &'a str> + Clone) -> Option<&'a str> {
        let fits = |wish: &str| offered.clone().find(|one| one.eq_ignore_ascii_case(wish));
        self.0.iter().find_map(|wish| {
            let mut wish = wish.as_str();
            loop {
                if let Some(found) = fits(wish) {
                    return Some(found);
                }
                wish = wish.rsplit_once('-')?.0;
            }
        })
    }
}

/// A language range and its weight, 0 to 1.
fn weighted(one: &str) -> (&str, f32) {
    let mut parts = one.split(';').map(str::trim);
    let range = parts.next().unwrap_or_default();
    let weight = parts.find_map(|part| part.strip_prefix("q=").or(part.strip_prefix("Q=")));
    let weight = weight.map_or(Some(1.0), |weight| weight.parse().ok());
    (range, weight.unwrap_or(0.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(chosen: Option<&str>, asked: &str) -> Option<&'static str> {
        let asked = HeaderMap::from_iter([(header::ACCEPT_LANGUAGE, asked.parse().unwrap())]);
        Wanted::of(chosen, &asked).among(["en", "es", "fr"].into_iter())
    }

    /// The first header is the example of RFC 9110 section 12.5.4 ("da, en-gb;q=0.8, en;q=0.7"); the cutting of
    /// `zh-Hant-CN-x-private1` that of RFC 4647 section 3.4.
    #[test]
    fn weights_and_longer_tags() {
        for (asked, language) in [
            ("da, en-gb;q=0.8, en;q=0.7", Some("en")),
            ("es-MX", Some("es")),
            ("ES-mx", Some("es")),
            ("en;q=0.5, fr;q=0.9", Some("fr")),
            ("fr;q=0.9, es;q=0.9", Some("fr")),
            ("en;q=0, es;q=0.1", Some("es")),
            ("en;q=much, es;q=0.1", Some("es")),
            ("de, it", None),
            ("*", None),
            ("", None),
            (",,;q=1", None),
        ] {
            assert_eq!(found(None, asked), language, "{asked}");
        }
        let mut only = HeaderMap::new();
        only.insert(
            header::ACCEPT_LANGUAGE,
            "zh-Hant-CN-x-private1".parse().unwrap(),
        );
        let wanted = Wanted::of(None, &only);
        assert_eq!(wanted.among(["zh", "zh-Hant"].into_iter()), Some("zh-Hant"));
    }

    #[test]
    fn what_was_chosen_goes_before_what_the_phone_asks_for() {
        assert_eq!(found(Some("es"), "fr, en"), Some("es"));
        assert_eq!(found(Some("tlh"), "fr, en"), Some("fr"));
    }
}
