//! The days of a window: by the interval of the trade, by the hair, by the colour, and by the studio's own interval.

use chrono::{Days, NaiveDate};

use super::{OwnInterval, PlanError};
use crate::{
    catalogue::{
        figure::Figure,
        rebook::RebookRules,
        treatment::{Removal, TradeInterval},
    },
    regrowth::curve::Regrowth,
    visit::Treatment,
};

/// A window in whole days from the visit: `earliest <= best <= comfortable_until <= latest`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct WindowDays {
    pub earliest: u32,
    pub best: u32,
    pub comfortable_until: u32,
    pub latest: u32,
}

impl WindowDays {
    /// From the best day on, the trade's interval is comfortable.
    pub fn of_interval(interval: &TradeInterval) -> Self {
        let latest = interval.latest_days.into();
        Self {
            earliest: interval.earliest_days.into(),
            best: interval.best_days.into(),
            comfortable_until: latest,
            latest,
        }
    }

    /// The first whole days on which the shares of [`RebookRules`] are reached.
    pub fn of_regrowth(
        treatment: Treatment,
        regrowth: &Regrowth,
        removal: &Removal,
        rules: &RebookRules,
    ) -> Result<Self, PlanError> {
        let length = removal.graspable_mm.value;
        let never = |figure| PlanError::NeverReached { treatment, figure };
        let visible =
            |share: &Figure, name| regrowth.first_day_visible(share.value).ok_or(never(name));
        let graspable = |share: &Figure, name| {
            regrowth
                .first_day_graspable(share.value, length)
                .ok_or(never(name))
        };
        let best = visible(&rules.visible_best, "visible_best")?
            .max(graspable(&rules.graspable_best, "graspable_best")?);
        // Short hairs can be held before enough of them show: then the comfortable time would end before it began.
        let comfortable_until = graspable(&rules.graspable_comfortable, "graspable_comfortable")?
            .max(best + rules.comfortable_days.value as u32);
        let latest = graspable(&rules.graspable_latest, "graspable_latest")?.max(best);
        Ok(Self {
            earliest: visible(&rules.visible_earliest, "visible_earliest")?.min(best),
            best,
            comfortable_until: comfortable_until.min(latest),
            latest,
        })
    }

    /// The trade's interval, at its best on the last day on which the tint still looks even; `None` when that day is
    /// not within the trade's.
    pub fn of_tint(
        regrowth: &Regrowth,
        interval: &TradeInterval,
        rules: &RebookRules,
    ) -> Option<Self> {
        let trade = Self::of_interval(interval);
        let best = regrowth.last_day_tint_kept(rules.tint_even.value);
        (trade.earliest..=trade.latest)
            .contains(&best)
            .then_some(Self { best, ..trade })
    }

    /// The same best day, as far out as the windows of a faster and of a slower pace.
    pub fn stretched(self, faster: Self, slower: Self) -> Self {
        Self {
            earliest: self.earliest.min(faster.earliest),
            best: self.best,
            comfortable_until: self.comfortable_until.max(slower.comfortable_until),
            latest: self.latest.max(slower.latest),
        }
    }

    pub fn not_before(self, floor: u32) -> Self {
        Self {
            earliest: self.earliest.max(floor),
            best: self.best.max(floor),
            comfortable_until: self.comfortable_until.max(floor),
            latest: self.latest.max(floor),
        }
    }

    /// The studio's own days where it has set any, the others moved out of their way; never before the trade's
    /// earliest day unless the studio knows that it is sooner.
    pub fn with_own(self, own: &OwnInterval, trade_earliest: u32) -> Self {
        let floor = if own.knowingly_sooner {
            0
        } else {
            trade_earliest
        };
        let [earliest, best, latest] = [own.earliest_days, own.best_days, own.latest_days]
            .map(|days| days.map(|days| u32::from(days).max(floor)));
        let best = best
            .unwrap_or(self.best.min(latest.unwrap_or(u32::MAX)))
            .max(earliest.unwrap_or(floor));
        let until = latest.unwrap_or(self.latest).max(best);
        Self {
            earliest: earliest.unwrap_or(self.earliest).min(best),
            best,
            // Whoever names a latest day means that every day up to it is fine.
            comfortable_until: match latest {
                Some(_) => until,
                None => self.comfortable_until.clamp(best, until),
            },
            latest: until,
        }
    }

    /// As dates: earliest, best, comfortable until, latest.
    pub fn dates(&self, visit_date: NaiveDate) -> Result<[NaiveDate; 4], PlanError> {
        let on = |day: u32| {
            visit_date
                .checked_add_days(Days::new(day.into()))
                .ok_or(PlanError::OutOfCalendar)
        };
        Ok([
            on(self.earliest)?,
            on(self.best)?,
            on(self.comfortable_until)?,
            on(self.latest)?,
        ])
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    const MODEL: WindowDays = WindowDays {
        earliest: 28,
        best: 32,
        comfortable_until: 43,
        latest: 59,
    };

    fn days(window: WindowDays) -> [u32; 4] {
        [
            window.earliest,
            window.best,
            window.comfortable_until,
            window.latest,
        ]
    }

    fn own(earliest: u16, best: u16, latest: u16) -> OwnInterval {
        let some = |days| (days > 0).then_some(days);
        OwnInterval {
            earliest_days: some(earliest),
            best_days: some(best),
            latest_days: some(latest),
            knowingly_sooner: false,
        }
    }

    #[test]
    fn the_trade_holds_back_a_window_that_comes_early_and_leaves_a_later_one() {
        let model = WindowDays {
            earliest: 10,
            best: 14,
            comfortable_until: 21,
            latest: 30,
        };
        assert_eq!(days(model.not_before(21)), [21, 21, 21, 30]);
        assert_eq!(model.not_before(10), model);
    }

    #[test]
    fn the_studios_days_stand_and_the_others_make_room() {
        let with = |one| days(MODEL.with_own(&one, 21));
        assert_eq!(with(own(0, 0, 0)), [28, 32, 43, 59]);
        assert_eq!(with(own(35, 0, 0)), [35, 35, 43, 59]);
        assert_eq!(with(own(0, 49, 0)), [28, 49, 49, 59]);
        assert_eq!(with(own(0, 0, 30)), [28, 30, 30, 30]);
        assert_eq!(with(own(0, 70, 0)), [28, 70, 70, 70]);
        assert_eq!(with(own(28, 35, 42)), [28, 35, 42, 42]);
    }

    #[test]
    fn sooner_than_the_trade_only_when_it_is_meant() {
        let sooner = own(14, 18, 30);
        assert_eq!(days(MODEL.with_own(&sooner, 21)), [21, 21, 30, 30]);
        let meant = OwnInterval {
            knowingly_sooner: true,
            ..sooner
        };
        assert_eq!(days(MODEL.with_own(&meant, 21)), [14, 18, 30, 30]);
    }

    proptest! {
        /// Also for days that no form would take.
        #[test]
        fn whatever_the_studio_sets_a_window_stays_in_order(
            base in prop::array::uniform4(0u32..400),
            earliest in prop::option::of(0u16..400),
            best in prop::option::of(0u16..400),
            latest in prop::option::of(0u16..400),
            knowingly_sooner: bool,
            trade in 0u32..60,
        ) {
            let mut base = base;
            base.sort_unstable();
            let [first, second, third, fourth] = base;
            let window = WindowDays { earliest: first, best: second, comfortable_until: third, latest: fourth }.not_before(trade);
            let own = OwnInterval { earliest_days: earliest, best_days: best, latest_days: latest, knowingly_sooner };
            let set = days(window.with_own(&own, trade));
            prop_assert!(set.is_sorted(), "{set:?}");
            prop_assert!(knowingly_sooner || set[0] >= trade, "{set:?} before {trade}");
        }
    }
}
