//! Takes code out of the wasm that no page can reach and that the compiler has to keep, because it hangs on tables of
//! functions. A function that is taken out becomes a stop: should one ever be called, the page stays as the server drew it.

use std::path::Path;

use walrus::{FunctionBuilder, FunctionId, FunctionKind, Module};

/// Parts of the (mangled) names of functions, and why no page of ours calls them.
const UNREACHED: [&str; 4] = [
    // Writes errors and backtraces in a programmer's words. No page shows either, and no backtrace is ever captured:
    // browsers have no `RUST_BACKTRACE`.
    "14rustc_demangle",
    "6anyhow3fmt",
    // Reads keyboard events. No page listens to them: fields and buttons answer to keys by themselves.
    "14keyboard_types",
    "10dioxus_web6events8keyboard",
];

/// The compiler gives one body to functions that do the same, whatever their names; below so many instructions that may
/// be somebody else's.
const TOO_SMALL: u64 = 60;

/// Reads the wasm at `from` and writes it to `to` without what is never reached.
pub fn prune(from: &Path, to: &Path) -> Result<(), impl std::fmt::Display + use<>> {
    let mut module = Module::from_file(from)?;
    let unreached: Vec<FunctionId> = module
        .funcs
        .iter()
        .filter(|function| match &function.kind {
            FunctionKind::Local(body) => body.size() >= TOO_SMALL,
            _ => false,
        })
        .filter(|function| {
            let name = function.name.as_deref().unwrap_or_default();
            UNREACHED.iter().any(|part| name.contains(part))
        })
        .map(|function| function.id())
        .collect();
    for id in unreached {
        let ty = module.types.get(module.funcs.get(id).ty());
        let (takes, gives) = (ty.params().to_vec(), ty.results().to_vec());
        let mut stop = FunctionBuilder::new(&mut module.types, &takes, &gives);
        stop.func_body().unreachable();
        let arguments = takes.iter().map(|kind| module.locals.add(*kind)).collect();
        module.funcs.get_mut(id).kind = FunctionKind::Local(stop.local_func(arguments));
    }
    walrus::passes::gc::run(&mut module);
    module.emit_wasm_file(to)
}
