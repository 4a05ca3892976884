//! The nearest setting with gears, where none is exact.

use super::differential::setting;
use super::train::Train;
use super::way::Setting;
use super::whole::{mul, quot, rem};
use crate::exact::{Ratio, RatioError};
use core::ops::RangeInclusive;

/// The most that the search looks at: a move with the ratios around it, or a ratio with
/// the moves around it.
const MOST_LOOKS: i64 = 1_000_000;

/// A ratio that the gears give, in lowest terms, with its train.
pub(super) type Geared = (i64, i64, Train);

/// The search for the nearest setting.
///
/// With a move of x turns and gears that give r the work turns x/(R − r) each time, so that N moves
/// end N·x/(R − r) − 1 of a turn beyond the first division. The nearer r is to R − N·x, from above
/// or below, the nearer that is to nothing. So it is enough to look at the two ratios around what
/// each move asks for, or at the two moves around what each ratio asks for: whichever are fewer.
pub(super) struct Nearest<'a> {
    ratios: &'a [Geared],
    worm_ratio: i64,
    divisions: i64,
    pub(super) best: Option<(Ratio, Setting)>,
}

impl<'a> Nearest<'a> {
    pub(super) fn of(ratios: &'a [Geared], worm_ratio: u32, divisions: u32) -> Nearest<'a> {
        Nearest { ratios, worm_ratio: worm_ratio.into(), divisions: divisions.into(), best: None }
    }

    /// Looks on each of the circles; whether nothing was left out.
    pub(super) fn on(&mut self, circles: &[i64]) -> Result<bool, RatioError> {
        let mut left = MOST_LOOKS;
        let by_ratios = i64::try_from(self.ratios.len()).unwrap_or(i64::MAX).saturating_mul(2);
        for &circle in circles {
            let moves = self.moves(circle);
            let by_moves = moves.end().saturating_sub(*moves.start()).saturating_add(1);
            left = left.saturating_sub(by_moves.min(by_ratios));
            if left < 0 {
                return Ok(false);
            }
            if by_moves <= by_ratios {
                self.by_moves(circle, moves)?;
            } else {
                self.by_ratios(circle)?;
            }
        }
        Ok(true)
    }

    /// The moves on a circle, in its spaces, beyond which no gears reach.
    fn moves(&self, circle: i64) -> RangeInclusive<i64> {
        let (above, below) =
            self.ratios.last().map_or((0, 1), |(above, below, _)| (*above, *below));
        let (r, reach) = (self.worm_ratio, quot(above, below).saturating_add(2));
        let from = quot(mul(r.saturating_sub(reach), circle), self.divisions).max(1);
        let to = quot(mul(r.saturating_add(reach), circle), self.divisions).saturating_add(1);
        from..=to
    }

    /// The ratios on both sides of what each move asks for.
    fn by_moves(&mut self, circle: i64, moves: RangeInclusive<i64>) -> Result<(), RatioError> {
        for spaces in moves.filter(|spaces| is_own(*spaces, circle)) {
            // What the plate should turn: `wanted`/circle.
            let wanted = mul(self.worm_ratio, circle).saturating_sub(mul(self.divisions, spaces));
            let with_crank = wanted >= 0;
            let size = wanted.saturating_abs();
            let at = self.ratios.partition_point(|(p, q, _)| mul(*p, circle) < mul(size, *q));
            // Its neighbours are that ratio above and that below; below the least there is the
            // least the other way round.
            for near in self.ratios.iter().skip(at.saturating_sub(1)).take(2) {
                self.look(circle, spaces, near, with_crank)?;
            }
            for near in self.ratios.iter().take(usize::from(at == 0)) {
                self.look(circle, spaces, near, !with_crank)?;
            }
        }
        Ok(())
    }

    /// The moves on both sides of what each ratio asks for, with the crank and against it.
    fn by_ratios(&mut self, circle: i64) -> Result<(), RatioError> {
        for geared in self.ratios {
            for with_crank in [true, false] {
                let asked =
                    quot(self.against(circle, geared, with_crank), mul(self.divisions, geared.1));
                let next = asked.saturating_add(1);
                let below = if is_own(asked, circle) { asked } else { asked.saturating_sub(1) };
                let above = if is_own(next, circle) { next } else { next.saturating_add(1) };
                for spaces in [below, above].into_iter().filter(|spaces| *spaces > 0) {
                    self.look(circle, spaces, geared, with_crank)?;
                }
            }
        }
        Ok(())
    }

    /// What N times the spaces should come to, times what is below the ratio's bar.
    fn against(&self, circle: i64, (p, q, _): &Geared, with_crank: bool) -> i64 {
        let p = if with_crank { *p } else { p.saturating_neg() };
        mul(circle, mul(self.worm_ratio, *q).saturating_sub(p))
    }

    fn look(
        &mut self,
        circle: i64,
        spaces: i64,
        geared: &Geared,
        with_crank: bool,
    ) -> Result<(), RatioError> {
        let against = self.against(circle, geared, with_crank);
        if against <= 0 {
            return Ok(());
        }
        let beyond = mul(mul(self.divisions, spaces), geared.1).saturating_sub(against);
        let closing = Ratio::new(beyond.into(), against.into())?;
        let setting = setting(circle, spaces, geared.2.turning(with_crank));
        let better = |(least, so_far): &(Ratio, Setting)| {
            (closing.abs(), setting.burden()) < (least.abs(), so_far.burden())
        };
        if self.best.as_ref().is_none_or(better) {
            self.best = Some((closing, setting));
        }
        Ok(())
    }
}

/// Whether a move is made on this circle: whole turns are made on the circle of one hole.
pub(super) fn is_own(spaces: i64, circle: i64) -> bool {
    circle == 1 || rem(spaces, circle) != 0
}

#[cfg(test)]
mod tests {
    use super::super::{Head, differential};
    use super::*;
    use alloc::vec;
    use alloc::vec::Vec;
    use proptest::prelude::*;

    fn head(worm_ratio: u32, circles: Vec<u16>, gears: Vec<u16>) -> Head {
        Head {
            worm_ratio,
            plates: vec![circles],
            gears,
            pairs_max: 2,
            stud_clearance_teeth: None,
            centres_teeth: None,
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(200))]

        #[test]
        fn both_ways_to_look_find_the_same(
            worm_ratio in 1u32..60,
            divisions in 2u32..300,
            circle in 1i64..40,
            gears in prop::collection::vec(3u16..40, 2..6),
        ) {
            let head = head(worm_ratio, vec![], gears);
            let (ratios, _) = differential::Drawer::of(&head).ratios();
            let found = |by_moves: bool| {
                let mut search = Nearest::of(&ratios, worm_ratio, divisions);
                let moves = search.moves(circle);
                if by_moves { search.by_moves(circle, moves) } else { search.by_ratios(circle) }.unwrap();
                search.best.map(|(closing, setting)| (closing.abs(), setting.burden()))
            };
            prop_assert_eq!(found(true), found(false));
        }
    }

    /// A gear of one tooth beside one of 999 makes moves of every length worth a look, on every circle.
    #[test]
    fn few_gears_that_reach_far_are_looked_through() {
        let head = head(26, (980..1000).collect(), vec![1, 1, 172, 999]);
        let (way, complete) = differential::nearest_way(101, &head).unwrap();
        assert!(complete && way.is_some());
        let (ratios, _) = differential::Drawer::of(&head).ratios();
        assert!(*Nearest::of(&ratios, 26, 101).moves(999).end() > 1_000_000);
    }
}
