//! The marked zones of the brows in words.

use chrono::NaiveDate;
use chrono_tz::Tz;
use shared_types::{
    care_plan::{self, Person, PlanError},
    catalogue::Catalogue,
    dates,
    page::zones::{ZoneNote, ZonesCard},
    regrowth::{
        clock::Clock,
        flags::{Outlook, outlook},
    },
    visit::{Area, Visit},
    zones::{self, Mark, Place, Wait, Zones},
};

use crate::pages::wall::Wall;

/// What is told of the marks of a visit; `None` when nothing is marked. `earlier` are the marks of the client's earlier
/// visits with their days at the studio, the latest first.
pub(super) fn card(
    catalogue: &Catalogue,
    visit: &Visit,
    earlier: &[(NaiveDate, Zones)],
    person: &Person,
    wall: &Wall<'_>,
) -> Result<Option<ZonesCard>, PlanError> {
    let marks = visit.zones;
    if marks.is_empty() {
        return Ok(None);
    }
    let today = wall.day(visit.finished_at);
    let mut notes = Vec::new();
    let mut note = |mark: Mark, places: &[Place], text: String| {
        notes.push(ZoneNote {
            mark,
            title: wall.words.say(&format!("mark.{mark}")).to_owned(),
            places: zones::said(wall.words, places.iter().copied()),
            text,
        });
    };
    let wait = wait(catalogue, person)?;
    for (since, places) in by_beginning(&marks, today, earlier) {
        note(
            Mark::LetItGrow,
            &places,
            growing(wall, today, since, wait).ok_or(PlanError::OutOfCalendar)?,
        );
    }
    for mark in [Mark::NothingGrows, Mark::KeepTidy] {
        let places: Vec<Place> = marks.with(mark).collect();
        if !places.is_empty() {
            let text = wall.words.fill(&format!("zones_told.{mark}"), &[]);
            note(mark, &places, text);
        }
    }
    Ok(Some(ZonesCard { marks, notes }))
}

/// The marks of visits with their days at the studio, the latest first; the visits are given by their end.
pub fn earlier_zones<'a>(
    visits: impl DoubleEndedIterator<Item = &'a Visit>,
    zone: Tz,
) -> Vec<(NaiveDate, Zones)> {
    visits
        .rev()
        .map(|visit| {
            let day = visit.finished_at.with_timezone(&zone).date_naive();
            (day, visit.zones)
        })
        .collect()
}

/// How long a zone takes at the person's own pace; `None` where no forecast can be made of it.
fn wait(catalogue: &Catalogue, person: &Person) -> Result<Option<Wait>, PlanError> {
    let clock = person.clock.unwrap_or(Clock::unseen(&catalogue.clock));
    let Outlook::Forecast { clock, .. } = outlook(&catalogue.flags, &person.flags, clock) else {
        return Ok(None);
    };
    let own = care_plan::regrowth(catalogue, Area::Brow, clock.factor())?;
    Ok(Some(zones::wait(&own, &catalogue.zones)))
}

/// The places that are let grow, those together that began on the same day, the longest first.
fn by_beginning(
    marks: &Zones,
    today: NaiveDate,
    earlier: &[(NaiveDate, Zones)],
) -> Vec<(NaiveDate, Vec<Place>)> {
    let mut groups: Vec<(NaiveDate, Vec<Place>)> = Vec::new();
    for place in marks.with(Mark::LetItGrow) {
        let since = zones::growing_since(place, today, earlier);
        match groups.iter_mut().find(|(day, _)| *day == since) {
            Some((_, places)) => places.push(place),
            None => groups.push((since, vec![place])),
        }
    }
    groups.sort_by_key(|(since, _)| *since);
    groups
}

/// The sentences for places that are let grow since a day; `None` at the end of the calendar.
fn growing(
    wall: &Wall<'_>,
    today: NaiveDate,
    since: NaiveDate,
    wait: Option<Wait>,
) -> Option<String> {
    let date = |day| dates::date(wall.words, day, today);
    let say =
        |key: &str, values: &[(&str, &str)]| wall.words.fill(&format!("zones_told.{key}"), values);
    let mut sentences = vec![say("leave_alone", &[])];
    match wait {
        None => sentences.push(say("no_date", &[])),
        Some(wait) => {
            let begins = since.checked_add_days(chrono::Days::new(wait.begins.into()))?;
            let until = since.checked_add_days(chrono::Days::new(wait.hope_until.into()))?;
            if until <= today {
                sentences = vec![say("hope_over", &[("since", &date(since))])];
            } else {
                sentences.push(if begins <= today {
                    say("has_begun", &[])
                } else {
                    say("begins", &[("begins", &date(begins))])
                });
                sentences.push(say("hope", &[("hope", &date(until))]));
            }
        }
    }
    Some(sentences.join(" "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use chrono::DateTime;
    use content::Content;
    use shared_types::{
        catalogue::flag::Flag,
        visit::{Findings, Treatment},
        zones::{Side, Zone},
    };
    use uuid::Uuid;

    const TAIL: Place = Place {
        side: Side::Left,
        zone: Zone::Tail,
    };

    fn day(text: &str) -> NaiveDate {
        text.parse().unwrap()
    }

    /// What is told of a left tail that is let grow at a visit on 3 November 2026.
    fn told(person: &Person, earlier: &[(NaiveDate, Zones)]) -> String {
        let content = Content::built_in().unwrap();
        let visit = Visit {
            id: Uuid::nil(),
            client: Uuid::nil(),
            finished_at: DateTime::from_timestamp(1_793_707_200, 0).unwrap(),
            treatments: vec![Treatment::BrowWax],
            findings: Findings::default(),
            products: Vec::new(),
            zones: growing_tail(),
            note: String::new(),
            observations: Vec::new(),
            flags: Vec::new(),
        };
        let wall = Wall {
            words: &content.languages["en"],
            zone: chrono_tz::Tz::Europe__London,
        };
        let card = card(&content.catalogue, &visit, earlier, person, &wall).unwrap();
        card.unwrap().notes[0].text.clone()
    }

    fn growing_tail() -> Zones {
        let mut zones = Zones::default();
        zones.set(TAIL, Some(Mark::LetItGrow));
        zones
    }

    /// The 32 and 128 days are checked against other sources in `tests/tests/zones.rs`; the dates are the calendar's.
    #[test]
    fn the_dates_count_from_the_first_visit_of_the_row() {
        let fresh = told(&Person::default(), &[]);
        assert!(fresh.contains("from Saturday 5 December."), "{fresh}");
        assert!(fresh.contains("until Thursday 11 March."), "{fresh}");

        let since_september = told(
            &Person::default(),
            &[
                (day("2026-09-22"), growing_tail()),
                (day("2026-08-04"), Zones::default()),
            ],
        );
        assert!(
            since_september.contains("should have begun"),
            "{since_september}"
        );
        assert!(
            since_september.contains("until Thursday 28 January."),
            "{since_september}"
        );
    }

    #[test]
    fn hope_that_had_its_time_is_said_to_be_over() {
        let long_ago = told(&Person::default(), &[(day("2026-06-01"), growing_tail())]);
        assert!(long_ago.contains("since Monday 1 June,"), "{long_ago}");
        assert!(!long_ago.contains("Give it until"), "{long_ago}");
    }

    #[test]
    fn a_faster_person_is_told_earlier_days() {
        let rules = Content::built_in().unwrap().catalogue.clock;
        let faster = Person {
            clock: Some(Clock {
                mean: 0.2,
                ..Clock::unseen(&rules)
            }),
            ..Person::default()
        };
        // 128 / e^0.2 = 104.8 days.
        assert!(told(&faster, &[]).contains("until Tuesday 16 February."));
    }

    /// Where no forecast can be made there is a kind sentence, and no date.
    #[test]
    fn a_flag_that_switches_off_leaves_out_the_dates() {
        let person = Person {
            flags: vec![Flag::Chemotherapy],
            ..Person::default()
        };
        let text = told(&person, &[]);
        assert!(text.contains("would rather not guess"), "{text}");
        assert!(!text.contains(|one: char| one.is_ascii_digit()), "{text}");
    }

    #[test]
    fn advice_from_before_zones_were_marked_still_reads() {
        let old = r#"{"done":[],"cautions":[],"weeks":null,"before_next":[]}"#;
        let advice: crate::advice::Advice = serde_json::from_str(old).unwrap();
        assert_eq!(advice.zones, None);
    }
}
