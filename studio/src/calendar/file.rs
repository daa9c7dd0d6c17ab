//! The iCalendar file (RFC 5545), published (RFC 5546 section 3.2.1).

use chrono::Days;
use icalendar::{Alarm, Calendar as File, Class, Component, Event, EventLike, Property};
use sha2::{Digest, Sha256};
use uuid::Uuid;

use super::{
    Calendar,
    items::{Item, When},
    one_line,
};

/// The method that the file and its content type name alike (RFC 5545 section 8.1).
pub const METHOD: &str = "PUBLISH";

pub fn write(calendar: &Calendar<'_>, items: &[Item]) -> String {
    let mut file = File::empty();
    for (name, value) in [
        ("VERSION", "2.0"),
        ("PRODID", "-//Betweentimes//Dates between two visits//EN"),
        ("CALSCALE", "GREGORIAN"),
        ("METHOD", METHOD),
    ] {
        file.append_property((name, value));
    }
    for item in items {
        file.push(event(calendar, item));
    }
    file.to_string()
}

fn event(calendar: &Calendar<'_>, item: &Item) -> Event {
    let title = one_line(&item.title);
    let mut event = Event::new();
    event
        .uid(&uid(calendar.visit, &item.key).to_string())
        .timestamp(calendar.now)
        .sequence(calendar.sequence)
        .summary(&title)
        .description(&calendar.contact())
        // Other people who see this calendar are shown that there is something, not what.
        .class(Class::Private)
        // It says when to come, it is no appointment: the day stays free.
        .add_property("TRANSP", "TRANSPARENT");
    if let Some(organizer) = organizer(calendar) {
        event.append_property(organizer);
    }
    match item.when {
        When::At(at) => {
            event.starts(at);
        }
        When::Days(span) => {
            event.starts(span.from);
            // The day after the last (RFC 5545 section 3.8.2.2: the end is not included).
            if let Some(end) = span.until.checked_add_days(Days::new(1)) {
                event.ends(end);
            }
        }
    }
    let mut alarm = Alarm::display(&title, item.alarm);
    // The library makes up an id and a time where there are none; these stay the same.
    alarm
        .uid(&uid(calendar.visit, &format!("{}-alarm", item.key)).to_string())
        .timestamp(calendar.now);
    event.alarm(alarm).done()
}

/// Who publishes it (RFC 5546 section 3.2.1 asks for it).
fn organizer(calendar: &Calendar<'_>) -> Option<Property> {
    let bare = |text: &str| one_line(text).replace(' ', "");
    let (phone, email) = (
        bare(&calendar.studio.phone),
        bare(&calendar.studio.contact_email),
    );
    let address = match (email.as_str(), phone.as_str()) {
        ("", "") => return None,
        ("", phone) => format!("tel:{phone}"),
        (email, _) => format!("mailto:{email}"),
    };
    // A quoted parameter cannot hold a quotation mark (RFC 5545 section 3.2).
    let name = one_line(&calendar.studio.name).replace('"', "'");
    Some(
        Property::new("ORGANIZER", address)
            .add_parameter("CN", &name)
            .done(),
    )
}

/// The same for as long as the visit is in the record, and nothing can be read from it (a UUID, as RFC 7986
/// section 5.3 asks).
fn uid(visit: Uuid, key: &str) -> Uuid {
    let digest = Sha256::new()
        .chain_update(b"calendar")
        .chain_update(visit.as_bytes())
        .chain_update(key.as_bytes())
        .finalize();
    let mut bytes = [0; 16];
    for (byte, from) in bytes.iter_mut().zip(digest) {
        *byte = from;
    }
    uuid::Builder::from_custom_bytes(bytes).into_uuid()
}
