//! A visit whose dates go into a calendar, at a studio with an awkward name.

use chrono::{DateTime, NaiveDate, TimeDelta, Utc};
use content::Content;
use jiff::ZonedDateTime;
use shared_types::{
    care_plan::{CarePlan, Person, PlanFor, Practice, own::Beside, plan},
    visit::{Findings, Treatment},
};
use studio::{
    calendar::Calendar,
    pages::{occasion::Telling, wall::Wall},
    record::{occasions::Date, studio::Particulars},
};
use uuid::Uuid;

#[derive(Clone)]
pub struct Visited {
    pub finished: ZonedDateTime,
    date: Option<NaiveDate>,
    now: DateTime<Utc>,
}

impl Visited {
    /// Looked at as soon as it is over.
    pub fn at(finished: &str) -> Self {
        let finished: ZonedDateTime = finished.parse().expect("a visit");
        Self {
            now: instant(&finished),
            finished,
            date: None,
        }
    }

    /// With a date to look one's best for, given at once.
    pub fn for_date(mut self, date: &str) -> Self {
        self.date = Some(date.parse().expect("a date"));
        self
    }

    pub fn a_minute_later(mut self) -> Self {
        self.now += TimeDelta::minutes(1);
        self
    }

    pub fn looked_at(mut self, from: &ZonedDateTime, days: i64) -> Self {
        self.now = instant(from) + TimeDelta::days(days);
        self
    }

    pub fn file(&self) -> String {
        self.try_file().expect("something is still to come")
    }

    pub fn try_file(&self) -> Option<String> {
        let content = Content::built_in().expect("content without mistakes");
        let studio = self.studio();
        let practice = Practice::default();
        let (plan, finished_at) = (self.plan(), instant(&self.finished));
        let telling = Telling {
            wall: Wall {
                words: &content.languages["en"],
                zone: studio.time_zone,
            },
            studio: &studio.name,
            plan: &plan,
            finished_at,
            practice: &practice,
        };
        let found = self.date.map(|on| {
            let date = Date {
                on,
                days_before: content.catalogue.rebook.occasion_days(),
                given_at: finished_at,
            };
            telling.plan_back(&date, telling.wall.day(finished_at))
        });
        let calendar = Calendar {
            // One of its own for each end.
            visit: Uuid::from_u128(self.finished.timestamp().as_second().unsigned_abs().into()),
            telling,
            studio: &studio,
            occasion: found.as_ref(),
            sequence: u32::from(self.date.is_some()),
            now: self.now,
        };
        calendar.file()
    }

    pub fn plan(&self) -> CarePlan {
        let content = Content::built_in().expect("content without mistakes");
        let visit = PlanFor {
            finished_at: instant(&self.finished),
            local_date: self.finished.date().to_string().parse().expect("a date"),
            treatments: &[Treatment::BrowWax, Treatment::BrowTint],
            findings: Findings::default(),
            person: &Person::default(),
            practice: &Practice::default(),
            beside: Beside::default(),
        };
        plan(&content.catalogue, &visit).expect("a plan")
    }

    /// Days from the visit to a date.
    pub fn day_of(&self, date: NaiveDate) -> i64 {
        let visit: NaiveDate = self.finished.date().to_string().parse().expect("a date");
        (date - visit).num_days()
    }

    fn studio(&self) -> Particulars {
        let zone = self.finished.time_zone().iana_name().expect("a named zone");
        Particulars {
            name: "Pell Yard; Brows, \"Lashes\" \\ Café".to_owned(),
            phone: "020 7946 0991".to_owned(),
            contact_email: "hello@pell-yard.example".to_owned(),
            region: "uk".to_owned(),
            time_zone: zone.parse().expect("a zone"),
            language: "en".to_owned(),
        }
    }
}

fn instant(at: &ZonedDateTime) -> DateTime<Utc> {
    DateTime::from_timestamp(at.timestamp().as_second(), 0).expect("within the calendar")
}
