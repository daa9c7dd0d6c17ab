//! How large a paper is set, so that all of it stands on one page: paper has no script that could try.

use shared_types::page::client::AfterList;

use super::{CasePrinted, Printed};

/// A size of type. Letters go into a line and lines onto the paper (on the sheet: its two columns), with the widest of
/// the usual system fonts; a narrower one leaves more room.
struct Size {
    class: &'static str,
    letters: usize,
    lines: usize,
}

const fn size(class: &'static str, letters: usize, lines: usize) -> Size {
    Size {
        class,
        letters,
        lines,
    }
}

const SHEET: [Size; 4] = [
    size("sheet", 45, 82),
    size("sheet close", 52, 100),
    size("sheet closer", 60, 112),
    size("sheet closest", 68, 134),
];
const CARD: [Size; 3] = [
    size("card", 42, 17),
    size("card close", 49, 22),
    size("card closer", 59, 28),
];

/// A heading of the sheet with the room around it, in lines.
const HEADING: usize = 3;
/// Letters in a line beside the card's code, and the lines there that cost no room below it.
const BESIDE_CODE: (usize, usize) = (24, 6);

/// The class of the largest size in which the whole sheet finds room.
pub(super) fn sheet(printed: &Printed<'_>) -> &'static str {
    largest(&SHEET, |letters| {
        let lists = printed.after.iter().map(|list| lines_of(list, letters));
        let due = printed.due.map_or(0, |due| {
            HEADING + taken(&[&due.to_come, &due.why], letters) + all(printed.more, letters)
        });
        let notes = printed.zones.iter().flat_map(|zones| &zones.notes);
        let notes = notes.map(|note| taken(&[&note.title, &note.places, &note.text], letters));
        HEADING
            + cautions(printed, letters)
            + lists.sum::<usize>()
            + due
            + HEADING
            + all(printed.before_next, letters)
            + HEADING
            + notes.sum::<usize>()
    })
}

/// Lines that a row of photos takes.
const PHOTOS: usize = 30;

/// The class of the largest size in which the whole case finds room, and of the smallest where it has none: it goes on
/// on a second page then.
pub(super) fn case(case: &CasePrinted<'_>) -> &'static str {
    largest(&SHEET, |letters| {
        let happened = case.timeline.iter();
        let happened: usize = happened
            .map(|(when, what)| taken(&[when, what], letters))
            .sum();
        let parts = case.parts.iter().map(|part| {
            let lines = part.lines.iter();
            let lines = lines.map(|(name, text)| {
                let lines = text.lines().map(|line| taken(&[line], letters));
                taken(&[name], letters).min(1) + lines.sum::<usize>()
            });
            HEADING + lines.sum::<usize>()
        });
        let photos = if case.photos.is_empty() { 0 } else { PHOTOS };
        HEADING + happened + parts.sum::<usize>() + photos
    })
}

/// The class of the largest size in which the whole card finds room.
pub(super) fn card(printed: &Printed<'_>) -> &'static str {
    let (letters_beside, lines_beside) = BESIDE_CODE;
    let done = taken(&[&printed.words.list(printed.done)], letters_beside);
    let below = done.saturating_sub(lines_beside);
    largest(&CARD, |letters| below + cautions(printed, letters))
}

fn largest(sizes: &[Size], lines: impl Fn(usize) -> usize) -> &'static str {
    let fits = |size: &&Size| lines(size.letters) <= size.lines;
    let found = sizes.iter().find(fits).or(sizes.last());
    found.map_or("", |size| size.class)
}

fn cautions(printed: &Printed<'_>, letters: usize) -> usize {
    let mut ends: Vec<_> = printed.cautions.iter().map(|card| card.until.at).collect();
    ends.dedup();
    let what = printed
        .cautions
        .iter()
        .map(|card| taken(&[&card.what], letters));
    ends.len() + what.sum::<usize>()
}

fn lines_of(list: &AfterList, letters: usize) -> usize {
    HEADING + all(&list.lines, letters)
}

fn all(sentences: &[String], letters: usize) -> usize {
    sentences
        .iter()
        .map(|sentence| taken(&[sentence], letters))
        .sum()
}

/// The lines that these take, one after the other. Text breaks where words end: a tenth of a line is lost.
fn taken(texts: &[&str], letters: usize) -> usize {
    let count: usize = texts.iter().map(|text| text.chars().count() + 1).sum();
    (count * 11 / 10).div_ceil(letters)
}
