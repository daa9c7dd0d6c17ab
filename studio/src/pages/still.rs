//! The parts of the client's page that never move, drawn once as HTML.

use dioxus::prelude::Element;
use mobile::client::still;
use shared_types::page::client::Still;

use super::client::{Source, Typed, dates};
use crate::{handlers::client::Holder, links::address, state::Studio};

/// Everything that the page says and does not change while it is open.
pub fn still(studio: &Studio, source: &Source, holder: &Holder, typed: Typed) -> Still {
    let (language, words) = studio.words(&source.language);
    let wall = source.wall(studio);
    let advice = &source.advice;
    let card = studio.card(&source.studio, &source.artist, language);
    let first_name = source.client.first_name.as_str();
    let finished = wall.moment(source.finished_at, holder.now.0).text;
    let path = address::path(&holder.secret);
    let dates = dates(studio, source, holder, typed);
    let weeks = advice.weeks.as_ref();
    Still {
        language: language.to_owned(),
        title: words.fill(
            "client.head.page_title",
            &[("name", first_name), ("studio", &card.name)],
        ),
        head: html(still::head(
            words,
            &card.name,
            first_name,
            &advice.done,
            &finished,
            &path,
        )),
        after: if advice.after.is_empty() {
            String::new()
        } else {
            html(still::after(words, &advice.after))
        },
        below_figures: weeks.map_or_else(Vec::new, |weeks| {
            let areas = weeks.areas.iter();
            areas
                .map(|area| html(still::below_figure(words, area)))
                .collect()
        }),
        weeks: weeks.map_or_else(String::new, |weeks| {
            html(still::weeks(words, weeks, &advice.before_next))
        }),
        zones: advice
            .zones
            .as_ref()
            .map_or_else(String::new, |zones| html(still::zones(words, zones))),
        dates: dates.map_or_else(String::new, |dates| {
            html(still::dates(words, &dates, &path))
        }),
        emergency: html(still::emergency_and_way(words, &card.emergency, &path)),
        foot: html(still::foot(words, &card, &path)),
    }
}

/// As HTML, without the marks by which the browser finds parts again.
pub(super) fn html(part: Element) -> String {
    dioxus_ssr::render_element(part)
}

#[cfg(test)]
mod tests {
    use mobile::client::still::Dates;
    use shared_types::words::Words;

    use super::*;

    #[test]
    fn what_was_typed_stays_where_it_was_typed() {
        let dates = Dates {
            typed: "\"><script>alert(1)</script>".to_owned(),
            fault: Some("<b>No</b>".to_owned()),
            ..Dates::default()
        };
        let html = html(still::dates(&Words::none(), &dates, "/MY/SECRET"));
        assert!(!html.contains("<script") && !html.contains("<b>"), "{html}");
        assert!(html.contains("action=\"/MY/SECRET/occasion\""), "{html}");
        assert!(!html.contains("<!--"), "no marks of the browser's: {html}");
    }
}
