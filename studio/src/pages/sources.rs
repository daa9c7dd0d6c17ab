//! Who says so: the backing of a rule in words, and the titles of its sources as they were published.

use shared_types::{
    care_plan::{Caution, own::Whose},
    catalogue::{Catalogue, caution::Grade, source::Source},
    page::own_advice::SourceLine,
    words::Words,
};

/// A sentence about the backing, then the titles of the sources.
fn backed(backing: &str, named: &[&Source], words: &Words) -> String {
    let backing = words.say(backing).to_owned();
    let named: Vec<&str> = named.iter().map(|source| source.title.as_str()).collect();
    let key = match named.len() {
        0 => return backing,
        1 => "backing.sources.one",
        _ => "backing.sources.other",
    };
    let titles = words.fill(key, &[("list", &named.join("; "))]);
    format!("{backing} {titles}")
}

/// For the artist. That something is common practice is said by the backing.
pub fn basis(catalogue: &Catalogue, grade: Grade, ids: &[String], words: &Words) -> String {
    let named = ids.iter().filter(|id| **id != grade.to_string());
    let named: Vec<&Source> = named.filter_map(|id| catalogue.sources.get(id)).collect();
    backed(&format!("backing.{grade}"), &named, words)
}

/// Whose advice a caution is and who backs it, as the client reads it: never the studio's reason. Named are the sources
/// that were read, not those that only say that there is none.
pub fn whose(catalogue: &Catalogue, caution: &Caution, studio: &str, words: &Words) -> String {
    let named = caution.sources.iter();
    let named = named.filter_map(|id| catalogue.sources.get(id));
    let named: Vec<&Source> = named.filter(|source| source.url.is_some()).collect();
    said(caution, &named, studio, words)
}

/// The same without the sources.
pub fn whose_alone(caution: &Caution, studio: &str, words: &Words) -> String {
    said(caution, &[], studio, words)
}

fn said(caution: &Caution, named: &[&Source], studio: &str, words: &Words) -> String {
    match &caution.whose {
        Whose::Label { product } => words.fill("whose.label", &[("product", product)]),
        Whose::Studio { .. } => words.fill("whose.studio", &[("studio", studio)]),
        Whose::Catalogue => {
            let said = backed(&format!("grade.{}", caution.grade), named, words);
            if caution.reworded {
                let own = words.fill("whose.words", &[("studio", studio)]);
                format!("{own} {said}")
            } else {
                said
            }
        }
    }
}

/// Each source with its page, for the artist.
pub fn lines(catalogue: &Catalogue, ids: &[String]) -> Vec<SourceLine> {
    let sources = ids.iter().filter_map(|id| catalogue.sources.get(id));
    sources
        .map(|source| SourceLine {
            title: source.title.clone(),
            address: source.url.clone().unwrap_or_default(),
        })
        .collect()
}
