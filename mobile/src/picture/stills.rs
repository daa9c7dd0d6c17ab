//! The picture on single days, as files: for a page on which no script runs.

use shared_types::{
    page::picture::{Picture, Subject},
    regrowth::curve::Regrowth,
};

use super::{
    VIEW_BOX, lid,
    strands::{draw, strands},
};

/// The days of the stills, from the visit: three days, two weeks, four, six and eight.
pub const DAYS: [u16; 5] = [3, 14, 28, 42, 56];

/// The colours of the page, which a picture that stands by itself has to bring along.
const STYLE: &str = ":root{--hair:#6b4c3b;--colour:#2b1a13;--young-hair:#a3795f;--lid:#b99c8d}\
@media(prefers-color-scheme:dark){:root{--hair:#b9937c;--colour:#f0dccb;--young-hair:#9a7763;--lid:#6d5a52}}\
.left,.back{fill:var(--hair)}.new{fill:var(--young-hair)}.lid{fill:none;stroke:var(--lid);stroke-width:7}\
.c10{fill:var(--colour)}.c9{fill:color-mix(in srgb,var(--colour) 90%,var(--hair))}\
.c8{fill:color-mix(in srgb,var(--colour) 80%,var(--hair))}.c7{fill:color-mix(in srgb,var(--colour) 70%,var(--hair))}\
.c6{fill:color-mix(in srgb,var(--colour) 60%,var(--hair))}.c5{fill:color-mix(in srgb,var(--colour) 50%,var(--hair))}";

/// An SVG file of the picture on `day`.
pub fn svg(picture: &Picture, day: u16) -> String {
    let regrowth = Regrowth::of_checked(picture.parameters());
    let paths = draw(&strands(picture, &regrowth), &regrowth, f64::from(day));
    let [width, height] = VIEW_BOX;
    let lids = match picture.subject {
        Subject::UpperLashes => format!("<path class=\"lid\" d=\"{}\"/>", lid::EDGES),
        Subject::Brows => String::new(),
    };
    let left = paths.left_class(picture.tinted);
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\"><style>{STYLE}</style>{lids}\
         <path class=\"new\" d=\"{}\"/><path class=\"back\" d=\"{}\"/><path class=\"{left}\" d=\"{}\"/></svg>",
        paths.new, paths.back, paths.left
    )
}
