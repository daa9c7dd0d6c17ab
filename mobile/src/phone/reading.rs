//! Reads what travels to the phone out of the browser's own values.
//!
//! The shapes are those that `serde` writes. Its reader is not used here, because the code that it makes for each type is a
//! good part of what a phone would have to download; the compiler still sees to it that no field is forgotten.

use chrono::{DateTime, Utc};
use js_sys::{Array, JSON, Reflect};
use shared_types::{
    page::{
        client::{
            AnswerCard, CautionsUntil, ClientPage, Due, Figure, Moment, SentCard, Shows, WeekShare,
        },
        form::Filled,
        picture::{Picture, Subject},
        trouble::TroublePage,
    },
    urgency::{AdviceRule, Fact, Field, Level, LevelAdvice, Question, Rule, Rules},
    visit::{Area, Treatment},
    wire::{LinkUse, Problem, Receipt, Standing},
    words::Words,
};
use uuid::Uuid;
use wasm_bindgen::{JsCast, JsValue};

/// Can be read out of a value of the browser's.
pub trait Readable: Sized {
    /// Nothing when it is of another shape.
    fn read(value: &JsValue) -> Option<Self>;
}

/// Reads a JSON text; nothing when it is none or of another shape.
pub fn read<T: Readable>(text: &str) -> Option<T> {
    T::read(&JSON::parse(text).ok()?)
}

/// A field; undefined when there is none.
pub(super) fn field(value: &JsValue, name: &str) -> JsValue {
    // Fails only on a value without fields; then there is nothing in it.
    Reflect::get(value, &JsValue::from_str(name)).unwrap_or(JsValue::UNDEFINED)
}

macro_rules! numbers {
    ($($number:ty),+) => { $(
        impl Readable for $number {
            fn read(value: &JsValue) -> Option<Self> {
                value.as_f64().map(|number| number as $number)
            }
        }
    )+ };
}
numbers!(u8, u16, u32, i64, f64);

impl Readable for bool {
    fn read(value: &JsValue) -> Option<Self> {
        value.as_bool()
    }
}

impl Readable for String {
    fn read(value: &JsValue) -> Option<Self> {
        value.as_string()
    }
}

impl<T: Readable> Readable for Option<T> {
    fn read(value: &JsValue) -> Option<Self> {
        if value.is_null() || value.is_undefined() {
            return Some(None);
        }
        T::read(value).map(Some)
    }
}

impl<T: Readable> Readable for Vec<T> {
    fn read(value: &JsValue) -> Option<Self> {
        let items: &Array = value.dyn_ref()?;
        let mut all = Vec::with_capacity(items.length() as usize);
        for at in 0..items.length() {
            all.push(T::read(&items.get(at))?);
        }
        Some(all)
    }
}

impl Readable for (String, String) {
    fn read(value: &JsValue) -> Option<Self> {
        let pair: &Array = value.dyn_ref()?;
        Some((String::read(&pair.get(0))?, String::read(&pair.get(1))?))
    }
}

/// Seconds since 1970.
impl Readable for DateTime<Utc> {
    fn read(value: &JsValue) -> Option<Self> {
        DateTime::from_timestamp(i64::read(value)?, 0)
    }
}

impl Readable for Words {
    fn read(value: &JsValue) -> Option<Self> {
        Vec::read(value).map(Words::sorted)
    }
}

macro_rules! terms {
    ($($term:ty),+) => { $(
        impl Readable for $term {
            fn read(value: &JsValue) -> Option<Self> {
                value.as_string()?.parse().ok()
            }
        }
    )+ };
}
terms!(Area, Field, Level, Shows, Subject, Treatment, Uuid);

impl Readable for Filled {
    fn read(value: &JsValue) -> Option<Self> {
        let pairs = |name| Vec::<(String, String)>::read(&field(value, name));
        let mut form = Filled::default();
        for (name, text) in pairs("values")? {
            form.put(&name, text);
        }
        form.blame_all(pairs("faults")?);
        Some(form)
    }
}

macro_rules! shapes {
    ($($shape:ident { $($name:ident),+ $(; $still:ident)? })+) => { $(
        impl Readable for $shape {
            fn read(value: &JsValue) -> Option<Self> {
                Some(Self {
                    $($name: Readable::read(&field(value, stringify!($name)))?,)+
                    $($still: Default::default(),)?
                })
            }
        }
    )+ };
}

shapes! {
    ClientPage {
        build, now, as_of, words, studio_name, emergency, treated, finished_at, path, cautions, due, figures, reports,
        wishes, first_day, good_day, form_id, form; still
    }
    TroublePage {
        build, now, words, studio_name, path, finished_at, treatments, rules, content_version, form_id, form; still
    }
    Rules { rules, advice, levels, questions }
    Rule { id, level, when, unless, after, not_after, raises, unasked_is_no, unknown, advice }
    Fact { field, least, most, or_not_sure }
    AdviceRule { id, not_with, at_any_level }
    LevelAdvice { level, advice }
    Question { id, fields, eye, none_means, hours }
    Moment { at, text }
    CautionsUntil { until, lead, html }
    Due { to_come, why, over, from_day, until_day }
    Figure { area, name, shows, weeks, picture }
    WeekShare { week, visible, graspable, kept }
    Picture { subject, seed, follicles, taken_out, figures, graspable, tinted, set, last_day, ground }
    SentCard { id, received, gist, answers, steps, now, ask, agreed, settled }
    AnswerCard { by, at, text }
    Standing { reports, wishes }
    Receipt { id, received }
    LinkUse { opened, read_in }
}

impl Readable for Problem {
    fn read(value: &JsValue) -> Option<Self> {
        Some(Self {
            kind: Readable::read(&field(value, "type"))?,
            title: Readable::read(&field(value, "title"))?,
            status: Readable::read(&field(value, "status"))?,
            detail: Readable::read(&field(value, "detail"))?,
        })
    }
}
