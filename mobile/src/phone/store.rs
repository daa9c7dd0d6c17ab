//! What the phone keeps for one page. Everything is filed below the page's own path, so that `forget.js` can clear a
//! closed page's things without touching another's.

use gloo_storage::{LocalStorage, Storage};
use serde::Serialize;

use super::{
    json,
    reading::{self, Readable},
};

/// A thing that is kept for a page.
#[derive(Clone, Copy, Debug)]
pub enum Kept {
    /// The report as typed so far.
    Draft,
    /// The wish as typed so far.
    WishDraft,
    /// What the studio has not acknowledged yet.
    Unsent,
    /// The language in which the studio knows that the page was opened.
    Opened,
}

fn key(path: &str, kept: Kept) -> String {
    let name = match kept {
        Kept::Draft => "draft",
        Kept::WishDraft => "wish-draft",
        Kept::Unsent => "unsent",
        Kept::Opened => "opened",
    };
    format!("betweentimes:{path}:{name}")
}

pub fn read<T: Readable>(path: &str, kept: Kept) -> Option<T> {
    let text = LocalStorage::raw().get_item(&key(path, kept)).ok()??;
    reading::read(&text)
}

/// Whether it could be kept: a phone may refuse when it is full or in private browsing.
pub fn keep<T: Serialize>(path: &str, kept: Kept, value: &T) -> bool {
    let Some(text) = json::write(value) else {
        return false;
    };
    LocalStorage::raw()
        .set_item(&key(path, kept), &text)
        .is_ok()
}

pub fn drop(path: &str, kept: Kept) {
    LocalStorage::delete(key(path, kept));
}
