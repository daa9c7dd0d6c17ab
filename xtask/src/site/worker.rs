//! The service worker, which keeps the client's page for a phone without network.

use super::shelf::Names;

/// The template with the build's id for `__BUILD__` and, for `__FILES__`, the addresses of what the client's page
/// is made of: its scripts and its wasm, and nothing of the artist's.
pub fn fill(template: &str, build: &str, names: &Names) -> String {
    let is_the_clients = |key: &str| {
        matches!(key, "client.js" | "client.wasm" | "photos.js") || key.starts_with("client/")
    };
    let mut addresses: Vec<String> = names
        .iter()
        .filter(|(key, _)| is_the_clients(key))
        .map(|(_, path)| format!("/pkg/{path}"))
        .collect();
    addresses.sort();
    addresses.dedup();
    template
        .replace("__BUILD__", build)
        .replace("__FILES__", &serde_json::json!(addresses).to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_worker_keeps_the_clients_files_and_not_the_artists() {
        let names = Names::from(
            [
                ("client.js", "client.1/boot.js"),
                ("client/boot.js", "client.1/boot.js"),
                ("client/client.js", "client.1/client.js"),
                ("client.wasm", "client.2.wasm"),
                ("client.css", "client.3.css"),
                ("artist.js", "artist.4.js"),
                ("artist.wasm", "artist.5.wasm"),
                ("photos.js", "photos.6.js"),
            ]
            .map(|(key, path)| (key.to_owned(), path.to_owned())),
        );
        assert_eq!(
            fill("b=\"__BUILD__\";f=__FILES__;", "abc", &names),
            r#"b="abc";f=["/pkg/client.1/boot.js","/pkg/client.1/client.js","/pkg/client.2.wasm","/pkg/photos.6.js"];"#
        );
    }
}
