//! The case of a report, in words for paper.

use axum::response::Html;
use chrono::{DateTime, Utc};
use mobile::print::{self, CasePart, CasePrinted};
use shared_types::{dates, reaction::How, urgency::Level, words::Words};

use super::{
    document::{Document, Style},
    report,
    still::html,
    visits::done,
    wall::Wall,
};
use crate::{
    case::{Case, Names, Reader, Sentences, What, code_of},
    error::Refusal,
    record::studio::Particulars,
    state::Studio,
};

/// The page.
pub fn page(
    studio: &Studio,
    particulars: &Particulars,
    case: &Case,
    sentences: &Sentences,
    reader: Reader,
    now: DateTime<Utc>,
) -> Result<Html<String>, Refusal> {
    let wall = super::artist::wall(studio, particulars);
    let words = wall.words;
    let language = studio.words(&particulars.language).0;
    let about = match reader {
        Reader::Doctor => case.client.first_name.clone(),
        Reader::Supplier => code_of(case.client.id),
    };
    let treatments = words.list(&done(&case.visit.treatments, words));
    let finished = full(case.visit.finished_at, &wall);
    let address = format!("/studio/reports/{}", case.held.id);
    let of = |reader: Reader, end: &str| format!("{address}/case{end}?for={reader}");
    let other_words = |key: &str| words.say(&format!("case.{key}")).to_owned();
    let other = match reader {
        Reader::Doctor if case.may_be_passed_on() => {
            Some((of(Reader::Supplier, ""), other_words("for_supplier")))
        }
        Reader::Doctor => None,
        Reader::Supplier => Some((of(Reader::Doctor, ""), other_words("for_doctor"))),
    };
    let contact: Vec<&str> = [
        particulars.name.as_str(),
        &particulars.phone,
        &particulars.contact_email,
    ]
    .into_iter()
    .filter(|way| !way.is_empty())
    .collect();
    let timeline = timeline(case, reader, &wall);
    let parts = parts(studio, case, sentences, reader, &wall, now);
    // A face is a name: a supplier gets none.
    let photos: Vec<(String, String)> = match reader {
        Reader::Doctor => report::photo_lines(&[], &case.photos, words, |at| full(at, &wall)),
        Reader::Supplier => Vec::new(),
    }
    .into_iter()
    .map(|one| (one.address, one.caption))
    .collect();
    let kept = words.fill(
        "case.kept",
        &[
            ("when", &full(now, &wall)),
            ("version", &case.held.judged.content_version),
        ],
    );
    let printed = CasePrinted {
        words,
        studio: &particulars.name,
        about: &about,
        done: &words.fill("print.done", &[("done", &treatments), ("when", &finished)]),
        timeline: &timeline,
        parts: &parts,
        photos: &photos,
        contact: &contact.join(" · "),
        kept: &kept,
        back: &address,
        data: &of(reader, ".json"),
        read_through: match reader {
            Reader::Doctor if !case.may_be_passed_on() => "",
            Reader::Doctor | Reader::Supplier => words.say("case.read_through"),
        },
        other: other
            .as_ref()
            .map(|(address, text)| (address.as_str(), text.as_str())),
    };
    Document {
        language: language.to_owned(),
        title: words.fill("case.about", &[("name", &about)]),
        icon: &studio.site.addresses.icon,
        style: Style::File(&studio.site.addresses.print_style),
        script: None,
        alive: false,
        photos: None,
    }
    .around(&html(print::case(&printed)))
}

/// A moment with its full date: paper outlives the week.
fn full(at: DateTime<Utc>, wall: &Wall<'_>) -> String {
    dates::in_full(wall.words, wall.local(at))
}

fn level(level: Level, words: &Words) -> String {
    words.say(&format!("artist.level.{level}")).to_owned()
}

/// What happened, in order, and who did it; a supplier gets no names.
fn timeline(case: &Case, reader: Reader, wall: &Wall<'_>) -> Vec<(String, String)> {
    let words = wall.words;
    let fill = |what: &What<'_>, values: &[(&str, &str)]| {
        words.fill(&format!("case.happened.{}", what.term()), values)
    };
    let say = |what: &What<'_>| match what {
        What::Report(judged, phone) => {
            let judged = level(*judged, words);
            let phone = phone.map_or_else(String::new, |phone| level(phone, words));
            fill(what, &[("level", &judged), ("phone", &phone)])
        }
        What::Followed(one) => {
            let how = how(one.how, words).to_lowercase();
            let level = level(one.judged.level, words);
            fill(what, &[("how", &how), ("level", &level)])
        }
        What::NotAgain(product) | What::Lifted(product) => {
            fill(what, &[("product", &product.name())])
        }
        _ => fill(what, &[]),
    };
    let all = case.steps().into_iter().map(|step| {
        let what = say(&step.what);
        let what = match step.by.filter(|_| reader == Reader::Doctor) {
            Some(who) => words.fill("case.happened.by", &[("what", &what), ("who", who)]),
            None => what,
        };
        (step.at, what)
    });
    let mut day = None;
    let mut line = |(at, what)| {
        // The whole date once a day.
        let local = wall.local(at);
        let again = day.replace(local.date()) == Some(local.date());
        let when = if again {
            dates::moment(words, local, local.date())
        } else {
            full(at, wall)
        };
        (when, what)
    };
    all.map(&mut line).collect()
}

fn how(how: How, words: &Words) -> String {
    words.say(&format!("client.follow.{how}")).to_owned()
}

/// What the client was told, by whom and after what; by its time where there was more than one.
fn advice(case: &Case, sentences: &Sentences, wall: &Wall<'_>) -> Vec<(String, String)> {
    let words = wall.words;
    let held = &case.held;
    let mut lines = Vec::new();
    let mut add = |name: String, sentences: &[String]| {
        let names = std::iter::once(name).chain(std::iter::repeat(String::new()));
        lines.extend(names.zip(sentences.iter().cloned()));
    };
    let phone = held.report.told.as_ref();
    if let (Some(told), false) = (phone, sentences.phone.is_empty()) {
        let values = [("level", level(told.level, words))];
        let values = values.each_ref().map(|(name, text)| (*name, text.as_str()));
        add(words.fill("case.told_phone", &values), &sentences.phone);
    }
    let is_alone = sentences.phone.is_empty() && sentences.followed.is_empty();
    let received = full(held.received_at, wall);
    let judged = level(held.judged.level, words);
    let first = if is_alone {
        String::new()
    } else {
        let values = [("level", judged.as_str()), ("when", &received)];
        words.fill("case.told_studio", &values)
    };
    add(first, &sentences.studio);
    for (one, sentences) in held.followed.iter().zip(&sentences.followed) {
        let (how, when) = (how(one.how, words), full(one.answered_at, wall));
        let level = level(one.judged.level, words);
        let values = [("level", level.as_str()), ("when", &when), ("how", &how)];
        add(words.fill("case.told_since", &values), sentences);
    }
    if !sentences.are_those_given(case) {
        let version = [("version", sentences.content_version.as_str())];
        lines.push((String::new(), words.fill("case.other_words", &version)));
    }
    lines
}

/// Everything beside the timeline.
fn parts(
    studio: &Studio,
    case: &Case,
    sentences: &Sentences,
    reader: Reader,
    wall: &Wall<'_>,
    now: DateTime<Utc>,
) -> Vec<CasePart> {
    let words = wall.words;
    let names = Names::of(&case.client);
    let title = |key: &str| words.say(&format!("case.{key}")).to_owned();
    let bare = |text: String| (String::new(), text);
    let is_named = reader == Reader::Doctor;
    let mut parts = Vec::new();
    let mut add = |key: &str, lines: Vec<(String, String)>| {
        let lines: Vec<_> = lines
            .into_iter()
            .filter(|(_, text)| !text.is_empty())
            .collect();
        if !lines.is_empty() {
            parts.push(CasePart {
                title: title(key),
                lines,
            });
        }
    };
    let batch = |batch: &str| words.fill("artist.visit.batch", &[("batch", batch)]);
    let products = case.visit.products.iter().map(|one| {
        let batch = if one.batch.is_empty() {
            words.say("case.no_batch").to_owned()
        } else {
            batch(&one.batch)
        };
        (one.name.clone(), batch)
    });
    add("products", products.collect());

    let rules = studio.content.catalogue.urgency.compiled();
    let said = report::said(&case.held.report, &case.held.judged, &rules, words);
    let signs = [said.raised, said.present].concat();
    let places: Vec<String> = said.places.into_iter().map(|(_, name)| name).collect();
    let named = |key: &str, text: String| (title(key), text);
    let mut answers = vec![named("signs", signs.join(" · "))];
    if is_named {
        answers.push(named("own_words", said.words));
    }
    answers.extend([
        named("course", said.course.join(" · ")),
        named("where", places.join(" · ")),
        named("not_sure", said.not_sure.join(" · ")),
        named("absent", said.absent.join(" · ")),
    ]);
    add("answers", answers);
    add("advice", advice(case, sentences, wall));

    let mut before: Vec<(String, String)> = Vec::new();
    if is_named {
        let found = case.visit.findings.found();
        let found: Vec<String> = found
            .map(|one| words.say(&format!("finding.{one}")).to_owned())
            .collect();
        before.push(named("found", found.join(" · ")));
    }
    for held in &case.patch_tests {
        let on = full(held.test.applied_at, wall);
        before.push(named("patch_test", report::patch_test(held, &on, words)));
    }
    if let (Some(held), true) = (&case.before, is_named) {
        let decision = held.consultation.told.decision;
        let decision = decision.map(|one| words.say(&format!("decision.{one}")).to_owned());
        before.push(named("decision", decision.unwrap_or_default()));
    }
    add("before", before);

    let outcome = case.outcome();
    let facts = outcome.map(|one| report::outcome_facts(one, "case.fact", wall, now));
    let facts = facts.unwrap_or_default().into_iter();
    let facts = facts.map(|(name, text)| {
        let text = if is_named {
            text
        } else {
            names.taken_out_of(&text)
        };
        (name, text)
    });
    add("outcome", facts.collect());
    if is_named {
        let reach = [case.held.report.reach.as_str(), &case.client.reach];
        let mut reach: Vec<&str> = reach.into_iter().filter(|one| !one.is_empty()).collect();
        reach.dedup();
        add("reach", vec![bare(reach.join(" · "))]);
        let answers = case.held.answers.iter();
        let answers = answers.map(|one| (full(one.at, wall), one.text.clone()));
        add("studio_answered", answers.collect());
    }
    let agreed = report::consent_lines(&case.consents, words, |at| full(at, wall));
    add("agreed", agreed.into_iter().map(bare).collect());
    add("by_hand", vec![bare(title("by_hand_list"))]);
    parts
}
