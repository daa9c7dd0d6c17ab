//! How long a zone of a brow that is let grow may take, against what was published and against another library's Gamma
//! distribution.

use content::Content;
use shared_types::{
    care_plan,
    visit::Area,
    zones::{Wait, wait},
};
use statrs::distribution::{ContinuousCDF, Gamma};

fn content() -> Content {
    Content::built_in().expect("content without mistakes")
}

/// By the shipped figures, for somebody whose clock runs so fast.
fn shipped(pace: f64) -> Wait {
    let catalogue = content().catalogue;
    let own = care_plan::regrowth(&catalogue, Area::Brow, pace).expect("brow figures");
    wait(&own, &catalogue.zones)
}

/// 64 days for 90 % of plucked brow follicles (Myers & Hamilton 1951, from a specialist page that names it): twice that,
/// the "twice" being our assumption.
#[test]
fn hope_is_fair_for_twice_the_published_time() {
    assert_eq!(shipped(1.0).hope_until, 128);
}

/// Counts of facial hair were back to the start 5 to 7 months after one epilation (Verdich 1984, abstract): twice the
/// published time stays below, and the slowest person's own time is cut there.
#[test]
fn hope_ends_with_the_seventh_month_after_which_everything_counted_was_back() {
    let month = 365.25 / 12.0;
    assert!(f64::from(shipped(1.0).hope_until) < 5.0 * month);
    let slowest = content().catalogue.clock.slowest.value;
    let longest = f64::from(shipped(slowest).hope_until);
    assert!((longest - 7.0 * month).abs() <= 1.0, "{longest}");
    assert_eq!(
        shipped(slowest).hope_until,
        shipped(slowest / 2.0).hope_until
    );
}

/// Erlang-4 of scale 7.5 days after 2.25 mm at 0.16 mm a day (the model's own figures); its quantile by statrs. A fifth is
/// our assumption.
#[test]
fn a_gap_begins_to_close_when_a_fifth_of_the_hairs_pulled_there_show() {
    let latency = Gamma::new(4.0, 1.0 / 7.5).expect("a distribution");
    let day = (2.25 / 0.16 + latency.inverse_cdf(0.2)).ceil();
    assert_eq!(f64::from(shipped(1.0).begins), day);
    // As the handbooks' 4 to 8 weeks for the effect of waxing (Cosmetic Applications of Laser and Light-Based Systems,
    // 2009): not before the fourth week ends.
    assert!((28..=56).contains(&shipped(1.0).begins));
}
