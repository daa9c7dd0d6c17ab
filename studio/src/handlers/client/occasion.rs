//! The date that the client wants to look their best for.

use axum::{
    extract::State,
    http::StatusCode,
    response::{IntoResponse, Redirect, Response},
};
use chrono::{Months, NaiveDate};

use super::{Holder, page};
use crate::{
    error::Refusal,
    handlers::posted::{Posted, only},
    links::address,
    pages::{self, client::Typed},
    record::occasions::{self, Date},
    state::Shared,
};

const FIELDS: &[&str] = &["date", "remove"];
/// Further away, a date is more likely mistyped than planned for: our own choice.
const FURTHEST: Months = Months::new(24);

/// `POST /MY/{secret}/occasion`: back to the page, which plans back from the date; or the form again with what was
/// typed and a sentence. With `remove` the date is taken back.
pub async fn post(
    State(studio): State<Shared>,
    holder: Holder,
    Posted(form): Posted,
) -> Result<Response, Refusal> {
    only(&form, FIELDS)?;
    let (visit, link, now) = (holder.visit, holder.link.id, holder.now.0);
    if !form.value("remove").is_empty() {
        studio.limits.report(link)?;
        studio
            .record
            .write(move |record| occasions::take_back(record, visit, link, now))
            .await?;
        return Ok(back_to_page(&holder));
    }
    let source = pages::client::read(&studio, &holder)?;
    let wall = source.wall(&studio);
    let (words, today) = (wall.words, wall.day(now));
    let typed = form.value("date").trim();
    let on = match read_date(typed, today) {
        Ok(on) => on,
        Err(fault) => {
            let typed = Typed {
                date: typed.to_owned(),
                fault: words.say(fault).to_owned(),
            };
            let page = page::with_typed_date(&studio, &holder, typed)?;
            return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
        }
    };
    studio.limits.report(link)?;
    let date = Date {
        on,
        days_before: studio.content.catalogue.rebook.occasion_days(),
        given_at: now,
    };
    studio
        .record
        .write(move |record| occasions::give(record, visit, link, &date))
        .await?;
    Ok(back_to_page(&holder))
}

fn back_to_page(holder: &Holder) -> Response {
    Redirect::to(&format!("{}#dates", address::path(&holder.secret))).into_response()
}

/// A date from today on, within reach; else the words for what is wrong with it.
fn read_date(typed: &str, today: NaiveDate) -> Result<NaiveDate, &'static str> {
    if typed.is_empty() {
        return Err("fault.required");
    }
    let date = NaiveDate::parse_from_str(typed, "%Y-%m-%d").map_err(|_| "fault.date")?;
    if date < today {
        Err("occasion.fault.past")
    } else if today
        .checked_add_months(FURTHEST)
        .is_some_and(|furthest| date > furthest)
    {
        Err("occasion.fault.far")
    } else {
        Ok(date)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dates_from_today_to_two_years_on_are_taken() {
        let today = "2028-02-29".parse().unwrap();
        for (typed, read) in [
            ("2028-02-29", Ok(())),
            ("2028-02-28", Err("occasion.fault.past")),
            ("2030-02-28", Ok(())),
            ("2030-03-01", Err("occasion.fault.far")),
            ("", Err("fault.required")),
            ("29.2.2028", Err("fault.date")),
            ("2029-02-29", Err("fault.date")),
        ] {
            assert_eq!(read_date(typed, today).map(|_| ()), read, "{typed}");
        }
    }
}
