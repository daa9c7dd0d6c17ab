//! Figures beside their limits.

use crate::failure::Failure;

#[derive(Default)]
pub struct Table {
    rows: Vec<[String; 4]>,
    failures: Vec<Failure>,
    over: bool,
}

impl Table {
    /// A figure that may be at most `limit`.
    pub fn limited(&mut self, what: &str, unit: &str, measured: Result<u64, Failure>, limit: u64) {
        let (figure, verdict) = match measured {
            Ok(figure) if figure <= limit => (with_unit(figure, unit), "holds"),
            Ok(figure) => {
                self.over = true;
                (with_unit(figure, unit), "OVER")
            }
            Err(failure) => {
                self.failures.push(failure);
                ("not measured".to_owned(), "MISSING")
            }
        };
        self.rows.push([
            what.to_owned(),
            figure,
            with_unit(limit, unit),
            verdict.to_owned(),
        ]);
    }

    /// A figure that depends on the machine and is therefore only told.
    pub fn figure(&mut self, what: &str, unit: &str, figure: u64) {
        self.rows.push([
            what.to_owned(),
            with_unit(figure, unit),
            "–".to_owned(),
            "told".to_owned(),
        ]);
    }

    /// Whether every limited figure was had and is within its limit.
    pub fn holds(&self) -> bool {
        !self.over && self.failures.is_empty()
    }

    pub fn print(&self) {
        let heading = ["what", "measured", "at most", ""].map(str::to_owned);
        for [what, figure, limit, verdict] in std::iter::once(&heading).chain(&self.rows) {
            println!("{what:<46} {figure:>14} {limit:>12}  {verdict}");
        }
        for failure in &self.failures {
            println!("\n{failure}");
        }
    }
}

/// `12 345 B`: thousands apart, as SI asks.
fn with_unit(figure: u64, unit: &str) -> String {
    let digits = figure.to_string();
    let mut grouped = String::new();
    for (place, digit) in digits.chars().enumerate() {
        if place > 0 && (digits.len() - place).is_multiple_of(3) {
            grouped.push(' ');
        }
        grouped.push(digit);
    }
    format!("{grouped} {unit}").trim_end().to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn holds_up_to_the_limit_and_not_above_it() {
        let mut table = Table::default();
        table.limited("page", "B", Ok(13_000), 13_000);
        assert!(table.holds());
        table.limited("page", "B", Ok(13_001), 13_000);
        assert!(!table.holds());
    }

    #[test]
    fn a_figure_that_could_not_be_had_does_not_hold() {
        let mut table = Table::default();
        let missing = Failure::Demo {
            what: "is not there".to_owned(),
        };
        table.limited("page", "B", Err(missing), 13_000);
        assert!(!table.holds());
    }

    #[test]
    fn thousands_stand_apart() {
        assert_eq!(with_unit(999, "B"), "999 B");
        assert_eq!(with_unit(150_000, "B"), "150 000 B");
        assert_eq!(with_unit(1_234_567, ""), "1 234 567");
    }
}
