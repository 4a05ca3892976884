//! What a drill leaves between two holes, and beside one.

use crate::exact::{Ratio, RatioError};

/// Between two holes of that diameter; less than nothing where they run into each other.
///
/// # Errors
///
/// [`RatioError::Overflow`] where the number is too large to keep exactly.
pub fn between(pitch: Ratio, drill: Ratio) -> Result<Ratio, RatioError> {
    pitch.sub(drill)
}

/// Between a hole and an edge that its middle is so far from; less than nothing where it breaks
/// out.
///
/// # Errors
///
/// [`RatioError::Overflow`] where the number is too large to keep exactly.
pub fn beside(from_edge: Ratio, drill: Ratio) -> Result<Ratio, RatioError> {
    from_edge.sub(drill.div(Ratio::whole(2))?)
}

/// Whether so little is left that a drill wanders or breaks through: less than half of its
/// diameter. Common practice, no source.
#[must_use]
pub fn thin(left: Ratio, drill: Ratio) -> bool {
    left.mul(Ratio::whole(2)).is_ok_and(|twice| twice < drill)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_left_by_hand() {
        let mm = Ratio::whole;
        assert_eq!(between(mm(32), mm(5)), Ok(mm(27)));
        assert_eq!(between(mm(5), mm(6)), Ok(mm(-1)));
        assert_eq!(beside(mm(10), mm(5)), Ok(Ratio::of(15, 2)));
        assert!(thin(mm(2), mm(5)) && thin(mm(-1), mm(5)) && !thin(mm(3), mm(6)));
    }
}
