//! What the lines of a scale look like: long, middle and short, and which are numbered.

/// Which lines of a graduation are longer, counted from line 0.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Lengths {
    /// Every how many lines a long one; 0 for none.
    pub(crate) long: u32,
    /// Every how many lines a middle one; 0 for none.
    pub(crate) middle: u32,
}

impl Lengths {
    /// A line's length as a part of a long line's.
    pub(crate) fn of(&self, line: u32) -> f64 {
        let falls_on = |every: u32| every > 0 && line.is_multiple_of(every);
        if falls_on(self.long) {
            1.0
        } else if falls_on(self.middle) {
            0.76
        } else {
            0.52
        }
    }
}

/// How a scale is numbered: every so many lines, each step worth so much.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Numbers {
    /// Every how many lines a number; 0 for none.
    pub(crate) every: u32,
    /// What one such step adds, in units of the last decimal place shown.
    pub(crate) worth: u32,
    /// How many decimal places are shown.
    pub(crate) places: u8,
}

impl Numbers {
    /// The number at a line, where it has one.
    pub(crate) fn at(&self, line: u32) -> Option<String> {
        if self.every == 0 || !line.is_multiple_of(self.every) {
            return None;
        }
        let value = u64::from(line / self.every) * u64::from(self.worth);
        let mut figures = value.to_string();
        let places = usize::from(self.places);
        if places > 0 && value > 0 {
            while figures.len() <= places {
                figures.insert(0, '0');
            }
            figures.insert(figures.len() - places, '.');
        }
        Some(figures)
    }

    /// The longest number of a scale of so many lines.
    pub(crate) fn longest(&self, lines: u32) -> String {
        let last = lines.saturating_sub(1);
        self.at(last - last.checked_rem(self.every).unwrap_or(0)).unwrap_or_default()
    }

    /// The same, but no closer than `lines` apart: every second number, every fifth, and so on.
    pub(crate) fn thinned(self, lines: f64) -> Numbers {
        let mut out = self;
        for times in [2, 5, 10, 20, 50, 100, 200, 500, 1000] {
            if self.every == 0 || f64::from(out.every) >= lines {
                break;
            }
            out.every = self.every.saturating_mul(times);
            out.worth = self.worth.saturating_mul(times);
        }
        out
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_long_middle_and_short() {
        let usual = Lengths { long: 10, middle: 5 };
        let lengths: Vec<f64> = (0..11).map(|line| usual.of(line)).collect();
        let short = 0.52;
        assert_eq!(
            lengths,
            [1.0, short, short, short, short, 0.76, short, short, short, short, 1.0]
        );
        assert_eq!(Lengths { long: 0, middle: 0 }.of(0), short);
    }

    #[test]
    fn numbers_count_what_the_lines_are_worth() {
        // A screw of 0.1 in lead, 40 lines of 2.5 thou: every fourth line is 10 thou.
        let thou = Numbers { every: 4, worth: 10, places: 0 };
        assert_eq!(thou.at(20).as_deref(), Some("50"));
        assert_eq!(thou.at(21), None);
        let tenths = Numbers { every: 5, worth: 1, places: 1 };
        assert_eq!(tenths.at(0).as_deref(), Some("0"));
        assert_eq!(tenths.at(5).as_deref(), Some("0.1"));
        assert_eq!(tenths.at(60).as_deref(), Some("1.2"));
        assert_eq!(thou.thinned(9.0).at(20).as_deref(), Some("50"));
        assert_eq!(thou.thinned(9.0).every, 20);
    }
}
