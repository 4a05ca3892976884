//! Change gears the plain way: try everything.
//!
//! Written from the rules' own words, and sharing with core only the types of its questions.

use latheside_core::exact::Ratio;
use latheside_core::gearing::{Mounting, Request};

/// Every choice of `count` gears, smallest first, from `(teeth, owned)`.
#[must_use]
pub fn choices(sizes: &[(u16, u8)], count: usize) -> Vec<Vec<u16>> {
    if count == 0 {
        return vec![vec![]];
    }
    let mut all = Vec::new();
    for shorter in choices(sizes, count - 1) {
        for &(teeth, owned) in sizes {
            let in_hand = shorter.iter().filter(|&&g| g == teeth).count();
            if shorter.last().is_none_or(|&last| last <= teeth) && in_hand < usize::from(owned) {
                all.push([shorter.clone(), vec![teeth]].concat());
            }
        }
    }
    all
}

/// How many of each size, from a list.
#[must_use]
pub fn sizes(gears: &[u32]) -> Vec<(u16, u8)> {
    let mut sizes: Vec<(u16, u8)> = Vec::new();
    let mut sorted = gears.to_vec();
    sorted.sort_unstable();
    for gear in sorted {
        let gear = u16::try_from(gear).expect("a gear");
        match sizes.last_mut() {
            Some((teeth, owned)) if *teeth == gear => *owned += 1,
            _ => sizes.push((gear, 1)),
        }
    }
    sizes
}

/// Calls back with every selection: drivers, driven.
pub fn every_selection(gears: &[u32], pairs_max: u8, mut each: impl FnMut(&[u16], &[u16])) {
    let sizes = sizes(gears);
    for pairs in 1..=usize::from(pairs_max) {
        let sides = choices(&sizes, pairs);
        for drivers in &sides {
            for driven in &sides {
                let used = |teeth: u16| {
                    drivers.iter().filter(|&&g| g == teeth).count()
                        + driven.iter().filter(|&&g| g == teeth).count()
                };
                if sizes.iter().all(|&(teeth, owned)| used(teeth) <= usize::from(owned)) {
                    each(drivers, driven);
                }
            }
        }
    }
}

/// Every order of a few things.
#[must_use]
pub fn orders(of: &[u16]) -> Vec<Vec<u16>> {
    if of.is_empty() {
        return vec![vec![]];
    }
    let mut all = Vec::new();
    for at in 0..of.len() {
        let mut rest = of.to_vec();
        let first = rest.remove(at);
        for tail in orders(&rest) {
            all.push([vec![first], tail].concat());
        }
    }
    all
}

/// Whether a train goes on in this very order, by the words of the rule, and its least clearance in teeth
/// (above k, or above 2 + 2·boss/m) where it has to have any.
#[must_use]
pub fn goes_on(
    mounting: &Mounting,
    sizes: &[(u16, u8)],
    drivers: &[u16],
    driven: &[u16],
) -> (bool, Option<Ratio>) {
    let teeth = |n: u16| Ratio::from(u32::from(n));
    let whole = |n: i64| Ratio::whole(n);
    let minus = |a: Ratio, b: Ratio| a.sub(b).expect("small");
    let plus = |a: Ratio, b: Ratio| a.add(b).expect("small");
    let times = |a: Ratio, b: Ratio| a.mul(b).expect("small");
    match *mounting {
        Mounting::Free | Mounting::Shop { .. } | Mounting::Mesh(..) => {
            let (k, centres) = match *mounting {
                Mounting::Shop { stud_clearance_teeth: k, centres_teeth } => (k, centres_teeth),
                Mounting::Mesh(least, most) => (0, Some((least, most))),
                _ => (0, None),
            };
            let mut slacks = Vec::new();
            for stud in 1..drivers.len() {
                let (a, b) = (i64::from(drivers[stud - 1]), i64::from(driven[stud - 1]));
                let (c, d) = (i64::from(drivers[stud]), i64::from(driven[stud]));
                slacks.push(a + b - (c + i64::from(k)));
                slacks.push(c + d - (b + i64::from(k)));
            }
            let sums = drivers.iter().zip(driven).map(|(&a, &b)| u32::from(a) + u32::from(b));
            let placed = centres
                .is_none_or(|(least, most)| sums.clone().all(|sum| least <= sum && sum <= most));
            let asks = matches!(mounting, Mounting::Shop { .. });
            let clear = !asks || slacks.iter().all(|&slack| slack > 0);
            let free = matches!(mounting, Mounting::Free);
            let least = slacks.iter().min().map(|&slack| whole(slack));
            (free || placed && clear, least.filter(|_| free || asks))
        }
        Mounting::Banjo(banjo) => {
            let d = |x: Ratio, y: Ratio| times(times(banjo.module, plus(x, y)), Ratio::of(1, 2));
            let tip = |x: Ratio| plus(d(x, whole(2)), banjo.boss_radius);
            // In mm; half the module is a tooth.
            let in_teeth = |mm: Ratio| mm.mul(whole(2)).and_then(|t| t.div(banjo.module)).unwrap();
            let fits = |a: Ratio, b: Ratio, c: Ratio, e: Ratio| {
                let (d1, d2) = (d(a, b), d(c, e));
                let clear = minus(d1, tip(c)).min(minus(d2, tip(b)));
                let on = banjo.slot.0 <= d2
                    && d2 <= banjo.slot.1
                    && minus(d1, d2).abs() <= banjo.centres
                    && banjo.centres <= plus(d1, d2)
                    && d1 > tip(c)
                    && d2 > tip(b);
                (on, in_teeth(clear))
            };
            match (drivers, driven) {
                (&[a], &[b]) => {
                    let mut on = false;
                    for &(idler, owned) in sizes {
                        let used = u8::from(idler == a) + u8::from(idler == b);
                        let i = teeth(idler);
                        on |= owned > used && fits(teeth(a), i, i, teeth(b)).0;
                    }
                    let any = Ratio::ONE;
                    (on, Some(fits(teeth(a), any, any, teeth(b)).1))
                }
                (&[a, c], &[b, e]) => {
                    let (on, clear) = fits(teeth(a), teeth(b), teeth(c), teeth(e));
                    (on, Some(clear))
                }
                _ => {
                    let least = (1..drivers.len()).flat_map(|s| {
                        let (a, b) = (teeth(drivers[s - 1]), teeth(driven[s - 1]));
                        let (c, e) = (teeth(drivers[s]), teeth(driven[s]));
                        [minus(d(a, b), tip(c)), minus(d(c, e), tip(b))]
                    });
                    (false, least.min().map(in_teeth))
                }
            }
        }
    }
}

/// The best order of a selection: does it go on, and with what least clearance.
#[must_use]
pub fn mounted(
    mounting: &Mounting,
    sizes: &[(u16, u8)],
    drivers: &[u16],
    driven: &[u16],
) -> (bool, Option<Ratio>) {
    let mut best = None;
    for drivers in orders(drivers) {
        for driven in orders(driven) {
            let now = goes_on(mounting, sizes, &drivers, &driven);
            if best.is_none_or(|held| now > held) {
                best = Some(now);
            }
        }
    }
    best.expect("at least one order")
}

/// One selection through one gearbox position.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Way {
    /// The drivers, smallest first.
    pub drivers: Vec<u16>,
    /// The driven gears, smallest first.
    pub driven: Vec<u16>,
    /// Which gearbox position.
    pub gearbox: usize,
    /// cut / wanted − 1.
    pub error: Ratio,
    /// Whether it goes on in some order.
    pub mountable: bool,
    /// The greatest least clearance among the best orders.
    pub clearance: Option<Ratio>,
}

/// Everything, best first: mountable, least error, fewest pairs, greatest clearance.
#[must_use]
pub fn every_way(gears: &[u32], request: &Request<'_>) -> Vec<Way> {
    let sizes = sizes(gears);
    let mut ways = Vec::new();
    every_selection(gears, request.pairs_max, |drivers, driven| {
        let (mountable, clearance) = mounted(&request.mounting, &sizes, drivers, driven);
        let mut ratio = request.before_train;
        for (&a, &b) in drivers.iter().zip(driven) {
            ratio = ratio.mul(Ratio::of(i64::from(a), i64::from(b))).expect("small");
        }
        for (gearbox, &step) in request.gearbox.iter().enumerate() {
            let total = ratio.mul(step).expect("small");
            let error = total.div(request.target).and_then(|x| x.sub(Ratio::ONE)).expect("small");
            ways.push(Way {
                drivers: drivers.to_vec(),
                driven: driven.to_vec(),
                gearbox,
                error,
                mountable,
                clearance,
            });
        }
    });
    ways.sort_by_key(|way| {
        let room = std::cmp::Reverse(way.clearance);
        (!way.mountable, way.error.abs(), way.drivers.len(), room)
    });
    ways
}
