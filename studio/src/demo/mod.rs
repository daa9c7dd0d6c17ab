//! The demo: an invented studio whose people and products do not exist, made anew at each start with times counted
//! back from now, through the same functions that record a real studio.

mod consultations;
mod history;
mod own_advice;
mod patch_tests;
mod reports;
mod scenario;
mod wishes;
mod zones;

use chrono::{DateTime, Days, TimeDelta, TimeZone, Utc};
use chrono_tz::Tz;
use content::Content;
use rusqlite::Transaction;
use shared_types::{
    care_plan::{
        Person, Practice,
        own::{self, Beside, Label, OwnAdvice},
    },
    visit::{Findings, Product, Visit},
    words::Words,
};
use uuid::Uuid;

use crate::{
    advice::{self, Advice, AdviceError, House},
    links::{give, secret::LinkKey},
    record::{
        Record, RecordError, artists, clients, clients::Client, links, occasions, studio,
        studio::Particulars, versions, visits,
    },
    security::passwords::{PasswordError, hash_now},
};
use scenario::{ARTIST, EMAIL, PASSWORD, STORIES, STUDIO, Story, When};

/// How to get into the demo that was made.
pub struct Demo {
    pub email: &'static str,
    pub password: &'static str,
    /// The clients' links, in the order of the stories.
    pub links: Vec<Uuid>,
    /// Those of the patch tests, in their order.
    pub patch_test_links: Vec<Uuid>,
}

/// Why the demo could not be made.
#[derive(Debug, thiserror::Error)]
pub enum DemoError {
    #[error("the demo could not be recorded: {0}")]
    Record(#[from] RecordError),
    #[error("the demo's advice could not be worked out: {0}")]
    Advice(#[from] AdviceError),
    #[error("the demo's account could not be made: {0}")]
    Password(#[from] PasswordError),
}

/// Fills an empty record.
pub fn make(
    record: &Record,
    content: &Content,
    key: &LinkKey,
    now: DateTime<Utc>,
) -> Result<Demo, DemoError> {
    let password_hash = hash_now(PASSWORD)?;
    let particulars = Particulars {
        name: STUDIO.name.to_owned(),
        phone: STUDIO.phone.to_owned(),
        contact_email: STUDIO.email.to_owned(),
        region: STUDIO.region.to_owned(),
        time_zone: STUDIO.time_zone,
        language: "en".to_owned(),
    };
    let artist = id(Kind::Artist, 0);
    let opened = now - TimeDelta::days(400);
    record.write_now(|record| {
        artists::add(record, artist, ARTIST, EMAIL, &password_hash, opened)?;
        studio::add(record, &particulars, artist, opened)?;
        let practice = scenario::practice();
        versions::add(record, &practice, artist, opened)?;
        let (own, labels) = (own_advice::own(), own_advice::labels());
        versions::add(record, &own, artist, opened)?;
        versions::add(record, &labels, artist, opened)?;
        let maker = Maker {
            own: &own,
            labels: &labels,
            record,
            content,
            key,
            particulars: &particulars,
            practice: &practice,
            artist,
            now,
        };
        for (number, story) in (1..).zip(STORIES) {
            maker.tell(number, story)?;
        }
        maker.consult()?;
        wishes::make(record, artist, particulars.time_zone, now)?;
        let zone = particulars.time_zone;
        patch_tests::make(record, content, key, artist, zone, now)?;
        Ok(Demo {
            email: EMAIL,
            password: PASSWORD,
            links: (1..)
                .zip(STORIES)
                .map(|(number, _)| id(Kind::Link, number))
                .collect(),
            patch_test_links: (1..=patch_tests::count())
                .map(|number| id(Kind::PatchTestLink, number))
                .collect(),
        })
    })
}

/// Ids are the same at each start, so that a link opens again after a new start on the same data folder. (The secret
/// in a link comes from the folder's own key.)
#[derive(Clone, Copy)]
enum Kind {
    Artist,
    Client,
    Visit,
    Link,
    Report,
    Event,
    EarlierVisit,
    EarlierLink,
    Wish,
    WishEvent,
    TestClient,
    PatchTest,
    PatchTestLink,
    PatchTestAnswer,
    PatchTestEvent,
    PutOff,
}

fn id(kind: Kind, number: u32) -> Uuid {
    uuid::Builder::from_u128((kind as u128) << 32 | u128::from(number))
        .with_variant(uuid::Variant::RFC4122)
        .with_version(uuid::Version::Custom)
        .into_uuid()
}

struct Maker<'a> {
    record: &'a Transaction<'a>,
    content: &'a Content,
    key: &'a LinkKey,
    particulars: &'a Particulars,
    practice: &'a Practice,
    own: &'a OwnAdvice,
    labels: &'a [Label],
    artist: Uuid,
    now: DateTime<Utc>,
}

impl Maker<'_> {
    fn words(&self) -> Result<&Words, AdviceError> {
        let language = &self.particulars.language;
        let words = self.content.languages.get(language);
        words.ok_or_else(|| AdviceError::NoLanguage(language.clone()))
    }

    fn tell(&self, number: u32, story: &Story) -> Result<(), DemoError> {
        let finished_at = story.finished.instant(self.now, self.particulars.time_zone);
        let client = Client {
            id: id(Kind::Client, number),
            first_name: story.first_name.to_owned(),
            reach: story.reach.to_owned(),
        };
        let visit = Visit {
            id: id(Kind::Visit, number),
            client: client.id,
            finished_at,
            treatments: story.treatments.to_vec(),
            findings: story
                .findings
                .iter()
                .fold(Findings::default(), |all, one| all.and(*one)),
            products: story
                .products
                .iter()
                .map(|(name, batch)| Product {
                    name: (*name).to_owned(),
                    batch: (*batch).to_owned(),
                })
                .collect(),
            zones: zones::at_latest_visit(number),
            note: story.note.to_owned(),
            observations: Vec::new(),
            flags: Vec::new(),
        };
        let link = id(Kind::Link, number);
        for (visit, link) in history::with_history(number, story, visit, link) {
            self.keep(&client, visit, link)?;
        }
        if let Some(minutes) = story.opened_after_minutes {
            links::note_opened(self.record, link, finished_at + TimeDelta::minutes(minutes))?;
        }
        self.give_date(number, story, finished_at)?;
        self.report(number, story, finished_at)
    }

    /// Records a visit as it would have been recorded when it ended, and its client at the first one.
    fn keep(&self, client: &Client, visit: Visit, link: Uuid) -> Result<(), DemoError> {
        let recorded_at = visit.finished_at + TimeDelta::minutes(2);
        let mut visits = visits::of_client(self.record, client.id)?;
        if visits.is_empty() {
            clients::add(self.record, client, self.artist, recorded_at)?;
        }
        let zone = self.particulars.time_zone;
        let earlier_zones = advice::earlier_zones(visits.iter(), zone);
        visits.push(visit.clone());
        let person =
            Person::learned(&self.content.catalogue, &visits).map_err(AdviceError::from)?;
        let advice = Advice::give_in_all(
            self.content,
            &visit,
            advice::For {
                language: &self.particulars.language,
                zone,
                person: &person,
                practice: self.practice,
                house: House {
                    name: &self.particulars.name,
                    beside: Beside {
                        own: Some(self.own),
                        labels: &own::of_products(self.labels, &visit.products),
                    },
                },
                earlier_zones: &earlier_zones,
            },
        )?;
        visits::add(self.record, &visit, &advice, self.artist, recorded_at)?;
        give::add(
            self.record,
            self.key,
            link,
            visit.id,
            visit.finished_at,
            self.artist,
            recorded_at,
        )?;
        Ok(())
    }

    fn give_date(
        &self,
        number: u32,
        story: &Story,
        finished_at: DateTime<Utc>,
    ) -> Result<(), DemoError> {
        let visited = finished_at
            .with_timezone(&self.particulars.time_zone)
            .date_naive();
        let on = story
            .date_after_days
            .and_then(|days| visited.checked_add_days(Days::new(days)));
        if let Some(on) = on {
            let date = occasions::Date {
                on,
                days_before: self.content.catalogue.rebook.occasion_days(),
                given_at: finished_at + TimeDelta::days(1),
            };
            let (visit, link) = (id(Kind::Visit, number), id(Kind::Link, number));
            occasions::give(self.record, visit, link, &date)?;
        }
        Ok(())
    }
}

impl When {
    /// A time of day that the clocks skip, which no story has, would count as now.
    fn instant(self, now: DateTime<Utc>, zone: Tz) -> DateTime<Utc> {
        match self {
            When::MinutesAgo(minutes) => now - TimeDelta::minutes(minutes),
            When::DaysAgo { days, hour, minute } => {
                let day = (now - TimeDelta::days(days))
                    .with_timezone(&zone)
                    .date_naive();
                day.and_hms_opt(hour, minute, 0)
                    .and_then(|local| zone.from_local_datetime(&local).earliest())
                    .map_or(now, |at| at.to_utc())
            }
        }
    }
}
