//! The form of a visit, filled in and sent without JavaScript.

use crate::{
    visitor::{Answer, Visitor},
    words::say,
};

const PATH: &str = "/studio/visits/new";

/// Sends the fields of a visit, and once more when the form comes back with what stands against the treatment, which is
/// then taken as read.
pub fn send_and_look(artist: &Visitor, fields: &[(&str, &str)]) -> Answer {
    let first = artist.post_signed("/studio", PATH, fields);
    if first.status != 422 || !first.text().contains(&say("fault.look_first")) {
        return first;
    }
    let seen = first.hidden("concerns_seen");
    let all = [fields, &[("concerns_seen", seen.as_str())]].concat();
    artist.post_signed("/studio", PATH, &all)
}

/// A form that was opened: what it came with.
pub struct VisitForm {
    pub visit_id: String,
    pub looked_at: String,
    pub date: String,
    pub time: String,
}

impl VisitForm {
    /// For nobody chosen yet.
    pub fn fresh(artist: &Visitor) -> Self {
        Self::read(&artist.get(PATH))
    }

    /// For a client who is known, by id.
    pub fn of(artist: &Visitor, client: &str) -> Self {
        Self::read(&artist.get(&format!("{PATH}?client={client}")))
    }

    /// As it stands in an answer.
    pub fn read(page: &Answer) -> Self {
        Self {
            visit_id: page.hidden("visit_id"),
            looked_at: page.hidden("looked_at"),
            date: page.hidden("date"),
            time: page.hidden("time"),
        }
    }

    /// Sends it for a brow wax of the new client Ottoline, with these fields in another way; the value `-` leaves a
    /// field out.
    pub fn send(&self, artist: &Visitor, change: &[(&str, &str)]) -> Answer {
        let mut fields = vec![
            ("visit_id", self.visit_id.as_str()),
            ("looked_at", self.looked_at.as_str()),
            ("client", ""),
            ("first_name", "Ottoline"),
            ("reach", "07700 900999"),
            ("date", &self.date),
            ("time", &self.time),
            ("treatments", "brow_wax"),
            ("note", "A note that took a while to write."),
        ];
        fields.retain(|(name, _)| !change.iter().any(|(changed, _)| changed == name));
        fields.extend(change.iter().filter(|(_, value)| *value != "-"));
        artist.post_signed("/studio", PATH, &fields)
    }

    /// As [`VisitForm::send`], for the known client for whom the form was opened.
    pub fn send_known(&self, artist: &Visitor, change: &[(&str, &str)]) -> Answer {
        let mut all = vec![
            ("client", self.looked_at.as_str()),
            ("first_name", ""),
            ("reach", ""),
        ];
        all.extend(change);
        self.send(artist, &all)
    }
}
