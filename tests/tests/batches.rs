//! Figures for small counts against printed examples and against `statrs`.

#![cfg(test)]

use content::Content;
use statrs::distribution::{Beta, ContinuousCDF, DiscreteCDF, Hypergeometric};
use studio::batches::{
    Because, Group, Serious, Stand, chi_square_yates, interval, judge, one_sided, ratio,
};

const fn group(reactions: u32, visits: u32) -> Group {
    Group { reactions, visits }
}

/// A fourfold table: with the batch reaction and none, without it reaction and none.
const fn table(a: u32, b: u32, c: u32, d: u32) -> (Group, Group) {
    (group(a, a + b), group(c, c + d))
}

fn close(given: f64, expected: f64, within: f64, what: &str) {
    assert!(
        (given - expected).abs() <= within,
        "{what}: {given}, expected {expected}"
    );
}

/// Agresti, a lady tasting tea, as in the help of R's fisher.test: 17/70 with three right, 1/70 with all four.
#[test]
fn a_lady_tasting_tea() {
    let (with, without) = table(3, 1, 1, 3);
    close(one_sided(with, without), 17.0 / 70.0, 1e-14, "three right");
    let (with, without) = table(4, 0, 0, 4);
    close(one_sided(with, without), 1.0 / 70.0, 1e-15, "all right");
}

/// Fisher's twins, input of the help of R's fisher.test: matrix(c(2, 10, 15, 3)); one-sided "less" 0.0004652. The same question
/// from the other side: of 12 dizygotic 10 not convicted, of 18 monozygotic 3.
#[test]
fn fishers_twins() {
    close(
        one_sided(group(10, 12), group(3, 18)),
        0.000_465_2,
        5e-8,
        "less",
    );
}

/// SciPy's whales and sharks (fisher_exact): 8, 2, 1, 5 two-sided 0.03497; the upper tail by hand: (C(10,8) C(6,1) +
/// C(10,9) C(6,0)) / C(16,9) = (45 * 6 + 10) / 11440.
#[test]
fn whales_and_sharks() {
    let (with, without) = table(8, 2, 1, 5);
    close(
        one_sided(with, without),
        280.0 / 11440.0,
        1e-14,
        "upper tail",
    );
}

/// Tables of a studio's size, computed with SciPy 1.17 (fisher_exact greater, chi2_contingency with correction).
#[test]
fn tables_of_a_studios_size() {
    for (name, (a, b, c, d), times, yates, p, many) in [
        ("A", (3, 27, 4, 126), 3.25, 1.383, 0.122_671, false),
        ("B", (2, 18, 3, 137), 4.667, 1.445, 0.118_025, false),
        ("C", (3, 9, 6, 162), 7.0, 6.786, 0.015_294_3, true),
        ("D", (1, 9, 1, 149), 15.0, 1.215, 0.121_462, false),
        ("E", (0, 20, 5, 135), 0.0, 0.029, 1.0, false),
    ] {
        let (with, without) = table(a, b, c, d);
        close(ratio(with, without).unwrap(), times, 5e-4, name);
        close(chi_square_yates(with, without), yates, 5e-4, name);
        close(one_sided(with, without), p, 5e-7, name);
        let rules = Content::built_in().unwrap().catalogue.batches;
        let judged = judge(&rules, with, without, Serious::default());
        assert_eq!(judged.because.contains(&Because::Many), many, "{name}");
        let stand = if many {
            Stand::SetAside
        } else {
            Stand::Nothing
        };
        assert_eq!(judged.stand, stand, "{name}");
    }
}

/// Evans et al. 2001, rifabutin (counts from memory): 586 times as often; 22 187.3 with Yates by arithmetic.
#[test]
fn a_very_large_table() {
    let (with, without) = table(41, 14, 754, 591_958);
    close(ratio(with, without).unwrap(), 586.0, 0.05, "times");
    close(
        chi_square_yates(with, without),
        22_187.3,
        0.05,
        "chi-square",
    );
    assert!(one_sided(with, without) < 1e-60);
}

/// Clopper and Pearson, as printed: 0/20 0 to 0.1684, 1/30, 2/20, 3/30, 5/100, 8/10 (computed with SciPy). Nought of n: 1 -
/// 0.05^(1/n) one-sided, of which the rule of three 3/n is the rough form (Hanley and Lippman-Hand 1983, from memory).
#[test]
fn intervals() {
    for (k, n, low, high) in [
        (0, 20, 0.0, 0.1684),
        (1, 30, 0.0008, 0.1722),
        (2, 20, 0.0123, 0.3170),
        (3, 30, 0.0211, 0.2653),
        (5, 100, 0.0164, 0.1128),
        (8, 10, 0.4439, 0.9748),
    ] {
        let (from, to) = interval(group(k, n), 0.95);
        close(from, low, 5e-5, "low");
        close(to, high, 5e-5, "high");
    }
    for n in [14, 20, 30, 100, 300] {
        let (low, high) = interval(group(0, n), 0.90);
        assert_eq!(low, 0.0);
        close(high, 1.0 - 0.05_f64.powf(1.0 / f64::from(n)), 1e-9, "none");
        close(high, 3.0 / f64::from(n), 0.025, "rule of three");
    }
    assert_eq!(interval(group(0, 0), 0.95), (0.0, 1.0));
    assert_eq!(interval(group(7, 7), 0.95).1, 1.0);
}

/// The hypergeometric and Beta distributions of `statrs`, computed in another way, over every small table.
#[test]
fn against_a_statistics_library() {
    let mut tried = 0;
    for visits in [1_u32, 2, 7, 20, 45] {
        for others in [0_u32, 1, 13, 150] {
            for reactions in 0..=visits {
                for elsewhere in [0, others / 10, others / 2, others] {
                    let (with, without) = (group(reactions, visits), group(elsewhere, others));
                    let total = u64::from(visits + others);
                    let drawn = Hypergeometric::new(
                        total,
                        u64::from(reactions + elsewhere),
                        u64::from(visits),
                    )
                    .unwrap();
                    let tail = if reactions == 0 {
                        1.0
                    } else {
                        drawn.sf(u64::from(reactions) - 1)
                    };
                    close(one_sided(with, without), tail, 1e-9, "tail");
                    tried += 1;
                }
                let (low, high) = interval(group(reactions, visits), 0.95);
                let (k, none) = (f64::from(reactions), f64::from(visits - reactions));
                if reactions > 0 {
                    close(
                        low,
                        Beta::new(k, none + 1.0).unwrap().inverse_cdf(0.025),
                        1e-7,
                        "low",
                    );
                }
                if reactions < visits {
                    close(
                        high,
                        Beta::new(k + 1.0, none).unwrap().inverse_cdf(0.975),
                        1e-7,
                        "high",
                    );
                }
            }
        }
    }
    assert!(tried > 1000, "{tried}");
}

#[test]
fn more_reactions_are_never_less_remarkable() {
    for reactions in 0..30 {
        let (fewer, more) = (group(reactions, 30), group(reactions + 1, 30));
        assert!(one_sided(more, group(3, 150)) < one_sided(fewer, group(3, 150)));
    }
}

/// One batch of which fewer reacted than elsewhere does not stand out, and neither does one that nothing compares with.
#[test]
fn nothing_stands_out_without_a_reason() {
    let rules = Content::built_in().unwrap().catalogue.batches;
    for (with, without) in [
        (group(1, 40), group(20, 100)),
        (group(5, 10), group(0, 0)),
        (group(0, 0), group(3, 50)),
        (group(0, 10), group(0, 100)),
    ] {
        let judged = judge(&rules, with, without, Serious::default());
        assert_eq!(
            (judged.stand, judged.because),
            (Stand::Nothing, vec![]),
            "{with:?}"
        );
    }
    let look = judge(&rules, group(2, 10), group(2, 150), Serious::default());
    assert_eq!(
        (look.stand, look.because),
        (Stand::Look, vec![Because::ExactTest]),
        "{}",
        look.one_sided
    );
}

/// None of the others reacted, so that there is no ratio: any share is more than so many times nothing (of the ways to read
/// c = 0 that pharmacy180's page on proportional reporting ratios names, "all" in the comparator gives 3.1 here, half a case
/// added 14). 3 of 9 against 0 of 19: Yates 4.0368 by arithmetic, 28 * (|3 * 19 - 6 * 0| - 14)^2 / (9 * 19 * 3 * 25); exact
/// C(9,3) / C(28,3) = 84/3276.
#[test]
fn several_reactions_stand_out_where_the_others_had_none() {
    let rules = Content::built_in().unwrap().catalogue.batches;
    let (with, without) = (group(3, 9), group(0, 19));
    assert_eq!(ratio(with, without), None);
    close(
        chi_square_yates(with, without),
        51_772.0 / 12_825.0,
        1e-12,
        "Yates",
    );
    close(one_sided(with, without), 84.0 / 3276.0, 1e-14, "exact");
    let judged = judge(&rules, with, without, Serious::default());
    assert_eq!(
        (judged.stand, judged.because),
        (Stand::SetAside, vec![Because::ExactTest, Because::Many])
    );
    // Two are still too few, however rare elsewhere; and one reaction among the others is weighed as before: 3 of 4 against 4
    // of 10 is 1.875 times as often.
    for (with, without) in [(group(2, 4), group(0, 60)), (group(3, 4), group(4, 10))] {
        let judged = judge(&rules, with, without, Serious::default());
        assert!(!judged.because.contains(&Because::Many), "{with:?}");
    }
    // Every small table without a reaction among the others follows from the other two conditions alone.
    let mut found = 0;
    for visits in 1..=40 {
        for others in 1..=60 {
            for reactions in 1..=visits {
                let (with, without) = (group(reactions, visits), group(0, others));
                let many = reactions >= 3 && chi_square_yates(with, without) >= 4.0;
                let judged = judge(&rules, with, without, Serious::default());
                assert_eq!(judged.because.contains(&Because::Many), many, "{with:?}");
                found += u32::from(many && judged.one_sided >= 0.01);
            }
        }
    }
    assert!(
        found > 100,
        "of these the exact test alone sets none aside: {found}"
    );
}
