//! The share of hairs to be seen, and to be held, on each day after a removal.

use super::{
    cycle::Cycle,
    latency::Latency,
    parameters::{ParameterError, Parameters},
};

/// Days after which an answer to "on which day" is "never".
pub(super) const LONGEST_SEARCH_DAYS: u32 = 3650;

/// The regrowth of one area after every visible hair was removed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Regrowth {
    pub parameters: Parameters,
    pub cycle: Cycle,
    pub latency: Latency,
    /// Days from a new hair's start to the surface of the skin.
    pub transit: f64,
}

impl Regrowth {
    /// # Errors
    /// The first parameter with which the model means nothing.
    pub fn new(parameters: Parameters) -> Result<Self, ParameterError> {
        parameters.check()?;
        Ok(Self::of_checked(parameters))
    }

    /// The regrowth by parameters that [`Parameters::check`] has passed before. The phone, which gets them from the
    /// server, need not download the sentences of a refusal; unchecked ones give shares that mean nothing.
    pub fn of_checked(parameters: Parameters) -> Self {
        let transit = parameters.transit_days();
        // A checked shape is a whole number from 1 to 100.
        let shape = parameters.latency_shape as u32;
        Self {
            parameters,
            cycle: Cycle {
                anagen: parameters.anagen_days,
                catagen: parameters.catagen_days,
                telogen: parameters.telogen_days,
                kenogen: parameters.kenogen_days,
            },
            latency: match parameters.latency_scale_days {
                Some(scale_days) => Latency { shape, scale_days },
                None => Latency::calibrated(shape, 0.9, parameters.regrown_90_days - transit),
            },
            transit,
        }
    }

    /// The share of follicles with nothing to be seen on the day of the visit, before anything is removed.
    pub fn hidden_share(&self) -> f64 {
        self.cycle.unseen(self.transit) / self.cycle.total()
    }

    /// The share of visible hairs that are growing.
    pub fn growing_share(&self) -> f64 {
        (self.cycle.anagen - self.transit) / (self.cycle.total() - self.cycle.unseen(self.transit))
    }

    /// The share of hairs pulled with the root, and not lost, that show again by then.
    pub fn emerged(&self, days: f64) -> f64 {
        self.latency.started_by(days - self.transit)
    }

    /// The days by which `share` of the hairs pulled with the root, and not lost, show again.
    pub fn emergence_days(&self, share: f64) -> f64 {
        self.transit + self.latency.quantile(share)
    }

    /// The share of all hairs that can be seen, `days` after the visit: 0 at the visit, never falling, at most 1.
    pub fn visible(&self, days: f64) -> f64 {
        if days <= 0.0 {
            return 0.0;
        }
        let Parameters {
            broken_fraction: broken,
            lost_fraction: lost,
            ..
        } = self.parameters;
        let unseen = self.cycle.unseen(self.transit);
        let surfaced = if unseen > 0.0 {
            (days / unseen).min(1.0)
        } else {
            1.0
        };
        let rooted = (1.0 - lost) * self.emerged(days);
        let removed = broken * self.broken_seen(days) + (1.0 - broken) * rooted;
        self.hidden_share() * surfaced + (1.0 - self.hidden_share()) * removed
    }

    /// The share of all hairs that stand out by `length_mm` or more: the visible hairs of the day on which they
    /// surfaced that long ago. Whether hairs here ever get so long is [`Parameters::full_length_mm`].
    pub fn graspable(&self, days: f64, length_mm: f64) -> f64 {
        self.visible(days - length_mm / self.parameters.speed_mm_per_day)
    }

    /// The first moment, in days, at which `share` of all hairs can be seen; `None` when that never comes.
    pub fn days_until_visible(&self, share: f64) -> Option<f64> {
        let (mut low, mut high) = (0.0, f64::from(LONGEST_SEARCH_DAYS));
        if self.visible(high) < share {
            return None;
        }
        // 80 halvings of a bracket bring it below the spacing of doubles.
        for _ in 0..80 {
            let middle = (low + high) / 2.0;
            if self.visible(middle) < share {
                low = middle;
            } else {
                high = middle;
            }
        }
        Some(high)
    }

    /// The first whole day on which `share` of all hairs can be seen; `None` when that never comes.
    pub fn first_day_visible(&self, share: f64) -> Option<u32> {
        (0..=LONGEST_SEARCH_DAYS).find(|day| self.visible(f64::from(*day)) >= share)
    }

    /// The first whole day on which `share` of all hairs stand out by `length_mm`; `None` when that never comes.
    pub fn first_day_graspable(&self, share: f64, length_mm: f64) -> Option<u32> {
        (0..=LONGEST_SEARCH_DAYS).find(|day| self.graspable(f64::from(*day), length_mm) >= share)
    }

    /// Of the hairs that broke: a growing one only has to grow back to the surface, the stump of a resting one waits
    /// for the end of its phase and then for the new hair.
    fn broken_seen(&self, days: f64) -> f64 {
        let grown_back = self.parameters.break_depth_mm / self.parameters.speed_mm_per_day;
        let growing = if days >= grown_back { 1.0 } else { 0.0 };
        let resting =
            ((days - self.cycle.unseen(self.transit)) / self.cycle.resting()).clamp(0.0, 1.0);
        self.growing_share() * growing + (1.0 - self.growing_share()) * resting
    }
}
