//! **Now**: what to keep away from, grouped by the minute at which it ends.

use chrono::{DateTime, Utc};
use dioxus::prelude::*;
use shared_types::words::Words;

use super::{life::Live, use_page};

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

    let (over, running): (Vec<_>, Vec<_>) = page
        .cautions
        .iter()
        .partition(|group| group.until.at <= now);
    let lead = match running.first() {
        Some(next) => next
            .lead
            .replace("{left}", &time_left(words, now, next.until.at)),
        None => words.fill("client.now.all_over", &[("area", &page.treated)]),
    };

    rsx! {
        section { id: "now", aria_labelledby: "now-title",
            h2 { id: "now-title", {words.say("client.now.title").to_owned()} }
            p { class: "lead", "{lead}" }
            if let [_, .., last] = &*running {
                p { {words.fill("client.now.then", &[("when", &last.until.text)])} }
            }
            for group in &running {
                div { class: "until", key: "{group.until.at.timestamp()}",
                    h3 {
                        span { {words.fill("client.now.until", &[("when", &group.until.text)])} }
                        small { {words.fill("client.now.left", &[("left", &time_left(words, now, group.until.at))])} }
                    }
                    ul { class: "cautions", dangerous_inner_html: group.html.clone() }
                }
            }
            if !over.is_empty() {
                // Weeks later this is all that is left, and nobody needs it any more: then it is folded away.
                details { class: "until over", "open": !running.is_empty(),
                    summary { {words.say("client.now.over").to_owned()} }
                    for group in &over {
                        div { key: "{group.until.at.timestamp()}",
                            p { class: "ended", {words.fill("client.now.ended", &[("when", &group.until.text)])} }
                            ul { class: "cautions", dangerous_inner_html: group.html.clone() }
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
