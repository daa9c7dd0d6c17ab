//! The language of a client's page: asked for by the phone, chosen on the page, kept with the visit, told to the artist.

#![cfg(test)]

use reqwest::Method;
use tests::{
    server::Server,
    visit_form::VisitForm,
    visitor::{Answer, Visitor},
    words::{languages, say, say_in},
};

/// A demo client's page, as a path.
fn page_of(server: &Server, number: usize) -> String {
    let link = &server.client_links()[number];
    let at = link.find("/MY/").expect("a client's link");
    link[at..].to_owned()
}

/// The page as a phone with these languages gets it.
fn asked(visitor: &Visitor, path: &str, languages: &str) -> Answer {
    visitor.ask(Method::GET, path, &[("accept-language", languages)], None)
}

/// The language that a page says it is in.
fn language_of(page: &Answer) -> String {
    let after = page.body.split("<html lang=\"").nth(1).expect("a language");
    after.split('"').next().expect("its end").to_owned()
}

fn others() -> Vec<String> {
    let all = languages().into_iter();
    all.filter(|tag| tag != "en").collect()
}

#[test]
fn the_phone_is_answered_in_its_language() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let path = page_of(&server, 0);
    for tag in languages() {
        let wish = format!("tlh, {tag}-XX;q=0.9, en;q=0.1");
        let page = asked(&client, &path, &wish);
        assert_eq!(page.status, 200);
        assert_eq!(language_of(&page), tag);
        let text = page.text();
        // What is frozen and what is not are in the same language.
        for key in [
            "client.now.title",
            "client.trouble.title",
            "caution.heat.what",
        ] {
            let sentence = say_in(&tag, key);
            assert!(text.contains(&sentence), "{tag}, {key}: {text}");
        }
        let vary: Vec<_> = page.headers.get_all("vary").iter().collect();
        let vary = format!("{vary:?}");
        assert!(
            vary.contains("accept-language") && vary.contains("cookie"),
            "{vary}"
        );
    }
    // One that nobody here speaks, or none at all: the studio's own.
    for wish in ["tlh", "*", "en;q=0"] {
        assert_eq!(language_of(&asked(&client, &path, wish)), "en", "{wish}");
    }
    assert_eq!(language_of(&client.get(&path)), "en");
}

#[test]
fn a_chosen_language_goes_before_the_phones_and_changes_no_record() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let path = page_of(&server, 0);
    for tag in others() {
        let page = asked(&client, &path, "en");
        let way = format!("href=\"{path}/in/{tag}\" lang=\"{tag}\" hreflang=\"{tag}\"");
        assert!(page.body.contains(&way), "{way}");
        let chosen = asked(&client, &format!("{path}/in/{tag}"), "en");
        assert_eq!(chosen.location(), path);
        let cookie = chosen.header("set-cookie").to_owned();
        for part in [
            format!("betweentimes-language={tag}; "),
            format!("Path={path}; "),
            "HttpOnly; SameSite=Lax".to_owned(),
        ] {
            assert!(cookie.contains(&part), "{part}: {cookie}");
        }
        assert!(!cookie.contains("Secure"), "plain http has no such cookie");
        assert_eq!(language_of(&asked(&client, &path, "en")), tag);
        // Back again.
        asked(&client, &format!("{path}/in/en"), "en").location();
        assert_eq!(language_of(&asked(&client, &path, &tag)), "en");
    }
    let shown: i64 = server
        .home
        .record()
        .query_row("select count(*) from languages_shown", [], |row| row.get(0))
        .expect("a count");
    assert_eq!(shown, 0, "looking and choosing are kept nowhere");
}

#[test]
fn the_cookie_of_a_safe_studio_is_safe() {
    let home = tests::server::Home::new();
    let server = Server::start(&home, &["--demo", "--public-url", "https://studio.example"]);
    let client = Visitor::at(&server);
    let path = page_of(&server, 0);
    let chosen = client.get(&format!("{path}/in/en"));
    let cookie = chosen.header("set-cookie");
    assert!(
        cookie.starts_with("__Secure-betweentimes-language=en;") && cookie.ends_with("; Secure"),
        "{cookie}"
    );
}

#[test]
fn a_language_that_there_is_not_is_refused_with_a_sentence() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let path = page_of(&server, 0);
    for tag in ["tlh", "EN", "en-GB", "%0d%0aset-cookie:x=y"] {
        let refused = client.get(&format!("{path}/in/{tag}"));
        assert_eq!(refused.status, 404, "{tag}");
        assert!(refused.header("set-cookie").is_empty());
        let sentence = say("notice.language_unknown.sentence");
        assert!(refused.text().contains(&sentence), "{}", refused.text());
        // The page is still there: the phone drops nothing.
        assert!(!refused.body.contains("forget"), "{}", refused.body);
    }
    // A cookie that says anything else is no reason not to show the page.
    client.set_cookie("betweentimes-language=tlh");
    assert_eq!(client.get(&path).status, 200);
}

#[test]
fn what_is_frozen_is_one_for_each_language() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let form = VisitForm::fresh(&artist);
    let place = form.send(&artist, &[]).location().to_owned();
    let id: uuid::Uuid = place
        .rsplit('/')
        .next()
        .expect("an id")
        .parse()
        .expect("a UUID");
    let record = server.home.record();
    let mut statement = record
        .prepare("select language, content_version, body, sha256 from advice where visit = ?1 order by place")
        .expect("a query");
    let rows: Vec<(String, String, String, [u8; 32])> = statement
        .query_map([id], |row| {
            Ok((row.get(0)?, row.get(1)?, row.get(2)?, row.get(3)?))
        })
        .expect("rows")
        .collect::<Result<_, _>>()
        .expect("rows");
    let frozen: Vec<&str> = rows.iter().map(|row| row.0.as_str()).collect();
    assert_eq!(frozen[0], "en", "the studio's own comes first");
    let mut sorted = frozen.clone();
    sorted.sort_unstable();
    assert_eq!(sorted, languages(), "one for each");
    for (tag, version, body, sha256) in &rows {
        let advice: serde_json::Value = serde_json::from_str(body).expect("JSON");
        assert_eq!(advice["done"][0], say_in(tag, "treatment.brow_wax"));
        assert_eq!(*version, rows[0].1);
        use sha2::Digest;
        assert_eq!(sha2::Sha256::digest(body.as_bytes()).as_slice(), sha256);
        let first: serde_json::Value = serde_json::from_str(&rows[0].2).expect("JSON");
        assert_eq!(
            advice["plan"], first["plan"],
            "the same plan in other words"
        );
    }
    let changed = record.execute("update advice set body = '' where visit = ?1", [id]);
    assert!(
        changed
            .expect_err("refused")
            .to_string()
            .contains("never overwritten"),
        "advice stays"
    );
}

/// A visit from before languages were kept has one; the whole page is then in it, whatever the phone asks for.
#[test]
fn a_page_is_never_mixed() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let path = page_of(&server, 0);
    server
        .home
        .record()
        .execute("delete from advice where language <> 'en'", [])
        .expect("deleted");
    for tag in others() {
        let page = asked(&client, &path, &tag);
        assert_eq!(language_of(&page), "en");
        assert!(page.text().contains(&say("client.trouble.title")));
        assert!(
            !page.body.contains("class=\"languages\""),
            "nothing to choose"
        );
        assert_eq!(client.get(&format!("{path}/in/{tag}")).status, 404);
    }
}

#[test]
fn what_was_shown_is_noted_and_the_artist_reads_it() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let client = Visitor::at(&server);
    let place = VisitForm::fresh(&artist)
        .send(&artist, &[])
        .location()
        .to_owned();
    let screen = artist.get(&place);
    assert!(screen.text().contains(&say("artist.link.unopened")));
    let after = screen.body.split("/MY/").nth(1).expect("the link");
    let path = format!("/MY/{}", after.get(..26).expect("a secret"));
    let opened = |query: &str| client.post(&format!("{path}/opened{query}"), &[]).status;
    assert_eq!(opened("?language=tlh"), 404);
    let mut names = Vec::new();
    for tag in languages() {
        let query = format!("?language={tag}");
        assert_eq!([opened(&query), opened(&query)], [204, 204]);
        names.push(say_in(&tag, "language.name"));
    }
    let count: i64 = server
        .home
        .record()
        .query_row("select count(*) from languages_shown", [], |row| row.get(0))
        .expect("a count");
    assert_eq!(count, names.len() as i64, "each once");
    let text = artist.get(&place).text();
    for name in &names {
        assert!(text.contains(name.as_str()), "{name}: {text}");
    }
    let live = artist.get(&format!("{place}/opened")).json();
    let said = live["read_in"].as_str().expect("a sentence").to_owned();
    assert!(
        names.iter().all(|name| said.contains(name.as_str())),
        "{said}"
    );
    let changed = server
        .home
        .record()
        .execute("update languages_shown set at = 0", []);
    assert!(
        changed
            .expect_err("refused")
            .to_string()
            .contains("never overwritten")
    );
}

/// Not told in which: the language that the page would be shown in.
#[test]
fn a_page_of_an_earlier_build_says_only_that_it_was_opened() {
    let server = Server::demo();
    let path = page_of(&server, 0);
    let client = Visitor::at(&server);
    assert_eq!(client.post(&format!("{path}/opened"), &[]).status, 204);
    let language: String = server
        .home
        .record()
        .query_row("select language from languages_shown", [], |row| row.get(0))
        .expect("one");
    assert_eq!(language, "en");
}

/// What is worded when it is asked for follows the language too.
#[test]
fn refusals_and_faults_are_in_the_language_of_the_page() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let path = page_of(&server, 0);
    for tag in languages() {
        let wish = [
            ("accept-language", tag.as_str()),
            ("content-type", "application/x-www-form-urlencoded"),
            ("sec-fetch-site", "same-origin"),
        ];
        let post = |path: &str| client.ask(Method::POST, path, &wish, Some(String::new()));
        let empty = post(&format!("{path}/reports"));
        assert_eq!(empty.status, 422);
        let fault = say_in(&tag, "fault.report_empty");
        assert!(empty.text().contains(&fault), "{tag}: {}", empty.text());
        let unknown = asked(&client, &format!("/MY/{}", "A".repeat(26)), &tag);
        assert_eq!(unknown.status, 404);
        assert_eq!(language_of(&unknown), tag);
        let sentence = say_in(&tag, "notice.link_unknown.sentence");
        assert!(unknown.text().contains(&sentence), "{}", unknown.text());
    }
}
