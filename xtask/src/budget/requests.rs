//! What the journey tests saw a browser do with the client's page. They write `target/budget/requests.json`:
//! `{"after_page": 3, "other_hosts": 0, "times_ms": {"first paint, slow 4G": 640}}`.

use std::fs;
use std::path::Path;
use std::time::SystemTime;

use serde_json::Value;

use crate::failure::Failure;
use crate::files;
use crate::places;

pub struct Measured {
    /// Requests after the page's own until it is alive.
    pub after_page: u64,
    /// Of those, the ones to another host.
    pub other_hosts: u64,
    /// What took how many milliseconds.
    pub times: Vec<(String, u64)>,
}

pub fn read() -> Result<Measured, Failure> {
    let path = places::target().join("budget").join("requests.json");
    let unreadable = |what: &str| Failure::Unreadable {
        path: path.clone(),
        what: what.to_owned(),
        mend: "cargo xtask test",
    };
    if !path.is_file() {
        return Err(unreadable("is not there: the journey tests write it"));
    }
    if changed(&path) < changed(&places::site().join("manifest.json")) {
        return Err(unreadable("was measured on an older build"));
    }
    let written: Value =
        serde_json::from_str(&files::read_text(&path)?).map_err(|_| unreadable("is not JSON"))?;
    let count = |name: &str| {
        let number = written.get(name).and_then(Value::as_u64);
        number.ok_or_else(|| unreadable(&format!("has no whole number `{name}`")))
    };
    let times = written.get("times_ms").and_then(Value::as_object);
    Ok(Measured {
        after_page: count("after_page")?,
        other_hosts: count("other_hosts")?,
        times: times
            .into_iter()
            .flatten()
            .filter_map(|(what, time)| Some((what.clone(), time.as_f64()?.round() as u64)))
            .collect(),
    })
}

fn changed(path: &Path) -> Option<SystemTime> {
    fs::metadata(path).and_then(|data| data.modified()).ok()
}
