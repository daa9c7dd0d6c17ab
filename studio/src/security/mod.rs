//! What keeps others out: headers, forms that only our pages can send, limits, passwords, sessions.

pub mod cookies;
pub mod headers;
pub mod limits;
pub mod origin;
pub mod passwords;
pub mod random;
pub mod session;
