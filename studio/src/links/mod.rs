//! The personal link: its secret, its address, its code to scan.

pub mod address;
pub mod give;
pub mod qr;
pub mod secret;
