//! What is drawn at a place: the gear, the plate with its pin, or the rim.

use super::divided::Circle;
use super::steps::Work;
use super::words;
use crate::dividing::{At, Pin, Place, Setting};
use crate::operation::{Mark, Picture};
use alloc::vec::Vec;

impl Circle {
    pub(super) fn place_picture(
        &self,
        place: &Place,
        after: u32,
        work: &Work<'_>,
    ) -> Option<Picture> {
        match place.at {
            // Whole turns end in any hole: there is none to draw.
            At::Pin(Pin { circle: None, .. }) => Some(self.rim(after, work.mark, work.first)),
            _ => self.picture(Some(place), after),
        }
    }

    /// The work's rim, so many places done.
    pub(super) fn rim(&self, after: u32, mark: Mark, first: u32) -> Picture {
        let laps = match self.best().map(|way| way.setting) {
            Some(Setting::Compound { laps, .. }) => laps,
            _ => 1,
        };
        let turned = |at: &usize| self.angles.get(*at).map(|turn| turn.to_f64());
        Picture::Rim {
            into: self.made(),
            at: after.min(self.made()),
            mark,
            first,
            laps,
            angles: self.order.iter().filter_map(turned).collect(),
        }
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
            Setting::Compound { turns, first, .. } => Some(Picture::Plate {
                circles: self.circles_with(first.circle),
                circle: first.circle,
                spaces: match even {
                    true => u16::try_from(words::crank_move(turns, first).1).unwrap_or(0),
                    false => 0,
                },
                hole: hole(place),
            }),
            Setting::Plain { .. } | Setting::Differential { .. } => {
                Some(self.rim(after, Mark::Line, 1))
            }
        }
    }

    fn circles_with(&self, circle: u16) -> Vec<u16> {
        let has = self.plates.iter().find(|plate| plate.contains(&circle));
        has.cloned().unwrap_or_else(|| Vec::from([circle]))
    }
}
