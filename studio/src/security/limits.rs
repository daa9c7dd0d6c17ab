//! How often something may be tried. Generous for people, useless for guessing.

use std::{
    hash::Hash,
    net::{IpAddr, Ipv6Addr},
    num::NonZeroU32,
    time::Duration,
};

use governor::{
    Quota, RateLimiter,
    clock::{Clock, DefaultClock},
    state::keyed::HashMapStateStore,
};
use uuid::Uuid;

/// Everything that is counted.
pub struct Limits {
    sign_in_by_account: Limit<String>,
    sign_in_by_address: Limit<IpAddr>,
    set_up_by_address: Limit<IpAddr>,
    unknown_link_by_address: Limit<IpAddr>,
    report_by_link: Limit<Uuid>,
    wish_by_link: Limit<Uuid>,
    photo_by_link: Limit<Uuid>,
}

/// Too often: try again after so long.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooOften {
    pub wait: Duration,
}

impl Default for Limits {
    fn default() -> Self {
        Self {
            sign_in_by_account: Limit::new(10, Duration::from_secs(60)),
            sign_in_by_address: Limit::new(30, Duration::from_secs(20)),
            set_up_by_address: Limit::new(10, Duration::from_secs(60)),
            // A salon's wifi is one address for many clients: only links that do not exist are counted.
            unknown_link_by_address: Limit::new(30, Duration::from_secs(10)),
            report_by_link: Limit::new(30, Duration::from_secs(120)),
            // Counted apart: whoever asks for times often can still report.
            wish_by_link: Limit::new(10, Duration::from_secs(300)),
            // A report has four; each is decoded, which costs time.
            photo_by_link: Limit::new(20, Duration::from_secs(60)),
        }
    }
}

impl Limits {
    /// One more attempt to sign in to an account from an address.
    pub fn sign_in(&self, account: &str, address: IpAddr) -> Result<(), TooOften> {
        self.sign_in_by_address.count(neighbourhood(address))?;
        self.sign_in_by_account.count(account.trim().to_lowercase())
    }

    /// One more attempt at the set-up code.
    pub fn set_up(&self, address: IpAddr) -> Result<(), TooOften> {
        self.set_up_by_address.count(neighbourhood(address))
    }

    /// One more link that does not exist.
    pub fn unknown_link(&self, address: IpAddr) -> Result<(), TooOften> {
        self.unknown_link_by_address.count(neighbourhood(address))
    }

    /// One more new report on a link. One that was taken already is not counted.
    pub fn report(&self, link: Uuid) -> Result<(), TooOften> {
        self.report_by_link.count(link)
    }

    /// One more new wish on a link. One that was taken already is not counted.
    pub fn wish(&self, link: Uuid) -> Result<(), TooOften> {
        self.wish_by_link.count(link)
    }

    /// One more photo on a link that has arrived whole and is to be decoded.
    pub fn photo(&self, link: Uuid) -> Result<(), TooOften> {
        self.photo_by_link.count(link)
    }
}

/// So many at once, and one more after each interval.
struct Limit<K: Hash + Eq + Clone> {
    limiter: RateLimiter<K, HashMapStateStore<K>, DefaultClock>,
}

/// Keys are cleared of those that have recovered when there are more than this many.
const KEYS: usize = 10_000;

impl<K: Hash + Eq + Clone> Limit<K> {
    fn new(at_once: u32, one_more_after: Duration) -> Self {
        let at_once = NonZeroU32::new(at_once).unwrap_or(NonZeroU32::MIN);
        let quota =
            Quota::with_period(one_more_after).unwrap_or_else(|| Quota::per_second(at_once));
        Self {
            limiter: RateLimiter::hashmap(quota.allow_burst(at_once)),
        }
    }

    fn count(&self, key: K) -> Result<(), TooOften> {
        if self.limiter.len() > KEYS {
            self.limiter.retain_recent();
        }
        self.limiter.check_key(&key).map_err(|not_until| TooOften {
            wait: not_until.wait_time_from(DefaultClock::default().now()),
        })
    }
}

/// What one visitor has to themselves: an IPv4 address, or the 64-bit network of an IPv6 address.
fn neighbourhood(address: IpAddr) -> IpAddr {
    match address.to_canonical() {
        IpAddr::V6(v6) => IpAddr::V6(Ipv6Addr::from_bits(v6.to_bits() & !u128::from(u64::MAX))),
        v4 => v4,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_burst_is_allowed_and_then_there_is_a_wait() {
        let limit = Limit::new(3, Duration::from_secs(60));
        for _ in 0..3 {
            limit.count("a").unwrap();
        }
        let wait = limit.count("a").unwrap_err().wait;
        assert!(wait > Duration::from_secs(50) && wait <= Duration::from_secs(60));
        limit.count("b").unwrap();
    }

    #[test]
    fn a_whole_ipv6_network_is_one_visitor() {
        let one: IpAddr = "2001:db8::1".parse().unwrap();
        let two: IpAddr = "2001:db8::2".parse().unwrap();
        let other: IpAddr = "2001:db8:0:1::1".parse().unwrap();
        assert_eq!(neighbourhood(one), neighbourhood(two));
        assert_ne!(neighbourhood(one), neighbourhood(other));
        assert_eq!(
            neighbourhood("::ffff:192.0.2.1".parse().unwrap()),
            "192.0.2.1".parse::<IpAddr>().unwrap()
        );
    }
}
