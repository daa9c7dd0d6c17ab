//! How a client can be reached, to be tapped where it is a number or an address.

use dioxus::prelude::*;

/// What was written, as a link where it is one number or one address.
pub(super) fn reach(written: &str) -> Element {
    rsx! {
        match address(written) {
            Some(address) => rsx! {
                a { class: "reach", href: "{address}", "{written}" }
            },
            None => rsx! { "{written}" },
        }
    }
}

/// `tel:` by RFC 3966, `mailto:` by RFC 6068; `None` where it is neither or more than that.
fn address(written: &str) -> Option<String> {
    let written = written.trim();
    let (user, host) = written.split_once('@').unwrap_or_default();
    let plain = |one: char| one.is_ascii_alphanumeric() || ".-_+".contains(one);
    if !user.is_empty() && host.contains('.') && (user.chars().chain(host.chars())).all(plain) {
        return Some(format!("mailto:{written}"));
    }
    let (plus, rest) = match written.strip_prefix('+') {
        Some(rest) => ("+", rest),
        None => ("", written),
    };
    let digits: String = rest.chars().filter(char::is_ascii_digit).collect();
    let only_a_number = rest
        .chars()
        .all(|one| one.is_ascii_digit() || " -.()/".contains(one));
    // As long as numbers are by ITU-T E.164: 15 digits at most. Shorter than five is no client's own.
    (only_a_number && (5..=15).contains(&digits.len())).then(|| format!("tel:{plus}{digits}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_or_an_address_by_itself_can_be_tapped() {
        let tapped = |written: &str| address(written).unwrap_or_default();
        assert_eq!(tapped("07700 900123"), "tel:07700900123");
        assert_eq!(tapped(" +44 (20) 7946-0417 "), "tel:+442079460417");
        assert_eq!(tapped("noor@mail.example"), "mailto:noor@mail.example");
        for neither in [
            "",
            "after six",
            "07700 900123 after six",
            "07700 900123, 07700 900124",
            "noor@mail",
            "noor@mail.example?subject=x",
            "1234",
            "javascript:alert(1)",
        ] {
            assert_eq!(address(neither), None, "{neither}");
        }
    }
}
