//! How long a follicle waits before it starts a new hair after the old one was pulled.

/// An Erlang distribution: Gamma with a whole shape, so that its distribution function is a finite sum.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Latency {
    pub shape: u32,
    pub scale_days: f64,
}

impl Latency {
    /// The latency whose `share` quantile lies at `days`.
    pub fn calibrated(shape: u32, share: f64, days: f64) -> Self {
        Self {
            shape,
            scale_days: days / standard_quantile(shape, share),
        }
    }

    pub fn mean_days(&self) -> f64 {
        f64::from(self.shape) * self.scale_days
    }

    /// The share of follicles that have started by then: 0 for `days <= 0`, towards 1, never falling.
    pub fn started_by(&self, days: f64) -> f64 {
        if days <= 0.0 {
            0.0
        } else {
            standard_cdf(self.shape, days / self.scale_days)
        }
    }

    /// The days by which `share` (0 to 1) of follicles have started; infinite for 1.
    pub fn quantile(&self, share: f64) -> f64 {
        standard_quantile(self.shape, share) * self.scale_days
    }
}

/// P(X <= x) for Erlang with scale 1: 1 − e^−x (1 + x + … + x^(k−1)/(k−1)!).
fn standard_cdf(shape: u32, x: f64) -> f64 {
    let mut term = 1.0;
    let mut sum = 1.0;
    for i in 1..shape {
        term *= x / f64::from(i);
        sum += term;
    }
    // Past where e^-x underflows, the product of nothing and everything would not be a number.
    let left = (-x).exp();
    if left == 0.0 {
        1.0
    } else {
        (1.0 - left * sum).clamp(0.0, 1.0)
    }
}

/// The inverse of [`standard_cdf`] by halving: it rises steadily, so halving cannot go astray.
fn standard_quantile(shape: u32, share: f64) -> f64 {
    if share <= 0.0 {
        return 0.0;
    }
    if share >= 1.0 {
        return f64::INFINITY;
    }
    let (mut low, mut high) = (0.0, f64::from(shape));
    while standard_cdf(shape, high) < share {
        (low, high) = (high, high * 2.0);
    }
    // 80 halvings of a bracket bring it below the spacing of doubles.
    for _ in 0..80 {
        let middle = (low + high) / 2.0;
        if standard_cdf(shape, middle) < share {
            low = middle;
        } else {
            high = middle;
        }
    }
    high
}
