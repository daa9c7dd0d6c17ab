//! Parameters with which the model means nothing are refused by name.

#![cfg(test)]

mod support;

use shared_types::regrowth::{curve::Regrowth, parameters::Parameters};
use support::BROW;

fn refused(parameters: Parameters) -> String {
    Regrowth::new(parameters).unwrap_err().to_string()
}

#[test]
fn the_eyebrow_is_taken() {
    Regrowth::new(BROW).unwrap();
}

#[test]
fn a_fault_names_the_parameter_what_was_given_and_what_is_allowed() {
    let still = refused(Parameters {
        speed_mm_per_day: 0.0,
        ..BROW
    });
    assert_eq!(still, "speed_mm_per_day: given 0; allowed is more than 0");
    let never_out = refused(Parameters {
        anagen_days: 14.0,
        ..BROW
    });
    assert_eq!(
        never_out,
        "anagen_days: given 14; allowed is more than 14.0625"
    );
    let half = refused(Parameters {
        latency_shape: 3.5,
        ..BROW
    });
    assert_eq!(
        half,
        "latency_shape: given 3.5; allowed is a whole number from 1 to 100"
    );
    let too_many = refused(Parameters {
        broken_fraction: 1.2,
        ..BROW
    });
    assert_eq!(too_many, "broken_fraction: given 1.2; allowed is 0 to 1");
    let too_soon = refused(Parameters {
        latency_scale_days: None,
        regrown_90_days: 10.0,
        ..BROW
    });
    assert_eq!(
        too_soon,
        "regrown_90_days: given 10; allowed is more than 14.0625"
    );
}

#[test]
fn what_is_no_number_is_never_allowed() {
    for odd in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        assert!(
            refused(Parameters {
                telogen_days: odd,
                ..BROW
            })
            .starts_with("telogen_days")
        );
        assert!(
            refused(Parameters {
                wash_keep: odd,
                ..BROW
            })
            .starts_with("wash_keep")
        );
    }
}
