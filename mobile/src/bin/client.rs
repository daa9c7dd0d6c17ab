//! The browser's entry to the client's pages. Which of them this is, its state says.

fn main() {
    #[cfg(target_arch = "wasm32")]
    {
        use mobile::{client, phone::boot::bring_to_life, phone::reading::read};
        use shared_types::page::{client::ClientPage, trouble::TroublePage};

        if !bring_to_life::<ClientPage>(client::ClientApp, read, |page| &page.build) {
            bring_to_life::<TroublePage>(client::trouble::TroubleApp, read, |page| &page.build);
        }
    }
}
