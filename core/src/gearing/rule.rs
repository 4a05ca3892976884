//! Does it go on? Every rule boiled down to whole numbers of teeth.

use super::{Banjo, Drawer, GearingError, Mounting, Pair};
use crate::exact::Ratio;

/// The best order that a selection can be put in.
#[derive(Clone, Copy, Debug)]
pub(super) struct Mounted {
    /// Whether it goes on.
    pub(super) fits: bool,
    /// The least, over every gear that must clear a neighbour's shaft, of what the
    /// distance of the centres leaves (A + B − C and its like), in teeth.
    pub(super) slack: i32,
    /// The pairs in that order.
    pub(super) pairs: [Pair; 3],
}

/// A mounting rule in teeth. As every gear is a whole number of teeth, a
/// length compared with a sum of teeth may be rounded to the whole number on its safe side, and
/// nothing is lost: a + b > k is a + b ≥ ⌊k⌋ + 1, whatever fraction k is.
#[derive(Clone, Copy, Debug)]
pub(super) struct Rule {
    kind: Kind,
    /// What the slack must pass, as it stands: k, or 2 + 2·boss/m.
    needed: Ratio,
    /// The least whole number that does.
    slack: i32,
    /// Least and most of the sum of each meshing pair (the second pair alone, on a banjo).
    sums: (i32, i32),
    /// On a banjo: least sum of all four gears, most difference of the two pairs' sums.
    reach: i32,
    apart: i32,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Free,
    Shop,
    Banjo,
}

/// Beyond any sum of teeth.
const ENDLESS: i32 = 1_000_000;

/// `⌊number⌋`, or as good as endless.
fn floor(number: Ratio) -> i32 {
    let whole = number.floor().clamp(i128::from(-ENDLESS), i128::from(ENDLESS));
    i32::try_from(whole).unwrap_or(ENDLESS)
}

fn ceil(number: Ratio) -> i32 {
    floor(number.neg()).saturating_neg()
}

impl Rule {
    pub(super) fn new(mounting: &Mounting) -> Result<Rule, GearingError> {
        let open = Rule {
            kind: Kind::Free,
            needed: Ratio::ZERO,
            slack: -ENDLESS,
            sums: (-ENDLESS, ENDLESS),
            reach: -ENDLESS,
            apart: ENDLESS,
        };
        match mounting {
            Mounting::Free => Ok(open),
            Mounting::Shop { stud_clearance_teeth, centres_teeth } => {
                let needed = Ratio::from(*stud_clearance_teeth);
                let teeth = |n: u32| floor(Ratio::from(n));
                let (least, most) = centres_teeth.unwrap_or((0, u32::MAX));
                if least > most {
                    return Err(GearingError::Reversed("the sums of meshing teeth"));
                }
                Ok(Rule {
                    kind: Kind::Shop,
                    needed,
                    slack: floor(needed).saturating_add(1),
                    sums: (teeth(least), teeth(most)),
                    ..open
                })
            }
            Mounting::Mesh(least, most) => {
                let sums = Mounting::Shop {
                    stud_clearance_teeth: 0,
                    centres_teeth: Some((*least, *most)),
                };
                Ok(Rule { needed: open.needed, slack: open.slack, ..Rule::new(&sums)? })
            }
            Mounting::Banjo(banjo) => Rule::banjo(banjo),
        }
    }

    fn banjo(banjo: &Banjo) -> Result<Rule, GearingError> {
        let (from, to) = banjo.slot;
        for (what, length, least) in [
            ("the module", banjo.module, true),
            ("the distance of the centres", banjo.centres, true),
            ("the slot's far end", to, true),
            ("the slot's near end", from, false),
            ("the boss's radius", banjo.boss_radius, false),
        ] {
            if length.is_negative() || (least && length.is_zero()) {
                return Err(GearingError::NotPositive(what, length));
            }
        }
        if from > to {
            return Err(GearingError::Reversed("the slot"));
        }
        // d = m(A + B)/2, so any length l is 2l/m of teeth.
        let teeth = |length: Ratio| length.mul(Ratio::whole(2))?.div(banjo.module);
        let needed = teeth(banjo.boss_radius)?.add(Ratio::whole(2))?;
        let centres = teeth(banjo.centres)?;
        Ok(Rule {
            kind: Kind::Banjo,
            needed,
            slack: floor(needed).saturating_add(1),
            sums: (ceil(teeth(from)?), floor(teeth(to)?)),
            reach: ceil(centres),
            apart: floor(centres),
        })
    }

    /// Whether nothing is ever refused.
    pub(super) fn is_free(&self) -> bool {
        self.kind == Kind::Free
    }

    /// Whether it is a banjo's.
    pub(super) fn is_banjo(&self) -> bool {
        self.kind == Kind::Banjo
    }

    /// Whether so many pairs never go on as they are: three on a banjo, nor one without an idler.
    pub(super) fn never(&self, pairs: u8) -> bool {
        self.is_banjo() && pairs != 2
    }

    /// Whether so many pairs are worth trying at all from this drawer.
    pub(super) fn hopeless(&self, pairs: usize, drawer: &Drawer) -> bool {
        let largest = drawer.teeth().last().copied().map_or(0, i32::from);
        match (self.kind, pairs) {
            (Kind::Free, _) | (_, 1) => false,
            (Kind::Banjo, 3) => true,
            // (A + B − C) + (C + D − B) is A + D.
            _ => largest < self.slack,
        }
    }

    /// What clearance there is above what is needed, if the rule asks this train for any.
    pub(super) fn clearance(&self, pairs: u8, slack: i32) -> Option<Ratio> {
        if (pairs == 1 && self.kind != Kind::Banjo) || self.slack == -ENDLESS && !self.is_free() {
            return None;
        }
        Ratio::whole(i64::from(slack)).sub(self.needed).ok()
    }

    /// The sum of one meshing pair within its limits, where each pair has them.
    const fn in_mesh(&self, sum: i32) -> bool {
        self.sums.0 <= sum && sum <= self.sums.1
    }

    /// Whether C→D meshes where a second pair has to.
    pub(super) fn may_be_second(&self, pair: Pair) -> bool {
        self.in_mesh(i32::from(pair.driver).wrapping_add(i32::from(pair.driven)))
    }

    /// Whether A→B goes on ahead of C→D, and the slack at the stud between.
    pub(super) fn stud(&self, first: Pair, second: Pair) -> (bool, i32) {
        let [a, b, c, d] =
            [first.driver, first.driven, second.driver, second.driven].map(i32::from);
        let (one, two) = (a.wrapping_add(b), c.wrapping_add(d));
        let slack = one.wrapping_sub(c).min(two.wrapping_sub(b));
        let placed = match self.kind {
            Kind::Free => true,
            Kind::Shop => self.in_mesh(one) && self.in_mesh(two),
            Kind::Banjo => {
                self.in_mesh(two)
                    && one.wrapping_add(two) >= self.reach
                    && one.wrapping_sub(two).wrapping_abs() <= self.apart
            }
        };
        (placed && slack >= self.slack, slack)
    }

    /// Whether a single pair reaches across the banjo with this idler.
    pub(super) fn reaches(&self, pair: Pair, idler: u16) -> bool {
        let (a, d, i) = (i32::from(pair.driver), i32::from(pair.driven), i32::from(idler));
        let ends = a.wrapping_add(d).wrapping_add(i.wrapping_mul(2));
        // With B = C = I the slack is A on the one side and D on the other.
        self.kind == Kind::Banjo
            && a.min(d) >= self.slack
            && a.wrapping_sub(d).wrapping_abs() <= self.apart
            && self.in_mesh(i.wrapping_add(d))
            && ends >= self.reach
    }

    /// The smallest idler in the drawer with which a single pair reaches across the banjo.
    pub(super) fn idler(&self, pair: Pair, drawer: &Drawer) -> Option<u16> {
        drawer.sizes().find_map(|(teeth, owned)| {
            let used =
                u8::from(teeth == pair.driver).saturating_add(u8::from(teeth == pair.driven));
            (owned > used && self.reaches(pair, teeth)).then_some(teeth)
        })
    }

    /// Of every order in which these gears can be put, one that goes on if any does, and of
    /// those the one with the greatest least slack; the first such of a fixed sequence. Where
    /// `any` will do, the first that goes on.
    pub(super) fn mount(
        &self,
        pairs: usize,
        drivers: [u16; 3],
        driven: [u16; 3],
        drawer: &Drawer,
        any: bool,
    ) -> Mounted {
        let ([a, b, c], [x, y, z]) = (drivers, driven);
        let only = Pair { driver: a, driven: x };
        let pair = Pair::default();
        let none = Mounted { fits: false, slack: i32::MIN, pairs: [only, pair, pair] };
        let mut orders = Orders { best: none, any };
        match pairs {
            1 => {
                let (fits, slack) = self.single(only, drawer);
                orders.best = Mounted { fits, slack, ..none };
            }
            2 => self.double([a, b], [x, y], &mut orders),
            _ => self.triple([a, b, c], [x, y, z], &mut orders),
        }
        orders.best
    }

    /// Quickly, whether so many gears might go on that have so many teeth together: never false
    /// where they do.
    pub(super) fn may_sum(&self, pairs: usize, teeth: i32) -> bool {
        let pairs = pairs as i32;
        self.kind != Kind::Shop
            || self.sums.0.wrapping_mul(pairs) <= teeth && teeth <= self.sums.1.wrapping_mul(pairs)
    }

    /// Quickly, whether these gears (smallest first) might go on in some order: never false where they do.
    pub(super) fn may_fit(&self, pairs: usize, drivers: [u16; 3], driven: [u16; 3]) -> bool {
        let ([a, b, c], [x, y, z]) = (drivers.map(i32::from), driven.map(i32::from));
        let sum = |p: i32, q: i32| p.wrapping_add(q);
        let twice = self.slack.wrapping_mul(2);
        match (self.kind, pairs) {
            (Kind::Free, _) | (_, 1) => true,
            // (A + B − C) + (C + D − B) is A + D, and with the best order that is the largest two.
            (_, 2) => sum(b, y) >= twice,
            (Kind::Banjo, _) => false,
            // Likewise A + D and C + F, four different gears; and all meshing sums together.
            (Kind::Shop, _) => {
                let large = sum(c, z);
                let next = sum(b, y);
                let all = sum(sum(large, next), sum(a, x));
                large >= twice
                    && sum(large, next) >= twice.wrapping_mul(2)
                    && self.sums.0.wrapping_mul(3) <= all
                    && all <= self.sums.1.wrapping_mul(3)
            }
        }
    }

    /// Whether a single pair goes on, and its slack.
    pub(super) fn single(&self, pair: Pair, drawer: &Drawer) -> (bool, i32) {
        let (driver, driven) = (i32::from(pair.driver), i32::from(pair.driven));
        match self.kind {
            Kind::Free => (true, 0),
            Kind::Shop => (self.in_mesh(driver.wrapping_add(driven)), 0),
            Kind::Banjo => (self.idler(pair, drawer).is_some(), driver.min(driven)),
        }
    }

    /// Whether three pairs go on in this order, and the least slack at their two studs.
    pub(super) fn studs(&self, first: Pair, middle: Pair, last: Pair) -> (bool, i32) {
        let (one, above) = self.stud(first, middle);
        let (two, below) = self.stud(middle, last);
        (one && two && self.kind != Kind::Banjo, above.min(below))
    }

    fn double(&self, [a, b]: [u16; 2], [x, y]: [u16; 2], best: &mut Orders) {
        for (a, c) in [(a, b), (b, a)] {
            for (b, d) in [(x, y), (y, x)] {
                let first = Pair { driver: a, driven: b };
                let second = Pair { driver: c, driven: d };
                let (fits, slack) = self.stud(first, second);
                if best.add(fits, slack, [first, second, Pair::default()]) {
                    return;
                }
            }
        }
    }

    fn triple(&self, [a, b, c]: [u16; 3], [x, y, z]: [u16; 3], best: &mut Orders) {
        for (c, a, e) in [(a, b, c), (b, a, c), (c, a, b)] {
            for (d, b, f) in [(x, y, z), (y, x, z), (z, x, y)] {
                let middle = Pair { driver: c, driven: d };
                for (a, e) in [(a, e), (e, a)] {
                    for (b, f) in [(b, f), (f, b)] {
                        let first = Pair { driver: a, driven: b };
                        let last = Pair { driver: e, driven: f };
                        let (fits, slack) = self.studs(first, middle, last);
                        if best.add(fits, slack, [first, middle, last]) {
                            return;
                        }
                    }
                }
            }
        }
    }
}

/// The best of the orders tried.
struct Orders {
    best: Mounted,
    any: bool,
}

impl Orders {
    /// Tries one more. True where no more need be tried.
    fn add(&mut self, fits: bool, slack: i32, pairs: [Pair; 3]) -> bool {
        if (fits, slack) > (self.best.fits, self.best.slack) {
            self.best = Mounted { fits, slack, pairs };
        }
        self.any && fits
    }
}
