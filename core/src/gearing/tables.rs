//! What depends on the drawer alone: the products of one, two and three of its gears, in order.

use super::{Drawer, GearingError};
use alloc::vec::Vec;

/// Up to three gears of a drawer, each by its place among the sizes, smallest first. The
/// places above the count hold nothing.
pub(super) type Gears = [u8; 3];

/// Every choice of so many gears from the drawer, by their product.
#[derive(Clone, Debug, Default)]
pub(super) struct Products {
    /// Each product once, ascending.
    pub(super) values: Vec<u32>,
    /// Where each product's choices begin, and at last where they end.
    starts: Vec<u32>,
    choices: Vec<Gears>,
}

impl Products {
    fn new(drawer: &Drawer, gears: u8) -> Products {
        let mut keyed: Vec<u64> = Vec::new();
        choose(drawer, gears, 0, 1, [0; 3], 0, &mut keyed);
        sort(&mut keyed);
        let mut products = Products::default();
        for key in keyed {
            let [a, b, c, _, product @ ..] = key.to_le_bytes();
            let product = u32::from_le_bytes(product);
            if products.values.last() != Some(&product) {
                products.values.push(product);
                products.starts.push(products.choices.len() as u32);
            }
            products.choices.push([a, b, c]);
        }
        products.starts.push(products.choices.len() as u32);
        products
    }

    /// The choices whose product stands in that place.
    pub(super) fn choices(&self, place: usize) -> &[Gears] {
        let from = self.starts.get(place).copied().unwrap_or(0) as usize;
        let to = self.starts.get(place.saturating_add(1)).copied().unwrap_or(0) as usize;
        self.choices.get(from..to).unwrap_or(&[])
    }
}

/// The one sorting that the whole room shares: each kind of thing sorted for itself would weigh
/// some 3 kB in the page.
#[inline(never)]
pub(crate) fn sort(keys: &mut [u64]) {
    keys.sort_unstable();
}

/// Adds every way of going on from the gears in hand, none smaller than the last.
fn choose(
    drawer: &Drawer,
    left: u8,
    at: u8,
    product: u32,
    hand: Gears,
    from: u8,
    out: &mut Vec<u64>,
) {
    if left == 0 {
        let [a, b, c] = hand;
        let [p, q, r, s] = product.to_le_bytes();
        out.push(u64::from_le_bytes([a, b, c, 0, p, q, r, s]));
        return;
    }
    for (place, &teeth) in (0_u8..).zip(drawer.teeth()).skip(usize::from(from)) {
        let in_hand = hand.iter().take(usize::from(at)).filter(|&&held| held == place).count();
        if in_hand >= usize::from(drawer.owned_at(place)) {
            continue;
        }
        let mut more = hand;
        if let Some(slot) = more.get_mut(usize::from(at)) {
            *slot = place;
        }
        // Three gears of 999 teeth are below 2³⁰.
        let product = product.saturating_mul(u32::from(teeth));
        choose(drawer, left.saturating_sub(1), at.saturating_add(1), product, more, place, out);
    }
}

/// A drawer made ready for searching: build it once, ask it as often as the wish changes.
///
/// It holds every choice of one, two and three gears in the order of their products: 2,324
/// choices in under 30 kB from 24 different gears, 166,750 and under 3 MB from a hundred.
#[derive(Clone, Debug)]
pub struct Tables {
    pub(super) drawer: Drawer,
    pub(super) products: Vec<Products>,
}

impl Tables {
    /// Tables for trains of up to so many pairs.
    ///
    /// # Errors
    ///
    /// [`GearingError::Pairs`] unless it is one, two or three; [`GearingError::TooFewGears`]
    /// where the drawer doesn't hold a pair.
    pub fn new(drawer: &Drawer, pairs_max: u8) -> Result<Tables, GearingError> {
        if !(1..=3).contains(&pairs_max) {
            return Err(GearingError::Pairs(pairs_max));
        }
        if drawer.gears() < 2 {
            return Err(GearingError::TooFewGears(drawer.gears()));
        }
        let products = (1..=pairs_max).map(|gears| Products::new(drawer, gears)).collect();
        Ok(Tables { drawer: drawer.clone(), products })
    }

    /// The drawer that they were made from.
    #[must_use]
    pub fn drawer(&self) -> &Drawer {
        &self.drawer
    }

    /// The most pairs that they are good for.
    #[must_use]
    pub fn pairs_max(&self) -> u8 {
        u8::try_from(self.products.len()).unwrap_or(3)
    }

    /// How many bytes the tables hold.
    #[must_use]
    pub fn bytes(&self) -> usize {
        let of = |p: &Products| {
            let words = p.values.len().saturating_add(p.starts.len()).saturating_mul(4);
            words.saturating_add(p.choices.len().saturating_mul(3))
        };
        self.products.iter().map(of).sum()
    }

    /// Whether so many drivers and driven gears can be had together.
    pub(super) fn together(&self, pairs: usize, drivers: Gears, driven: Gears) -> bool {
        let drivers = drivers.get(..pairs).unwrap_or(&[]);
        let driven = driven.get(..pairs).unwrap_or(&[]);
        driven.iter().all(|gear| {
            let above = drivers.iter().filter(|&held| held == gear).count();
            above == 0 || {
                let below = driven.iter().filter(|&held| held == gear).count();
                above.saturating_add(below) <= usize::from(self.drawer.owned_at(*gear))
            }
        })
    }
}

#[cfg(test)]
#[allow(clippy::arithmetic_side_effects)]
mod tests {
    use super::*;

    fn tables(gears: &[u32]) -> Tables {
        Tables::new(&Drawer::new(gears).unwrap(), 3).unwrap()
    }

    #[test]
    fn every_choice_is_there_once_and_in_order() {
        // Triples of 15 different gears: 455; with one of them doubled, 14 more.
        let fifteen: Vec<u32> = (1..=15).map(|n| n * 5).collect();
        let t = tables(&fifteen);
        let counts: Vec<usize> = t.products.iter().map(|p| p.choices.len()).collect();
        assert_eq!(counts, [15, 105, 455]);
        let mut more = fifteen.clone();
        more.push(5);
        let counts: Vec<usize> = tables(&more).products.iter().map(|p| p.choices.len()).collect();
        assert_eq!(counts, [15, 106, 455 + 14]);
        for products in &t.products {
            assert!(products.values.is_sorted_by(|a, b| a < b));
        }
    }

    #[test]
    fn the_largest_drawer_stays_small() {
        let ordinary: Vec<u32> = (20..44).collect();
        let t = tables(&ordinary);
        assert_eq!(t.products.iter().map(|p| p.choices.len()).sum::<usize>(), 2324);
        assert!(t.bytes() < 30_000, "{}", t.bytes());
        let hundred: Vec<u32> = (900..=999).collect();
        let t = tables(&hundred);
        assert_eq!(t.products.iter().map(|p| p.choices.len()).sum::<usize>(), 100 + 4950 + 161_700);
        assert!(t.bytes() < 3_000_000, "{}", t.bytes());
        assert_eq!(t.products.last().unwrap().values.last(), Some(&(999 * 998 * 997)));
    }

    #[test]
    fn a_gear_owned_once_is_not_on_both_sides() {
        let t = tables(&[20, 20, 30, 40]);
        assert!(t.together(2, [0, 1, 9], [0, 2, 9]));
        assert!(!t.together(2, [0, 1, 9], [1, 2, 9]));
        assert!(!t.together(2, [0, 0, 9], [0, 1, 9]));
        assert!(t.together(1, [0, 1, 9], [2, 1, 9]));
    }

    #[test]
    fn no_tables_for_no_pairs() {
        let drawer = Drawer::new(&[20]).unwrap();
        assert_eq!(Tables::new(&drawer, 2).unwrap_err(), GearingError::TooFewGears(1));
        let drawer = Drawer::new(&[20, 20]).unwrap();
        assert_eq!(Tables::new(&drawer, 0).unwrap_err(), GearingError::Pairs(0));
        assert_eq!(Tables::new(&drawer, 4).unwrap_err(), GearingError::Pairs(4));
        assert_eq!(Tables::new(&drawer, 3).unwrap().pairs_max(), 3);
    }
}
