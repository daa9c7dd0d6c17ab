//! What to do when something is not right.

use axum::{
    extract::State,
    response::{Html, IntoResponse, Redirect, Response},
};
use shared_types::{
    page::form::Filled,
    urgency::{self, Answers},
    words::Words,
};

use super::Holder;
use crate::{
    error::Refusal,
    handlers::posted::{Posted, only},
    links::address,
    pages::{self, trouble::Asked},
    state::Shared,
};

/// `GET /MY/{secret}/trouble`
pub async fn show(State(studio): State<Shared>, holder: Holder) -> Result<Response, Refusal> {
    if !holder.as_given_out {
        let way = format!("{}/trouble", address::path(&holder.secret));
        return Ok(Redirect::permanent(&way).into_response());
    }
    Ok(draw(&studio, &holder, Asked::default())?.into_response())
}

/// `POST /MY/{secret}/trouble`: the plain form asks what to do now. The answer comes with the form as it was filled in.
/// Nothing is kept.
pub async fn advise(
    State(studio): State<Shared>,
    holder: Holder,
    Posted(form): Posted,
) -> Result<Html<String>, Refusal> {
    let mut asked = asked(&studio, &holder, form)?;
    // Of a file, a form of this kind brings the name alone (HTML Living Standard, "Converting an entry list to a list of
    // name-value pairs"); an empty one where none was chosen.
    if asked.form.all("photos").any(|name| !name.is_empty()) {
        let (_, words) = studio.words(&holder.language);
        ask_for_photos(words, &mut asked.form);
    }
    draw(&studio, &holder, asked)
}

/// Says that photos were chosen and have to be chosen again: a browser fills no file into a form that comes back.
pub fn ask_for_photos(words: &Words, form: &mut Filled) {
    form.blame("photos", words.say("client.tell.photos_again"));
}

/// What a plain form holds, for its page to be shown again.
pub fn asked(studio: &Shared, holder: &Holder, form: Filled) -> Result<Asked, Refusal> {
    let rules = studio.content.catalogue.urgency.compiled();
    let questions = rules.questions.iter().map(|question| question.id.as_str());
    let known: Vec<&str> = questions
        .chain(shared_types::reaction::Report::FIELDS.iter().copied())
        .chain(["report_id", "photos"])
        .collect();
    only(&form, &known)?;
    let source = pages::client::read(studio, holder)?;
    let minutes = urgency::whole_minutes(holder.now.0 - source.finished_at);
    let known = Answers::known(&source.treatments, minutes);
    let answers = urgency::all(&rules, &known, &form);
    let answers = answers.map_err(|error| Refusal::Malformed(error.to_string()))?;
    Ok(Asked {
        form,
        answers: Some(answers),
    })
}

/// The page with what was asked and told.
pub fn draw(studio: &Shared, holder: &Holder, asked: Asked) -> Result<Html<String>, Refusal> {
    let source = pages::client::read(studio, holder)?;
    let page = pages::trouble::page(studio, &source, &holder.secret, asked, holder.now.0);
    pages::trouble(studio, page, &holder.languages)
}
