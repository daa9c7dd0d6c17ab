//! The zones of the brows: recorded with the visit, kept for the next one, told to the client with dates that count
//! from the visit at which they were first marked.

use jiff::{ToSpan, civil::Date};
use tests::{
    server::Server,
    visitor::{Answer, Visitor},
    words::say,
};

const NOOR: &str = "00000000-0000-8000-8000-000100000001";
const SIGNE: &str = "00000000-0000-8000-8000-000100000005";

/// A studio of its own for each test, and its artist.
struct Studio {
    server: Server,
    artist: Visitor,
}

impl Studio {
    fn open() -> Self {
        let server = Server::demo();
        let artist = Visitor::demo_artist(&server);
        Self { server, artist }
    }

    /// Opens the form, for a known client or without one.
    fn form(&self, client: Option<&str>) -> Answer {
        let path = client.map_or("/studio/visits/new".to_owned(), |client| {
            format!("/studio/visits/new?client={client}")
        });
        self.artist.get(&path)
    }

    /// Sends the form with these fields beside what every visit has.
    fn send(&self, form: &Answer, days_ago: i64, fields: &[(&str, &str)]) -> Answer {
        let day = today(form) - days_ago.days();
        let (id, day, time) = (
            form.hidden("visit_id"),
            day.to_string(),
            form.hidden("time"),
        );
        let mut all = vec![
            ("visit_id", id.as_str()),
            ("date", &day),
            ("time", &time),
            ("treatments", "brow_wax"),
        ];
        all.extend(fields);
        self.artist
            .post_signed("/studio", "/studio/visits/new", &all)
    }

    /// The page of the client of a visit that was recorded.
    fn client_page(&self, recorded: &Answer) -> Answer {
        let visit = self.artist.get(recorded.location());
        let link = visit.hidden_link();
        Visitor::at(&self.server).get(&link)
    }
}

trait Link {
    fn hidden_link(&self) -> String;
}

impl Link for Answer {
    /// The client's link on the screen of a visit.
    fn hidden_link(&self) -> String {
        let field = self.body.split("id=\"link\"").nth(1).expect("a link");
        let value = field.split("value=\"").nth(1).expect("its value");
        value.split('"').next().unwrap_or_default().to_owned()
    }
}

fn today(form: &Answer) -> Date {
    form.hidden("date").parse().expect("a date")
}

/// "Monday 28 December", as jiff writes it.
fn written(day: Date) -> String {
    day.strftime("%A %-d %B").to_string()
}

/// The choices of the form that are chosen, without those of no mark.
fn chosen(page: &Answer) -> Vec<String> {
    let inputs = page.body.split("<input ").skip(1);
    let inputs = inputs.filter_map(|rest| rest.split('>').next());
    let mut ids: Vec<String> = inputs
        .filter(|tag| tag.contains("type=\"radio\"") && tag.contains("checked=true"))
        .filter_map(|tag| tag.split("id=\"").nth(1)?.split('"').next())
        .filter(|id| id.starts_with("zone_") && !id.ends_with("-none"))
        .map(str::to_owned)
        .collect();
    ids.sort();
    ids
}

#[test]
fn a_marked_zone_is_told_with_the_days_on_which_it_should_close_and_hope_ends() {
    let studio = Studio::open();
    let form = studio.form(Some(NOOR));
    assert_eq!(form.hidden("zones_of"), NOOR);
    assert!(chosen(&form).is_empty());
    let marks = [
        ("client", NOOR),
        ("zones_of", NOOR),
        ("zone_left_tail", "let_it_grow"),
        ("zone_right_front", "nothing_grows"),
        ("zone_left_below", "keep_tidy"),
        ("zone_right_below", "keep_tidy"),
        ("zone_right_above", ""),
    ];
    let recorded = studio.send(&form, 0, &marks);
    let day = today(&form);
    // 32 and 128 days: tests/zones.rs.
    let (begins, hope) = (written(day + 32.days()), written(day + 128.days()));
    let visit = studio.artist.get(recorded.location());
    let page = studio.client_page(&recorded);
    let told = [
        say("zones_told.begins").replace("{begins}", &begins),
        say("zones_told.hope").replace("{hope}", &hope),
        say("zones_told.leave_alone"),
        say("zones_told.nothing_grows"),
        say("zones_told.keep_tidy"),
        "Left brow: tail.".to_owned(),
        "Right brow: front.".to_owned(),
        "Both brows: skin below.".to_owned(),
    ];
    for sentence in &told {
        assert!(
            page.text().contains(sentence),
            "{sentence}: {}",
            page.text()
        );
        assert!(
            visit.text().contains(sentence),
            "{sentence}: {}",
            visit.text()
        );
    }
    let slip = studio
        .artist
        .get(&format!("{}/hand-over", recorded.location()));
    assert!(slip.text().contains(&told[0]), "{}", slip.text());
    assert_eq!(page.body.matches("class=\"grow\"").count(), 1, "drawn once");
    assert_eq!(page.body.matches("class=\"tidy\"").count(), 2);

    // A visit without marks says nothing of zones.
    let plain = studio.send(
        &studio.form(None),
        0,
        &[("first_name", "Ottoline"), ("reach", "07700 900999")],
    );
    let page = studio.client_page(&plain);
    assert!(!page.body.contains("id=\"zones\""), "{}", page.text());
}

#[test]
fn marks_are_kept_from_visit_to_visit_and_count_from_the_first() {
    let studio = Studio::open();
    let (arch, tail) = ("zone_left_arch", "zone_left_tail");
    let form = studio.form(Some(NOOR));
    let today = today(&form);
    let grow = [("client", NOOR), ("zones_of", NOOR), (arch, "let_it_grow")];
    studio.send(&form, 40, &grow).location();

    // The demo's own visit of hers lies between, without marks: the row begins anew today.
    let again = studio.form(Some(NOOR));
    assert!(chosen(&again).is_empty(), "the latest visit counts");
    let page = studio.client_page(&studio.send(&again, 0, &grow));
    let closes = say("zones_told.begins").replace("{begins}", &written(today + 32.days()));
    assert!(page.text().contains(&closes), "{}", page.text());

    // Signe's left tail was marked twelve days ago, her arch is marked today.
    let form = studio.form(Some(SIGNE));
    assert_eq!(
        chosen(&form),
        [
            "zone_left_below-keep_tidy",
            "zone_left_tail-let_it_grow",
            "zone_right_below-keep_tidy",
            "zone_right_front-nothing_grows"
        ]
    );
    let kept = [
        ("client", SIGNE),
        ("zones_of", SIGNE),
        (tail, "let_it_grow"),
        (arch, "let_it_grow"),
    ];
    let recorded = studio.send(&form, 0, &kept);
    let text = studio.client_page(&recorded).text();
    for (place, days) in [("Left brow: tail.", 20), ("Left brow: arch.", 32)] {
        let begins = written(today + days.days());
        let (_, after) = text
            .split_once(place)
            .unwrap_or_else(|| panic!("{place}: {text}"));
        let begins = say("zones_told.begins").replace("{begins}", &begins);
        let at = after
            .find(&begins)
            .unwrap_or_else(|| panic!("{begins}: {text}"));
        assert!(at < 120, "{begins} stands right behind {place}: {text}");
    }
    assert!(
        !text.contains("skin below"),
        "what was taken away stays away"
    );
    assert_eq!(chosen(&studio.form(Some(SIGNE))).len(), 2);
}

/// Yusra's arches were marked weeks before her visit of the demo, her right tail only then.
#[test]
fn a_gap_that_should_be_closing_is_said_to_be() {
    let server = Server::demo();
    let page = Visitor::at(&server).get(&server.client_links()[5]);
    let text = page.text();
    let (before, after) = text
        .split_once("Right brow: tail.")
        .expect("her right tail");
    let begun = format!("Both brows: arch. {}", say("zones_told.leave_alone"));
    assert!(before.contains(&begun), "{text}");
    assert!(before.contains(&say("zones_told.has_begun")), "{text}");
    assert!(!after.contains(&say("zones_told.has_begun")), "{text}");
}

#[test]
fn a_client_chosen_from_the_list_loses_no_marks() {
    let studio = Studio::open();
    let form = studio.form(None);
    assert_eq!(form.hidden("zones_of"), "");
    let recorded = studio.send(
        &form,
        0,
        &[
            ("client", SIGNE),
            ("zones_of", ""),
            ("zone_right_front", "keep_tidy"),
        ],
    );
    let visit = studio.artist.get(recorded.location()).text();
    assert!(visit.contains("Left brow: tail."), "{visit}");
    assert!(
        visit.contains("Right brow: front and skin below."),
        "what is marked now counts: {visit}"
    );
}

#[test]
fn a_refused_form_keeps_its_marks_and_takes_none_of_another_client() {
    let studio = Studio::open();
    let form = studio.form(Some(NOOR));
    let marked = ("zone_left_above", "nothing_grows");
    let refused = studio.send(
        &form,
        0,
        &[
            ("client", NOOR),
            ("zones_of", NOOR),
            marked,
            ("batch_1", "B-7"),
        ],
    );
    assert_eq!(refused.status, 422);
    assert_eq!(chosen(&refused), ["zone_left_above-nothing_grows"]);

    let unknown = studio.send(
        &form,
        0,
        &[
            ("client", NOOR),
            ("zones_of", NOOR),
            ("zone_left_above", "shave_it"),
        ],
    );
    assert_eq!(unknown.status, 422);
    assert!(unknown.text().contains(&say("fault.unknown_choice")));

    // The form began with Noor's marks, and then another client was chosen.
    let other = studio.send(&form, 0, &[("client", SIGNE), ("zones_of", NOOR), marked]);
    assert_eq!(other.status, 422);
    assert!(other.text().contains(&say("fault.zones_of_another")));
    assert_eq!(other.hidden("zones_of"), SIGNE);
    assert_eq!(chosen(&other).len(), 4, "Signe's own");
}

/// What happened is appended: the record itself refuses to overwrite a mark, or to hold two for one place.
#[test]
fn a_mark_is_never_overwritten() {
    let studio = Studio::open();
    let record = studio.server.home.record();
    let change = record.execute("update zone_marks set mark = 'keep_tidy'", []);
    let refusal = change.expect_err("a refusal").to_string();
    assert!(refusal.contains("never overwritten"), "{refusal}");
    let second = record.execute(
        "insert into zone_marks select visit, side, zone, 'keep_tidy' from zone_marks limit 1",
        [],
    );
    assert!(second.is_err(), "one mark for each place");
}
