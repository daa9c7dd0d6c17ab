//! Visits as lines and as the artist's view of one.

use chrono::{DateTime, Utc};
use rusqlite::Connection;
use shared_types::{
    care_plan::Practice,
    desk::Desk,
    page::{
        artist::{LinkView, ProductLine, VisitLine, VisitView},
        client::AreaWeeks,
    },
    visit::Treatment,
    words::Words,
};
use uuid::Uuid;

use super::{
    before, desk::Replies, looked, occasion::Telling, own_advice, photos, report, reports,
    wall::Wall, wishes,
};
use crate::{
    advice::Advice,
    record::{
        RecordError, advice as given,
        clients::Client,
        consultations, languages,
        links::{self, Link},
        not_again,
        occasions::{self, Date},
        photos::{self as record_photos, Photo},
        reports::inbox,
        studio::Particulars,
        versions, visits, wishes as record_wishes,
    },
    state::Studio,
};
use shared_types::visit::Visit;

/// What was done, in words.
pub fn done(treatments: &[Treatment], words: &Words) -> Vec<String> {
    treatments
        .iter()
        .map(|treatment| words.say(&format!("treatment.{treatment}")).to_owned())
        .collect()
}

/// A visit in the list of visits.
pub fn line(line: &visits::Line, wall: &Wall<'_>, now: DateTime<Utc>) -> VisitLine {
    VisitLine {
        id: line.id,
        first_name: line.first_name.clone(),
        finished: wall.moment(line.finished_at, now),
        done: done(&line.treatments, wall.words),
        opened: line.opened.map(|at| wall.moment(at, now)),
        reports: line.reports,
    }
}

/// What the view of a visit is made from, read in one go.
pub struct Source {
    pub visit: Visit,
    pub client: Client,
    advice: Advice,
    link: Link,
    /// The languages that its page was shown in.
    shown: Vec<String>,
    reports: Vec<inbox::Line>,
    /// Of the same client, those that ended before this one.
    earlier: Vec<Visit>,
    date: Option<Date>,
    practice: Practice,
    wishes: Vec<record_wishes::Held>,
    before: Option<consultations::Held>,
    /// Of the same client.
    put_off: Vec<consultations::Held>,
    photos: Vec<Photo>,
    pub(super) desk: Desk,
    not_again: Vec<not_again::Held>,
}

/// Reads a visit, its advice in this language if it was given in it; `None` when there is no such visit.
pub fn read(record: &Connection, id: Uuid, language: &str) -> Result<Option<Source>, RecordError> {
    let Some((visit, client)) = visits::by_id(record, id)? else {
        return Ok(None);
    };
    let given = given::of_visit(record, id, language)?;
    let link = links::newest_of(record, id)?
        .ok_or_else(|| RecordError::Unreadable("a visit without a link".to_owned()))?;
    let reports = inbox::of_visit(record, id)?;
    let earlier = visits::before(record, &visit)?;
    let wishes = record_wishes::of_visit(record, id)?;
    Ok(Some(Source {
        before: consultations::by_id(record, id)?,
        put_off: consultations::put_off(record, client.id)?,
        photos: record_photos::of_visit(record, id)?,
        desk: versions::current(record)?,
        not_again: not_again::of_client(record, client.id)?,
        earlier,
        visit,
        client,
        advice: Advice::read(&given)?,
        shown: languages::shown(record, link.id)?,
        link,
        reports,
        date: occasions::of_visit(record, id)?,
        practice: versions::current(record)?,
        wishes,
    }))
}

/// The artist's view of a visit.
pub fn view(
    studio: &Studio,
    particulars: &Particulars,
    source: Source,
    wall: &Wall<'_>,
    now: DateTime<Utc>,
) -> VisitView {
    let Source {
        visit,
        client,
        advice,
        link,
        shown,
        reports: held,
        earlier,
        date,
        practice,
        wishes: held_wishes,
        before,
        put_off,
        photos: held_photos,
        desk,
        not_again,
    } = source;
    let replies = Replies::with(studio, desk);
    let looked = looked::looked(&studio.content.catalogue, &visit, &earlier, wall.words);
    let pace = looked::pace(&studio.content.catalogue, &advice.person, wall.words);
    let whose = own_advice::whose(studio, &advice, &particulars.name, wall.words);
    let telling = advice.plan.as_ref().map(|plan| Telling {
        wall: *wall,
        studio: &particulars.name,
        plan,
        finished_at: visit.finished_at,
        practice: &practice,
    });
    let occasion = date
        .map(|date| said_of(&date, &client.first_name, telling, wall, now))
        .unwrap_or_default();
    let reports = held
        .iter()
        .map(|line| reports::line(line, &replies, wall, now))
        .collect();
    let wishes = held_wishes
        .iter()
        .map(|held| {
            let (name, finished) = (&client.first_name, visit.finished_at);
            wishes::line(held, name, &visit.treatments, finished, wall, now)
        })
        .collect();
    let (areas, come_back, about) = advice.weeks.map_or_else(Default::default, |weeks| {
        let figures = weeks.areas.iter().map(AreaWeeks::figure).collect();
        (figures, weeks.come_back, weeks.about)
    });
    VisitView {
        id: visit.id,
        client: client.id,
        first_name: client.first_name,
        reach: client.reach,
        finished: wall.moment(visit.finished_at, now),
        done: advice.done,
        findings: visit
            .findings
            .found()
            .map(|finding| wall.words.say(&format!("finding.{finding}")).to_owned())
            .collect(),
        flags: visit
            .flags
            .iter()
            .map(|flag| wall.words.say(&format!("flag.{flag}")).to_owned())
            .collect(),
        looked,
        before: before.map(|held| before::view(&held, wall, now)),
        put_off: before::put_off_lines(&put_off, wall, now),
        pace,
        products: visit
            .products
            .into_iter()
            .map(|product| ProductLine {
                name: product.name,
                batch: product.batch,
            })
            .collect(),
        not_again: report::not_again_lines(&not_again, wall, now),
        note: visit.note,
        zones: visit.zones,
        zones_told: advice.zones,
        cautions: advice.cautions,
        whose,
        come_back,
        about,
        areas,
        occasion,
        link: link_view(studio, &link, &shown, wall, now),
        reports,
        wishes,
        photos: photos::of_visit(&held_photos, wall, now),
    }
}

/// The date that the client gave, and how it can be met.
fn said_of(
    date: &Date,
    first_name: &str,
    telling: Option<Telling<'_>>,
    wall: &Wall<'_>,
    now: DateTime<Utc>,
) -> Vec<String> {
    let today = wall.day(now);
    let on = shared_types::dates::date(wall.words, date.on, today);
    let values = [("name", first_name), ("date", &on)];
    let mut said = vec![wall.words.fill("occasion.artist", &values)];
    if let Some(telling) = telling {
        let found = telling.plan_back(date, today);
        said.extend(telling.said(date, &found, today));
    }
    said
}

/// "Read in Español.": the languages in which the page was shown, by their own names; empty when it was not.
pub fn read_in(studio: &Studio, shown: &[String], words: &Words) -> String {
    if shown.is_empty() {
        return String::new();
    }
    let names: Vec<String> = shown
        .iter()
        .map(|tag| studio.language_name(tag).to_owned())
        .collect();
    words.fill("artist.link.read_in", &[("languages", &words.list(&names))])
}

pub(super) fn link_view(
    studio: &Studio,
    link: &Link,
    shown: &[String],
    wall: &Wall<'_>,
    now: DateTime<Utc>,
) -> LinkView {
    LinkView {
        url: studio
            .link_key
            .showable(link, now)
            .map(|secret| studio.public_url.link(&secret))
            .unwrap_or_default(),
        opened: link.opened.map(|at| wall.moment(at, now)),
        read_in: read_in(studio, shown, wall.words),
        expires: wall.moment(link.expires_at, now),
        revoked: link.revoked.map(|at| wall.moment(at, now)),
    }
}
