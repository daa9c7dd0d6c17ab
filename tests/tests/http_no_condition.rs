//! No page that a client can come to names a condition, in no language: not what it shows, not what it shows only once it
//! is answered, not what a screen reader is told. The lists are those that the words are checked with.

use std::sync::LazyLock;

use content::Content;
use reqwest::Method;
use tests::{
    server::Server,
    visitor::{Answer, Visitor},
};

const LISTS: [(&str, &str); 3] = [
    (
        "en",
        include_str!("../../content/tests/reading/conditions/en.txt"),
    ),
    (
        "es",
        include_str!("../../content/tests/reading/conditions/es.txt"),
    ),
    (
        "fr",
        include_str!("../../content/tests/reading/conditions/fr.txt"),
    ),
];

/// What is read aloud though it is no text of the page.
const SPOKEN: [&str; 5] = ["aria-label", "alt", "title", "placeholder", "content"];

/// Everything that can be read or heard on a page, in small letters, without addresses.
fn readable(html: &str) -> String {
    let mut text = String::new();
    let mut rest = html;
    while let Some((before, after)) = rest.split_once('<') {
        text.push_str(before);
        text.push(' ');
        let (tag, after) = after.split_once('>').unwrap_or((after, ""));
        let name = tag.split([' ', '\n', '>']).next().unwrap_or_default();
        rest = match name {
            // What a machine reads.
            "script" | "style" => after
                .split_once(&format!("</{name}>"))
                .map_or("", |(_, after)| after),
            _ => after,
        };
        for spoken in SPOKEN {
            let value = tag
                .split_once(&format!(" {spoken}=\""))
                .map(|(_, value)| value);
            text.push_str(
                value
                    .and_then(|value| value.split('"').next())
                    .unwrap_or_default(),
            );
            text.push(' ');
        }
    }
    text.push_str(rest);
    let text = text.replace("&#38;", "&").replace("&#39;", "'");
    let words = text.split_whitespace().filter(|word| !word.contains("://"));
    words.collect::<Vec<_>>().join(" ").to_lowercase()
}

/// The same without what is quoted: the titles of sources, which others have given them.
fn said(html: &str) -> String {
    static TITLES: LazyLock<Vec<String>> = LazyLock::new(|| {
        let content = Content::built_in().expect("the shipped content");
        let sources = content.catalogue.sources.values();
        sources.map(|source| source.title.to_lowercase()).collect()
    });
    let read = readable(html);
    TITLES
        .iter()
        .fold(read, |text, title| text.replace(title, ""))
}

/// The stems of a list that begin a word of a text.
fn named<'a>(list: &'a str, text: &str) -> Vec<&'a str> {
    let stems = list
        .lines()
        .filter(|line| !line.is_empty() && !line.starts_with('#'));
    let begins_a_word = |stem: &&str| {
        let mut found = text.match_indices(*stem);
        found.any(|(at, _)| !text[..at].ends_with(char::is_alphabetic))
    };
    stems.filter(begins_a_word).collect()
}

/// Answers that lead to every level, and to every kind of advice.
const ANSWERS: [&[(&str, &str)]; 9] = [
    &[("redness", "1"), ("itch", "1")],
    &[("skin", "rash"), ("itch", "6")],
    &[("hives", "local")],
    &[("swelling", "lids"), ("trend", "worse")],
    &[("blisters", "many"), ("skin", "pus")],
    &[("body", "hot_tender_spreading"), ("body", "fever")],
    &[("burn", "face_blister")],
    &[("product_in_eye", "yes"), ("eye_state", "eye_watering")],
    &[("breathing", "airway"), ("hives", "widespread")],
];

#[test]
fn no_page_of_a_client_names_a_condition() {
    let server = Server::demo();
    let mut seen = 0;
    for (language, list) in LISTS {
        let client = Visitor::at(&server);
        let headers = [("accept-language", language)];
        let mut look = |what: &str, answer: &Answer| {
            let text = said(&answer.body);
            assert!(text.len() > 40, "{what}: {text}");
            let named = named(list, &text);
            let around = named.first().and_then(|stem| text.split_once(stem));
            let around = around.map(|(before, after)| {
                let from = before.char_indices().rev().nth(80).map_or(0, |(at, _)| at);
                let after: String = after.chars().take(40).collect();
                format!("{}…{after}", &before[from..])
            });
            assert!(
                named.is_empty(),
                "{what} in {language} names {named:?}: {around:?}"
            );
            seen += 1;
        };
        for link in server.client_links() {
            let path = link.trim_start_matches(&server.address);
            for below in ["", "/trouble", "/print", "/calendar.ics"] {
                let way = format!("{path}{below}");
                look(&way, &client.ask(Method::GET, &way, &headers, None));
            }
        }
        for link in server.patch_test_links() {
            let path = link.trim_start_matches(&server.address);
            look(
                "a patch test",
                &client.ask(Method::GET, path, &headers, None),
            );
        }
        let path = server.client_links().remove(0);
        let trouble = format!("{}/trouble", path.trim_start_matches(&server.address));
        for answers in ANSWERS {
            let form: Vec<String> = answers
                .iter()
                .map(|(of, given)| format!("{of}={given}"))
                .collect();
            let headers = [
                ("accept-language", language),
                ("content-type", "application/x-www-form-urlencoded"),
                ("sec-fetch-site", "same-origin"),
            ];
            let answer = client.ask(Method::POST, &trouble, &headers, Some(form.join("&")));
            assert_eq!(answer.status, 200, "{answers:?}: {}", answer.body);
            look("what to do", &answer);
        }
        let gone = "/MY/AAAAAAAAAAAAAAAAAAAAAAAAAA";
        look(
            "no such link",
            &client.ask(Method::GET, gone, &headers, None),
        );
    }
    println!("{seen} pages were read");
    assert!(seen > 100, "{seen}");
}

/// The check finds a name wherever it is put: shown, hidden or spoken; and takes none out of an address or a script.
#[test]
fn a_name_is_found_wherever_it_stands() {
    let list = LISTS[0].1;
    for html in [
        "<p>You have an Infection.</p>",
        "<p hidden>some <b>dermatitis</b></p>",
        "<button aria-label=\"Eczema\">x</button>",
        "<details><summary>It</summary>may be allergic</details>",
    ] {
        assert_eq!(named(list, &readable(html)).len(), 1, "{html}");
    }
    for html in [
        "<a href=\"https://nhs.example/eczema\">more</a> https://nhs.example/eczema",
        "<input name=\"hives\" id=\"ask-hives\">",
        "<script type=\"application/json\">{\"hives\":1}</script>",
        "<p>This is disinfected.</p>",
    ] {
        assert!(named(list, &readable(html)).is_empty(), "{html}");
    }
}
