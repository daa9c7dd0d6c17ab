//! The page for when something is not right, alive. The form is the truth: what comes next follows from what is ticked, by
//! the rules in the page, so that going back loses nothing and a draft comes back to where it was left.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use shared_types::{
    page::{form::Filled, trouble::ALSO},
    urgency::{Level, NOT_SURE, REST, Walk, judge, rinse_first},
};
use wasm_bindgen::{JsCast, closure::Closure};
use web_sys::{Element, HtmlInputElement, MouseEvent};

use super::{
    client::keep_page_for_offline,
    clock, form, page_view, photos,
    post::{self, Sender},
};
use crate::client::{errand::Errand, life::Live, trouble::Trouble};

/// The question that asks for product in the eye.
const IN_EYE: &str = "product_in_eye";

/// So many questions are near enough to the end to be told; more would only dishearten.
const NEAR: usize = 6;

thread_local! {
    /// A question that is looked at again, or whose signs are still being ticked.
    static HELD: RefCell<Option<String>> = const { RefCell::new(None) };
    /// A finger is on an answer's label.
    static FINGER: Cell<bool> = const { Cell::new(false) };
    static RINSED: Cell<bool> = const { Cell::new(false) };
}

/// What the page shows.
enum Step {
    Rinse,
    Question(String, Vec<&'static str>),
    Advice,
}

/// Starts everything that moves. Called once, after the page is on screen.
pub fn begin(page: Trouble, live: Live) {
    keep_page_for_offline();
    if page.form == Filled::default() {
        // The id of a report is made here, not by the server: photos are kept under it before it is sent.
        form::clear(Errand::Report);
    }
    // What a plain form had answered is folded away below what it was told.
    form::all("details.answered", |fold| {
        let _ = fold.set_attribute("open", "");
    });
    let sender = Sender {
        desk: page.clone(),
        live,
        received: Rc::new(|_| photos::hand_over()),
        emptied: {
            let page = page.clone();
            Rc::new(move |sent| {
                HELD.set(None);
                RINSED.set(false);
                if sent {
                    // What to do still stands there; all else is done.
                    stage("sent");
                } else {
                    show(&page, false);
                }
            })
        },
    };
    post::begin(&sender, &[Errand::Report]);
    page_view::on_occasion(move || {
        post::hand_over(sender.clone());
        photos::hand_over();
    });
    photos::begin(&page.path);
    listen(page.clone());
    page_view::mark_alive();
    show(&page, false);
}

/// Every tap in the form.
fn listen(page: Trouble) {
    let Some(form) = form::by_id(Errand::Report.form()) else {
        return;
    };
    let tapped = Closure::<dyn FnMut(MouseEvent)>::new(move |event: MouseEvent| {
        let Some(target) = event
            .target()
            .and_then(|target| target.dyn_into::<Element>().ok())
        else {
            return;
        };
        let finger = event.detail() > 0;
        if let Some(input) = target.dyn_ref::<HtmlInputElement>() {
            // Some browsers do not count the tap on its label as one on the answer.
            answered(&page, input, FINGER.take() || finger);
        } else {
            FINGER.set(finger && target.closest(".choice").is_ok_and(|found| found.is_some()));
            match target.get_attribute("data-do").as_deref() {
                Some("back") => back(&page),
                Some("on") => on(&page),
                _ => {}
            }
        }
    });
    let _ = form.add_event_listener_with_callback("click", tapped.as_ref().unchecked_ref());
    tapped.forget();
}

/// An answer was tapped; by keyboard, the arrows choose on their way, so that only a finger goes on at once.
fn answered(page: &Trouble, input: &HtmlInputElement, by_finger: bool) {
    let name = input.name();
    if !page
        .rules
        .questions
        .iter()
        .any(|question| question.id == name)
        || moved_below(input)
    {
        return;
    }
    let several = input.type_() == "checkbox";
    let speaks_for_all = ["none", NOT_SURE].contains(&input.value().as_str());
    if several && input.checked() {
        let value = input.value();
        form::all(&format!("input[name={name}]"), |other| {
            if let Some(other) = other.dyn_ref::<HtmlInputElement>() {
                let clashes =
                    speaks_for_all != ["none", NOT_SURE, REST].contains(&other.value().as_str());
                if other.value() != value && (speaks_for_all || clashes) {
                    other.set_checked(false);
                }
            }
        });
    }
    let emergency =
        walk(page).is_some_and(|walk| judge(&page.rules, &walk.answers).level == Level::Emergency);
    let goes_on = by_finger && (!several || (speaks_for_all && input.checked()));
    if emergency && input.checked() {
        HELD.set(None);
        show(page, true);
    } else if goes_on {
        HELD.set(Some(name));
        on(page);
    } else {
        HELD.set(Some(name));
        show(page, false);
    }
}

/// Whether a question stands with the report, where it tells the studio more.
fn moved_below(input: &HtmlInputElement) -> bool {
    input.closest("#also").is_ok_and(|found| found.is_some())
}

/// On from what is shown.
fn on(page: &Trouble) {
    let Some(shown) = shown(page) else { return };
    match shown {
        Step::Rinse => RINSED.set(true),
        Step::Question(id, _) => {
            // Whoever ticked all that there is has none of the rest.
            form::all(&format!("input[name={id}][value={REST}]"), |rest| {
                if let Some(rest) = rest.dyn_ref::<HtmlInputElement>() {
                    rest.set_checked(true);
                }
            });
            let walked = walk(page);
            let after = walked.and_then(|walk| {
                let at = walk.asked.iter().position(|one| *one == id)?;
                walk.asked.get(at + 1).map(|id| (*id).to_owned())
            });
            HELD.set(after);
        }
        Step::Advice => {}
    }
    show(page, true);
}

/// Back to the question before what is shown.
fn back(page: &Trouble) {
    let (Some(shown), Some(walk)) = (shown(page), walk(page)) else {
        return;
    };
    let before = match shown {
        Step::Rinse => Some(IN_EYE),
        Step::Advice => walk.asked.last().copied(),
        Step::Question(id, _) => match walk.asked.iter().position(|one| *one == id) {
            Some(at) => at.checked_sub(1).and_then(|at| walk.asked.get(at)).copied(),
            None => walk.asked.last().copied(),
        },
    };
    if before == Some(IN_EYE) {
        RINSED.set(false);
    }
    HELD.set(before.map(str::to_owned));
    show(page, true);
}

fn walk(page: &Trouble) -> Option<Walk<'_>> {
    let filled = form::read(Errand::Report)?;
    page.walk(&filled, clock::minutes_since(page.finished_at))
        .ok()
}

fn shown(page: &Trouble) -> Option<Step> {
    let walk = walk(page)?;
    let held = HELD.with_borrow(|held| held.clone());
    let question = |id: &str| page.rules.questions.iter().find(|one| one.id == id);
    let next = walk.next.as_ref();
    if let Some(held) = held.as_deref().and_then(question) {
        let is_next = next.is_some_and(|next| next.question.id == held.id);
        if is_next || walk.asked.contains(&held.id.as_str()) {
            let all = held.fields.iter().map(|field| field.term());
            return Some(Step::Question(held.id.clone(), all.collect()));
        }
    }
    if rinse_first(&walk.answers) && !RINSED.get() {
        return Some(Step::Rinse);
    }
    Some(match next {
        Some(next) => {
            let fields = next.fields.iter().map(|field| field.term());
            Step::Question(next.question.id.clone(), fields.collect())
        }
        None => Step::Advice,
    })
}

/// Shows what follows from the form. `moved`: the reader's place goes along.
fn show(page: &Trouble, moved: bool) {
    let (Some(step), Some(walk)) = (shown(page), walk(page)) else {
        return;
    };
    let (current, fields) = match &step {
        Step::Question(id, fields) => (id.as_str(), fields.as_slice()),
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
        if question.fields.len() > 1 {
            for field in &question.fields {
                let sign = format!("#ask-{} .choice:has([value={field}])", question.id);
                form::all(&sign, |sign| {
                    form::hide(sign, !fields.contains(&field.term()) && !is_ticked(sign));
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
    let answered =
        form::read(Errand::Report).is_some_and(|form| form.all(current).next().is_some());
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
            Step::Question(id, _) => format!("ask-{id}"),
            Step::Advice => "advice".to_owned(),
        };
        if let Some(element) = form::by_id(&id) {
            let _ = element.focus();
            element.scroll_into_view();
        }
    }
}

/// How far it has come, for the style.
fn stage(stage: &str) {
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
