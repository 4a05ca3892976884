//! Which of the drills in the box.

use crate::exact::Ratio;

fn usable(owned: &[Ratio]) -> impl Iterator<Item = (usize, Ratio)> + '_ {
    owned.iter().copied().enumerate().filter(|(_, size)| size.is_positive())
}

/// The place in the list of the drill nearest to `wanted`; of two as near the larger, which is
/// kinder to a tap; of equals the first.
#[must_use]
pub fn nearest(wanted: Ratio, owned: &[Ratio]) -> Option<usize> {
    let mut best: Option<(usize, Ratio, Ratio)> = None;
    for (index, size) in usable(owned) {
        let Ok(away) = size.sub(wanted).map(Ratio::abs) else { continue };
        let nearer = best.is_none_or(|(_, best_size, best_away)| {
            away < best_away || (away == best_away && size > best_size)
        });
        if nearer {
            best = Some((index, size, away));
        }
    }
    best.map(|(index, ..)| index)
}

/// The place in the list of the smallest drill no smaller than `least`.
#[must_use]
pub fn at_least(least: Ratio, owned: &[Ratio]) -> Option<usize> {
    usable(owned)
        .filter(|(_, size)| *size >= least)
        .reduce(|best, one| if one.1 < best.1 { one } else { best })
        .map(|(index, _)| index)
}

/// The place in the list of the largest drill no larger than `most`.
#[must_use]
pub fn at_most(most: Ratio, owned: &[Ratio]) -> Option<usize> {
    usable(owned)
        .filter(|(_, size)| *size <= most)
        .reduce(|best, one| if one.1 > best.1 { one } else { best })
        .map(|(index, _)| index)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn from_the_box() {
        let box_of: alloc::vec::Vec<_> =
            [42, 50, 68, 70, 66, 0].map(|tenths| Ratio::of(tenths, 10)).into();
        assert_eq!(nearest(Ratio::of(68, 10), &box_of), Some(2));
        assert_eq!(nearest(Ratio::of(69, 10), &box_of), Some(3), "the larger of two as near");
        assert_eq!(nearest(Ratio::of(1, 10), &box_of), Some(0));
        assert_eq!(at_least(Ratio::of(67, 10), &box_of), Some(2));
        assert_eq!(at_most(Ratio::of(67, 10), &box_of), Some(4));
        assert_eq!(at_least(Ratio::whole(8), &box_of), None);
        assert_eq!(at_most(Ratio::whole(4), &box_of), None);
        assert_eq!(nearest(Ratio::ONE, &[]), None);
    }
}
