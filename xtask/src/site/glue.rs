//! The JavaScript that lets wasm reach the browser.

use std::path::{Path, PathBuf};

use wasm_bindgen_cli_support::Bindgen;

use super::prune::prune;
use crate::failure::Failure;
use crate::files;
use crate::places;

/// An entry as modules: its script, the snippets that script imports, and its wasm.
pub struct Glue {
    pub folder: PathBuf,
    /// Paths of the scripts below `folder`; the first to import is `NAME.js`.
    pub scripts: Vec<PathBuf>,
    /// Path of the wasm.
    pub wasm: PathBuf,
}

pub fn write(name: &str, wasm: &Path) -> Result<Glue, Failure> {
    let folder = places::target().join("glue").join(name);
    files::empty_folder(&folder)?;
    let pruned = folder.with_extension("wasm");
    prune(wasm, &pruned).map_err(|reason| Failure::Glue {
        wasm: wasm.to_owned(),
        reason: format!("{reason:#}"),
    })?;
    bind(name, &pruned, &folder).map_err(|reason| Failure::Glue {
        wasm: wasm.to_owned(),
        reason: format!("{reason:#}"),
    })?;
    let mut scripts = files::list(&folder)?;
    scripts.retain(|path| path.extension().is_some_and(|extension| extension == "js"));
    Ok(Glue {
        wasm: folder.join(format!("{name}_bg.wasm")),
        folder,
        scripts,
    })
}

fn bind(name: &str, wasm: &Path, folder: &Path) -> Result<(), impl std::fmt::Display + use<>> {
    Bindgen::new()
        .input_path(wasm)
        .out_name(name)
        .web(true)?
        .typescript(false)
        .remove_name_section(true)
        .remove_producers_section(true)
        .generate(folder)
}

#[cfg(test)]
mod tests {
    /// The glue is written for one version of `wasm-bindgen` exactly; its own documentation asks for equal versions.
    #[test]
    fn glue_and_runner_are_of_the_version_that_is_compiled_in() {
        let lock = include_str!("../../../Cargo.lock");
        let version = |name: &str| {
            let start = format!("name = \"{name}\"\nversion = \"");
            let (_, rest) = lock
                .split_once(&start)
                .expect("the lock file holds the crate");
            rest.split('"').next().expect("a version")
        };
        let compiled_in = version("wasm-bindgen");
        let pin = |manifest: &str, name: &str| {
            let line = manifest
                .lines()
                .find(|line| line.starts_with(name))
                .expect("a pin");
            line.split("\"=")
                .nth(1)
                .expect("an exact pin")
                .split('"')
                .next()
                .expect("a version")
                .to_owned()
        };
        let ours = include_str!("../../Cargo.toml");
        let runner = include_str!("../../../tests/browser-runner/Cargo.toml");
        assert_eq!(pin(ours, "wasm-bindgen-cli-support"), compiled_in);
        assert_eq!(pin(runner, "wasm-bindgen-cli"), compiled_in);
        assert_eq!(version("wasm-bindgen-cli-support"), compiled_in);
        assert_eq!(version("wasm-bindgen-cli"), compiled_in);
    }
}
