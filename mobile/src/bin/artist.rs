//! The browser's entry to the artist's screens.

fn main() {
    #[cfg(target_arch = "wasm32")]
    mobile::phone::boot::bring_to_life::<shared_types::page::artist::ArtistPage>(
        mobile::artist::ArtistApp,
        mobile::phone::json::read,
        |page| &page.build,
    );
}
