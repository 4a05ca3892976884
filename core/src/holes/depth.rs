//! How deep to drill, and what is left.

use super::HoleError;
use crate::exact::Ratio;
use libm::tan;

/// The point of an ordinary twist drill, degrees.
pub const COMMON_POINT_DEG: Ratio = Ratio::of(118, 1);

/// How far a drill's point runs ahead of its full diameter, mm: d / 2 / tan(angle / 2).
///
/// # Errors
///
/// [`HoleError::NoSize`], [`HoleError::NoPoint`].
pub fn point_length(drill_mm: Ratio, point_deg: Ratio) -> Result<f64, HoleError> {
    if !drill_mm.is_positive() {
        return Err(HoleError::NoSize);
    }
    if !point_deg.is_positive() || point_deg > Ratio::whole(180) {
        return Err(HoleError::NoPoint);
    }
    if point_deg == Ratio::whole(180) {
        return Ok(0.0);
    }
    Ok(drill_mm.to_f64() / 2.0 / tan((point_deg.to_f64() / 2.0).to_radians()))
}

/// How far the drill goes from the touch of its tip for `full_mm` of full diameter, mm.
///
/// # Errors
///
/// [`HoleError::NoSize`], [`HoleError::NoPoint`].
pub fn full_depth_to_tip(
    full_mm: Ratio,
    drill_mm: Ratio,
    point_deg: Ratio,
) -> Result<f64, HoleError> {
    Ok(full_mm.to_f64() + point_length(drill_mm, point_deg)?)
}

/// How deep at full diameter a hole is drilled for `thread_mm` of full thread, mm: the tap's lead of
/// `lead_threads` (taper 8, second 4, plug 2) and one more thread of room. Common practice, no source.
///
/// # Errors
///
/// [`HoleError::NoSize`], [`HoleError::TooLarge`].
pub fn tapped_depth(
    thread_mm: Ratio,
    pitch_mm: Ratio,
    lead_threads: u8,
) -> Result<Ratio, HoleError> {
    if !thread_mm.is_positive() || !pitch_mm.is_positive() {
        return Err(HoleError::NoSize);
    }
    let threads = Ratio::from(u32::from(lead_threads)).add(Ratio::ONE)?;
    Ok(thread_mm.add(pitch_mm.mul(threads)?)?)
}

/// The wall of a bush: half of what is left between a round part and a hole in its middle, mm.
///
/// # Errors
///
/// [`HoleError::NoWall`], [`HoleError::TooLarge`].
pub fn wall_round(part_mm: Ratio, hole_mm: Ratio) -> Result<Ratio, HoleError> {
    if hole_mm >= part_mm {
        return Err(HoleError::NoWall);
    }
    Ok(part_mm.sub(hole_mm)?.div(Ratio::whole(2))?)
}

/// The wall between a hole whose middle lies `in_from_edge_mm` from an edge, and the edge, mm.
///
/// # Errors
///
/// [`HoleError::NoWall`] where it breaks out, [`HoleError::TooLarge`].
pub fn wall_beside(in_from_edge_mm: Ratio, hole_mm: Ratio) -> Result<Ratio, HoleError> {
    let left = in_from_edge_mm.sub(hole_mm.div(Ratio::whole(2))?)?;
    if left.is_positive() { Ok(left) } else { Err(HoleError::NoWall) }
}

/// What is left under the tip of a hole in a part of `thickness_mm`, mm.
///
/// # Errors
///
/// [`HoleError::NoWall`] where it comes through.
pub fn floor_left(thickness_mm: Ratio, to_tip_mm: f64) -> Result<f64, HoleError> {
    let left = thickness_mm.to_f64() - to_tip_mm;
    if left > 0.0 { Ok(left) } else { Err(HoleError::NoWall) }
}

/// The depths at which to draw the drill out and clear it, mm: three diameters at first, then one
/// more each time, to the depth. Common practice, no source. Empty where the hole is shallower; no
/// more than a hundred are given.
#[must_use]
pub fn pecks(depth_mm: Ratio, drill_mm: Ratio) -> alloc::vec::Vec<Ratio> {
    let mut out = alloc::vec::Vec::new();
    if !drill_mm.is_positive() {
        return out;
    }
    let mut times = Ratio::whole(3);
    while let (Ok(at), Ok(next)) = (drill_mm.mul(times), times.add(Ratio::ONE)) {
        if at >= depth_mm || out.len() >= 100 {
            break;
        }
        out.push(at);
        times = next;
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_left() {
        let mm = Ratio::whole;
        assert_eq!(wall_round(mm(20), mm(12)), Ok(mm(4)));
        assert_eq!(wall_round(mm(12), mm(12)), Err(HoleError::NoWall));
        assert_eq!(wall_beside(mm(8), mm(10)), Ok(mm(3)));
        assert_eq!(wall_beside(mm(5), mm(10)), Err(HoleError::NoWall));
        assert_eq!(floor_left(mm(10), 7.5), Ok(2.5));
        assert_eq!(floor_left(mm(10), 10.0), Err(HoleError::NoWall));
        assert_eq!(tapped_depth(mm(12), Ratio::of(5, 4), 2), Ok(Ratio::of(63, 4)));
    }

    #[test]
    fn pecks_begin_at_three_diameters() {
        let mm = Ratio::whole;
        assert_eq!(pecks(mm(30), mm(5)), [mm(15), mm(20), mm(25)]);
        assert_eq!(pecks(mm(15), mm(5)), []);
        assert_eq!(pecks(mm(15), mm(0)), []);
        assert_eq!(pecks(mm(999_999), mm(1)).len(), 100);
    }
}
