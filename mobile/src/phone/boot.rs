//! Brings a page to life, if it was rendered by this very build.

use std::rc::Rc;

use dioxus::prelude::*;

/// Reads the page's state from its data block and takes over the page that the server drew.
///
/// Does nothing, and leaves the plain page as it is, when the block is missing, cannot be read, or was written by
/// another build: parts are matched by running number, so another build's page would be mended in the wrong places.
/// False then.
pub fn bring_to_life<State: 'static>(
    app: fn() -> Element,
    read: fn(&str) -> Option<State>,
    build_of: fn(&State) -> &str,
) -> bool {
    let Some(state) = state_block().and_then(|block| read(&block)) else {
        return false;
    };
    if this_build().as_deref() != Some(build_of(&state)) {
        return false;
    }
    let page = VirtualDom::new(app).with_root_context(Rc::new(state));
    dioxus_web::launch::launch_virtual_dom(page, dioxus_web::Config::new().hydrate(true));
    true
}

fn state_block() -> Option<String> {
    let block = web_sys::window()?.document()?.get_element_by_id("state")?;
    block.text_content()
}

/// The build id that the boot script set beside the code it loads.
fn this_build() -> Option<String> {
    js_sys::Reflect::get(&js_sys::global(), &"betweentimes_build".into())
        .ok()?
        .as_string()
}
