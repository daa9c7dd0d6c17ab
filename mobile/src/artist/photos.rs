//! The photos that were taken at the end of a visit, and the form for another.

use dioxus::prelude::*;
use shared_types::page::artist::{EndPhotos, PhotoView};

use super::{Csrf, use_page};
use crate::parts::fault_text;

#[component]
pub(super) fn EndPhotosPart(visit: String, first_name: String, end: EndPhotos) -> Element {
    let page = use_page();
    let words = &page.words;
    let form = &end.form;
    let name = [("name", first_name.as_str())];
    let fault = |field: &str| form.fault(field).map(str::to_owned);
    let told_by = |field: &str| form.fault(field).map(|_| format!("fault-{field}"));
    rsx! {
        section { class: "end-photos", id: "photos",
            h2 { {words.say("artist.photos.title").to_owned()} }
            for photo in &end.photos {
                EndPhoto { key: "{photo.id}", photo: photo.clone(), first_name: first_name.clone() }
            }
            if !end.more {
                {fault_text("photos", fault("photos"))}
            }
            if end.more {
                details { class: "fold", open: form.is_faulty(),
                    summary { {words.say("artist.photos.add").to_owned()} }
                    form { method: "post", action: "/studio/visits/{visit}/photos", enctype: "multipart/form-data",
                        Csrf {}
                        div { class: "field",
                            label { r#for: "photos-file", {words.say("artist.photos.choose").to_owned()} }
                            p { class: "hint", {words.say("artist.photos.hint").to_owned()} }
                            {fault_text("photos", fault("photos"))}
                            input { id: "photos-file", r#type: "file", name: "photos", multiple: true, accept: "image/jpeg,image/png,image/webp", aria_describedby: told_by("photos") }
                        }
                        div { class: "field consent",
                            {fault_text("consent", fault("consent"))}
                            label { class: "choice",
                                input { r#type: "checkbox", name: "consent", value: "{end.consent_version}", "checked": form.has("consent", &end.consent_version), aria_describedby: told_by("consent") }
                                span { {words.fill("artist.photos.consent", &name)} }
                            }
                        }
                        button { r#type: "submit", {words.say("artist.photos.keep").to_owned()} }
                    }
                }
            }
        }
    }
}

#[component]
fn EndPhoto(photo: PhotoView, first_name: String) -> Element {
    let page = use_page();
    let words = &page.words;
    let address = format!("/studio/photos/{}", photo.id);
    let values = [("name", first_name.as_str()), ("when", &photo.at.text)];
    rsx! {
        figure { class: "photo",
            a { href: "{address}",
                img { src: "{address}", alt: words.fill("artist.photos.alt", &values), width: "{photo.width}", height: "{photo.height}", loading: "lazy" }
            }
            figcaption { "{photo.at.text}" }
            details {
                summary { {words.say("artist.photos.take_out").to_owned()} }
                p { class: "hint", {words.say("artist.photos.take_out_hint").to_owned()} }
                form { method: "post", action: "{address}/take-out",
                    Csrf {}
                    button { r#type: "submit", class: "quiet", {words.say("artist.photos.take_out_button").to_owned()} }
                }
            }
        }
    }
}
