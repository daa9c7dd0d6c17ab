//! The cautions that end together, as items of a list.

use dioxus::prelude::*;
use shared_types::{page::client::CautionCard, words::Words};

/// Each opens to why it is asked for, how sure that is, and who says so.
pub fn cautions(words: &Words, cards: &[&CautionCard]) -> Element {
    rsx! {
        for card in cards {
            li { key: "{card.id}",
                details {
                    summary { "{card.what}" }
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
