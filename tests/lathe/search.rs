//! Every way to divide a circle with what is owned, by plain counting through: what the least error is.

use latheside_core::exact::Ratio;
use serde_json::Value;
use std::collections::BTreeSet;

/// What there is to divide with, read from a setup's shop.
#[derive(Clone, Debug, Default)]
pub(crate) struct Kit {
    direct: Vec<u64>,
    half_tooth: bool,
    worm: Option<u64>,
    plates: Vec<Vec<u64>>,
    gears: Vec<u64>,
    pairs_max: usize,
}

impl Kit {
    pub(crate) fn of(shop: &Value) -> Kit {
        let numbers = |value: Option<&Value>| -> Vec<u64> {
            let list = value.and_then(Value::as_array).cloned().unwrap_or_default();
            list.iter().filter_map(Value::as_u64).collect()
        };
        let dividing = &shop["dividing"];
        let head = &dividing["head"];
        let mut direct = numbers(dividing.get("direct"));
        if dividing["any_change_gear"] == Value::Bool(true) {
            direct.extend(numbers(shop["lathe"].get("change_gears")));
        }
        Kit {
            direct,
            half_tooth: dividing["half_tooth"] == Value::Bool(true),
            worm: head["worm_ratio"].as_u64(),
            plates: head["plates"]
                .as_array()
                .map(|plates| plates.iter().map(|plate| numbers(Some(plate))).collect())
                .unwrap_or_default(),
            gears: numbers(head.get("gears")),
            pairs_max: head["pairs_max"].as_u64().unwrap_or(2) as usize,
        }
    }

    /// Whether something direct is owned, and whether something with a worm.
    pub(crate) fn owns(&self) -> (bool, bool) {
        (!self.direct.is_empty(), self.worm.is_some())
    }

    /// The least error of these places, in turns of the work, of single places come to by the nearest
    /// tooth or hole; nought where an exact way exists, by two pins or by gears too. `even` is how many
    /// there are where they are evenly spaced.
    pub(crate) fn least_error(&self, places: &[Ratio], even: Option<u64>, by: By) -> f64 {
        let mut steps: BTreeSet<u64> = BTreeSet::new();
        if by.direct {
            steps.extend(self.direct.iter().copied());
            if self.half_tooth {
                steps.extend(self.direct.iter().map(|teeth| teeth * 2));
            }
        }
        let worm = self.worm.filter(|_| by.head);
        if let Some(worm) = worm {
            steps.insert(worm);
            steps.extend(self.plates.iter().flatten().map(|circle| circle * worm));
        }
        let mut least = steps.iter().map(|of| nearest(places, *of)).fold(f64::INFINITY, f64::min);
        if let Some(worm) = worm {
            for plate in &self.plates {
                for (at, one) in plate.iter().enumerate() {
                    for other in &plate[at + 1..] {
                        if self.compounds(worm, *one, *other, places, even) {
                            least = 0.0;
                        }
                    }
                }
            }
            if even.is_some_and(|into| self.geared(worm, into)) {
                least = 0.0;
            }
        }
        least
    }

    /// Whether two circles of one plate together make every place.
    fn compounds(&self, worm: u64, a: u64, b: u64, places: &[Ratio], even: Option<u64>) -> bool {
        // One move repeated: R/N = turns + i/a + j/b.
        if let Some(into) = even {
            let worm = i128::from(worm);
            let (a, b, into) = (i128::from(a), i128::from(b), i128::from(into));
            for i in 1 - a..a {
                for j in 1 - b..b {
                    // R·a·b − N·(i·b + j·a) must be whole turns of N·a·b.
                    let left = worm * a * b - into * (i * b + j * a);
                    if i != 0 && j != 0 && left % (into * a * b) == 0 {
                        return true;
                    }
                }
            }
            return false;
        }
        let both = a / gcd(a, b) * b;
        nearest(places, both * worm) == 0.0
    }

    /// Whether gears from the spindle to the plate make it: R − N·holes/circle is a ratio of one pair, or two.
    fn geared(&self, worm: u64, into: u64) -> bool {
        let ratios = self.ratios();
        let most = ratios.iter().map(|(a, b)| a.div_ceil(*b)).max().unwrap_or(0);
        for circle in self.plates.iter().flatten() {
            for holes in 0..=((worm + most) * circle / into + 1) {
                // Whole turns need no circle, but are among them.
                let above = i128::from(worm * circle) - i128::from(into * holes);
                let above = u64::try_from(above.abs()).unwrap_or(0);
                let by = gcd(above, *circle);
                if above > 0 && ratios.contains(&(above / by, circle / by)) {
                    return true;
                }
            }
        }
        false
    }

    /// Every ratio of one pair and of two, in lowest terms; no gear is used twice unless owned twice.
    fn ratios(&self) -> BTreeSet<(u64, u64)> {
        let g = &self.gears;
        let mut found = BTreeSet::new();
        let mut add = |above: u64, below: u64| {
            let by = gcd(above, below);
            found.insert((above / by, below / by));
        };
        for (i, a) in g.iter().enumerate() {
            for (j, b) in g.iter().enumerate().filter(|(j, _)| *j != i) {
                if self.pairs_max >= 1 {
                    add(*a, *b);
                }
                if self.pairs_max < 2 {
                    continue;
                }
                for (k, c) in g.iter().enumerate().filter(|(k, _)| *k != i && *k != j) {
                    for (l, d) in g.iter().enumerate() {
                        if l != i && l != j && l != k {
                            add(a * c, b * d);
                        }
                    }
                }
            }
        }
        found
    }
}

/// Which of what is owned may be used.
#[derive(Clone, Copy, Debug)]
pub(crate) struct By {
    pub(crate) direct: bool,
    pub(crate) head: bool,
}

/// The most that a place is off the nearest of so many steps round, in turns.
fn nearest(places: &[Ratio], of: u64) -> f64 {
    let steps = Ratio::whole(i64::try_from(of).unwrap());
    let off = |place: &Ratio| {
        let at = place.mul(steps).unwrap();
        let near = Ratio::new(at.round(), 1).unwrap();
        at.sub(near).unwrap().abs().to_f64() / of as f64
    };
    places.iter().map(off).fold(0.0, f64::max)
}

fn gcd(a: u64, b: u64) -> u64 {
    if b == 0 { a } else { gcd(b, a % b) }
}
