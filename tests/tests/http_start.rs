//! Starting and stopping: what would be unsafe is refused with a sentence, and a stop loses nothing.

use std::{fs, net::TcpStream};

use tests::{
    server::{Home, Server},
    visitor::Visitor,
};

/// Starts where it must refuse, and gives what it said.
fn refused(home: &Home, options: &[&str]) -> String {
    let before = home.output().len();
    match Server::try_start(home, options) {
        Ok(_) => panic!("it started with {options:?}"),
        Err(status) => assert_eq!(status.code(), Some(1), "{options:?}"),
    }
    home.output()[before..].to_owned()
}

#[test]
fn plain_http_is_for_this_machine_alone() {
    let home = Home::new();
    let said = refused(&home, &["--public-url", "http://studio.example"]);
    assert!(
        said.contains("is not https") && said.contains("--public-url"),
        "{said}"
    );
    for options in [
        ["--public-url", "https://studio.example"],
        ["--public-url", "http://localhost:4180"],
    ] {
        drop(Server::start(&home, &options));
    }
    let said = refused(&home, &["--listen", "0.0.0.0:0"]);
    assert!(said.contains("--public-url"), "{said}");
}

#[test]
fn a_missing_site_names_what_would_make_it() {
    let home = Home::new();
    let said = refused(&home, &["--site", "no-such-folder"]);
    assert!(said.contains("cargo xtask build"), "{said}");
    let folder = home.data().with_file_name("half-a-site");
    fs::create_dir(&folder).expect("a folder");
    fs::write(folder.join("manifest.json"), r#"{"build":"1","files":{}}"#).expect("a list");
    let said = refused(&home, &["--site", folder.to_str().expect("UTF-8")]);
    assert!(
        said.contains("does not list `client.js`") && said.contains("cargo xtask build"),
        "{said}"
    );
}

#[test]
fn a_demo_and_a_real_record_never_mix() {
    let real = Home::new();
    drop(Server::start(&real, &[]));
    let said = refused(&real, &["--demo"]);
    assert!(said.contains("real studio's record"), "{said}");
    drop(Server::start(&real, &[]));
    let demo = Home::new();
    drop(Server::start(&demo, &["--demo"]));
    let said = refused(&demo, &[]);
    assert!(said.contains("demo record"), "{said}");
}

#[test]
fn the_demo_is_made_anew_and_its_links_stay() {
    let home = Home::new();
    let first = Server::start(&home, &["--demo", "--public-url", "http://demo.example"]);
    let links = first.client_links();
    assert!(first.stop().success());
    let second = Server::start(&home, &["--demo", "--public-url", "http://demo.example"]);
    assert_eq!(second.client_links(), links);
    assert!(links.len() >= 6);
    let artist = Visitor::demo_artist(&second);
    let today = artist.get("/studio").text();
    assert!(
        today.contains("Beatriz") && today.contains("Kemi"),
        "two reports wait: {today}"
    );
    let code = home.output();
    assert!(
        code.contains('█') && code.contains("between two visits"),
        "the terminal shows the code and the sign-in"
    );
}

#[test]
fn one_studio_to_a_folder() {
    let home = Home::new();
    let running = Server::start(&home, &[]);
    let said = refused(&home, &[]);
    assert!(said.contains("another studio is running"), "{said}");
    // However it ends, the folder is free again.
    running.kill();
    drop(Server::start(&home, &[]));
}

#[test]
fn asked_to_stop_it_stops() {
    let server = Server::demo();
    let visitor = Visitor::at(&server);
    assert_eq!(visitor.get("/healthz").body, "ok\n");
    // A connection that says nothing does not keep it.
    let address = server.address.trim_start_matches("http://").to_owned();
    let silent = TcpStream::connect(&address).expect("a connection");
    let home = server.home.clone();
    assert!(server.stop().success());
    assert!(home.output().contains("stopped"));
    assert!(TcpStream::connect(&address).is_err());
    drop(silent);
}
