//! A real studio's first start, and the link of a visit that was recorded there.

use crate::{
    server::Server,
    visitor::{Answer, Visitor},
};

/// Sets a studio up that has not been; its artist, signed in.
pub fn begin(server: &Server) -> Visitor {
    let artist = Visitor::at(server);
    let begun = artist.post(
        "/studio/begin",
        &[
            ("code", &server.set_up_code()),
            ("studio_name", "Pellworm Brows"),
            ("artist_name", "Tilda"),
            ("phone", "020 7946 0991"),
            ("contact_email", ""),
            ("region", "uk"),
            ("time_zone", "Europe/London"),
            ("email", "tilda@rake.example"),
            ("password", "long enough a password"),
        ],
    );
    assert_eq!(begun.location(), "/studio");
    artist
}

/// The path of the client's page, as it stands on a visit's screen.
pub fn link_on(visit: &Answer) -> String {
    let link = visit.body.split("/MY/").nth(1);
    link.and_then(|rest| rest.get(..26))
        .map(|secret| format!("/MY/{secret}"))
        .expect("a link")
}

/// Records a visit; the path of its client's page.
pub fn visit(artist: &Visitor) -> String {
    let form = artist.get("/studio/visits/new");
    let saved = artist.post_signed(
        "/studio",
        "/studio/visits/new",
        &[
            ("visit_id", &form.hidden("visit_id")),
            ("first_name", "Ottoline"),
            ("reach", "07700 900999"),
            ("date", &form.hidden("date")),
            ("time", &form.hidden("time")),
            ("treatments", "brow_wax"),
        ],
    );
    link_on(&artist.get(saved.location()))
}
