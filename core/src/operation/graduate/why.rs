//! Where a dial's figures come from.

use super::Graduate;
use super::dial::BY_EYE_MM;
use super::keys::run;
use crate::exact::Ratio;
use crate::graduation::{Hand, Reads};
use crate::operation::Why;
use crate::quantity::show;
use alloc::format;
use alloc::vec::Vec;

pub(super) fn why(dial: &Graduate, drawn: Option<Ratio>) -> Vec<Why> {
    let mut whys = Vec::new();
    if let (Some(scale), Some(lead)) = (&dial.scale, &dial.lead) {
        let twice = if dial.reads == Reads::Diameter { "2 × " } else { "" };
        let (wanted, lines) = (dial.worth(scale.wanted), scale.lines);
        let mut values = format!("{twice}{} / {wanted} = {lines}", lead.text());
        if let (false, Ok(left)) = (scale.exact(), scale.leftover()) {
            values.push_str(&format!(", and {} over", dial.worth(left)));
        }
        whys.push(Why::new(
            match dial.reads {
                Reads::Radius => "lines = lead / one line",
                Reads::Diameter => {
                    "lines = 2·lead / one line: the diameter changes by twice what the slide moves"
                }
            },
            values,
            "arithmetic",
        ));
    }
    if let (Some(scale), Some(diameter), Some(pitch)) = (&dial.scale, &dial.diameter, dial.pitch())
    {
        let lines = scale.lines;
        let mut values = format!("π × {} / {lines} = {}", diameter.text(), dial.like(pitch));
        if let (Some(width), Some(gap)) = (&dial.width, dial.gap()) {
            values.push_str(&format!("; less {} = {}", width.text(), dial.like(gap)));
        }
        whys.push(Why::new(
            "line to line = π·d/lines; gap = that less the line",
            values,
            "arithmetic",
        ));
    }
    if let (Some(finest), Some(diameter), Some(width)) =
        (dial.finest(), &dial.diameter, &dial.width)
    {
        whys.push(Why::new(
            "finest = π·d / (2·width): a gap no less than the line",
            format!("π × {} / (2 × {}) = {finest}", diameter.text(), width.text()),
            "common practice, no source",
        ));
    }
    if let Some([long, middle, short]) = dial.lengths {
        let like = |mm| show::length_like(mm, dial.drawn_like);
        let mut values = format!("{}, {}, {}", like(long), like(middle), like(short));
        if let Some(line) = drawn {
            values.push_str(&format!(", to the nearest line of {}", like(line)));
        }
        whys.push(Why::new(
            "long : middle : short = 19 : 15 : 11; the long an eighth of the diameter, from 3 to 8 mm",
            values,
            "MIL-P-288B protractor specification, 3.5.2; the eighth: common practice, no source",
        ));
    }
    if dial.scale.is_some() {
        let hand = if dial.hand == Hand::Left { "left" } else { "right" };
        whys.push(Why::new(
            "numbers run against the way in which the dial turns while the reading grows",
            format!(
                "{hand}-hand screw that moves with its slide, growing inwards: {}",
                run(dial.numbers())
            ),
            "MIL-STD-1472E 5.2.3.3.1",
        ));
    }
    if let (Some(told), Some(pitch)) = (dial.told(), dial.pitch()) {
        whys.push(Why::new(
            "told to = lining up by eye / line to line + worst error of the division, in lines",
            format!(
                "{} / {} and the division: {} of a line",
                dial.like(BY_EYE_MM),
                dial.like(pitch),
                show::float(told, 2)
            ),
            "common practice, no source",
        ));
    }
    let diameter = dial.diameter.as_ref();
    whys.extend(dial.circle.as_ref().map_or_else(Vec::new, |circle| circle.why(diameter)));
    whys
}
