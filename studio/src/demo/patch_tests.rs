//! The demo's patch tests: one to be read today, one that shows something, and the clear ones before two visits.

use chrono::{DateTime, TimeDelta, Utc};
use chrono_tz::Tz;
use content::Content;
use rusqlite::Transaction;
use shared_types::{
    patch_test::{Answer, Applied, Noticed, Outcome, Place},
    visit::{Product, Treatment},
};
use uuid::Uuid;

use super::{Kind, id, scenario::When};
use crate::{
    links::{give, secret::LinkKey},
    pages::patch_test::CONSENT_VERSION,
    record::{
        RecordError,
        clients::{self, Client},
        patch_tests::{self, events},
    },
};

/// Whose test it is.
enum Whose {
    /// The client of a story, from 1.
    Story(u32),
    /// Somebody who has not had a visit: first name and how to reach them.
    New(&'static str, &'static str),
}

struct Tested {
    whose: Whose,
    applied: When,
    treatments: &'static [Treatment],
    product: (&'static str, &'static str),
    place: Place,
    place_words: &'static str,
    /// What the client said, so many hours later.
    told: Option<(i64, Noticed, &'static str)>,
    /// What the artist noted, so many hours later.
    read: Option<(i64, Outcome, &'static str)>,
}

const NUT_BROWN: (&str, &str) = ("Orrin tint, nut brown", "OT3-118");

/// A new one goes to the end: links are found by their number.
const TESTS: &[Tested] = &[
    Tested {
        whose: Whose::New("Maren", "07700 900741"),
        applied: When::DaysAgo {
            days: 2,
            hour: 14,
            minute: 30,
        },
        treatments: &[Treatment::BrowTint],
        product: NUT_BROWN,
        place: Place::BehindTheEar,
        place_words: "left",
        told: None,
        read: None,
    },
    Tested {
        whose: Whose::New("Teodor", "teodor@mail.example"),
        applied: When::DaysAgo {
            days: 2,
            hour: 11,
            minute: 0,
        },
        treatments: &[Treatment::BrowTint, Treatment::BrowLamination],
        product: ("Orrin tint, slate", "OT5-031"),
        place: Place::InnerElbow,
        place_words: "",
        told: Some((
            22,
            Noticed::Something,
            "It has itched since last night, and there is a red patch the size of a coin.",
        )),
        read: None,
    },
    // Noor.
    Tested {
        whose: Whose::Story(1),
        applied: When::DaysAgo {
            days: 6,
            hour: 10,
            minute: 30,
        },
        treatments: &[Treatment::BrowTint],
        product: NUT_BROWN,
        place: Place::BehindTheEar,
        place_words: "",
        told: None,
        read: Some((49, Outcome::NoReaction, "Nothing to see or feel.")),
    },
    // Linnea.
    Tested {
        whose: Whose::Story(8),
        applied: When::DaysAgo {
            days: 5,
            hour: 9,
            minute: 15,
        },
        treatments: &[Treatment::LashLift, Treatment::LashTint],
        product: ("Orrin lash tint, black", "OL1-204"),
        place: Place::BehindTheEar,
        place_words: "",
        told: Some((50, Noticed::Nothing, "All fine.")),
        read: Some((73, Outcome::NoReaction, "")),
    },
];

/// How many there are.
pub fn count() -> u32 {
    u32::try_from(TESTS.len()).unwrap_or_default()
}

/// Adds them to a record that has its stories.
pub fn make(
    record: &Transaction<'_>,
    content: &Content,
    key: &LinkKey,
    artist: Uuid,
    zone: Tz,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    for (number, tested) in (1..).zip(TESTS) {
        let at = tested.applied.instant(now, zone);
        let whose = |kind| id(kind, number);
        let client = match tested.whose {
            Whose::Story(story) => id(Kind::Client, story),
            Whose::New(name, reach) => {
                let client = Client {
                    id: id(Kind::TestClient, number),
                    first_name: name.to_owned(),
                    reach: reach.to_owned(),
                };
                clients::add(record, &client, artist, at)?;
                client.id
            }
        };
        let test = Applied {
            id: whose(Kind::PatchTest),
            client,
            treatments: tested.treatments.to_vec(),
            product: Product {
                name: tested.product.0.to_owned(),
                batch: tested.product.1.to_owned(),
            },
            place: tested.place,
            place_words: tested.place_words.to_owned(),
            applied_at: at,
            look_hours: content.catalogue.patch_test.look_hours(),
            note: String::new(),
        };
        patch_tests::add(record, &test, &content.version, artist, at)?;
        let link = whose(Kind::PatchTestLink);
        give::add_to_test(record, key, link, test.id, at, artist, at)?;
        if let Some((hours, noticed, words)) = tested.told {
            let answer = Answer {
                noticed,
                words: words.to_owned(),
                consent: CONSENT_VERSION.to_owned(),
            };
            let received = at + TimeDelta::hours(hours);
            events::take(
                record,
                whose(Kind::PatchTestAnswer),
                test.id,
                link,
                &answer,
                received,
            )?;
        }
        if let Some((hours, outcome, words)) = tested.read {
            let (event, read_at) = (whose(Kind::PatchTestEvent), at + TimeDelta::hours(hours));
            events::read(record, event, test.id, outcome, words, artist, read_at)?;
        }
    }
    Ok(())
}
