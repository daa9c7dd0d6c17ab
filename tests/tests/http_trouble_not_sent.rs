//! A plain form that cannot be taken now comes back with what was typed, says so, and says whom to call.

use tests::{
    photos::{files, grainy, send_form},
    server::Server,
    visitor::{Answer, Visitor},
    words::say,
};

const TICKS: [&str; 2] = ["consent", "consent_photos"];

/// The form with these words in it, the sentence, the studio's telephone number, and that photos are to be chosen again.
fn is_the_form_again(server: &Server, answer: &Answer, words: &str, why: &str) {
    let text = answer.text();
    let phone: String = server
        .home
        .record()
        .query_row(
            "select phone from studio_versions order by version desc limit 1",
            [],
            |row| row.get(0),
        )
        .expect("a telephone number");
    assert!(!phone.is_empty());
    let not_sent = say("client.tell.not_sent");
    let (_, typed_is_here) = not_sent.split_once("{studio}").expect("the studio");
    let (typed_is_here, _) = typed_is_here.split_once("{why}").expect("why");
    for said in [typed_is_here, why, &phone, &say("client.tell.photos_again")] {
        assert!(text.contains(said.trim()), "{said}: {text}");
    }
    assert!(answer.body.contains(words), "{text}");
    assert!(answer.body.contains("name=\"consent_photos\""), "{text}");
}

#[test]
fn too_many_reports_are_told_to_wait_with_the_form() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let photo = grainy(60, 40, 1);
    let last = (0..100).find_map(|number| {
        let words = format!("It is swollen, for the {number}th time.");
        let id = format!("00000000-0000-4000-8000-{number:012}");
        let sent = send_form(&client, link, &id, &words, &TICKS, &[("eye.jpg", &photo)]);
        (sent.status != 303).then_some((sent, words))
    });
    let (refused, words) = last.expect("there is a limit");
    assert_eq!(refused.status, 429);
    assert!(refused.header("retry-after").parse::<u32>().is_ok());
    let (why, _) = say("notice.too_often.sentence")
        .split_once("{wait}")
        .map(|(why, rest)| (why.to_owned(), rest.to_owned()))
        .expect("how long");
    is_the_form_again(&server, &refused, &words, &why);
    // What is there already is answered whatever the limit says.
    let first = "It is swollen, for the 0th time.";
    let id = "00000000-0000-4000-8000-000000000000";
    let before = (server.home.count("reports"), files(&server, "photos"));
    send_form(&client, link, id, first, &TICKS, &[("eye.jpg", &photo)]).location();
    assert_eq!(
        (server.home.count("reports"), files(&server, "photos")),
        before
    );
}

#[test]
fn a_full_disk_gives_the_form_back_and_takes_it_once_there_is_room() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let photo = grainy(60, 40, 1);
    let before = server.home.count("reports");
    let words = "It is swollen.";
    let id = client.get(&format!("{link}/trouble")).hidden("report_id");
    let send = |id: &str| send_form(&client, link, id, words, &TICKS, &[("eye.jpg", &photo)]);

    server.fill_the_disk();
    let refused = send(&id);
    assert_eq!(refused.status, 500);
    is_the_form_again(&server, &refused, words, &say("notice.broken.sentence"));
    // The rest is read as before, and still after many lines of the log.
    for _ in 0..20 {
        assert_eq!(client.get(link).status, 200);
    }

    server.clear_the_disk();
    assert_eq!(
        (
            server.home.count("reports"),
            server.home.count("photos"),
            files(&server, "photos")
        ),
        (before, 0, 0)
    );
    assert_eq!(refused.hidden("report_id"), id);
    send(&id).location();
    assert_eq!(
        (
            server.home.count("reports"),
            server.home.count("photos"),
            files(&server, "photos")
        ),
        (before + 1, 1, 1)
    );
}
