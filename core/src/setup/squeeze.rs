//! A setup's bytes made short: each bit is guessed from the bytes before it, and only what the
//! guess leaves open is written.
//!
//! The guess mixes what followed the same last bytes before, as context-mixing packers do: a bit
//! that was expected costs next to nothing. It starts from having seen a few ordinary setups, the
//! primer. All in whole numbers, so that every machine guesses alike. Nothing here may change once
//! links are about: they are read by the same guesses.

use super::primer::PRIMER;
use alloc::vec;
use alloc::vec::Vec;

/// The most bytes that are squeezed or given back.
pub(super) const MOST: usize = 16_384;

/// Guesses mixed: by none to five of the last bytes, and by the letters of a word so far.
const GUESSES: usize = 7;
/// Mixtures: by how many of the guesses have met their context, within a word and without.
const MIXTURES: usize = 16;
/// Slots for what was met.
const SLOTS: usize = 1 << 18;
/// A slot that has met nothing: even chances.
const UNMET: u16 = 2048 << 4;

/// The bytes in fewer.
pub(super) fn squeeze(bytes: &[u8]) -> Vec<u8> {
    squeezed(bytes, Model::new())
}

fn squeezed(bytes: &[u8], mut model: Model) -> Vec<u8> {
    let mut span = Span::ALL;
    let mut out = Vec::new();
    for byte in header(bytes.len()).iter().chain(bytes) {
        for at in (0..8).rev() {
            let bit = byte >> at & 1 == 1;
            let guess = model.guess();
            span.narrow(guess.chance, bit);
            model.learn(&guess, bit);
            while let Some(settled) = span.settled() {
                out.push(settled);
            }
        }
    }
    out.extend(span.last());
    out
}

/// The bytes that were squeezed; none where there would be more than [`MOST`], or where they would
/// have been squeezed otherwise.
pub(super) fn unsqueeze(packed: &[u8]) -> Option<Vec<u8>> {
    let mut ahead = packed.iter();
    let mut next = || u32::from(ahead.next().copied().unwrap_or(0));
    let primed = Model::new();
    let mut model = primed.clone();
    let mut span = Span::ALL;
    let mut here = 0;
    for _ in 0..4 {
        here = here << 8 | next();
    }
    let mut out: Vec<u8> = Vec::new();
    let mut wanted = 2;
    while out.len() < wanted {
        let mut byte = 0;
        for _ in 0..8 {
            let guess = model.guess();
            let bit = here <= span.middle(guess.chance);
            span.narrow(guess.chance, bit);
            model.learn(&guess, bit);
            while span.settled().is_some() {
                here = here << 8 | next();
            }
            byte = byte << 1 | u8::from(bit);
        }
        out.push(byte);
        if let [high, low] = out.as_slice() {
            wanted = usize::from(*high) << 8 | usize::from(*low);
            if wanted > MOST {
                return None;
            }
            wanted = wanted.saturating_add(2);
        }
    }
    let out = out.split_off(2);
    (squeezed(&out, primed) == packed).then_some(out)
}

fn header(len: usize) -> [u8; 2] {
    u16::try_from(len).unwrap_or(u16::MAX).to_be_bytes()
}

/// The numbers that a link so far may still be, from the first to the last.
struct Span {
    from: u32,
    to: u32,
}

impl Span {
    const ALL: Span = Span { from: 0, to: u32::MAX };

    /// The last number that says one, for that chance of a one in 4096ths.
    fn middle(&self, chance: i32) -> u32 {
        let wide = u64::from(self.to.wrapping_sub(self.from));
        let part = wide.wrapping_mul(u64::from(chance.unsigned_abs())) >> 12;
        self.from.wrapping_add(u32::try_from(part).unwrap_or(0))
    }

    fn narrow(&mut self, chance: i32, bit: bool) {
        let middle = self.middle(chance);
        if bit {
            self.to = middle;
        } else {
            self.from = middle.wrapping_add(1);
        }
    }

    /// The first byte, once nothing can change it any more.
    fn settled(&mut self) -> Option<u8> {
        let [first, ..] = self.from.to_be_bytes();
        let [other, ..] = self.to.to_be_bytes();
        if first != other {
            return None;
        }
        self.from <<= 8;
        self.to = self.to << 8 | 255;
        Some(first)
    }

    /// The fewest bytes that, noughts after them, are within it.
    fn last(&self) -> Vec<u8> {
        for (keep, rest) in
            [u32::MAX, u32::MAX >> 8, u32::MAX >> 16, u32::MAX >> 24].iter().enumerate()
        {
            // Up to the next number that ends in noughts.
            if let Some(up) = self.from.checked_add(*rest).map(|sum| sum & !rest)
                && up <= self.to
            {
                return up.to_be_bytes().into_iter().take(keep).collect();
            }
        }
        self.from.to_be_bytes().to_vec()
    }
}

/// How far the n-th meeting moves a chance, in 65536ths: 1 in n and a quarter.
const SHARES: [i32; 16] = [
    52429, 29127, 20165, 15420, 12483, 10486, 9039, 7944, 7085, 6394, 5825, 5350, 4946, 4599, 4297,
    4033,
];

/// What a bit is expected to be, and why.
struct Guess {
    /// Where the slot of each guess is.
    places: [usize; GUESSES],
    /// What each says: ln(p / (1 − p)) in 256ths.
    said: [i32; GUESSES],
    /// Which mixture they were weighed by.
    mixture: usize,
    /// The chance of a one, in 4096ths.
    chance: i32,
}

#[derive(Clone)]
struct Model {
    /// For each context the chance of a one, in 12 bits, and how often it was met, in 4.
    slots: Vec<u16>,
    /// What each guess counts for, in 65536ths.
    weights: [[i32; GUESSES]; MIXTURES],
    /// [`squash`] the other way round.
    stretched: Vec<i32>,
    /// What each guess goes by, at the byte at hand.
    contexts: [u32; GUESSES],
    /// The bits of the byte at hand behind a leading one.
    partial: u32,
    /// The bytes before it.
    last: u64,
    /// The letters before it, mixed up into a number; nothing outside a word.
    word: u64,
}

impl Model {
    /// One that has met the primer.
    fn new() -> Model {
        let mut stretched = Vec::with_capacity(4096);
        for x in -2047..=2047 {
            let upto = usize::try_from(squash(x)).unwrap_or(0).wrapping_add(1);
            if upto > stretched.len() {
                stretched.resize(upto, x);
            }
        }
        let mut model = Model {
            slots: vec![UNMET; SLOTS],
            weights: [[20_000; GUESSES]; MIXTURES],
            stretched,
            contexts: [0; GUESSES],
            partial: 1,
            last: 0,
            word: 0,
        };
        model.turn(0);
        for byte in PRIMER.iter().flat_map(|piece| piece.iter()) {
            for at in (0..8).rev() {
                let guess = model.guess();
                model.learn(&guess, byte >> at & 1 == 1);
            }
        }
        model
    }

    fn guess(&self) -> Guess {
        let mixture = if self.word == 0 { 0 } else { MIXTURES / 2 };
        let mut guess = Guess { places: [0; GUESSES], said: [0; GUESSES], mixture, chance: 0 };
        let partial = self.partial.wrapping_mul(0x9E37_79B1);
        let guesses = guess.places.iter_mut().zip(&mut guess.said).zip(&self.contexts);
        for ((place, said), context) in guesses {
            let mixed = (context ^ partial).wrapping_mul(0x85EB_CA6B);
            *place = (mixed ^ mixed >> 15) as usize & (SLOTS - 1);
            let slot = self.slots.get(*place).copied().unwrap_or(UNMET);
            *said = self.stretched.get(usize::from(slot >> 4)).copied().unwrap_or(2047);
            guess.mixture = guess.mixture.wrapping_add(usize::from(slot & 15 != 0));
        }
        let weights = self.weights.get(guess.mixture).unwrap_or(&[0; GUESSES]);
        let sum = weights.iter().zip(&guess.said).fold(0_i64, |sum, (weight, said)| {
            sum.wrapping_add(i64::from(*weight).wrapping_mul(i64::from(*said)))
        });
        guess.chance = squash(i32::try_from(sum >> 16).unwrap_or(0));
        guess
    }

    fn learn(&mut self, guess: &Guess, bit: bool) {
        let was = if bit { 4095_i32 } else { 0 };
        let off = was.wrapping_sub(guess.chance);
        if let Some(weights) = self.weights.get_mut(guess.mixture) {
            for (weight, said) in weights.iter_mut().zip(&guess.said) {
                let more = said.wrapping_mul(off).wrapping_mul(3) >> 11;
                *weight = weight.wrapping_add(more).clamp(-1 << 20, 1 << 20);
            }
        }
        for slot in guess.places {
            let Some(slot) = self.slots.get_mut(slot) else { continue };
            let (chance, met) = (i32::from(*slot >> 4), i32::from(*slot & 15));
            let share = SHARES.get(usize::from(*slot & 15)).copied().unwrap_or(0);
            let nearer = was.wrapping_sub(chance).wrapping_mul(share) >> 16;
            let slot_is = chance.wrapping_add(nearer) << 4 | met.wrapping_add(1).min(15);
            *slot = u16::try_from(slot_is).unwrap_or(UNMET);
        }
        self.partial = self.partial << 1 | u32::from(bit);
        if let [0, 0, 1, byte] = self.partial.to_be_bytes() {
            self.turn(byte);
        }
    }

    /// On to the next byte.
    fn turn(&mut self, byte: u8) {
        self.partial = 1;
        self.last = self.last << 8 | u64::from(byte);
        self.word = if byte.is_ascii_alphanumeric() {
            self.word.wrapping_add(u64::from(byte)).wrapping_mul(0x2F0B_4C47_9D2C_5681)
        } else {
            0
        };
        for (order, context) in (0_u32..).zip(&mut self.contexts) {
            let seen = match 1_u64.checked_shl(order.wrapping_mul(8)) {
                Some(above) if order < 6 => self.last & above.wrapping_sub(1),
                _ => self.word,
            };
            let mixed = seen.wrapping_add(u64::from(order) << 56).wrapping_add(1);
            *context = (mixed.wrapping_mul(0x9E37_79B9_7F4A_7C15) >> 32) as u32;
        }
    }
}

/// 4096 / (1 + e^(−x/256)) for x from −2047 to 2047, straight between every 128th.
fn squash(x: i32) -> i32 {
    const POINTS: [i32; 33] = [
        1, 2, 3, 6, 10, 16, 27, 45, 73, 120, 194, 310, 488, 747, 1101, 1546, 2047, 2549, 2994,
        3348, 3607, 3785, 3901, 3975, 4024, 4050, 4068, 4079, 4085, 4089, 4092, 4093, 4094,
    ];
    let x = x.clamp(-2047, 2047).wrapping_add(2048);
    let (at, part) = (usize::try_from(x >> 7).unwrap_or(0), x & 127);
    let point = |at: usize| POINTS.get(at).copied().unwrap_or(4094);
    let below = point(at).wrapping_mul(128_i32.wrapping_sub(part));
    below.wrapping_add(point(at.wrapping_add(1)).wrapping_mul(part)).wrapping_add(64) >> 7
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(48))]

        #[test]
        fn what_was_squeezed_comes_back(bytes in proptest::collection::vec(any::<u8>(), 0..600)) {
            prop_assert_eq!(unsqueeze(&squeeze(&bytes)), Some(bytes));
        }

        #[test]
        fn any_bytes_come_to_something_or_nothing(bytes in proptest::collection::vec(any::<u8>(), 0..60)) {
            if let Some(out) = unsqueeze(&bytes) {
                prop_assert_eq!(squeeze(&out), bytes);
            }
        }
    }

    #[test]
    fn the_longest_comes_back_and_no_longer_one() {
        let longest = vec![7; MOST];
        assert_eq!(unsqueeze(&squeeze(&longest)).as_ref(), Some(&longest));
        assert_eq!(unsqueeze(&squeeze(&vec![7; MOST + 1])), None);
    }

    #[test]
    fn what_is_expected_is_short() {
        for piece in PRIMER {
            assert!(squeeze(piece).len() * 8 < piece.len(), "{}", piece.len());
        }
    }
}
