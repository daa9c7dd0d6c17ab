//! **Now**: what to keep away from, grouped by the minute at which it ends.

use chrono::{DateTime, Utc};
use dioxus::prelude::*;
use shared_types::{
    care_plan::said_first, page::client::CautionCard, visit::CautionKind, words::Words,
};

use super::{life::Live, use_page};
use crate::parts::{EndingTogether, by_end};

/// The time left in the largest unit that is still exact enough to act on: minutes in the last hour, hours (rounded
/// up, so that it never promises too early) for two days, then days.
pub(super) fn time_left(words: &Words, now: DateTime<Utc>, until: DateTime<Utc>) -> String {
    let minutes = ((until - now).num_seconds() + 59).div_euclid(60).max(1);
    if minutes <= 60 {
        words.count("client.now.minutes", minutes)
    } else if minutes <= 48 * 60 {
        words.count("client.now.hours", (minutes + 59) / 60)
    } else {
        words.count("client.now.days", (minutes + 1439) / 1440)
    }
}

#[component]
pub(super) fn Now() -> Element {
    let page = use_page();
    let live = use_context::<Live>();
    let now = *live.now.read();
    let words = &page.words;

    let (over, running): (Vec<_>, Vec<_>) = by_end(&page.cautions)
        .into_iter()
        .partition(|group| group.until.at <= now);
    let (lead, then) = match (running.first(), running.last()) {
        (Some(first), Some(last)) => {
            let when = [("when", last.until.text.as_str())];
            let more = running.len() > 1;
            (
                lead(words, &running, &time_left(words, now, first.until.at)),
                more.then(|| words.fill("client.now.then", &when)),
            )
        }
        _ => (
            words.fill("client.now.all_over", &[("area", &page.treated)]),
            None,
        ),
    };

    rsx! {
        section { id: "now", aria_labelledby: "now-title",
            h2 { id: "now-title", {words.say("client.now.title").to_owned()} }
            p { class: "lead", "{lead}" }
            if let Some(then) = then {
                p { "{then}" }
            }
            for group in &running {
                div { class: "until", key: "{group.until.at.timestamp()}",
                    h3 {
                        span { {words.fill("client.now.until", &[("when", &group.until.text)])} }
                        small { {words.fill("client.now.left", &[("left", &time_left(words, now, group.until.at))])} }
                    }
                    {cards(words, &group.cards, "")}
                }
            }
            if !over.is_empty() {
                // Weeks later this is all that is left, and nobody needs it any more: then it is folded away.
                details { class: "until over", "open": !running.is_empty(),
                    summary { {words.say("client.now.over").to_owned()} }
                    for group in &over {
                        div { key: "{group.until.at.timestamp()}",
                            {cards(words, &group.cards, &words.fill("client.now.ended", &[("when", &group.until.text)]))}
                        }
                    }
                }
            }
        }
    }
}

/// One sentence that is true at this minute: what holds until the first of the cautions ends, in `left`.
fn lead(words: &Words, running: &[EndingTogether<'_>], left: &str) -> String {
    let holds = |kind: CautionKind| {
        let mut cards = running.iter().flat_map(|group| &group.cards);
        cards.any(|card| card.id == kind.term())
    };
    let named: Vec<String> = said_first(holds)
        .map(|kind| words.say(&format!("client.now.keep.{kind}")).to_owned())
        .collect();
    let key = if named.is_empty() {
        "client.now.lead_gently"
    } else {
        "client.now.lead"
    };
    words.fill(key, &[("left", left), ("keep", &words.list(&named))])
}

/// The cautions of one group; each opens to why it is asked for and who says so.
fn cards(words: &Words, cards: &[&CautionCard], ended: &str) -> Element {
    rsx! {
        ul { class: "cautions",
            for card in cards {
                li { key: "{card.id}",
                    details {
                        summary {
                            "{card.what}"
                            if !ended.is_empty() {
                                small { " {ended}" }
                            }
                        }
                        p { "{card.why}" }
                        p { class: "basis",
                            {words.count("client.now.asked_hours", i64::from(card.hours))}
                            " {card.basis}"
                        }
                    }
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use chrono::TimeDelta;
    use shared_types::page::client::Moment;

    fn words() -> Words {
        let mut words = Words::none();
        for unit in ["minutes", "hours", "days"] {
            for form in ["one", "other"] {
                words.insert(
                    format!("client.now.{unit}.{form}"),
                    format!("{{n}} {unit} {form}"),
                );
            }
        }
        words
    }

    fn card(id: &str) -> CautionCard {
        CautionCard {
            id: id.to_owned(),
            what: String::new(),
            why: String::new(),
            until: Moment {
                at: DateTime::<Utc>::UNIX_EPOCH,
                text: String::new(),
            },
            hours: 24,
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
        let said = |ids: &[&str]| {
            let cards: Vec<CautionCard> = ids.iter().map(|id| card(id)).collect();
            lead(&words, &by_end(&cards), "21 hours")
        };
        assert_eq!(
            said(&["heat", "exercise", "water"]),
            "For 21 hours: dry and cool."
        );
        assert_eq!(said(&["exercise"]), "For 21 hours: gently.");
    }

    #[test]
    fn time_left_is_never_shorter_than_it_is() {
        let start = DateTime::<Utc>::UNIX_EPOCH;
        let left = |seconds| time_left(&words(), start, start + TimeDelta::seconds(seconds));
        assert_eq!(left(59), "1 minutes one");
        assert_eq!(left(61), "2 minutes other");
        assert_eq!(left(3600), "60 minutes other");
        assert_eq!(left(3601), "2 hours other");
        assert_eq!(left(48 * 3600), "48 hours other");
        assert_eq!(left(48 * 3600 + 1), "3 days other");
        assert_eq!(left(72 * 3600), "3 days other");
    }
}
