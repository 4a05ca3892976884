//! Differential indexing: plain moves on a plate that gears from the spindle turn meanwhile.

use super::kit::Head;
use super::nearest::{Geared, Nearest, is_own};
use super::plain::small;
use super::train::Train;
use super::way::{Setting, Way};
use super::whole::{divides, gcd, mul, quot, rem, sizes};
use crate::exact::RatioError;
use alloc::vec::Vec;

/// The most that the search of two pairs looks at: a product is one look, four gears that make it
/// [`LOOKS_FOR_FOUR`].
///
/// Some thirty gears and three plates stay far below it; beyond it the search says that it isn't
/// complete.
const MOST_LOOKS: u32 = 4_000_000;

/// What four gears cost beside a product.
const LOOKS_FOR_FOUR: u32 = 8;

/// The most couples of gears of which every four are tried for the nearest ratio.
const MOST_COUPLES: usize = 500;

/// The gears of a head, ready for searching.
pub(super) struct Drawer<'a> {
    head: &'a Head,
    sizes: Vec<u16>,
    circles: Vec<i64>,
    owned: u8,
}

/// Two gears side by side, the smaller first, and the product of their teeth.
type Couple = (i64, u16, u16);

impl<'a> Drawer<'a> {
    pub(super) fn of(head: &'a Head) -> Drawer<'a> {
        // A whole turn is a circle of one hole: any circle does for it.
        let circles = head.circles().into_iter().filter(|holes| *holes > 1).map(i64::from);
        Drawer {
            head,
            sizes: sizes(head.gears.iter().copied()),
            circles: core::iter::once(1).chain(circles).collect(),
            owned: u8::try_from(head.gears.len()).unwrap_or(u8::MAX),
        }
    }

    fn owns(&self, gears: &[u16]) -> bool {
        let count = |teeth: u16, among: &[u16]| among.iter().filter(|gear| **gear == teeth).count();
        gears.iter().all(|teeth| count(*teeth, gears) <= count(*teeth, &self.head.gears))
    }

    fn in_mesh(&self, (driver, driven): (u16, u16)) -> bool {
        let sum = u32::from(driver).saturating_add(driven.into());
        self.head
            .centres_teeth
            .is_none_or(|(least, most)| (u32::from(least)..=u32::from(most)).contains(&sum))
    }

    /// The order of mounting with the greatest least clearance; none where the limits forbid all.
    fn mounted(&self, drivers: (u16, u16), driven: (u16, u16)) -> Option<[(u16, u16); 2]> {
        let (a, c) = drivers;
        let (b, d) = driven;
        let orders = [[(a, b), (c, d)], [(a, d), (c, b)], [(c, b), (a, d)], [(c, d), (a, b)]];
        let clear = |[(a, b), (c, d)]: &[(u16, u16); 2]| {
            let over = |one: u16, two: u16, next: u16| {
                i32::from(one).saturating_add(two.into()).saturating_sub(next.into())
            };
            over(*a, *b, *c).min(over(*c, *d, *b))
        };
        let meshing =
            orders.into_iter().filter(|order| order.iter().all(|pair| self.in_mesh(*pair)));
        let best = meshing.max_by_key(clear)?;
        let least = self.head.stud_clearance_teeth.map(i32::from);
        least.is_none_or(|k| clear(&best) > k).then_some(best)
    }

    /// Every driver and driven gear that mesh, a size on both sides only if two are owned.
    fn single_pairs(&self) -> Vec<(u16, u16)> {
        let each = |driver: &u16| {
            let driver = *driver;
            self.sizes.iter().map(move |driven| (driver, *driven))
        };
        let all = self.sizes.iter().flat_map(each);
        all.filter(|pair| self.owns(&[pair.0, pair.1]) && self.in_mesh(*pair)).collect()
    }

    /// Every two gears, in the order of their products.
    fn couples(&self) -> Vec<Couple> {
        let mut couples = Vec::new();
        for (at, one) in self.sizes.iter().enumerate() {
            for other in self.sizes.iter().skip(at) {
                if self.owns(&[*one, *other]) {
                    couples.push((mul((*one).into(), (*other).into()), *one, *other));
                }
            }
        }
        couples.sort_unstable();
        couples
    }

    /// Calls `found` with every exact setting of one pair.
    ///
    /// The plate turns R − N·x for one turn of the spindle, where x turns are the move (after the
    /// formula (n − N)·R/n in scribd.com/document/704783930 s. 1.15.4, n = R/x); positive is with
    /// the crank. So x = (R ∓ driver/driven)/N must be whole turns or fall in a hole.
    pub(super) fn each_one_pair(&self, divisions: u32, mut found: impl FnMut(Setting)) {
        if self.head.pairs_max == 0 {
            return;
        }
        for pair in self.single_pairs() {
            let (driver, driven) = (i64::from(pair.0), i64::from(pair.1));
            for &circle in &self.circles {
                let turned = mul(driver, circle);
                if divides(driven, turned) {
                    let train = Train::one(pair, true, self.owned);
                    self.moves(divisions, circle, quot(turned, driven), |spaces, with_crank| {
                        found(setting(circle, spaces, train.turning(with_crank)));
                    });
                }
            }
        }
    }

    /// Calls `found` with every exact setting of two pairs: each choice of drivers and of driven
    /// gears once, in an order that can be mounted. False where the search was cut short.
    ///
    /// For two driven gears b·d and a circle of H holes the plate's turns are a multiple of 1/H
    /// only for drivers whose product is a multiple of b·d over its greatest common divisor with
    /// H; those products are gone through in order and looked up among the couples owned.
    pub(super) fn each_two_pairs(&self, divisions: u32, mut found: impl FnMut(Setting)) -> bool {
        if self.head.pairs_max < 2 {
            return true;
        }
        let couples = self.couples();
        let Some((most, _, _)) = couples.last().copied() else { return true };
        let mut looks = MOST_LOOKS;
        for &(below, b, d) in &couples {
            for &circle in &self.circles {
                let common = gcd(below, circle);
                let (every, parts) = (quot(below, common), quot(circle, common));
                let Ok(steps) = u32::try_from(quot(most, every)) else { return false };
                let Some(left) = looks.checked_sub(steps.saturating_add(1)) else { return false };
                looks = left;
                let (mut product, mut turned, mut fours) = (0i64, 0i64, 0u32);
                for _ in 0..steps {
                    product = product.saturating_add(every);
                    turned = turned.saturating_add(parts);
                    self.moves(divisions, circle, turned, |spaces, with_crank| {
                        let from = couples.partition_point(|couple| couple.0 < product);
                        let these = couples.iter().skip(from).take_while(|c| c.0 == product);
                        for &(_, a, c) in these {
                            fours = fours.saturating_add(LOOKS_FOR_FOUR);
                            if !self.owns(&[a, c, b, d]) {
                                continue;
                            }
                            if let Some(pairs) = self.mounted((a, c), (b, d)) {
                                let train = Train::two(pairs, with_crank, self.owned);
                                found(setting(circle, spaces, train));
                            }
                        }
                    });
                }
                looks = looks.saturating_sub(fours);
            }
        }
        true
    }

    /// Calls `found` with the spaces and the direction of each move that makes the divisions
    /// while the plate turns so many spaces for one turn of the spindle.
    fn moves(&self, divisions: u32, circle: i64, turned: i64, mut found: impl FnMut(i64, bool)) {
        let all = mul(self.head.worm_ratio.into(), circle);
        let n = i64::from(divisions);
        for with_crank in [true, false] {
            let spaces = match with_crank {
                true => all.saturating_sub(turned),
                false => all.saturating_add(turned),
            };
            if spaces > 0 && divides(n, spaces) {
                let spaces = quot(spaces, n);
                if is_own(spaces, circle) {
                    found(spaces, with_crank);
                }
            }
        }
    }

    /// Every ratio that the gears give, lowest first and each once, with the fewest pairs; and
    /// whether none is left out.
    pub(super) fn ratios(&self) -> (Vec<Geared>, bool) {
        let mut ratios: Vec<Geared> = Vec::new();
        let mut complete = true;
        let mut add = |above: i64, below: i64, train: Train| {
            let common = gcd(above, below);
            ratios.push((quot(above, common), quot(below, common), train));
        };
        if self.head.pairs_max > 0 {
            for pair in self.single_pairs() {
                add(pair.0.into(), pair.1.into(), Train::one(pair, true, self.owned));
            }
        }
        if self.head.pairs_max > 1 {
            let couples = self.couples();
            complete = couples.len() <= MOST_COUPLES;
            for &(above, a, c) in couples.iter().filter(|_| complete) {
                for &(below, b, d) in &couples {
                    if self.owns(&[a, c, b, d])
                        && let Some(pairs) = self.mounted((a, c), (b, d))
                    {
                        add(above, below, Train::two(pairs, true, self.owned));
                    }
                }
            }
        }
        ratios.sort_by(|(a, b, one), (c, d, other)| {
            let fewer = one.pairs().len().cmp(&other.pairs().len());
            mul(*a, *d).cmp(&mul(*c, *b)).then(fewer)
        });
        ratios.dedup_by(|(a, b, _), (c, d, _)| (a, b) == (c, d));
        (ratios, complete)
    }

    /// The nearest setting, the same move each time, and whether every one was looked at.
    ///
    /// # Errors
    ///
    /// [`RatioError::Overflow`], beyond the shop's limits only.
    pub(super) fn nearest(&self, divisions: u32) -> Result<(Option<Way>, bool), RatioError> {
        let (ratios, every_ratio) = self.ratios();
        let mut search = Nearest::of(&ratios, self.head.worm_ratio, divisions);
        let complete = search.on(&self.circles)? && every_ratio;
        let Some((closing, setting)) = search.best else { return Ok((None, complete)) };
        let each = closing.abs().div(divisions.into())?;
        let worst = each.mul(divisions.saturating_sub(1).into())?;
        let way = Way::exact(setting, divisions, self.head.worm_ratio);
        Ok((Some(Way { exact: closing.is_zero(), worst, closing, ..way }), complete))
    }
}

/// Every exact setting of one pair, in the order of what there is to count.
#[must_use]
pub fn one_pair(divisions: u32, head: &Head) -> Vec<Way> {
    let mut ways = Vec::new();
    Drawer::of(head).each_one_pair(divisions, |setting| {
        ways.push(Way::exact(setting, divisions, head.worm_ratio));
    });
    ways.sort_by_key(|way| way.setting.burden());
    ways
}

/// Every exact setting of two pairs, in the order of what there is to count, and whether the
/// search was complete.
#[must_use]
pub fn two_pairs(divisions: u32, head: &Head) -> (Vec<Way>, bool) {
    let mut ways = Vec::new();
    let complete = Drawer::of(head).each_two_pairs(divisions, |setting| {
        ways.push(Way::exact(setting, divisions, head.worm_ratio));
    });
    ways.sort_by_key(|way| way.setting.burden());
    (ways, complete)
}

/// The nearest setting of one pair or two, and whether the search was complete.
///
/// # Errors
///
/// [`RatioError::Overflow`], beyond the shop's limits only.
pub fn nearest_way(divisions: u32, head: &Head) -> Result<(Option<Way>, bool), RatioError> {
    Drawer::of(head).nearest(divisions)
}

pub(super) fn setting(circle: i64, spaces: i64, train: Train) -> Setting {
    Setting::Differential {
        turns: super::direct::step(quot(spaces, circle)),
        holes: small(rem(spaces, circle)),
        circle: if circle > 1 { Some(small(circle)) } else { None },
        train,
    }
}
