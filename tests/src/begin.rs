//! A real studio's first start, and the link of a visit that was recorded there.

use crate::{
    server::Server,
    visit_form::VisitForm,
    visitor::{Answer, Visitor},
};

/// How its artist signs in.
pub const EMAIL: &str = "tilda@rake.example";
pub const PASSWORD: &str = "kelp meadow forty gates";

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
            ("email", EMAIL),
            ("password", PASSWORD),
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
    let saved = VisitForm::fresh(artist).send(artist, &[]);
    link_on(&artist.get(saved.location()))
}
