//! Where a dial's figures come from.

use super::Graduate;
use super::dial::BY_EYE_MM;
use super::keys::run;
use super::worth::Worth;
use crate::exact::Ratio;
use crate::graduation::{Hand, Reads};
use crate::operation::Why;
use crate::quantity::show;
use alloc::format;
use alloc::string::String;
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
        if let (Some(width), Some(gap)) = (dial.tool.cuts(), dial.gap()) {
            let width = dial.like(width.to_f64());
            values.push_str(&format!("; less {width} = {}", dial.like(gap)));
        }
        whys.push(Why::new(
            match dial.on_face {
                false => "line to line = π·d/lines; gap = that less the line",
                true => "line to line = π·d/lines; gap = the same at the inner end of the short lines, where neighbours still stand side by side, less the line",
            },
            values,
            "arithmetic",
        ));
    }
    if let (Some(finest), Some(closest), Some(width)) =
        (dial.finest(), dial.closest(), dial.tool.cuts())
    {
        let gap = dial.least_gap.as_ref().map_or(width, |gap| gap.value().max(width));
        let like = |mm: Ratio| dial.like(mm.to_f64());
        whys.push(Why::new(
            "finest = π·d / (width + gap): a gap no less than the line, nor than your own least",
            format!("π × {} / ({} + {}) = {finest}", like(closest), like(width), like(gap)),
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
    if let (Some(worth), Some(pitch)) = (Worth::of(dial), dial.pitch()) {
        let part = |mm: f64| dial.worth_near(mm);
        let lead = worth.lead.map_or_else(String::new, |lead| format!(" + {}", part(lead)));
        whys.push(Why::new(
            "out by = one line · lining up by eye / line to line + worst of the division + the screw's own error; the nut's shake only where a reading is come up to from the other side",
            format!(
                "{} / {} of a line: {} + {}{lead} = {}, {} of a line",
                dial.like(BY_EYE_MM),
                dial.like(pitch),
                part(worth.by_eye),
                part(worth.division),
                part(worth.either_way()),
                show::float(worth.lines(), 2)
            ),
            "common practice, no source",
        ));
    }
    whys.extend(dial.tool.why());
    if let (Some(vernier), Some(scale)) = (&dial.vernier, &dial.scale) {
        let (n, over) = (vernier.divisions(), vernier.over());
        let least =
            vernier.least_count(scale.value).map_or_else(|_| String::new(), |v| dial.worth(v));
        whys.push(Why::new(
            "a vernier of n spaces over n − 1 lines tells line / n",
            format!("{n} over {over}: {} / {n} = {least}", dial.worth(scale.value)),
            "arithmetic",
        ));
    }
    let diameter = dial.diameter.as_ref();
    whys.extend(dial.circle.as_ref().map_or_else(Vec::new, |circle| circle.why(diameter)));
    whys
}
