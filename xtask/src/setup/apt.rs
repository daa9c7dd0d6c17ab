//! Packages of Debian or Ubuntu.

use std::fs;
use std::io::{self, IsTerminal};
use std::process::Command;

use crate::child;
use crate::failure::Failure;
use crate::say;

/// Installs `packages`, which the sentence `missing` explains the want of.
///
/// # Errors
/// Where there is no `apt-get`, where we are neither root nor have `sudo`, or where it fails.
pub fn install(packages: &[&str], missing: &str) -> Result<(), Failure> {
    let wanted = packages.join(" ");
    let lacking = |why: &str, mend: String| Failure::Missing {
        missing: format!("{missing} {why}"),
        mend,
    };
    if child::on_path(&["apt-get"]).is_none() {
        return Err(lacking(
            "This machine has no apt-get to install it with.",
            format!("your package manager, for what Debian calls {wanted}"),
        ));
    }
    let Some(apt_get) = with_rights() else {
        return Err(lacking(
            "Installing it needs root.",
            format!("su -c 'apt-get update && apt-get install -y {wanted}'"),
        ));
    };
    say::step(&format!("{missing} Installing {wanted}"));
    let update = || child::run(apt_get().arg("update"), "Reading the package lists");
    let install = || {
        let mut command = apt_get();
        command
            .args(["install", "-y", "--no-install-recommends"])
            .args(packages);
        child::run(&mut command, "Installing packages")
    };
    if lists_are_missing() {
        update()?;
        return install();
    }
    // Old lists name versions that the archive has since replaced; fresh ones cure that.
    install().or_else(|_| update().and_then(|()| install()))
}

/// `apt-get` with the right to install, asking no questions; `None` where there is no such right.
fn with_rights() -> Option<fn() -> Command> {
    if child::answer(child::command("id").arg("-u")).as_deref() == Some("0") {
        return Some(|| {
            let mut command = child::command("apt-get");
            command.env("DEBIAN_FRONTEND", "noninteractive");
            command
        });
    }
    child::on_path(&["sudo"])?;
    Some(|| {
        let mut command = child::command("sudo");
        // With nobody at the keyboard a question for the password would wait for ever.
        if !io::stdin().is_terminal() {
            command.arg("-n");
        }
        command.args(["DEBIAN_FRONTEND=noninteractive", "apt-get"]);
        command
    })
}

fn lists_are_missing() -> bool {
    fs::read_dir("/var/lib/apt/lists").map_or(true, |entries| {
        !entries
            .flatten()
            .any(|entry| entry.file_name().to_string_lossy().contains("_Packages"))
    })
}

/// Whether the package lists offer `package`.
pub fn offers(package: &str) -> bool {
    child::answer(child::command("apt-cache").args(["show", "--no-all-versions", package]))
        .is_some()
}
