//! Flats on a round bar: how deep, how wide, and what is left of the round at the corners.

use crate::quantity::Quantity;
use alloc::format;
use alloc::string::String;
use core::f64::consts::PI;

/// Flats, everything in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Flats {
    /// From the round down to the flat.
    pub(super) depth: f64,
    /// Twice from the middle to the flat: across flats where there is one opposite.
    pub(super) across: f64,
    /// A flat's width.
    pub(super) width: f64,
    /// Round left at each corner, along the rim; nothing where the flats meet. None for angles of
    /// one's own.
    pub(super) corner: Option<f64>,
    /// Twice from the middle to a corner; none for angles of one's own.
    pub(super) corners: Option<f64>,
}

/// Why there are none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum NoFlats {
    /// As wide across as the bar.
    Uncut,
    /// Nothing says how deep.
    NotSaid,
}

impl NoFlats {
    pub(super) fn words(self, diameter: &Quantity, across: Option<&Quantity>) -> String {
        let d = diameter.text();
        match (self, across) {
            (NoFlats::Uncut, Some(across)) => {
                format!("{} across flats is no less than Ø {d}: nothing is cut", across.text())
            }
            _ => format!("say how far it is across the flats on Ø {d}"),
        }
    }
}

impl Flats {
    /// So many flats, or flats at angles of one's own, on a bar of diameter d; without a size
    /// across them, as large as leaves sharp corners on the rim: d·cos(π/N).
    ///
    /// Two halves of a chord: a flat at half the size across spans 2·acos(across/d) of the rim.
    pub(super) fn of(into: Option<u32>, d: f64, across: Option<f64>) -> Result<Flats, NoFlats> {
        let each = into.map(|into| PI / f64::from(into.max(1)));
        let full =
            each.filter(|_| into.is_some_and(|into| into > 2)).map(|each| d * libm::cos(each));
        let across = across.or(full).ok_or(NoFlats::NotSaid)?;
        if across >= d {
            return Err(NoFlats::Uncut);
        }
        let half = libm::acos(across / d);
        let round = each.map(|each| d * (each - half)).filter(|round| *round > ROUND_TO);
        let (width, corners) = match (each, round) {
            (Some(each), None) if into > Some(2) => {
                (across * libm::tan(each), Some(across / libm::cos(each)))
            }
            _ => (d * libm::sin(half), each.map(|_| d)),
        };
        let corner = each.map(|_| round.unwrap_or(0.0));
        Ok(Flats { depth: (d - across) / 2.0, across, width, corner, corners })
    }
}

/// Less round than this is a sharp corner.
const ROUND_TO: f64 = 1e-9;

#[cfg(test)]
mod tests {
    use super::*;

    /// Rows of a regular polygon about and in a circle: side, across flats, across corners by
    /// Pythagoras and halves of 60° and 90° triangles, worked out here without the tangent.
    #[test]
    fn squares_and_hexagons() {
        let near = |a: f64, b: f64| (a - b).abs() < 1e-12;
        let hexagon = Flats::of(Some(6), 20.0, None).unwrap();
        // Across corners 2 sides, across flats √3 sides.
        assert!(near(hexagon.across, 10.0 * 3.0_f64.sqrt()) && near(hexagon.width, 10.0));
        assert!(near(hexagon.depth, 10.0 - 5.0 * 3.0_f64.sqrt()));
        assert_eq!(hexagon.corner, Some(0.0));
        let square = Flats::of(Some(4), 20.0, None).unwrap();
        assert!(near(square.across, 10.0 * 2.0_f64.sqrt()) && near(square.width, square.across));
        // A square of 16 on 20: 12 wide (3, 4, 5), with round left at the corners.
        let eased = Flats::of(Some(4), 20.0, Some(16.0)).unwrap();
        assert!(near(eased.depth, 2.0) && near(eased.width, 12.0));
        let round = 20.0 * (PI / 4.0 - (0.8_f64).acos());
        assert!(near(eased.corner.unwrap(), round) && round > 0.0);
        // Deeper than sharp: the corner comes in from the rim.
        let deep = Flats::of(Some(4), 20.0, Some(12.0)).unwrap();
        assert!(near(deep.width, 12.0) && near(deep.corners.unwrap(), 12.0 * 2.0_f64.sqrt()));
        // Two flats need a size; three are measured over the middle.
        assert_eq!(Flats::of(Some(2), 20.0, None), Err(NoFlats::NotSaid));
        let two = Flats::of(Some(2), 20.0, Some(16.0)).unwrap();
        assert!(near(two.width, 12.0) && near(two.depth, 2.0));
        assert!(near(Flats::of(Some(3), 20.0, None).unwrap().across, 10.0));
        assert_eq!(Flats::of(Some(6), 20.0, Some(20.0)), Err(NoFlats::Uncut));
        let own = Flats::of(None, 20.0, Some(16.0)).unwrap();
        assert!(own.corner.is_none() && near(own.width, 12.0));
    }
}
