//! How the studio is told at once that something waits: by e-mail, by webhook.

use dioxus::prelude::*;
use shared_types::page::{
    form::Filled,
    notices::{NoticesScreen, WayState},
};

use super::{Choices, Csrf, SettingsTop, TextField, use_page};
use crate::parts::fault_text;

#[component]
pub(super) fn NoticesForm(screen: NoticesScreen) -> Element {
    let page = use_page();
    let words = &page.words;
    let form = &screen.form;
    let text = |key: &str| words.say(&format!("artist.notices.{key}")).to_owned();
    let password_hint = if screen.password_kept {
        text("password_kept")
    } else {
        text("password_hint")
    };
    rsx! {
        h1 { {text("title")} }
        p { {text("intro")} }
        p { class: "hint", {text("holds")} }
        section { id: "ways", class: "ways-state",
            h2 { {text("state")} }
            Standing { name: text("mail"), state: screen.mail.clone() }
            Standing { name: text("webhook"), state: screen.webhook.clone() }
            if screen.mail.on || screen.webhook.on {
                form { method: "post", action: "/studio/notices/test",
                    Csrf {}
                    button { r#type: "submit", class: "quiet", {text("try")} }
                }
            }
        }
        form { class: "practice", method: "post", action: "/studio/notices",
            SettingsTop { changed: screen.changed.clone(), form: form.clone() }
            section {
                h2 { {text("mail")} }
                p { class: "hint", {text("mail_hint")} }
                Switch { name: "mail", label: text("mail_on"), form: form.clone() }
                div { class: "two",
                    TextField { name: "host", label: text("host"), hint: text("host_hint"), required: false, form: form.clone() }
                    TextField { name: "port", kind: "number", label: text("port"), hint: text("port_hint"), required: false, longest: 5, form: form.clone() }
                }
                Choices { kind: "radio", name: "security", legend: text("security"), options: screen.securities.clone(), form: form.clone() }
                div { class: "two",
                    TextField { name: "user", label: text("user"), hint: text("user_hint"), required: false, form: form.clone() }
                    TextField { name: "password", kind: "password", label: text("password"), hint: password_hint, autocomplete: "new-password", required: false, form: form.clone() }
                }
                div { class: "two",
                    TextField { name: "from", label: text("from"), hint: text("from_hint"), required: false, form: form.clone() }
                    TextField { name: "to", label: text("to"), hint: text("to_hint"), required: false, form: form.clone() }
                }
            }
            section {
                h2 { {text("webhook")} }
                p { class: "hint", {text("webhook_hint")} }
                Switch { name: "webhook", label: text("webhook_on"), form: form.clone() }
                TextField { name: "address", kind: "url", label: text("address"), hint: text("address_hint"), required: false, longest: 1000, form: form.clone() }
                if screen.secret_kept {
                    p { {text("secret_kept")} }
                    details { class: "fold", open: form.has("new_secret", "yes"),
                        summary { {text("secret_new")} }
                        SecretField { form: form.clone() }
                        Switch { name: "new_secret", label: text("secret_use"), form: form.clone() }
                    }
                } else {
                    SecretField { form: form.clone() }
                }
            }
            div { class: "finish",
                button { r#type: "submit", {text("save")} }
            }
        }
        p { class: "onward", a { href: "/studio/practice", {text("back")} } }
    }
}

/// How one way stands.
#[component]
fn Standing(name: String, state: WayState) -> Element {
    rsx! {
        p { class: if state.troubled { "troubled" } else { "way" },
            strong { "{name}" }
            for (at, line) in state.said.iter().enumerate() {
                span { key: "{at}", "{line}" }
            }
        }
    }
}

/// A box to tick.
#[component]
fn Switch(name: String, label: String, form: Filled) -> Element {
    rsx! {
        {fault_text(&name, form.fault(&name).map(str::to_owned))}
        label { class: "choice",
            input { r#type: "checkbox", name: "{name}", value: "yes", "checked": form.has(&name, "yes") }
            span { "{label}" }
        }
    }
}

/// The secret that is offered, to be copied before it is saved: it is not shown again.
#[component]
fn SecretField(form: Filled) -> Element {
    let page = use_page();
    let words = &page.words;
    let secret = form.value("secret").to_owned();
    rsx! {
        div { class: "field",
            label { r#for: "field-secret", {words.say("artist.notices.secret").to_owned()} }
            p { class: "hint", id: "hint-secret", {words.say("artist.notices.secret_hint").to_owned()} }
            {fault_text("secret", form.fault("secret").map(str::to_owned))}
            input { id: "field-secret", name: "secret", r#type: "text", readonly: true, autocomplete: "off", spellcheck: "false", aria_describedby: "hint-secret", "value": secret }
        }
    }
}
