//! What is drawn at a place: the gear, the plate with its pin, or the rim.

use super::bench::Work;
use super::divided::Circle;
use crate::dividing::{At, Place, Setting};
use crate::operation::Picture;
use alloc::vec::Vec;

impl Circle {
    pub(super) fn place_picture(
        &self,
        place: &Place,
        after: u32,
        work: &Work<'_>,
    ) -> Option<Picture> {
        if work.graduated {
            return Some(Picture::Rim { into: self.into, at: after, graduated: true });
        }
        self.picture(Some(place), after)
    }

    /// The gear or plate with the place, or else the rim; the card's without a place.
    pub(super) fn picture(&self, place: Option<&Place>, after: u32) -> Option<Picture> {
        let way = self.best()?;
        let even = !self.uneven();
        let hole = |place: Option<&Place>| match place.map(|place| place.at) {
            Some(At::Pin(pin) | At::Pins { crank: pin, .. }) => pin.hole,
            _ => 0,
        };
        match way.setting {
            Setting::Direct { positions, .. } | Setting::HalfTooth { positions, .. } => {
                let half = matches!(way.setting, Setting::HalfTooth { .. });
                let (into, at) = match place.map(|place| place.at) {
                    _ if even => (self.into, after.checked_rem(self.into).unwrap_or(0)),
                    // Every position is drawn where the places aren't even.
                    Some(At::Tooth { tooth, .. }) => (positions.into(), tooth),
                    Some(At::HalfTooth { half_teeth, .. }) => {
                        (u32::from(positions).saturating_mul(2), half_teeth)
                    }
                    _ => (positions.into(), 0),
                };
                Some(Picture::Direct { teeth: positions, into, at, half })
            }
            Setting::Plain { circle: Some(circle), holes, .. }
            | Setting::Differential { circle: Some(circle), holes, .. } => Some(Picture::Plate {
                circles: self.circles_with(circle),
                circle,
                spaces: if even { holes } else { 0 },
                hole: hole(place),
            }),
            Setting::Compound { first, .. } => Some(Picture::Plate {
                circles: self.circles_with(first.circle),
                circle: first.circle,
                spaces: first.holes.unsigned_abs(),
                hole: hole(place),
            }),
            Setting::Plain { .. } | Setting::Differential { .. } => Some(Picture::Rim {
                into: self.into,
                at: after.checked_rem(self.into).unwrap_or(0),
                graduated: false,
            }),
        }
    }

    fn circles_with(&self, circle: u16) -> Vec<u16> {
        let has = self.plates.iter().find(|plate| plate.contains(&circle));
        has.cloned().unwrap_or_else(|| Vec::from([circle]))
    }
}
