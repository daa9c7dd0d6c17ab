//! A real studio that can be stopped and started again, with one visit, whose client reports.

use serde_json::{Value, json};
use tests::{
    begin::{begin, link_on},
    server::{Home, Server},
    visit_form::send_and_look,
    visitor::{Answer, Visitor},
    words::say,
};
use uuid::Uuid;

pub const NOTICES: &str = "/studio/notices";
pub const CLIENT: &str = "Ottoline";
pub const WORDS: &str = "My left lid is puffy and it itches.";
/// So many milliseconds, instead of the pauses of a real studio.
const PAUSES: [&str; 2] = ["--notice-pause-ms", "50"];

pub struct Scene {
    pub home: Home,
    pub server: Server,
    pub artist: Visitor,
    /// The path of the client's page.
    pub link: String,
    environment: Vec<(String, String)>,
}

impl Scene {
    pub fn open() -> Self {
        Self::open_with(&[])
    }

    /// With these variables in the studio's environment.
    pub fn open_with(environment: &[(&str, &str)]) -> Self {
        let home = Home::new();
        let server = Server::start_with(&home, &PAUSES, environment);
        let artist = begin(&server);
        let form = artist.get("/studio/visits/new");
        let saved = send_and_look(
            &artist,
            &[
                ("visit_id", &form.hidden("visit_id")),
                ("first_name", CLIENT),
                ("reach", "07700 900999"),
                ("date", &form.hidden("date")),
                ("time", &form.hidden("time")),
                ("treatments", "brow_wax"),
                ("product_1", "Invented wax"),
                ("batch_1", "B-1"),
            ],
        );
        let link = link_on(&artist.get(saved.location()));
        let own = |(name, value): &(&str, &str)| ((*name).to_owned(), (*value).to_owned());
        Self {
            home,
            server,
            artist,
            link,
            environment: environment.iter().map(own).collect(),
        }
    }

    /// Stops the studio as a service manager does, and starts it again on the same record.
    pub fn restart(self) -> Self {
        let cookie = self.artist.cookie().expect("a session");
        assert!(self.server.stop().success());
        let environment: Vec<(&str, &str)> = self
            .environment
            .iter()
            .map(|(name, value)| (name.as_str(), value.as_str()))
            .collect();
        let server = Server::start_with(&self.home, &PAUSES, &environment);
        let artist = Visitor::at(&server);
        artist.set_cookie(&cookie);
        Self {
            server,
            artist,
            ..self
        }
    }

    /// The client reports; the report's id.
    pub fn report(&self) -> Uuid {
        self.send(&report())
    }

    /// The client reports these answers.
    pub fn report_of(&self, answers: Value) -> Uuid {
        let mut report = report();
        report["answers"] = answers;
        self.send(&report)
    }

    fn send(&self, report: &Value) -> Uuid {
        let id = Uuid::new_v4();
        let client = Visitor::at(&self.server);
        let answer = client.put(&format!("{}/reports/{id}", self.link), report);
        assert_eq!(answer.status, 201, "{}", answer.body);
        id
    }

    /// So many hours go by: what was reported was reported earlier.
    pub fn later(&self, hours: i64) {
        let record = self.home.record();
        record
            .execute_batch("drop trigger if exists reports_stay")
            .expect("the trigger is gone");
        let change = "update reports set received_at = received_at - ?1";
        record
            .execute(change, [hours * 3_600_000])
            .expect("a change");
    }

    /// The client says how it goes.
    pub fn follow_up(&self, report: Uuid, asked_hours: u32, how: &str) {
        let path = format!("{}/reports/{report}/follow-ups/{asked_hours}", self.link);
        let answer = Visitor::at(&self.server).put(&path, &json!({"how": how}));
        assert_eq!(answer.status, 200, "{}", answer.body);
    }

    /// Saves how the studio is told, with these fields.
    pub fn set(&self, fields: &[(&str, &str)]) -> Answer {
        self.artist.post_signed("/studio", NOTICES, fields)
    }

    /// Switches mail on, to a server without a sign-in at this port of this machine.
    pub fn tell_by_mail(&self, port: u16) {
        let port = port.to_string();
        let set = self.set(&mail(&port, &[]));
        assert_eq!(set.location(), NOTICES);
    }

    /// Switches the webhook on; the shared secret.
    pub fn tell_by_webhook(&self, address: &str) -> String {
        let secret = self.artist.get(NOTICES).hidden("secret");
        let set = self.set(&[
            ("webhook", "yes"),
            ("address", address),
            ("secret", &secret),
        ]);
        assert_eq!(set.location(), NOTICES);
        secret
    }

    /// Sends a notice that only tries the ways, and waits until each was tried.
    pub fn try_ways(&self) {
        let tried = self
            .artist
            .post_signed("/studio", "/studio/notices/test", &[]);
        assert_eq!(tried.location(), "/studio/notices#ways");
    }

    /// Outcome and fault of every attempt, oldest first.
    pub fn attempts(&self) -> Vec<(String, String)> {
        let record = self.home.record();
        let mut statement = record
            .prepare("select outcome, fault from notice_attempts order by id")
            .expect("the attempts");
        let rows = statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?)));
        rows.and_then(Iterator::collect).expect("rows")
    }

    /// What stands above the lists while this way does not get through.
    pub fn not_told(&self, way: &str) -> bool {
        let said = say("artist.notices.not_told");
        let said = said.replace("{ways}", &say(&format!("artist.notices.{way}")));
        let screens = ["/studio", "/studio/reports"].map(|path| self.artist.get(path));
        let told = screens.map(|screen| {
            let link = screen.body.contains("href=\"/studio/notices#ways\"");
            let told = screen.text().contains(&said);
            assert_eq!(
                link, told,
                "a line with its link, or neither: {}",
                screen.body
            );
            told
        });
        assert_eq!(told[0], told[1], "on both screens or on none");
        told[0]
    }

    /// Nobody has to look at a report any more.
    pub fn settle(&self, report: Uuid) {
        let settle = format!("/studio/reports/{report}/settle");
        assert_eq!(self.artist.post_signed("/studio", &settle, &[]).status, 303);
    }

    pub fn waiting(&self) -> i64 {
        let record = self.home.record();
        let count = record.query_row("select count(*) from waiting_notices", [], |row| row.get(0));
        count.expect("a count")
    }
}

/// The fields for mail without a sign-in, with some in another way.
pub fn mail<'a>(port: &'a str, change: &[(&'a str, &'a str)]) -> Vec<(&'a str, &'a str)> {
    let mut fields = vec![
        ("mail", "yes"),
        ("host", "127.0.0.1"),
        ("port", port),
        ("security", "nothing"),
        ("user", ""),
        ("password", ""),
        ("from", "Pellworm Brows <notices@pellworm.example>"),
        ("to", "tilda@rake.example"),
    ];
    fields.retain(|(name, _)| !change.iter().any(|(changed, _)| changed == name));
    fields.extend(change);
    fields
}

/// One that is for the studio: nothing urgent, and not all of it is known.
pub fn report() -> Value {
    let mut report = tests::report::report(WORDS);
    report["reach"] = json!("07700 900123");
    report
}
