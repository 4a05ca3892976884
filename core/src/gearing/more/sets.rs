//! Sets of one, two or three gears to be added, each by its number, and marks upon them.

use alloc::vec;
use alloc::vec::Vec;

/// n, n(n+1)/2, n(n+1)(n+2)/6: how many sets of so many gears there are of n sizes, a size as often
/// as one likes.
pub(crate) const fn count(sizes: u32, gears: u8) -> u32 {
    let n = sizes as u64;
    let two = n.wrapping_mul(n.wrapping_add(1)) / 2;
    let sets = match gears {
        0 => 1,
        1 => n,
        2 => two,
        _ => two.wrapping_mul(n.wrapping_add(2)) / 3,
    };
    if sets > u32::MAX as u64 { u32::MAX } else { sets as u32 }
}

/// The number of the set of these places: those without the largest size come before those with it.
pub(crate) fn number(places: &[u16]) -> u32 {
    let sorted = |mut list: [u16; 3]| {
        let [a, b, c] = &mut list;
        for _ in 0..2 {
            if a > b {
                core::mem::swap(a, b);
            }
            if b > c {
                core::mem::swap(b, c);
            }
        }
        list.map(u32::from)
    };
    match *places {
        [] => 0,
        [x] => x.into(),
        [x, y] => {
            let [_, x, y] = sorted([0, x, y]);
            count(y, 2).wrapping_add(x)
        }
        [x, y, z, ..] => {
            let [x, y, z] = sorted([x, y, z]);
            count(z, 3).wrapping_add(count(y, 2)).wrapping_add(x)
        }
    }
}

/// Calls with every set in the order of their numbers.
pub(crate) fn each(sizes: u16, gears: u8, mut call: impl FnMut(&[u16])) {
    let last = sizes.saturating_sub(1);
    let one = |from: bool, to: u16| if from { 0..=to } else { 0..=0 };
    if sizes == 0 {
        return;
    }
    for z in one(gears > 2, last) {
        for y in one(gears > 1, if gears > 2 { z } else { last }) {
            for x in one(gears > 0, if gears > 1 { y } else { last }) {
                call([x, y, z].get(..usize::from(gears)).unwrap_or(&[]));
            }
        }
    }
}

/// A mark for each set of so many gears.
#[derive(Clone, Debug, Default)]
pub(crate) struct Marks {
    words: Vec<u64>,
}

impl Marks {
    pub(crate) fn new(sets: u32) -> Marks {
        Marks { words: vec![0; (sets as usize).div_ceil(64)] }
    }

    pub(crate) fn has(&self, set: u32) -> bool {
        self.words.get((set >> 6) as usize).is_some_and(|word| word >> (set & 63) & 1 == 1)
    }

    pub(crate) fn put(&mut self, set: u32) {
        if let Some(word) = self.words.get_mut((set >> 6) as usize) {
            *word |= 1 << (set & 63);
        }
    }

    /// Calls with every set that is marked.
    pub(crate) fn each(&self, mut call: impl FnMut(usize)) {
        for (at, &word) in self.words.iter().enumerate() {
            let mut left = word;
            while left != 0 {
                call(at.wrapping_mul(64).wrapping_add(left.trailing_zeros() as usize));
                left &= left.wrapping_sub(1);
            }
        }
    }

    /// Whether none is.
    pub(crate) fn none(&self) -> bool {
        self.words.iter().all(|&word| word == 0)
    }

    /// Marks every set of so many gears that has a marked one of one gear fewer in it.
    pub(crate) fn inherit(&mut self, fewer: &Marks, sizes: u16, gears: u8) {
        if fewer.none() {
            return;
        }
        let mut set = 0_u32;
        each(sizes, gears, |places| {
            let marked = match *places {
                [x, y] => fewer.has(x.into()) || fewer.has(y.into()),
                [x, y, z] => {
                    let pair = |x, y| count(u32::from(y), 2).wrapping_add(x);
                    let x = u32::from(x);
                    fewer.has(pair(x, y)) || fewer.has(pair(x, z)) || fewer.has(pair(y.into(), z))
                }
                _ => false,
            };
            if marked {
                self.put(set);
            }
            set = set.wrapping_add(1);
        });
    }

    pub(crate) fn bytes(&self) -> usize {
        self.words.len().wrapping_mul(8)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_numbers_run_through() {
        for gears in 0..=3 {
            for sizes in 1..9 {
                let mut next = 0;
                each(sizes, gears, |places| {
                    assert!(places.is_sorted());
                    assert_eq!(number(places), next, "{places:?}");
                    let mut mixed = places.to_vec();
                    mixed.reverse();
                    assert_eq!(number(&mixed), next);
                    next += 1;
                });
                assert_eq!(next, count(sizes.into(), gears), "{sizes} {gears}");
            }
        }
        assert_eq!(number(&[2, 0, 1]), number(&[0, 1, 2]));
        assert_eq!(count(108, 3), 108 * 109 * 110 / 6);
        each(0, 2, |_| panic!("there is nothing to add"));
    }

    #[test]
    fn a_set_has_what_its_parts_have() {
        let (mut one, mut two, mut three) = (Marks::new(5), Marks::new(15), Marks::new(35));
        one.put(3);
        two.put(number(&[0, 4]));
        two.inherit(&one, 5, 2);
        three.inherit(&two, 5, 3);
        each(5, 3, |places| {
            let has = |p: u16| places.contains(&p);
            assert_eq!(three.has(number(places)), has(3) || has(0) && has(4), "{places:?}");
        });
        let mut all = 0;
        two.each(|_| all += 1);
        assert_eq!(all, 5 + 1);
    }
}
