//! The studio is killed (SIGKILL) at random moments while reports stream in. Whatever it acknowledged must be there
//! afterwards, once. What it did not acknowledge is sent again under the same id, as a phone does.

use std::{
    collections::{BTreeMap, BTreeSet},
    sync::atomic::{AtomicUsize, Ordering},
    thread,
    time::Duration,
};

use reqwest::Method;
use tests::{
    begin,
    report::report,
    server::{Home, Server},
    visitor::Visitor,
};
use uuid::Uuid;

const KILLS: usize = 50;
const SENDERS: usize = 4;
/// Each sender has links of its own, so that the limit of new reports on one link is not in the way.
const LINKS_EACH: usize = 3;

/// One phone: what it has to send, and what it was told.
#[derive(Default)]
struct Phone {
    links: Vec<String>,
    /// Sent, and not acknowledged yet.
    unsent: Vec<(String, Uuid)>,
    acknowledged: BTreeSet<Uuid>,
    /// Acknowledged only when sent again, and there already: the commit was done and its answer lost.
    answer_lost: usize,
    sent: usize,
}

fn words(id: Uuid) -> String {
    format!("What {id} noticed.")
}

impl Phone {
    /// Sends until the studio is gone.
    fn stream(&mut self, visitor: &Visitor) {
        while let Some((link, id)) = self.next() {
            if !self.send(visitor, &link, id) {
                return;
            }
        }
    }

    /// What waits first, else a new report.
    fn next(&mut self) -> Option<(String, Uuid)> {
        if self.unsent.is_empty() {
            let link = self.links.get(self.sent % self.links.len())?.clone();
            self.sent += 1;
            self.unsent.push((link, Uuid::new_v4()));
        }
        self.unsent.first().cloned()
    }

    /// Whether the studio answered.
    fn send(&mut self, visitor: &Visitor, link: &str, id: Uuid) -> bool {
        let report = report(&words(id));
        let headers = [("content-type", "application/json")];
        let path = format!("{link}/reports/{id}");
        let Ok(answer) = visitor.try_ask(Method::PUT, &path, &headers, Some(report.to_string()))
        else {
            return false;
        };
        match answer.status {
            200 | 201 => {
                assert_eq!(answer.json()["id"], id.to_string());
                self.answer_lost += usize::from(answer.status == 200);
                self.acknowledged.insert(id);
                self.unsent.retain(|(_, unsent)| *unsent != id);
                true
            }
            // The limit is forgotten when the studio starts again.
            429 => false,
            status => panic!("{status}: {}", answer.body),
        }
    }
}

/// Sets a studio up and records the visits that the phones have links to.
fn prepare(home: &Home) -> Vec<Phone> {
    let server = Server::start(home, &[]);
    let artist = begin::begin(&server);
    (0..SENDERS)
        .map(|_| Phone {
            links: (0..LINKS_EACH).map(|_| begin::visit(&artist)).collect(),
            ..Phone::default()
        })
        .collect()
}

/// A wait of up to 120 ms, different each time.
fn a_moment() -> Duration {
    let [low, high, ..] = *Uuid::new_v4().as_bytes();
    Duration::from_micros(u64::from(u16::from_le_bytes([low, high])) * 120_000 / 65_536)
}

#[test]
fn killed_fifty_times_it_loses_and_doubles_nothing() {
    let home = Home::new();
    let mut phones = prepare(&home);
    let mut per_round = BTreeMap::new();
    for round in 0..KILLS {
        let server = Server::start(&home, &[]);
        let before: usize = phones.iter().map(|phone| phone.acknowledged.len()).sum();
        let running = AtomicUsize::new(SENDERS);
        // Ready before the time runs: on a busy machine that alone takes longer than the studio lives.
        let visitors: Vec<Visitor> = phones.iter().map(|_| Visitor::at(&server)).collect();
        thread::scope(|scope| {
            for (phone, visitor) in phones.iter_mut().zip(visitors) {
                let running = &running;
                scope.spawn(move || {
                    phone.stream(&visitor);
                    running.fetch_sub(1, Ordering::Relaxed);
                });
            }
            thread::sleep(a_moment());
            server.kill();
        });
        assert_eq!(running.load(Ordering::Relaxed), 0);
        let after: usize = phones.iter().map(|phone| phone.acknowledged.len()).sum();
        per_round.insert(round, after - before);
    }
    // Once more, to hand over what still waits.
    let server = Server::start(&home, &[]);
    let visitor = Visitor::at(&server);
    let mut waited = 0;
    for phone in &mut phones {
        for (link, id) in phone.unsent.clone() {
            assert!(phone.send(&visitor, &link, id), "handed over at last");
            waited += 1;
        }
    }
    assert!(server.stop().success());

    let record = home.record();
    let check: String = record
        .query_row("pragma integrity_check", [], |row| row.get(0))
        .expect("a check");
    assert_eq!(check, "ok");
    let mut statement = record
        .prepare("select id, words from reports")
        .expect("a statement");
    let rows = statement
        .query_map([], |row| {
            Ok((row.get::<_, Uuid>(0)?, row.get::<_, String>(1)?))
        })
        .expect("rows");
    let held: Vec<(Uuid, String)> = rows.collect::<Result<_, _>>().expect("rows");
    let ids: BTreeSet<Uuid> = held.iter().map(|(id, _)| *id).collect();
    let texts: BTreeSet<&String> = held.iter().map(|(_, words)| words).collect();
    let acknowledged: BTreeSet<Uuid> = phones
        .iter()
        .flat_map(|phone| phone.acknowledged.iter().copied())
        .collect();
    let lost = acknowledged.difference(&ids).count();
    let answers_lost: usize = phones.iter().map(|phone| phone.answer_lost).sum();
    let quiet = per_round.values().filter(|count| **count == 0).count();
    println!(
        "killed {KILLS} times: {} reports acknowledged, {lost} lost, {} doubled; {answers_lost} had been kept though \
         their answer was lost, {waited} were handed over at the end; {quiet} kills came before the first report",
        acknowledged.len(),
        held.len() - texts.len(),
    );
    assert_eq!(lost, 0);
    assert_eq!(held.len(), texts.len(), "none twice");
    assert_eq!(ids, acknowledged, "and none that nobody sent");
    assert!(
        held.iter().all(|(id, text)| *text == words(*id)),
        "each as it was sent"
    );
    assert!(acknowledged.len() > KILLS, "reports did stream in");
}
