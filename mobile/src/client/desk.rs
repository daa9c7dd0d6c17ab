//! What a page gives to whatever is sent from it.

use std::rc::Rc;

use chrono::{DateTime, Utc};
use dioxus::prelude::*;
use shared_types::{
    page::{client::ClientPage, form::Filled, trouble::TroublePage},
    reaction::{Fault, Report},
    words::Words,
};

/// A page that something is written on and sent from.
pub trait Sends {
    /// `/MY/SECRET`
    fn path(&self) -> &str;
    fn words(&self) -> &Words;
    fn studio(&self) -> &str;
    /// When the visit ended.
    fn finished_at(&self) -> DateTime<Utc>;
    /// The first day that a wish may name, YYYY-MM-DD.
    fn first_day(&self) -> &str {
        ""
    }
    /// The report that the form holds, so many whole minutes after the visit; `None` where there is no such form.
    fn report(&self, _: &Filled, _minutes: u32) -> Option<Result<Report, Vec<Fault>>> {
        None
    }
    /// Whether the server sent the form back to be mended.
    fn came_back(&self) -> bool;
}

pub type Desk = Rc<dyn Sends>;

pub(crate) fn use_desk() -> Desk {
    use_hook(consume_context::<Desk>)
}

impl Sends for ClientPage {
    fn path(&self) -> &str {
        &self.path
    }
    fn words(&self) -> &Words {
        &self.words
    }
    fn studio(&self) -> &str {
        &self.studio_name
    }
    fn finished_at(&self) -> DateTime<Utc> {
        self.finished_at
    }
    fn first_day(&self) -> &str {
        &self.first_day
    }
    fn came_back(&self) -> bool {
        self.form != Filled::default()
    }
}

impl Sends for TroublePage {
    fn path(&self) -> &str {
        &self.path
    }
    fn words(&self) -> &Words {
        &self.words
    }
    fn studio(&self) -> &str {
        &self.studio_name
    }
    fn finished_at(&self) -> DateTime<Utc> {
        self.finished_at
    }
    fn report(&self, form: &Filled, minutes: u32) -> Option<Result<Report, Vec<Fault>>> {
        let report = self.told_by(form, minutes).ok()?;
        let faults = report.faults();
        Some(if faults.is_empty() {
            Ok(report)
        } else {
            Err(faults)
        })
    }
    fn came_back(&self) -> bool {
        self.form != Filled::default()
    }
}
