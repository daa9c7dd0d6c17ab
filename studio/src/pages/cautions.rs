//! The cautions by their end, and the page's first sentence for each of the times between two ends.

use mobile::{
    client::still,
    parts::{EndingTogether, by_end},
};
use shared_types::{
    care_plan::said_first,
    page::client::{CautionCard, CautionsUntil},
    visit::CautionKind,
    words::Words,
};

use super::still::html;

/// `cards` are sorted by end.
pub(super) fn by_their_end(words: &Words, cards: &[CautionCard]) -> Vec<CautionsUntil> {
    let groups = by_end(cards);
    let of = |(at, group): (usize, &EndingTogether<'_>)| CautionsUntil {
        until: group.until.clone(),
        lead: lead(words, groups.get(at..).unwrap_or_default()),
        html: html(still::cautions(words, &group.cards)),
    };
    groups.iter().enumerate().map(of).collect()
}

/// One sentence that is true while these hold, with `{left}` for the time until the first of them ends.
fn lead(words: &Words, running: &[EndingTogether<'_>]) -> String {
    let holds = |kind: CautionKind| {
        let mut cards = running.iter().flat_map(|group| &group.cards);
        cards.any(|card| card.id == kind.term())
    };
    let named: Vec<String> = said_first(holds)
        .map(|kind| words.say(&format!("client.now.keep.{kind}")).to_owned())
        .collect();
    if named.is_empty() {
        return words.say("client.now.lead_gently").to_owned();
    }
    words.fill("client.now.lead", &[("keep", &words.list(&named))])
}

#[cfg(test)]
mod tests {
    use chrono::{DateTime, TimeDelta};
    use shared_types::page::client::Moment;

    use super::*;

    fn card(id: &str, hours: u32) -> CautionCard {
        CautionCard {
            id: id.to_owned(),
            what: format!("No {id} <b>"),
            why: String::new(),
            until: Moment {
                at: DateTime::UNIX_EPOCH + TimeDelta::hours(hours.into()),
                text: String::new(),
            },
            hours,
            basis: String::new(),
        }
    }

    #[test]
    fn the_first_sentence_names_what_still_holds() {
        let mut words = Words::none();
        for (key, text) in [
            ("client.now.lead", "For {left}: {keep}."),
            ("client.now.lead_gently", "For {left}: gently."),
            ("client.now.keep.heat", "cool"),
            ("client.now.keep.water", "dry"),
            ("list.last", "{most} and {last}"),
        ] {
            assert!(words.insert(key.to_owned(), text.to_owned()));
        }
        let cards = [card("water", 24), card("heat", 48), card("exercise", 72)];
        let groups = by_their_end(&words, &cards);
        let leads: Vec<&str> = groups.iter().map(|group| group.lead.as_str()).collect();
        assert_eq!(
            leads,
            [
                "For {left}: dry and cool.",
                "For {left}: cool.",
                "For {left}: gently."
            ]
        );
        assert!(
            groups[0].html.contains("No water &#60;b&#62;")
                || groups[0].html.contains("No water &lt;b&gt;")
        );
        assert!(
            !groups[0].html.contains("<!--"),
            "no marks of the browser's"
        );
    }
}
