//! Which crate may know which: the arrows of the design, section 2, held against what cargo says.

use std::{collections::BTreeSet, process::Command};

use serde_json::Value;

/// Every allowed arrow between the rooms. `tests` may know all of them; `xtask` builds them from outside.
const ALLOWED: [(&str, &[&str]); 5] = [
    ("shared-types", &[]),
    ("content", &["shared-types"]),
    ("mobile", &["shared-types"]),
    ("studio", &["mobile", "content", "shared-types"]),
    ("xtask", &[]),
];

fn cargo(arguments: &[&str]) -> String {
    let output = Command::new(env!("CARGO"))
        .args(arguments)
        .current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/.."))
        .output()
        .expect("cargo runs");
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    String::from_utf8(output.stdout).expect("cargo writes UTF-8")
}

/// The packages of the workspace, as cargo describes them.
fn packages() -> Vec<Value> {
    let metadata: Value =
        serde_json::from_str(&cargo(&["metadata", "--format-version", "1", "--no-deps"]))
            .expect("JSON");
    metadata["packages"].as_array().expect("packages").clone()
}

fn name(value: &Value) -> &str {
    value["name"].as_str().expect("a name")
}

/// What a package depends on when it is used (not what its own tests need).
fn dependencies(package: &Value) -> BTreeSet<&str> {
    let all = package["dependencies"].as_array().expect("dependencies");
    all.iter()
        .filter(|one| one["kind"].as_str() != Some("dev"))
        .map(name)
        .collect()
}

#[test]
fn crates_know_only_what_they_may() {
    let packages = packages();
    let rooms: BTreeSet<&str> = packages.iter().map(name).collect();
    for (room, allowed) in ALLOWED {
        let package = packages.iter().find(|one| name(one) == room).expect(room);
        let known: BTreeSet<&str> = dependencies(package)
            .intersection(&rooms)
            .copied()
            .collect();
        let allowed: BTreeSet<&str> = allowed.iter().copied().collect();
        assert!(
            known.is_subset(&allowed),
            "`{room}` knows {known:?}; allowed are {allowed:?}"
        );
    }
    let judged: BTreeSet<&str> = ALLOWED
        .iter()
        .map(|(room, _)| *room)
        .chain(["tests", "browser-runner"])
        .collect();
    assert_eq!(
        rooms, judged,
        "a room without its arrows: add it to ALLOWED"
    );
}

/// What only the server names must not come to the phone, by whatever way.
#[test]
fn the_phone_links_nothing_of_the_servers() {
    let tree = cargo(&[
        "tree",
        "--package",
        "mobile",
        "--features",
        "browser",
        "--target",
        "wasm32-unknown-unknown",
        "--edges",
        "normal",
        "--prefix",
        "none",
        "--format",
        "{p}",
    ]);
    let linked: BTreeSet<&str> = tree
        .lines()
        .filter_map(|line| line.split(' ').next())
        .collect();
    assert!(
        linked.contains("dioxus-web") && linked.contains("shared-types"),
        "the tree is that of the phone"
    );

    let packages = packages();
    let of = |room: &str| dependencies(packages.iter().find(|one| name(one) == room).expect(room));
    // The renderer brings these along itself; what of them is unused is left out when linking.
    let renderers = BTreeSet::from([
        "axum-core",
        "futures-util",
        "http-body-util",
        "serde_json",
        "tokio",
        "tracing",
    ]);
    let mut phones: BTreeSet<&str> = of("mobile").union(&of("shared-types")).copied().collect();
    phones.insert("mobile");
    let servers: Vec<&str> = of("studio")
        .union(&of("content"))
        .copied()
        .filter(|one| !phones.contains(one) && !renderers.contains(one))
        .collect();
    assert!(
        servers.contains(&"rusqlite") && servers.contains(&"chrono-tz"),
        "{servers:?}"
    );
    let strayed: Vec<_> = servers
        .iter()
        .filter(|one| linked.contains(**one))
        .collect();
    assert!(strayed.is_empty(), "the phone would download {strayed:?}");
}
