//! Gears to choose from, and every choice of so many drivers and so many driven of them.

/// A choice of up to six gears, drivers first: the place of each in its stock, so many bits a gear.
pub(super) type Choice = u64;

/// How many gears a choice has above and below.
pub(super) type Shape = (u8, u8);

/// Gears by their place: the logarithm of each size and how many there are of it.
#[derive(Clone, Debug)]
pub(super) struct Stock {
    pub(super) teeth: alloc::vec::Vec<u16>,
    pub(super) logs: alloc::vec::Vec<i64>,
    pub(super) owned: alloc::vec::Vec<u8>,
    /// Bits that one place takes.
    pub(super) bits: u32,
}

/// A choice unpacked: teeth of the drivers, then of the driven gears.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Hand {
    pub(super) places: [u16; 6],
    pub(super) len: u8,
}

impl Hand {
    fn push(self, place: u16) -> Hand {
        let mut more = self;
        if let Some(slot) = more.places.get_mut(usize::from(self.len)) {
            *slot = place;
        }
        more.len = self.len.saturating_add(1);
        more
    }

    pub(super) fn iter(&self) -> impl Iterator<Item = u16> + '_ {
        self.places.iter().copied().take(usize::from(self.len))
    }
}

impl Stock {
    /// The places of a choice.
    pub(super) fn open(&self, choice: Choice, (above, below): Shape) -> Hand {
        let mut hand = Hand::default();
        let mut rest = choice;
        let mask = (1_u64 << self.bits).wrapping_sub(1);
        for _ in 0..above.saturating_add(below) {
            hand = hand.push((rest & mask) as u16);
            rest >>= self.bits;
        }
        hand
    }

    pub(super) fn teeth_at(&self, place: u16) -> u16 {
        self.teeth.get(usize::from(place)).copied().unwrap_or(1)
    }

    /// Whether there are as many of each as the choices take together.
    pub(super) fn suffice<'h>(&self, hands: impl Iterator<Item = &'h Hand> + Clone) -> bool {
        let all = || hands.clone().flat_map(Hand::iter);
        all().all(|place| {
            let taken = all().filter(|&other| other == place).count();
            taken <= self.owned.get(usize::from(place)).copied().map_or(0, usize::from)
        })
    }

    /// At most how many choices there are of a shape.
    pub(super) fn most(&self, (above, below): Shape) -> u64 {
        let n = self.teeth.len() as u64;
        let side = |count: u8| {
            (0..u64::from(count)).fold(1_u64, |so_far, k| {
                let more = so_far.saturating_mul(n.saturating_add(k));
                more.checked_div(k.saturating_add(1)).unwrap_or(more)
            })
        };
        side(above).saturating_mul(side(below))
    }

    /// Calls with every choice of so many drivers and so many driven gears, the logarithm of its
    /// ratio beside it. Each once, whatever the order of its gears.
    pub(super) fn each(&self, shape: Shape, call: &mut dyn FnMut(i64, Choice)) {
        self.choose(shape, 0, Hand::default(), 0, 0, call);
    }

    /// The same for those alone whose first gear is in that place; false where there is no such place.
    pub(super) fn each_from(
        &self,
        (above, below): Shape,
        first: usize,
        call: &mut dyn FnMut(i64, Choice),
    ) -> bool {
        if above == 0 && below == 0 {
            self.choose((0, 0), 0, Hand::default(), 0, 0, call);
            return false;
        }
        let Some(&log) = self.logs.get(first) else { return false };
        let hand = Hand::default().push(first as u16);
        let (left, log, from) = match above {
            0 => ((0, below.saturating_sub(1)), log.wrapping_neg(), first),
            1 => ((0, below), log, 0),
            _ => ((above.saturating_sub(1), below), log, first),
        };
        self.choose(left, from, hand, log, first as u64, call);
        true
    }

    fn choose(
        &self,
        (above, below): Shape,
        from: usize,
        hand: Hand,
        log: i64,
        choice: Choice,
        call: &mut dyn FnMut(i64, Choice),
    ) {
        if above == 0 && below == 0 {
            call(log, choice);
            return;
        }
        let shift = u32::from(hand.len).wrapping_mul(self.bits);
        let stock = self.logs.iter().zip(&self.owned).enumerate().skip(from);
        for (place, (&of, &owned)) in stock {
            let gear = place as u16;
            if hand.len > 0 && hand.iter().filter(|&held| held == gear).count() >= owned.into() {
                continue;
            }
            let choice = choice | ((place as u64) << shift);
            let hand = hand.push(gear);
            if above > 0 {
                let left = above.saturating_sub(1);
                // The driven gears begin anew with the smallest.
                let from = if left == 0 { 0 } else { place };
                self.choose((left, below), from, hand, log.wrapping_add(of), choice, call);
            } else {
                let left = (0, below.saturating_sub(1));
                self.choose(left, place, hand, log.wrapping_sub(of), choice, call);
            }
        }
    }
}
