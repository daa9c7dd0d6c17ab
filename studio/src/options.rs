//! What the command line takes.

use std::{net::SocketAddr, path::PathBuf};

use clap::{Args, Parser, Subcommand};

use crate::links::address::PublicUrl;

/// Betweentimes: what a client needs between two visits.
#[derive(Parser)]
#[command(name = "studio", version)]
pub struct Options {
    #[command(subcommand)]
    pub command: Command,
}

#[derive(Subcommand)]
pub enum Command {
    /// Serve the studio: the artist's screens and the clients' pages
    Serve(Box<ServeOptions>),
    /// Answer what the client of a visit is told: JSON on standard input to JSON on standard output
    CarePlan {
        /// Read words and figures from this folder instead of those built in
        #[arg(long, value_name = "DIR")]
        content: Option<PathBuf>,
    },
    /// Answer whether the reactions after one batch of a product are worth a look: JSON on standard input to JSON on
    /// standard output
    Batches {
        /// Read words and figures from this folder instead of those built in
        #[arg(long, value_name = "DIR")]
        content: Option<PathBuf>,
    },
    /// Answer how soon to act when something is not right, and what to do: JSON on standard input to JSON on standard
    /// output
    Urgency {
        /// Read words and figures from this folder instead of those built in
        #[arg(long, value_name = "DIR")]
        content: Option<PathBuf>,
    },
    /// Describe the JSON API in OpenAPI 3.1
    Openapi,
    /// Answer how the hair of one area returns: JSON on standard input to JSON on standard output
    Forecast {
        /// Read words and figures from this folder instead of those built in
        #[arg(long, value_name = "DIR")]
        content: Option<PathBuf>,
    },
}

#[derive(Args)]
pub struct ServeOptions {
    /// Serve an invented studio, made anew at each start
    #[arg(long)]
    pub demo: bool,
    /// The browser side, as `cargo xtask build` makes it
    #[arg(long, value_name = "DIR")]
    pub site: PathBuf,
    /// Where the record and the link key are kept
    #[arg(long, value_name = "DIR")]
    pub data: PathBuf,
    /// The address to listen on; port 0 takes a free one
    #[arg(long, value_name = "ADDRESS", default_value = "127.0.0.1:4180")]
    pub listen: SocketAddr,
    /// The address at which clients reach the studio, such as https://studio.example
    #[arg(long, value_name = "URL")]
    pub public_url: Option<PublicUrl>,
    /// Believe the last address in X-Forwarded-For: only behind a reverse proxy of your own
    #[arg(long)]
    pub behind_proxy: bool,
    /// Read words and figures from this folder instead of those built in
    #[arg(long, value_name = "DIR")]
    pub content: Option<PathBuf>,
    /// Wait so many milliseconds before a notice that did not go out is tried for the second time; for tests
    #[arg(long, value_name = "MS", hide = true)]
    pub notice_pause_ms: Option<u64>,
    /// Write the address and, for a demo, its sign-in and links to this file once it listens; for tests
    #[arg(long, value_name = "FILE")]
    pub links_json: Option<PathBuf>,
}
