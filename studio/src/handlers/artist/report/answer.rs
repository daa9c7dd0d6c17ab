//! A report is looked at, and answered in words.

use axum::{
    extract::State,
    http::StatusCode,
    response::{IntoResponse, Response},
};
use shared_types::reaction::WORDS_MAX;
use uuid::Uuid;

use super::{
    super::{
        Id,
        check::Check,
        waits::{Reports, back, write},
    },
    Forms, refused,
};
use crate::{
    error::Refusal, handlers::posted::only, pages, record::reports::events,
    security::session::SignedForm, state::Shared,
};

/// `POST /studio/reports/{id}/seen`: from the living screen. Without a script whoever answers or settles has seen it.
pub async fn see(
    State(studio): State<Shared>,
    Id(id): Id,
    SignedForm { signed, form }: SignedForm,
) -> Result<StatusCode, Refusal> {
    only(&form, &[])?;
    write::<Reports, _>(&studio, id, move |record| {
        events::see(record, id, signed.artist, signed.now)
    })
    .await?;
    Ok(StatusCode::NO_CONTENT)
}

/// `POST /studio/reports/{id}/answer`
pub async fn answer(
    State(studio): State<Shared>,
    Id(id): Id,
    SignedForm { signed, mut form }: SignedForm,
) -> Result<Response, Refusal> {
    only(&form, &["answer_id", "text"])?;
    let particulars = pages::artist::particulars(&studio)?;
    let mut check = Check::new(&form, studio.words(&particulars.language).1);
    let text = check.needed("text", WORDS_MAX);
    let faults = check.faults();
    if !faults.is_empty() {
        form.blame_all(faults);
        let forms = Forms {
            answer: form,
            ..Forms::default()
        };
        return refused(&studio, &signed, id, forms);
    }
    let answer = form
        .value("answer_id")
        .parse()
        .unwrap_or_else(|_| Uuid::new_v4());
    write::<Reports, _>(&studio, id, move |record| {
        events::see(record, id, signed.artist, signed.now)?;
        events::answer(record, answer, id, &text, signed.artist, signed.now)
    })
    .await?;
    Ok(back::<Reports>(id).into_response())
}
