//! Answers as JSON gives them, and as JSON is given them.

use std::fmt;

use serde::{
    Deserialize, Deserializer, Serialize, Serializer,
    de::{MapAccess, SeqAccess, Visitor},
    ser::SerializeMap,
};

use super::{
    answers::{Answer, Answers},
    field::{Field, Scale},
};

/// A value of any kind that an answer can have.
#[derive(Clone, Debug, PartialEq)]
pub enum Given {
    Nothing,
    YesNo(bool),
    Number(f64),
    Text(String),
    List(Vec<String>),
}

impl Given {
    /// The text that [`Answers::put`] takes for it; `None` when the kind does not fit the field.
    pub(super) fn text(&self, field: Field) -> Option<String> {
        match (self, field.scale()) {
            (Self::Nothing, _) => Some(String::new()),
            (Self::Text(text), _) => (!text.is_empty()).then(|| text.clone()),
            (Self::YesNo(yes), Scale::OneOf(["no", "yes"])) => {
                Some(if *yes { "yes" } else { "no" }.to_owned())
            }
            (Self::Number(number), Scale::UpTo(_)) => {
                let whole = number.fract() == 0.0 && (0.0..=100.0).contains(number);
                whole.then(|| (*number as u32).to_string())
            }
            (Self::Number(hours), Scale::Hours) => {
                let minutes = (hours * 60.0).round();
                let fits = (0.0..=f64::from(u32::MAX)).contains(&minutes) && *hours >= 0.0;
                fits.then(|| format!("{}:{:02}", minutes as u32 / 60, minutes as u32 % 60))
            }
            _ => None,
        }
    }

    /// For a sentence.
    pub(super) fn shown(&self) -> String {
        match self {
            Self::Nothing => "null".to_owned(),
            Self::YesNo(yes) => yes.to_string(),
            Self::Number(number) => number.to_string(),
            Self::Text(text) => text.clone(),
            Self::List(items) => format!("[{}]", items.join(", ")),
        }
    }
}

/// Fields in the order in which they were given, those given twice included.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct GivenFields(pub Vec<(String, Given)>);

impl<'de> Deserialize<'de> for Given {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Any;
        impl<'de> Visitor<'de> for Any {
            type Value = Given;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a text, a number, true, false, null, or a list of texts")
            }
            fn visit_unit<E>(self) -> Result<Given, E> {
                Ok(Given::Nothing)
            }
            fn visit_none<E>(self) -> Result<Given, E> {
                Ok(Given::Nothing)
            }
            fn visit_bool<E>(self, value: bool) -> Result<Given, E> {
                Ok(Given::YesNo(value))
            }
            fn visit_i64<E>(self, value: i64) -> Result<Given, E> {
                Ok(Given::Number(value as f64))
            }
            fn visit_u64<E>(self, value: u64) -> Result<Given, E> {
                Ok(Given::Number(value as f64))
            }
            fn visit_f64<E>(self, value: f64) -> Result<Given, E> {
                Ok(Given::Number(value))
            }
            fn visit_str<E>(self, value: &str) -> Result<Given, E> {
                Ok(Given::Text(value.to_owned()))
            }
            fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Given, A::Error> {
                let mut items = Vec::new();
                while let Some(item) = list.next_element()? {
                    items.push(item);
                }
                Ok(Given::List(items))
            }
        }
        from.deserialize_any(Any)
    }
}

impl<'de> Deserialize<'de> for GivenFields {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Fields;
        impl<'de> Visitor<'de> for Fields {
            type Value = GivenFields;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("an object of answers")
            }
            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<GivenFields, A::Error> {
                let mut fields = Vec::new();
                while let Some(field) = map.next_entry()? {
                    fields.push(field);
                }
                Ok(GivenFields(fields))
            }
        }
        from.deserialize_map(Fields)
    }
}

impl Serialize for Answers {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let mut map = to.serialize_map(None)?;
        for field in self.answered() {
            match (field.scale(), self.get(field)) {
                (Scale::UpTo(_), Answer::At(number)) => map.serialize_entry(field.term(), &number),
                (Scale::Hours, Answer::At(minutes))
                    if field != Field::OnsetHours || self.begun_from() == Some(minutes) =>
                {
                    map.serialize_entry(field.term(), &(f64::from(minutes) / 60.0))
                }
                _ => map.serialize_entry(field.term(), &self.text(field)),
            }?;
        }
        if !self.treatments.is_empty() {
            map.serialize_entry("treatments", &self.treatments)?;
        }
        map.end()
    }
}
