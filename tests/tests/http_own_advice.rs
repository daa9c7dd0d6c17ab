//! The studio's own cautions and what labels say: set by the artist, kept as versions, told to the next client with whose
//! advice it is, and to no earlier one.

#![cfg(test)]

use tests::{
    begin::link_on,
    server::Server,
    visit_form::VisitForm,
    visitor::{Answer, Visitor},
    words::{say, say_of_brows},
};

const HEAT: &str = "/studio/cautions/brow_wax/heat";
const LABELS: &str = "/studio/labels";

struct Studio {
    server: Server,
    artist: Visitor,
}

/// A visit that was recorded: the artist's screen, and the client's page.
struct Recorded {
    place: String,
    link: String,
}

impl Studio {
    fn open() -> Self {
        let server = Server::demo();
        let artist = Visitor::demo_artist(&server);
        Self { server, artist }
    }

    fn send(&self, path: &str, fields: &[(&str, &str)]) -> Answer {
        self.artist.post_signed("/studio", path, fields)
    }

    /// A brow wax now, with more fields.
    fn visit(&self, fields: &[(&str, &str)]) -> Recorded {
        let form = VisitForm::fresh(&self.artist);
        let place = form.send(&self.artist, fields).location().to_owned();
        let link = link_on(&self.artist.get(&place));
        Recorded { place, link }
    }

    fn client(&self, visit: &Recorded) -> Answer {
        Visitor::at(&self.server).get(&visit.link)
    }
}

/// What is said below one caution on the client's page.
fn said_of(page: &Answer, what: &str) -> String {
    let text = page.text();
    let after = text
        .split(what)
        .nth(1)
        .unwrap_or_else(|| panic!("no `{what}` in {text}"));
    after.chars().take(420).collect()
}

fn asked(hours: u32) -> String {
    say("client.now.asked_hours.other").replace("{n}", &hours.to_string())
}

fn of_the_studio() -> String {
    say("whose.studio").replace("{studio}", "Tamsel Lane Brows")
}

/// Brow wax and heat: 48 hours, 24 to 48 by the catalogue.
#[test]
fn hours_of_its_own_are_told_from_then_on_and_as_its_own() {
    let studio = Studio::open();
    let heat = say("caution.heat.what");
    assert!(
        studio
            .artist
            .get("/studio/practice")
            .body
            .contains("href=\"/studio/cautions\"")
    );
    let list = studio.artist.get("/studio/cautions");
    assert!(list.body.contains(&format!("href=\"{HEAT}\"")));
    let before = studio.visit(&[]);
    let told_before = said_of(&studio.client(&before), &heat);
    assert!(
        told_before.contains(&asked(48)) && told_before.contains(&say("grade.common_practice"))
    );
    assert!(
        told_before.contains("In vivo barrier challenge"),
        "with the source: {told_before}"
    );
    assert!(!told_before.contains(&of_the_studio()));

    assert_eq!(
        studio.send(HEAT, &[("hours", "36")]).location(),
        "/studio/cautions"
    );
    let after = studio.visit(&[]);
    let told = said_of(&studio.client(&after), &heat);
    assert!(
        told.contains(&asked(36)) && told.contains(&of_the_studio()),
        "{told}"
    );
    assert_eq!(
        said_of(&studio.client(&before), &heat),
        told_before,
        "what was told stays"
    );
    let kept = studio.server.home.count("own_advice_versions");
    studio.send(HEAT, &[("hours", "36")]).location();
    assert_eq!(
        studio.server.home.count("own_advice_versions"),
        kept,
        "nothing new"
    );
    let page = studio.artist.get(HEAT);
    assert_eq!(page.hidden("hours"), "36");
    let list = studio.artist.get("/studio/cautions").text();
    assert!(
        list.contains("Last changed") && list.contains("Ilse Marend"),
        "{list}"
    );

    studio.send(HEAT, &[("usual", "usual")]).location();
    let usual = said_of(&studio.client(&studio.visit(&[])), &heat);
    assert!(usual.contains(&asked(48)) && !usual.contains(&of_the_studio()));
    for table in ["own_advice_versions", "label_versions"] {
        let change = format!("update {table} set body = '{{}}'");
        assert!(
            studio.server.home.record().execute(&change, []).is_err(),
            "{table}"
        );
    }
}

#[test]
fn outside_the_range_a_reason_is_asked_for_and_only_the_artist_reads_it() {
    let studio = Studio::open();
    let before = studio.server.home.count("own_advice_versions");
    let sentence = say("fault.hours_reason")
        .replace("{least}", "24")
        .replace("{most}", "48");
    let asked_why = studio.send(HEAT, &[("hours", "72"), ("what", "No hot yoga")]);
    assert_eq!(asked_why.status, 422);
    assert!(asked_why.text().contains(&sentence), "{}", asked_why.text());
    assert_eq!(
        (asked_why.hidden("hours"), asked_why.hidden("what")),
        ("72".to_owned(), "No hot yoga".to_owned())
    );
    let whole = say("fault.hours").replace("{most}", "8784");
    for hours in ["two", "0", "-3", "1.5", "9000"] {
        let answer = studio.send(HEAT, &[("hours", hours), ("reason", "so")]);
        assert_eq!(answer.status, 422);
        assert!(answer.text().contains(&whole), "{hours}: {}", answer.text());
    }
    assert_eq!(studio.server.home.count("own_advice_versions"), before);

    let reason = "Two of my clients flushed on the third day.";
    studio
        .send(
            HEAT,
            &[("hours", "72"), ("what", "No hot yoga"), ("reason", reason)],
        )
        .location();
    let visit = studio.visit(&[]);
    let client = studio.client(&visit);
    let told = said_of(&client, "No hot yoga");
    assert!(
        told.contains(&asked(72)) && told.contains(&of_the_studio()),
        "{told}"
    );
    assert!(
        !client.body.contains(reason),
        "the client never reads the reason"
    );
    let screen = studio.artist.get(&visit.place).text();
    assert!(screen.contains(reason), "{screen}");
    // Inside the range no reason is kept.
    studio
        .send(HEAT, &[("hours", "30"), ("reason", reason)])
        .location();
    assert!(
        !studio
            .artist
            .get("/studio/cautions")
            .text()
            .contains(reason)
    );
}

#[test]
fn words_of_its_own_are_told_as_its_own() {
    let studio = Studio::open();
    studio
        .send(
            HEAT,
            &[("what", "No bath & no <sauna>"), ("why", "It went red.")],
        )
        .location();
    let told = said_of(&studio.client(&studio.visit(&[])), "No bath & no <sauna>");
    let own = say("whose.words").replace("{studio}", "Tamsel Lane Brows");
    assert!(told.starts_with(" It went red."), "{told}");
    assert!(told.contains(&asked(48)) && told.contains(&own), "{told}");
    assert!(
        told.contains(&say("grade.common_practice")),
        "the hours are still the trade's: {told}"
    );
}

#[test]
fn a_caution_is_added_changed_and_taken_away() {
    let studio = Studio::open();
    let fresh = studio.artist.get("/studio/cautions/new").body;
    let address = fresh
        .split("action=\"/studio/cautions/own/")
        .nth(1)
        .and_then(|rest| rest.get(..36));
    let address = format!("/studio/cautions/own/{}", address.expect("an address"));
    let before = studio.server.home.count("own_advice_versions");
    let fields = [
        ("treatments", "brow_wax"),
        ("what", "No facial massage"),
        ("why", "It pulls at new skin."),
        ("hours", "96"),
    ];
    for (leave, fault) in [
        (0, say("fault.required")),
        (1, say("fault.required")),
        (3, say("fault.required")),
    ] {
        let mut some = fields.to_vec();
        some.remove(leave);
        let answer = studio.send(&address, &some);
        assert_eq!(answer.status, 422);
        assert!(answer.text().contains(&fault), "{}", answer.text());
    }
    let odd = studio.send(
        &address,
        &[&fields[..], &[("treatments", "nail_polish")]].concat(),
    );
    assert!(odd.text().contains(&say("fault.unknown_choice")));
    assert_eq!(studio.server.home.count("own_advice_versions"), before);
    studio.send(&address, &fields).location();
    studio.send(&address, &fields).location();
    assert_eq!(
        studio.server.home.count("own_advice_versions"),
        before + 1,
        "a second tap"
    );

    let visit = studio.visit(&[]);
    let told = said_of(&studio.client(&visit), "No facial massage");
    assert!(
        told.contains("It pulls at new skin.") && told.contains(&asked(96)),
        "{told}"
    );
    assert!(told.contains(&of_the_studio()));
    let tint = studio.visit(&[("treatments", "brow_tweeze")]);
    assert!(!studio.client(&tint).text().contains("No facial massage"));
    assert_eq!(studio.artist.get(&address).hidden("hours"), "96");
    studio.send(&address, &[("remove", "remove")]).location();
    assert_eq!(studio.artist.get(&address).status, 404);
    assert!(
        !studio
            .client(&studio.visit(&[]))
            .text()
            .contains("No facial massage")
    );
    assert!(
        studio.client(&visit).text().contains("No facial massage"),
        "what was told stays"
    );
}

/// "The product's label comes first", on the label of every product: for longer and for less.
#[test]
fn a_label_comes_before_everything_whenever_its_product_is_used() {
    let studio = Studio::open();
    studio.send(HEAT, &[("hours", "30")]).location();
    let heat = say("caution.heat.what");
    let label = |hours: &str| {
        let fields = [
            ("product", "Marrow soft wax"),
            ("kind", "heat"),
            ("hours", hours),
            ("words", "Avoid heat."),
        ];
        studio.send(LABELS, &fields).location().to_owned()
    };
    let by_label = say("whose.label").replace("{product}", "Marrow soft wax");
    for hours in [72, 12] {
        assert_eq!(label(&hours.to_string()), LABELS);
        let used = studio.visit(&[("product_1", "MARROW soft Wax ")]);
        let told = said_of(&studio.client(&used), &heat);
        assert!(
            told.contains(&asked(hours)) && told.contains(&by_label),
            "{told}"
        );
        assert!(told.contains("Avoid heat."));
    }
    let text = studio.artist.get(LABELS).text();
    assert_eq!(
        text.matches("Marrow soft wax").count(),
        1,
        "noted once: {text}"
    );
    let other = studio.visit(&[("product_1", "Marrow hard wax")]);
    let told = said_of(&studio.client(&other), &heat);
    assert!(
        told.contains(&asked(30)) && told.contains(&of_the_studio()),
        "{told}"
    );

    // A kind that the treatment has no caution of is added.
    let water = say_of_brows("caution.water.what");
    let without = studio.visit(&[("product_1", "Marrow soft wax")]);
    assert!(!studio.client(&without).text().contains(&water));
    let wet = [
        ("product", "marrow soft wax"),
        ("kind", "water"),
        ("hours", "20"),
    ];
    studio.send(LABELS, &wet).location();
    let with = said_of(
        &studio.client(&studio.visit(&[("product_1", "Marrow soft wax")])),
        &water,
    );
    assert!(
        with.contains(&asked(20)) && with.contains(&say("label.why")),
        "{with}"
    );

    let take = [
        ("product", "Marrow soft wax"),
        ("kind", "heat"),
        ("remove", "yes"),
    ];
    studio.send(LABELS, &take).location();
    let told = said_of(
        &studio.client(&studio.visit(&[("product_1", "Marrow soft wax")])),
        &heat,
    );
    assert!(told.contains(&asked(30)), "{told}");
}

#[test]
fn what_cannot_be_taken_and_who_may_set_it() {
    let studio = Studio::open();
    let before = (
        studio.server.home.count("own_advice_versions"),
        studio.server.home.count("label_versions"),
    );
    let fields = [("product", "Velm"), ("kind", "heat"), ("hours", "24")];
    for (field, value, fault) in [
        ("product", " ", say("fault.required")),
        ("kind", "cold", say("fault.unknown_choice")),
        ("hours", "", say("fault.required")),
        (
            "hours",
            "soon",
            say("fault.hours").replace("{most}", "8784"),
        ),
        ("treatments", "nail_polish", say("fault.unknown_choice")),
    ] {
        let mut all: Vec<_> = fields
            .iter()
            .copied()
            .filter(|(name, _)| *name != field)
            .collect();
        all.push((field, value));
        let answer = studio.send(LABELS, &all);
        assert_eq!(answer.status, 422, "{field}");
        assert!(answer.text().contains(&fault), "{field}: {}", answer.text());
    }
    for path in [
        "/studio/cautions/brow_wax/nothing",
        "/studio/cautions/nail_polish/heat",
        "/studio/cautions/own/unknown",
        "/studio/cautions/own/A%20B",
    ] {
        assert_eq!(studio.artist.get(path).status, 404, "{path}");
    }
    let odd = studio.send(
        "/studio/cautions/own/A%20B",
        &[("treatments", "brow_wax"), ("what", "No x"), ("hours", "5")],
    );
    assert_eq!(odd.status, 404);
    assert_eq!(studio.send(HEAT, &[("colour", "red")]).status, 400);
    let stranger = Visitor::at(&studio.server);
    for path in ["/studio/cautions", HEAT, "/studio/cautions/new", LABELS] {
        assert_eq!(stranger.get(path).location(), "/studio/sign-in");
    }
    for path in [HEAT, LABELS, "/studio/cautions/own/x"] {
        assert_eq!(
            stranger.post(path, &[("hours", "30")]).location(),
            "/studio/sign-in"
        );
        let forged = studio
            .artist
            .post(path, &[("hours", "30"), ("csrf", "guess")]);
        assert_ne!(forged.status, 303, "{path}");
    }
    let after = (
        studio.server.home.count("own_advice_versions"),
        studio.server.home.count("label_versions"),
    );
    assert_eq!(after, before);
}
