//! A hair as a part of an SVG path: a narrow leaf, broadest in its middle, that runs out at its tip.

/// One hair in drawing units.
pub struct Leaf {
    pub root: (f64, f64),
    /// Directions of length 1: the hair sets out along `first` and ends along `tip`.
    pub first: (f64, f64),
    pub tip: (f64, f64),
    pub length: f64,
    pub breadth: f64,
}

/// An SVG path being written; its text is plain ASCII.
#[derive(Debug, Default, PartialEq)]
pub struct Path(Vec<u8>);

impl Leaf {
    /// Adds the hair to a path, in whole drawing units: from the root along one side to the tip, and back along the
    /// other.
    pub fn write(&self, path: &mut Path) {
        let half = self.length / 2.0;
        let bend = (self.first.0 * half, self.first.1 * half);
        let rest = (self.tip.0 * half, self.tip.1 * half);
        // A stub is no broader than it is long.
        let breadth = self.breadth.min(1.5 + self.length / 5.0);
        // A curve passes its middle at half the height of its bend.
        let beside = (-self.first.1 * breadth, self.first.0 * breadth);
        path.step(b'M', &[self.root.0, self.root.1]);
        path.step(
            b'q',
            &[
                bend.0 - beside.0,
                bend.1 - beside.1,
                bend.0 + rest.0,
                bend.1 + rest.1,
            ],
        );
        path.step(
            b'q',
            &[
                beside.0 - rest.0,
                beside.1 - rest.1,
                -bend.0 - rest.0,
                -bend.1 - rest.1,
            ],
        );
        path.0.push(b'z');
    }
}

impl Path {
    /// The path as text.
    pub fn text(self) -> String {
        String::from_utf8(self.0).unwrap_or_default()
    }

    /// A letter and its numbers, rounded to whole ones, with a blank between two unless a sign parts them.
    ///
    /// By hand, because the standard library's way of writing numbers takes most of the time that a step of the slider has.
    fn step(&mut self, letter: u8, numbers: &[f64]) {
        self.0.push(letter);
        for (place, value) in numbers.iter().enumerate() {
            let rounded = (value + if *value < 0.0 { -0.5 } else { 0.5 }) as i32;
            let mut digits = [0_u8; 12];
            let mut at = digits.len();
            let mut rest = rounded.unsigned_abs();
            loop {
                at -= 1;
                digits[at] = b'0' + (rest % 10) as u8;
                rest /= 10;
                if rest == 0 {
                    break;
                }
            }
            if rounded < 0 {
                at -= 1;
                digits[at] = b'-';
            } else if place > 0 {
                at -= 1;
                digits[at] = b' ';
            }
            self.0.extend_from_slice(&digits[at..]);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_whole_and_parted() {
        let mut path = Path::default();
        path.step(b'M', &[0.0, -0.4, 9.6, -12.5, 100.0, 1234.4]);
        assert_eq!(path.text(), "M0 0 10-13 100 1234");
    }

    #[test]
    fn a_leaf_comes_back_to_its_root() {
        let mut path = Path::default();
        let leaf = Leaf {
            root: (100.0, 50.0),
            first: (0.0, -1.0),
            tip: (-0.6, -0.8),
            length: 80.0,
            breadth: 4.0,
        };
        leaf.write(&mut path);
        assert_eq!(path.text(), "M100 50q-4-40-24-72q28 32 24 72z");
    }
}
