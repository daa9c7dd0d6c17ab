//! The library that requests are made with wants to be told by which cipher library they are made safe, also where they
//! are not.

/// To be called before the first client is made; again does no harm.
pub fn ready() {
    let _ = rustls::crypto::ring::default_provider().install_default();
}
