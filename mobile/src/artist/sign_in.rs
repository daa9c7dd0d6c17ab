//! Signing in.

use dioxus::prelude::*;
use shared_types::page::artist::SignIn;

use super::{TextField, WholeFault, use_page};

#[component]
pub(super) fn SignInScreen(screen: SignIn) -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        form { class: "narrow", method: "post", action: "/studio/sign-in",
            h1 { {words.say("artist.sign_in.title").to_owned()} }
            WholeFault { form: screen.form.clone() }
            TextField {
                name: "email",
                kind: "email",
                autocomplete: "username",
                label: words.say("artist.sign_in.email").to_owned(),
                form: screen.form.clone(),
            }
            TextField {
                name: "password",
                kind: "password",
                autocomplete: "current-password",
                label: words.say("artist.sign_in.password").to_owned(),
                form: screen.form.clone(),
            }
            button { r#type: "submit", {words.say("artist.sign_in.button").to_owned()} }
        }
    }
}
