//! The code to scan: as a picture for screen and paper, and drawn in the terminal.

use qrcode::{
    EcLevel, QrCode,
    render::{svg, unicode::Dense1x2},
    types::QrError,
};

/// Side of one module in the picture's own units.
const MODULE: u32 = 8;

/// The code for a text.
///
/// Level M (15 % of the code words may be lost) as a rule: a screen is not torn, the link stands beside the code in
/// writing, and every step up costs module size, which is what a phone at arm's length needs most. A typical link of
/// 50 to 61 characters gives 29 × 29 modules at M and 33 × 33 at Q (ISO/IEC 18004 table 7). Where Q needs no more
/// modules than M it is taken, since it is free.
pub fn code(text: &str) -> Result<QrCode, QrError> {
    let medium = QrCode::with_error_correction_level(text, EcLevel::M)?;
    match QrCode::with_error_correction_level(text, EcLevel::Q) {
        Ok(quartile) if quartile.width() == medium.width() => Ok(quartile),
        _ => Ok(medium),
    }
}

/// The code as SVG: black on its own white ground with a quiet zone of four modules (ISO/IEC 18004 section 6.3.8), so
/// that it scans on a dark screen too.
pub fn svg(text: &str) -> Result<String, QrError> {
    Ok(code(text)?
        .render::<svg::Color>()
        .dark_color(svg::Color("#000"))
        .light_color(svg::Color("#fff"))
        .quiet_zone(true)
        .module_dimensions(MODULE, MODULE)
        .build())
}

/// The code in half-block characters, two modules to a character. Light modules are drawn and dark ones left out, with
/// the colours set, so that it scans on a dark terminal and on a light one.
pub fn terminal(text: &str, colours: bool) -> Result<String, QrError> {
    let drawn = code(text)?
        .render::<Dense1x2>()
        .dark_color(Dense1x2::Light)
        .light_color(Dense1x2::Dark)
        .quiet_zone(true)
        .build();
    if !colours {
        return Ok(drawn);
    }
    Ok(drawn
        .lines()
        .map(|line| format!("\x1b[97;40m{line}\x1b[0m"))
        .collect::<Vec<_>>()
        .join("\n"))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO/IEC 18004 table 7, alphanumeric: 61 characters fit version 3 at M, 47 at Q, so that 56 is 29 modules at M.
    #[test]
    fn a_typical_link_takes_29_modules() {
        let link = format!("HTTPS://STUDIO.EXAMPLE.COM/MY/{}", "A".repeat(26));
        assert_eq!(link.len(), 56);
        let code = code(&link).unwrap();
        assert_eq!(
            (code.width(), code.error_correction_level()),
            (29, EcLevel::M)
        );
        // The lower-case form needs byte mode and does not fit (42 bytes at M).
        assert!(super::code(&link.to_lowercase()).unwrap().width() > 29);
    }

    #[test]
    fn quartile_is_taken_where_it_is_free() {
        // 47 characters fit version 3 at Q (table 7); version 2 holds 38 at M.
        let code = code(&"A".repeat(47)).unwrap();
        assert_eq!(
            (code.width(), code.error_correction_level()),
            (29, EcLevel::Q)
        );
    }

    #[test]
    fn the_picture_has_white_ground_quiet_zone_and_no_style() {
        let picture = svg(&"A".repeat(47)).unwrap();
        assert!(picture.contains("fill=\"#fff\""));
        assert!(
            picture.contains("viewBox=\"0 0 296 296\""),
            "29 modules and 2 × 4 of quiet zone, 8 units each"
        );
        assert!(!picture.contains("style"));
    }
}
