//! Recording a visit: what cannot be taken comes back with what was typed; a second tap records once.

use tests::{server::Server, visit_form::VisitForm, visitor::Visitor, words::say};

fn visits(server: &Server) -> (i64, i64) {
    server
        .home
        .record()
        .query_row(
            "select (select count(*) from visits), (select count(*) from clients)",
            [],
            |row| Ok((row.get(0)?, row.get(1)?)),
        )
        .expect("counts")
}

#[test]
fn what_cannot_be_taken_comes_back_whole() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let form = VisitForm::fresh(&artist);
    let before = visits(&server);
    let long = "x".repeat(81);
    let too_old = say("fault.too_old").replace("{days}", "60");
    let changes: [(&[(&str, &str)], &str); 12] = [
        (&[("first_name", "")], &say("fault.required")),
        (&[("first_name", &long)], &say("fault.too_long")),
        (&[("reach", " ")], &say("fault.required")),
        (&[("treatments", "-")], &say("fault.treatments_none")),
        (
            &[("treatments", "nail_polish")],
            &say("fault.unknown_choice"),
        ),
        (&[("findings", "tired")], &say("fault.unknown_choice")),
        (
            &[("client", "00000000-0000-8000-8000-00010000ffff")],
            &say("fault.unknown_choice"),
        ),
        (
            &[("client", "00000000-0000-8000-8000-000100000001")],
            &say("fault.client_both"),
        ),
        (&[("date", "25/11/2026")], &say("fault.date")),
        (&[("time", "half past")], &say("fault.time")),
        (&[("date", "2019-03-04")], &too_old),
        (&[("batch_2", "B-7")], &say("fault.required")),
    ];
    for (change, said) in changes {
        let answer = form.send(&artist, change);
        assert_eq!(answer.status, 422, "{change:?}");
        assert!(
            answer.text().contains(said),
            "{change:?}: {}",
            answer.text()
        );
        assert!(
            answer.body.contains("A note that took a while to write."),
            "{change:?}"
        );
        assert_eq!(answer.hidden("visit_id"), form.visit_id);
    }
    let tomorrow = form.send(&artist, &[("date", "2999-01-01")]);
    assert!(
        tomorrow.text().contains(&say("fault.future")),
        "{}",
        tomorrow.text()
    );
    let several = form.send(
        &artist,
        &[("first_name", ""), ("treatments", "-"), ("time", "")],
    );
    assert_eq!(several.text().matches(&say("fault.required")).count(), 1);
    assert!(
        several.text().contains(&say("fault.treatments_none"))
            && several.text().contains(&say("fault.time"))
    );
    assert_eq!(
        form.send(&artist, &[("colour", "red")]).status,
        400,
        "fields that the form does not have"
    );
    assert_eq!(visits(&server), before, "nothing half-written");
}

#[test]
fn a_second_tap_records_once_and_a_changed_form_is_not_lost() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let form = VisitForm::fresh(&artist);
    let (visits_before, clients_before) = visits(&server);
    let place = format!("/studio/visits/{}", form.visit_id);
    assert_eq!(form.send(&artist, &[]).location(), place);
    assert_eq!(form.send(&artist, &[]).location(), place);
    assert_eq!(visits(&server), (visits_before + 1, clients_before + 1));

    let changed = form.send(&artist, &[("note", "Another note.")]);
    assert_eq!(changed.status, 422);
    assert!(
        changed.text().contains(&say("fault.visit_recorded")),
        "{}",
        changed.text()
    );
    assert!(changed.body.contains("Another note."));
    let again = VisitForm {
        visit_id: changed.hidden("visit_id"),
        ..form
    };
    assert_eq!(
        again.send(&artist, &[("note", "Another note.")]).location(),
        format!("/studio/visits/{}", again.visit_id)
    );
    assert_eq!(visits(&server).0, visits_before + 2);
}

#[test]
fn a_known_client_is_chosen() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let noor = "00000000-0000-8000-8000-000100000001";
    let page = artist.get(&format!("/studio/visits/new?client={noor}"));
    assert!(page.body.contains("Noor · 07700 900142"));
    let form = VisitForm::fresh(&artist);
    let clients = visits(&server).1;
    let saved = form.send(
        &artist,
        &[("client", noor), ("first_name", ""), ("reach", "")],
    );
    assert!(artist.get(saved.location()).text().contains("Noor"));
    assert_eq!(visits(&server).1, clients);
}

/// The code on the screen holds the link, in capitals. Decoded by rqrr, which is another library than drew it.
#[test]
fn the_code_leads_to_the_page() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let picture = artist
        .get("/studio/visits/00000000-0000-8000-8000-000200000001/qr.svg")
        .body;
    let (side, dark) = squares(&picture);
    let mut prepared = rqrr::PreparedImage::prepare_from_greyscale(side, side, |x, y| {
        let hit = |(left, top, width, height): &(usize, usize, usize, usize)| {
            (*left..left + width).contains(&x) && (*top..top + height).contains(&y)
        };
        if dark.iter().any(hit) { 0 } else { 255 }
    });
    let grids = prepared.detect_grids();
    assert_eq!(grids.len(), 1);
    let (meta, text) = grids[0].decode().expect("a code");
    println!(
        "QR: {} modules, error level {} (0 is M, 3 is Q), {} characters",
        meta.version.to_size(),
        meta.ecc_level,
        text.len()
    );
    assert_eq!(text, server.client_links()[0].to_uppercase());
    // Scheme and host do not care for case; a browser writes them small (URL Standard).
    let typed = text.replacen("HTTP", "http", 1);
    assert_eq!(Visitor::at(&server).get(&typed).status, 200);
}

/// The squares that our SVG draws: `M{left} {top}h{width}v{height}H…V…`, one after another.
fn squares(svg: &str) -> (usize, Vec<(usize, usize, usize, usize)>) {
    let number = |text: &str| text.parse::<usize>().expect("a number");
    let side = number(
        svg.split("width=\"")
            .nth(1)
            .and_then(|rest| rest.split('"').next())
            .expect("a width"),
    );
    let path = svg
        .split(" d=\"")
        .nth(1)
        .and_then(|rest| rest.split('"').next())
        .expect("a path");
    let squares = path
        .split('M')
        .skip(1)
        .map(|square| {
            let parts: Vec<&str> = square.split([' ', 'h', 'v', 'H', 'V']).collect();
            (
                number(parts[0]),
                number(parts[1]),
                number(parts[2]),
                number(parts[3]),
            )
        })
        .collect();
    (side, squares)
}
