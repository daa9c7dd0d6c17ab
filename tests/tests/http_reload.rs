//! Content that changes: what was told stays, through a new start and through a new reading; what has mistakes is not taken.

#![cfg(test)]

use tests::{
    begin::{EMAIL, PASSWORD, begin, link_on},
    content_folder::ContentFolder,
    server::{Home, Server},
    visit_form::VisitForm,
    visitor::Visitor,
    wait::until,
};

const WORDS: &str = "languages/en/catalogue.toml";
const HEAT: &str = "No sauna, steam room or hot bath";
const NEW_HEAT: &str = "Stay away from every kind of steam";

/// Records a brow wax; gives the path of its client's page.
fn visit(artist: &Visitor, name: &str) -> String {
    let saved = VisitForm::fresh(artist).send(artist, &[("first_name", name)]);
    link_on(&artist.get(saved.location()))
}

/// Every advice in the record, as it is kept.
fn frozen(home: &Home) -> Vec<(String, String, String, Vec<u8>)> {
    let record = home.record();
    let mut statement = record
        .prepare("select language, content_version, body, sha256 from advice order by rowid")
        .expect("a query");
    let rows = statement.query_map([], |row| {
        Ok((row.get(0)?, row.get(1)?, row.get(2)?, row.get(3)?))
    });
    rows.expect("rows").collect::<Result<_, _>>().expect("rows")
}

/// What the page says before its first section that moves with time.
fn cautions(client: &Visitor, path: &str) -> String {
    let page = client.get(path);
    assert_eq!(page.status, 200);
    let from = page.body.find("class=\"cautions\"").expect("cautions");
    let list = &page.body[from..];
    list[..list.find("</section>").expect("its end")].to_owned()
}

/// What the studio has said since, once that is in it.
fn said(home: &Home, before: usize, what: &str) -> String {
    until(what, || {
        let output = home.output()[before..].to_owned();
        output.contains(what).then_some(output)
    })
}

fn new_words(folder: &ContentFolder) {
    folder.rewrite(WORDS, |text| text.replace(HEAT, NEW_HEAT));
}

#[test]
fn advice_stays_as_it_was_told_after_the_words_changed_and_the_studio_started_anew() {
    let (home, folder) = (Home::new(), ContentFolder::new());
    let first = Server::start(&home, &["--content", folder.option()]);
    let artist = begin(&first);
    let path = visit(&artist, "Ottoline");
    let (told, kept) = (cautions(&Visitor::at(&first), &path), frozen(&home));
    assert!(told.contains(HEAT), "{told}");
    assert!(first.stop().success());

    new_words(&folder);
    let second = Server::start(&home, &["--content", folder.option()]);
    assert_eq!(frozen(&home), kept, "not a byte of it has changed");
    assert_eq!(cautions(&Visitor::at(&second), &path), told);
    // The next client is told the new words, under another version.
    let artist = Visitor::at(&second);
    artist.sign_in(EMAIL, PASSWORD);
    let next = visit(&artist, "Wilhelmina");
    let now = cautions(&Visitor::at(&second), &next);
    assert!(now.contains(NEW_HEAT) && !now.contains(HEAT), "{now}");
    assert_ne!(frozen(&home).last().expect("advice").1, kept[0].1);
}

#[test]
fn new_content_is_taken_while_the_studio_serves_and_bad_content_is_not() {
    let (home, folder) = (Home::new(), ContentFolder::new());
    let server = Server::start(&home, &["--content", folder.option()]);
    let artist = begin(&server);
    let client = Visitor::at(&server);
    let path = visit(&artist, "Ottoline");
    let (told, kept) = (cautions(&client, &path), frozen(&home));

    // A mistake: the old content stays, and each mistake is named.
    let good = folder.rewrite(WORDS, |text| {
        text.replace(HEAT, "")
            .replace("brow_wax = \"brow wax\"", "brow_wax = 7")
    });
    let before = home.output().len();
    server.read_again();
    let output = said(&home, before, "stays as it was");
    assert!(output.contains(&format!("{WORDS}, line ")), "{output}");
    assert!(
        output.contains("`treatment.brow_wax` has to be a text"),
        "{output}"
    );
    let still = cautions(&client, &visit(&artist, "Philippa"));
    assert!(still.contains(HEAT), "{still}");

    // Mended and changed: the next visit says the new words, the first stays.
    folder.rewrite(WORDS, |_| good.replace(HEAT, NEW_HEAT));
    let before = home.output().len();
    server.read_again();
    said(&home, before, "the content was read again");
    let now = cautions(&client, &visit(&artist, "Wilhelmina"));
    assert!(now.contains(NEW_HEAT), "{now}");
    assert_eq!(cautions(&client, &path), told);
    assert_eq!(frozen(&home)[..kept.len()], kept[..]);
    // Whoever was signed in still is, and a page that was kept for a moment is not shown any longer.
    assert_eq!(artist.get("/studio").status, 200);
}

/// Words that are not frozen follow at once, also on a page that was drawn a moment ago.
#[test]
fn what_is_not_advice_follows_at_once() {
    let (home, folder) = (Home::new(), ContentFolder::new());
    let server = Server::start(&home, &["--demo", "--content", folder.option()]);
    let client = Visitor::at(&server);
    let link = server.client_links()[0].clone();
    let path = &link[link.find("/MY/").expect("a link")..];
    let title = tests::words::say("client.trouble.title");
    assert!(client.get(path).text().contains(&title));
    folder.rewrite("languages/en/trouble.toml", |text| {
        text.replace(&title, "Is anything wrong?")
    });
    let before = home.output().len();
    server.read_again();
    said(&home, before, "the content was read again");
    let text = client.get(path).text();
    assert!(
        text.contains("Is anything wrong?") && !text.contains(&title),
        "{text}"
    );
}

#[test]
fn without_a_folder_there_is_nothing_to_read_again() {
    let server = Server::demo();
    let before = server.home.output().len();
    server.read_again();
    said(&server.home, before, "start with --content");
    assert_eq!(Visitor::at(&server).get("/healthz").status, 200);
}

#[test]
fn a_studio_does_not_start_on_bad_content() {
    let (home, folder) = (Home::new(), ContentFolder::new());
    let mut line = 0;
    folder.rewrite("languages/es/client.toml", |text| {
        let at = text.find("De 100 pelos").expect("hairs to count");
        line = text[..at].matches('\n').count() + 1;
        text.replacen("De 100 pelos", "De 30 pelos", 1)
    });
    let status = Server::try_start(&home, &["--content", folder.option()])
        .err()
        .expect("it must not start");
    assert_eq!(status.code(), Some(1));
    let said = home.output();
    let named = format!(
        "languages/es/client.toml, line {line}: `client.weeks.caption` says 30, but 100 in `en`"
    );
    assert!(said.contains(&named), "{said}");
}
