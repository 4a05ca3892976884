//! The numbers of a dial: which line has which, and where each figure is stamped.

use super::Graduate;
use crate::graduation::{stamp_offsets, stamp_room};
use crate::quantity::show;
use crate::record::Node;
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

impl Graduate {
    /// The number of a long line with its unit: what it was asked to read, and plain 0 at line 0.
    pub(super) fn stamped(&self, line: u32) -> Option<String> {
        if line == 0 {
            return Some("0".to_owned());
        }
        Some(self.worth(self.scale?.wanted.mul(line.into()).ok()?))
    }

    /// What is stamped of it: the figures without their unit.
    fn figures(&self, line: u32) -> Option<String> {
        let stamped = self.stamped(line)?;
        Some(stamped.rsplit_once(' ').map_or(stamped.as_str(), |(figures, _)| figures).to_string())
    }

    /// The numbered lines.
    fn numbered(&self) -> impl Iterator<Item = u32> + use<> {
        let every = usize::try_from(self.marks.long_every.max(1)).unwrap_or(1);
        (0..self.scale.map_or(0, |scale| scale.lines)).step_by(every)
    }

    /// Degrees from its line at which each of so many figures is stamped.
    fn offsets(&self, figures: u32) -> Option<Vec<f64>> {
        let (diameter, stamp) = (self.diameter.as_ref()?, self.stamp.as_ref()?);
        Some(stamp_offsets(diameter.value(), stamp.value(), figures)).filter(|at| !at.is_empty())
    }

    /// The longest number's figures.
    fn longest(&self) -> u32 {
        let lengths = self.numbered().filter_map(|line| Some(self.figures(line)?.chars().count()));
        lengths.max().and_then(|most| u32::try_from(most).ok()).unwrap_or(0)
    }

    /// Room from one number to the next, and what the longest takes, mm.
    pub(super) fn room(&self) -> Option<(f64, f64)> {
        let (scale, diameter) = (self.scale?, self.diameter.as_ref()?);
        let room = stamp_room(diameter.value(), scale.lines, self.marks.long_every);
        let stamp = self.stamp.as_ref()?.to_f64();
        Some((room, stamp * f64::from(self.longest())))
    }

    /// Where the figures of each length of number stand: "2 figures: −1°23′, +1°23′".
    pub(super) fn stamps(&self) -> Vec<String> {
        let each = |figures: u32| {
            let at = self.offsets(figures)?;
            let at: Vec<String> = at
                .iter()
                .map(|degrees| {
                    // To the minute: nobody stamps closer.
                    let size = show::arc(libm::round(degrees * 60.0) * 60.0);
                    match *degrees {
                        degrees if degrees.abs() < 1e-9 => "on the line".to_owned(),
                        degrees if degrees < 0.0 => format!("{size} before"),
                        _ => format!("{size} after"),
                    }
                })
                .collect();
            Some(format!("{figures} figures: {}", at.join(", ")))
        };
        (2..=self.longest()).filter_map(each).collect()
    }

    /// Line, figures and the place of each.
    pub(super) fn number_nodes(&self) -> Node {
        let node = |line: u32| {
            let figures = self.figures(line)?;
            let count = u32::try_from(figures.chars().count()).ok()?;
            let mut pairs = Vec::from([
                ("line".to_owned(), Node::from(line)),
                ("figures".to_owned(), Node::from(figures)),
            ]);
            if let Some(at) = self.offsets(count) {
                let at = at.into_iter().map(Node::from).collect();
                pairs.push(("stamped_deg".to_owned(), Node::List(at)));
            }
            Some(Node::Object(pairs))
        };
        Node::List(self.numbered().filter_map(node).collect())
    }

    /// What each number adds in units of its last place, and how many places there are; three at
    /// most.
    pub(super) fn number(&self) -> (u32, u8) {
        let figures = self.figures(self.marks.long_every).unwrap_or_default();
        let places = figures.split_once('.').map_or(0, |(_, places)| places.len());
        let digits: String = figures.chars().filter(char::is_ascii_digit).collect();
        match (figures.contains('/'), digits.parse()) {
            (false, Ok(worth)) => (worth, u8::try_from(places).unwrap_or(0)),
            // Inches as a fraction: the lines are counted.
            _ => (self.marks.long_every, 0),
        }
    }
}
