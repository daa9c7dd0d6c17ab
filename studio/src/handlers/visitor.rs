//! Where a request comes from, for the limits.

use std::net::{IpAddr, Ipv4Addr, SocketAddr};

use axum::{
    extract::{ConnectInfo, FromRequestParts},
    http::request::Parts,
};

use crate::state::Shared;

/// The visitor's address: the connection's, or behind our own reverse proxy the last that the proxy wrote (those
/// before it are the visitor's own claims).
pub struct Visitor(pub IpAddr);

impl FromRequestParts<Shared> for Visitor {
    type Rejection = std::convert::Infallible;

    async fn from_request_parts(
        parts: &mut Parts,
        studio: &Shared,
    ) -> Result<Self, Self::Rejection> {
        let forwarded = || {
            let line = parts
                .headers
                .get_all("x-forwarded-for")
                .iter()
                .next_back()?
                .to_str()
                .ok()?;
            line.rsplit(',').next()?.trim().parse().ok()
        };
        let connected = || {
            parts
                .extensions
                .get::<ConnectInfo<SocketAddr>>()
                .map(|connection| connection.0.ip())
        };
        let address = if studio.behind_proxy {
            forwarded().or_else(connected)
        } else {
            connected()
        };
        // Without either, all are one visitor: limits then hold for everybody together.
        Ok(Self(address.unwrap_or(IpAddr::V4(Ipv4Addr::UNSPECIFIED))))
    }
}
