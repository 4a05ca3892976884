//! The chart of divisions: into how many a circle can be divided, and the simplest way for each.

use crate::dividing::{DividingError, Kit, Method, Way, direct, plain, ways};
use crate::gearing::more::Progress;
use alloc::vec::Vec;

/// One number of divisions.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Divided {
    /// Into how many.
    pub into: u32,
    /// The simplest exact way, else the nearest; none where there are fewer positions than divisions.
    pub way: Option<Way>,
    /// Whether every way was looked at.
    pub complete: bool,
}

impl Divided {
    /// How it is done, where it is done exactly.
    #[must_use]
    pub fn method(&self) -> Option<Method> {
        self.way.filter(|way| way.exact).map(|way| way.method())
    }
}

/// A chart of divisions under way.
#[derive(Clone, Debug)]
pub struct Divisions {
    kit: Kit,
    from: u32,
    to: u32,
    rows: Vec<Divided>,
}

impl Divisions {
    /// The chart from so many divisions to so many, both counted.
    ///
    /// # Errors
    ///
    /// What [`Kit::check`] refuses.
    pub fn new(kit: Kit, from: u32, to: u32) -> Result<Divisions, DividingError> {
        kit.check()?;
        Ok(Divisions { kit, from, to, rows: Vec::new() })
    }

    /// Works so many more numbers.
    ///
    /// # Errors
    ///
    /// As [`ways`], but for numbers for which there are too few positions: their row says so.
    pub fn step(&mut self, numbers: usize) -> Result<Progress, DividingError> {
        let of = self.to.saturating_add(1).saturating_sub(self.from);
        for _ in 0..numbers {
            let into = self.from.saturating_add(u32::try_from(self.rows.len()).unwrap_or(u32::MAX));
            if into > self.to {
                break;
            }
            self.rows.push(simplest(into, &self.kit)?);
        }
        Ok(Progress { done: self.rows.len() as u64, of: of.into() })
    }

    /// The rows so far.
    #[must_use]
    pub fn rows(&self) -> &[Divided] {
        &self.rows
    }
}

/// The simplest exact way of dividing into a number, else the nearest one.
///
/// # Errors
///
/// As [`ways`], but for [`DividingError::NoWay`].
pub fn simplest(into: u32, kit: &Kit) -> Result<Divided, DividingError> {
    // What is done with teeth on the spindle, or with turns and holes, is simpler than anything with
    // gears: no need to look for that.
    let mut best: Option<Way> = None;
    let plain = kit.head.as_ref().map_or_else(Vec::new, |head| plain::exact(into, head));
    for way in direct::exact(into, kit).into_iter().chain(plain) {
        if best.is_none_or(|best| way.setting.burden() < best.setting.burden()) {
            best = Some(way);
        }
    }
    if best.is_some() {
        return Ok(Divided { into, way: best, complete: true });
    }
    match ways(into, kit) {
        Ok(found) => {
            Ok(Divided { into, way: found.ways.first().copied(), complete: found.complete })
        }
        Err(DividingError::NoWay { .. }) => Ok(Divided { into, way: None, complete: true }),
        Err(why) => Err(why),
    }
}
