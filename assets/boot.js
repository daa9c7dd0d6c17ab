// Starts one browser entry. `cargo xtask build` fills in the names between underscores.
import init from "./__ENTRY__.js";

// HTML that was rendered by another build numbers its nodes differently, so the entry compares this with the page's
// own before it touches anything.
window.betweentimes_build = "__BUILD__";

// The renderer reads both when it takes over the page: an empty CBOR list, since all state stands in the page's
// JSON block, and no pieces still to come.
window.initial_dioxus_hydration_data = "gA==";
window.hydrate_queue = [];

init({ module_or_path: new URL("__WASM__", import.meta.url) });
