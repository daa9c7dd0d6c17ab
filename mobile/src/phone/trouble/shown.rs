//! What the page shows of all that stands in it.

use shared_types::{page::trouble::ALSO, urgency::judge};
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlInputElement};

use super::{
    super::{clock, form},
    stand::{Stand, Step},
};
use crate::client::{errand::Errand, trouble::Trouble};

/// So many questions are near enough to the end to be told; more would only dishearten.
const NEAR: usize = 6;

/// Shows what follows from the form. `moved`: the reader's place goes along.
pub fn show(page: &Trouble, moved: bool) {
    let Some(Stand { filled, walk, step }) = Stand::read(page) else {
        return;
    };
    let (current, fields) = match &step {
        Step::Question(question, fields) => (question.id.as_str(), fields.as_slice()),
        _ => ("", &[][..]),
    };
    let advised = matches!(step, Step::Advice);
    for question in &page.rules.questions {
        let Some(fieldset) = form::by_id(&format!("ask-{}", question.id)) else {
            continue;
        };
        let also = advised
            && ALSO.contains(&question.id.as_str())
            && !walk.asked.contains(&question.id.as_str());
        form::hide(&fieldset, !also && question.id != current);
        let home = if also { "also" } else { "asked" };
        if let Some(home) = form::by_id(home)
            && !home.contains(Some(&fieldset))
        {
            let _ = home.append_child(&fieldset);
        }
        // The page may be an old one: which times can be chosen goes by the clock.
        let mut begun = question.begun(clock::minutes_since(page.finished_at));
        if !question.hours.is_empty() {
            form::all(&format!("#ask-{} .choice", question.id), |time| {
                form::hide(time, begun.next() == Some(false));
            });
        }
        if question.fields.len() > 1 {
            for field in &question.fields {
                let sign = format!("#ask-{} .choice:has([value={field}])", question.id);
                form::all(&sign, |sign| {
                    form::hide(sign, !fields.contains(field) && !is_ticked(sign));
                });
            }
        }
    }
    if let Some(rinse) = form::by_id("rinse") {
        form::hide(&rinse, !matches!(step, Step::Rinse));
    }
    let verdict = judge(&page.rules, &walk.answers);
    if let Some(advice) = form::by_id("advice") {
        form::hide(&advice, !advised);
    }
    form::all("[data-level]", |one| {
        form::hide(
            one,
            one.get_attribute("data-level").as_deref() != Some(verdict.level.term()),
        );
    });
    form::all("[data-advice]", |one| {
        let id = one.get_attribute("data-advice").unwrap_or_default();
        form::hide(one, !verdict.advice.contains(&id.as_str()));
    });
    stage(if advised {
        verdict.level.term()
    } else {
        "asking"
    });
    if let Some(tell) = form::by_id("tell") {
        form::hide(&tell, !advised);
    }
    form::all(".steps-on [data-do=back]", |back| {
        form::hide(
            back,
            advised
                || (walk.asked.is_empty() || walk.asked.first() == Some(&current))
                    && !matches!(step, Step::Rinse),
        );
    });
    let answered = filled.all(current).next().is_some();
    form::all(".steps-on [data-do=on]", |on| {
        form::hide(on, !answered);
    });
    if let Some(left) = form::by_id("left") {
        let more = walk
            .next
            .as_ref()
            .map(|next| next.left.saturating_sub(1))
            .filter(|left| (1..=NEAR).contains(left) && !advised);
        let said = |left: usize| {
            page.words
                .fill("client.trouble.left", &[("n", &left.to_string())])
        };
        left.set_text_content(Some(&more.map(said).unwrap_or_default()));
    }
    if moved {
        let id = match step {
            Step::Rinse => "rinse".to_owned(),
            Step::Question(question, _) => format!("ask-{}", question.id),
            Step::Advice => "advice".to_owned(),
        };
        if let Some(element) = form::by_id(&id) {
            let _ = element.focus();
            element.scroll_into_view();
        }
    }
}

/// How far it has come, for the style.
pub fn stage(stage: &str) {
    if let Some(form) = form::by_id(Errand::Report.form()) {
        let _ = form.set_attribute("data-stage", stage);
    }
}

fn is_ticked(label: &Element) -> bool {
    let input = label.query_selector("input").ok().flatten();
    input
        .and_then(|input| input.dyn_into::<HtmlInputElement>().ok())
        .is_some_and(|input| input.checked())
}
