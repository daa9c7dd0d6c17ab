//! The browser's entry to the client's page.

fn main() {
    #[cfg(target_arch = "wasm32")]
    mobile::phone::boot::bring_to_life::<shared_types::page::client::ClientPage>(
        mobile::client::ClientApp,
        mobile::phone::reading::read,
        |page| &page.build,
    );
}
