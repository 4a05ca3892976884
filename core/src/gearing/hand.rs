//! Which way the carriage goes: hands, meshes and idlers.

/// Which way a thread winds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Hand {
    /// The usual one: a nut turned clockwise goes away.
    #[default]
    Right,
    /// The other.
    Left,
}

/// The least number of idlers with which the carriage goes the right way.
///
/// Each mesh reverses, so a train of `pairs` pairs and so many idlers turns the leadscrew
/// with the spindle when pairs + idlers is even. A nut on the leadscrew travels as a nut
/// on the work would when both threads are of one hand and turn the same way: so even for
/// the leadscrew's own hand, odd for the other. What lies outside the change gears (the
/// fixed train before them, the gearbox after) is taken not to reverse, and a
/// tumbler reverses for nothing, so with one the direction never asks for an idler.
///
/// `reach` is how many idlers the distance asks for anyway (one for a single pair on a
/// banjo, else none); the answer is never less. It is not known (`None`) unless both the
/// leadscrew's hand and whether there is a tumbler are.
///
/// ```
/// use latheside_core::gearing::{Hand, idlers};
/// let right = Some(Hand::Right);
/// // A drives B, C on B's stud drives D: two meshes, the screw turns with the spindle.
/// assert_eq!(idlers(2, Hand::Right, right, Some(false), 0), Some(0));
/// assert_eq!(idlers(1, Hand::Right, right, Some(false), 0), Some(1));
/// assert_eq!(idlers(2, Hand::Left, right, Some(false), 0), Some(1));
/// assert_eq!(idlers(2, Hand::Left, right, Some(true), 0), Some(0));
/// ```
#[must_use]
pub fn idlers(
    pairs: usize,
    wanted: Hand,
    leadscrew: Option<Hand>,
    tumbler: Option<bool>,
    reach: u32,
) -> Option<u32> {
    let (leadscrew, tumbler) = (leadscrew?, tumbler?);
    let meshes_odd = (pairs & 1 == 1) != (reach & 1 == 1);
    let wanted_odd = wanted != leadscrew;
    let one_more = !tumbler && meshes_odd != wanted_odd;
    Some(reach.saturating_add(u32::from(one_more)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_idler_changes_the_direction_and_a_tumbler_makes_it_needless() {
        let left = Some(Hand::Left);
        assert_eq!(idlers(1, Hand::Left, left, Some(false), 0), Some(1));
        assert_eq!(idlers(1, Hand::Right, left, Some(false), 0), Some(0));
        assert_eq!(idlers(3, Hand::Left, left, Some(false), 0), Some(1));
        for pairs in 1..=3 {
            assert_eq!(idlers(pairs, Hand::Right, left, Some(true), 0), Some(0));
            assert_eq!(idlers(pairs, Hand::Right, None, Some(true), 0), None);
            assert_eq!(idlers(pairs, Hand::Right, left, None, 0), None);
        }
    }

    #[test]
    fn an_idler_that_the_distance_needs_counts_for_the_direction_too() {
        let right = Some(Hand::Right);
        assert_eq!(idlers(1, Hand::Right, right, Some(false), 1), Some(1));
        assert_eq!(idlers(1, Hand::Left, right, Some(false), 1), Some(2));
        assert_eq!(idlers(1, Hand::Left, right, Some(true), 1), Some(1));
    }
}
