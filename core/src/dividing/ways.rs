//! All the ways of dividing into a number, best first.

use super::differential::Drawer;
use super::error::DividingError;
use super::kit::{Kit, MOST_DIVISIONS};
use super::way::{Method, Setting, Way};
use super::{compound, direct, plain};
use crate::exact::Ratio;
use alloc::vec::Vec;

/// How many compound ways and ways of two pairs stand in the list at most, those with the least
/// to get wrong: a list of a hundred or fewer in all is whole.
const LISTED: usize = 100;
/// How many circles and ways of one pair are listed at most.
const LISTED_ALL: usize = 1_000;

/// How many exact ways there are of each kind, listed or not.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Found {
    /// Whole teeth on the spindle.
    pub direct: u32,
    /// Half teeth on the spindle.
    pub half_tooth: u32,
    /// Circles; whole turns count once.
    pub plain: u32,
    /// Two circles of one plate and the holes on them.
    pub compound: u32,
    /// A circle, its holes and one pair of gears.
    pub one_pair: u32,
    /// A circle, its holes and two pairs of gears, whatever their order.
    pub two_pairs: u32,
}

impl Found {
    /// How many by that method; both numbers of pairs together for differential.
    #[must_use]
    pub const fn by(&self, method: Method) -> u32 {
        match method {
            Method::Direct => self.direct,
            Method::DirectHalfTooth => self.half_tooth,
            Method::Plain => self.plain,
            Method::Compound => self.compound,
            Method::Differential => self.one_pair.saturating_add(self.two_pairs),
        }
    }

    /// How many in all.
    #[must_use]
    pub const fn all(&self) -> u32 {
        self.direct
            .saturating_add(self.half_tooth)
            .saturating_add(self.plain)
            .saturating_add(self.compound)
            .saturating_add(self.by(Method::Differential))
    }
}

/// The ways of dividing a circle with a kit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ways {
    /// Divisions asked for.
    pub divisions: u32,
    /// Exact ways, the least to get wrong first; where there are none, the nearest of each kind,
    /// the least error first. Never empty.
    pub ways: Vec<Way>,
    /// How many exact ways there are.
    pub found: Found,
    /// Whether every way was looked at; false only with a very large drawer of gears.
    pub complete: bool,
}

/// Every way of dividing a circle, best first.
///
/// ```
/// use latheside_core::dividing::{Kit, Method, ways};
/// let kit = Kit { direct: vec![72, 24], ..Kit::default() };
/// let found = ways(12, &kit).unwrap();
/// assert_eq!(found.ways[0].method(), Method::Direct);
/// assert_eq!(found.found.direct, 2);
/// ```
///
/// # Errors
///
/// What [`Kit::check`] refuses; 0 divisions or more than [`MOST_DIVISIONS`];
/// [`DividingError::NoWay`] where there are fewer positions than divisions.
pub fn ways(divisions: u32, kit: &Kit) -> Result<Ways, DividingError> {
    kit.check()?;
    if divisions == 0 {
        return Err(DividingError::NoDivisions);
    }
    if divisions > MOST_DIVISIONS {
        return Err(DividingError::TooManyDivisions { divisions });
    }
    let mut ways = direct::exact(divisions, kit);
    let mut found = Found::default();
    let mut complete = true;
    for way in &ways {
        let count = match way.method() {
            Method::Direct => &mut found.direct,
            _ => &mut found.half_tooth,
        };
        *count = count.saturating_add(1);
    }
    if let Some(head) = &kit.head {
        let mut keep = |best: Fewest| {
            let kept = best.kept.iter();
            ways.extend(kept.map(|setting| Way::exact(*setting, divisions, head.worm_ratio)));
            best.count
        };
        let mut plain = Fewest::of(LISTED_ALL);
        plain::exact(divisions, head).iter().for_each(|way| plain.take(way.setting));
        found.plain = keep(plain.sorted());
        let drawer = Drawer::of(head);
        let mut one = Fewest::of(LISTED_ALL);
        drawer.each_one_pair(divisions, |setting| one.take(setting));
        found.one_pair = keep(one.sorted());
        let mut two = Fewest::of(LISTED);
        complete = drawer.each_two_pairs(divisions, |setting| two.take(setting));
        found.two_pairs = keep(two.sorted());
        let mut compound = Fewest::of(LISTED);
        compound::each_exact(divisions, head, |setting| compound.take(setting));
        found.compound = keep(compound.sorted());
        if ways.is_empty() {
            ways.extend(plain::nearest_way(divisions, head)?);
            ways.extend(compound::nearest_ways(divisions, head)?);
            let (nearest, all) = drawer.nearest(divisions)?;
            ways.extend(nearest);
            complete = complete && all;
        }
    }
    if found.all() == 0 {
        ways.extend(direct::nearest_ways(divisions, kit)?);
    }
    // Out by half a space, a line stands as near to its neighbour's place as to its own.
    ways.retain(|way| {
        way.exact
            || way.worst.mul(divisions.saturating_mul(2).into()).is_ok_and(|out| out < Ratio::ONE)
    });
    if ways.is_empty() {
        return Err(DividingError::NoWay { divisions });
    }
    ways.sort_by(|one, other| {
        one.worst.cmp(&other.worst).then(one.setting.burden().cmp(&other.setting.burden()))
    });
    Ok(Ways { divisions, ways, found, complete })
}

/// Keeps the settings with the least to get wrong, and counts them all.
struct Fewest {
    kept: Vec<Setting>,
    most: usize,
    count: u32,
    /// Beyond this there is already enough.
    enough: Option<(u8, u32, u32)>,
}

impl Fewest {
    fn of(most: usize) -> Fewest {
        Fewest { kept: Vec::new(), most, count: 0, enough: None }
    }

    fn take(&mut self, setting: Setting) {
        self.count = self.count.saturating_add(1);
        if self.enough.is_some_and(|enough| setting.burden() >= enough) {
            return;
        }
        self.kept.push(setting);
        if self.kept.len() >= self.most.saturating_mul(4) {
            self.cut();
        }
    }

    fn cut(&mut self) {
        self.kept.sort_by_key(Setting::burden);
        self.kept.truncate(self.most);
        if self.kept.len() == self.most {
            self.enough = self.kept.last().map(Setting::burden);
        }
    }

    fn sorted(mut self) -> Fewest {
        self.cut();
        self
    }
}
