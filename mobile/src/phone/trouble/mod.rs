//! The page for when something is not right, alive. The form is the truth: what comes next follows from what is ticked, by
//! the rules in the page, so that going back loses nothing and a draft comes back to where it was left.

mod shown;
mod stand;

use std::{cell::Cell, rc::Rc};

use shared_types::{
    page::form::Filled,
    urgency::{Level, REST, judge, speaks_for_the_rest},
};
use wasm_bindgen::{JsCast, closure::Closure};
use web_sys::{Element, HtmlInputElement, MouseEvent};

use super::{
    client::keep_page_for_offline,
    form, page_view, photos,
    post::{self, Sender},
};
use crate::client::{errand::Errand, life::Live, trouble::Trouble};
use shown::{show, stage};
use stand::{MENDING, RINSED, Stand, Step, hold};

/// The question that asks for product in the eye.
const IN_EYE: &str = "product_in_eye";

thread_local! {
    /// A finger is on an answer's label.
    static FINGER: Cell<bool> = const { Cell::new(false) };
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
                hold(None);
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
    MENDING.set(page.form.is_faulty());
    show(&page, false);
    if page.form.is_faulty() {
        form::show(Errand::Report.first_fault());
    }
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
    let value = input.value();
    let for_the_rest = speaks_for_the_rest(&value);
    if several && input.checked() {
        form::all(&format!("input[name={name}]"), |other| {
            if let Some(other) = other.dyn_ref::<HtmlInputElement>() {
                let given = other.value();
                if given != value && (for_the_rest || speaks_for_the_rest(&given)) {
                    other.set_checked(false);
                }
            }
        });
    }
    let emergency = Stand::read(page)
        .is_some_and(|stand| judge(&page.rules, &stand.walk.answers).level == Level::Emergency);
    let goes_on = by_finger && (!several || (for_the_rest && input.checked()));
    if emergency && input.checked() {
        hold(None);
        show(page, true);
    } else if goes_on {
        hold(Some(name));
        on(page);
    } else {
        hold(Some(name));
        show(page, false);
    }
}

/// Whether a question stands with the report, where it tells the studio more.
fn moved_below(input: &HtmlInputElement) -> bool {
    input.closest("#also").is_ok_and(|found| found.is_some())
}

/// On from what is shown.
fn on(page: &Trouble) {
    let Some(stand) = Stand::read(page) else {
        return;
    };
    match stand.step {
        Step::Rinse => RINSED.set(true),
        Step::Question(question, _) => {
            let id = question.id.as_str();
            // Whoever ticked all that there is has none of the rest.
            form::all(&format!("input[name={id}][value={REST}]"), |rest| {
                if let Some(rest) = rest.dyn_ref::<HtmlInputElement>() {
                    rest.set_checked(true);
                }
            });
            let after = Stand::read(page).and_then(|stand| {
                let asked = &stand.walk.asked;
                let at = asked.iter().position(|one| *one == id)?;
                asked.get(at + 1).map(|id| (*id).to_owned())
            });
            hold(after);
        }
        Step::Advice => {}
    }
    show(page, true);
}

/// Back to the question before what is shown.
fn back(page: &Trouble) {
    let Some(Stand { walk, step, .. }) = Stand::read(page) else {
        return;
    };
    let asked = &walk.asked;
    let before = match step {
        Step::Rinse => Some(IN_EYE),
        Step::Advice => asked.last().copied(),
        Step::Question(question, _) => match asked.iter().position(|one| *one == question.id) {
            Some(at) => at.checked_sub(1).and_then(|at| asked.get(at)).copied(),
            None => asked.last().copied(),
        },
    };
    if before == Some(IN_EYE) {
        RINSED.set(false);
    }
    MENDING.set(false);
    hold(before.map(str::to_owned));
    show(page, true);
}
