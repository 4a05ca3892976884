//! Random numbers from a seed, the same on every machine.

/// SplitMix64 (Steele, Lea and Flood, Fast Splittable Pseudorandom Number Generators, 2014).
#[derive(Clone, Debug)]
pub(crate) struct Random(u64);

impl Random {
    pub(crate) fn new(seed: u64) -> Random {
        Random(seed)
    }

    pub(crate) fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// From 0 up to `below`, without it.
    pub(crate) fn below(&mut self, below: usize) -> usize {
        (self.next() % below.max(1) as u64) as usize
    }

    /// Between two numbers, both of them possible.
    pub(crate) fn between(&mut self, from: i64, to: i64) -> i64 {
        from + (self.next() % (to - from + 1) as u64) as i64
    }

    pub(crate) fn one<'a, T: ?Sized>(&mut self, of: &[&'a T]) -> &'a T {
        of[self.below(of.len())]
    }

    /// True so many times in a hundred.
    pub(crate) fn percent(&mut self, percent: u64) -> bool {
        self.next() % 100 < percent
    }
}
