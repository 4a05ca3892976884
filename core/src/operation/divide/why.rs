//! Where a divided circle's figures come from.

use super::{Divide, Marks};
use crate::operation::Why;
use alloc::format;
use alloc::vec::Vec;

impl Divide {
    pub(super) fn whys(&self) -> Vec<Why> {
        let diameter = self.diameter.as_ref();
        let mut whys = self.circle.as_ref().map_or_else(Vec::new, |circle| circle.why(diameter));
        if let (Some(into), Some(d), Some(spacing), Some(chord)) =
            (self.into, diameter, self.spacing(), self.chord())
        {
            let (d, spacing, chord) = (d.text(), self.like(spacing), self.like(chord));
            whys.push(Why::new(
                "spacing = π·d/N; straight across d·sin(180°/N)",
                format!("π × {d} / {into} = {spacing}; {d} × sin(180°/{into}) = {chord}"),
                "arithmetic",
            ));
        }
        if let (Some(flats), Some(d)) = (&self.flats, diameter) {
            let (depth, across) = (self.like(flats.depth), self.like(flats.across));
            whys.push(Why::new(
                "depth = (d − across)/2; corners just sharp at across = d·cos(180°/N); round left = d·(180°/N − acos(across/d)) as an arc",
                format!("({} − {across}) / 2 = {depth}", d.text()),
                "arithmetic",
            ));
        }
        whys.extend(self.tool.why());
        if let (Some(Marks::Holes), Some(d)) = (self.marks, diameter) {
            whys.push(Why::new(
                "across = middle + d/2·cos, up = middle + d/2·sin; an edge touched is half the cutter's width from its axis",
                format!("d/2 = {}", self.like(d.to_f64() / 2.0)),
                "arithmetic",
            ));
        }
        whys
    }
}
