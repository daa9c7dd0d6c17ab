//! What answers each route. What a handler decides is here; what it reads and writes is in `record`, what it shows in
//! `pages`.

pub mod artist;
pub mod client;
pub mod posted;
pub mod posted_photos;
pub mod site;
pub mod visitor;
