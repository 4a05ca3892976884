//! Why a move divides the circle, with this job's numbers.

use super::divided::Circle;
use super::words;
use crate::dividing::{Holes, Method, Setting, Way};
use crate::exact::Ratio;
use crate::operation::Why;
use crate::quantity::{Quantity, show};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

const ARMY: &str = "US Army OD1644, Milling Machine Operations, lesson 1";
const TREATISE: &str = "Practical Treatise on Milling and Milling Machines, p. 56";
const TEXTBOOK: &str =
    "textbook extract on differential indexing, s. 1.15.4: (n − N)·R/n, with n = R over the move";

impl Circle {
    /// Why the best way divides as it does, and what its error comes to.
    pub(in crate::operation) fn why(&self, diameter: Option<&Quantity>) -> Vec<Why> {
        let Some(way) = self.best() else { return Vec::new() };
        let mut whys = Vec::new();
        if self.irregular() {
            whys.push(Why::new(
                "place = angle/360 · places in a turn of the work, to the nearest",
                format!("{} in a turn", show::many(self.places(way), "place", "places")),
                "arithmetic",
            ));
        }
        if !self.irregular() || matches!(way.method(), Method::Compound | Method::Differential) {
            whys.push(self.method(way));
        }
        if !self.uneven() {
            whys.extend(words::arms(&way.setting).first().map(|(circle, arms)| {
                Why::new(
                    "holes between the arms = spaces + 1, the pin's own counted",
                    format!("on the {circle} circle: {}", arms.replace('*', "")),
                    TREATISE,
                )
            }));
        }
        if !way.exact {
            whys.push(self.error(way, diameter));
        }
        whys
    }

    /// Places in a turn of the work, for a way that goes to the nearest.
    fn places(&self, way: &Way) -> String {
        match way.setting {
            Setting::Direct { positions, .. } => positions.to_string(),
            Setting::HalfTooth { positions, .. } => format!("2 × {positions}"),
            Setting::Plain { circle, .. } => {
                format!("{} × {}", way.worm_ratio, circle.unwrap_or(1))
            }
            _ => way.divisions.to_string(),
        }
    }

    fn method(&self, way: &Way) -> Why {
        let (n, r) = (way.divisions, way.worm_ratio);
        match way.setting {
            Setting::Direct { .. } | Setting::HalfTooth { .. } | Setting::Plain { .. }
                if !way.exact =>
            {
                Why::new(
                    "each division at the nearest place, counted from 0 and not from the last one, so that nothing adds up",
                    format!(
                        "{} in a turn, for {}",
                        show::many(self.places(way), "place", "places"),
                        show::many(n, "division", "divisions")
                    ),
                    "arithmetic",
                )
            }
            Setting::Direct { positions, step } => Why::new(
                "move = teeth / N",
                format!("{positions} / {n} = {}", show::many(step, "tooth", "teeth")),
                "arithmetic",
            ),
            Setting::HalfTooth { positions, step } => Why::new(
                "move = 2·teeth / N half teeth: a second detent, or one that also holds on a tooth, doubles the places",
                format!(
                    "2 × {positions} / {n} = {} = {} teeth",
                    show::many(step, "half tooth", "half teeth"),
                    words::halves(step)
                ),
                "arithmetic",
            ),
            Setting::Plain { turns, holes, circle } => Why::new(
                "R/N = turns + holes/circle: R turns of the crank turn the work once",
                format!("{r}/{n} = {}", sum(turns, holes, circle)),
                ARMY,
            ),
            Setting::Compound { turns, first, second, laps } => {
                let lapped = if laps > 1 { format!("{laps} × ") } else { String::new() };
                let near = if way.exact { "=" } else { "≈" };
                let part = |holes: Holes| {
                    let sign = if holes.holes < 0 { '−' } else { '+' };
                    format!("{sign} {}/{}", holes.holes.unsigned_abs(), holes.circle)
                };
                Why::new(
                    "R/N = turns + a/A + b/B: no one circle holds the move, two of one plate do. First the crank moves against the plate, then the plate with the crank on it moves against the head; the work turns by both together",
                    format!("{lapped}{r}/{n} {near} {turns} {} {}", part(first), part(second)),
                    "arithmetic; as compound indexing is set out in old milling handbooks",
                )
            }
            Setting::Differential { turns, holes, circle, train } => {
                let size = i128::from(circle.unwrap_or(1));
                let all = i128::from(turns).saturating_mul(size).saturating_add(holes.into());
                let moves = all.saturating_mul(n.into());
                let made =
                    Ratio::new(moves, size).map_or_else(|_| String::new(), |m| m.to_string());
                let ratio = train.ratio().map_or_else(|_| String::new(), |ratio| ratio.to_string());
                let size = ratio.trim_start_matches('-').to_string();
                let turning = if train.with_crank() { "the same way as" } else { "against" };
                let near = if way.exact { "=" } else { "≈" };
                Why::new(
                    "plate's turns for one of the work = R − N·(turns + holes/circle): N plain moves don't make up R turns of the crank; gears from the work's spindle creep the plate round meanwhile and make good the difference",
                    format!(
                        "{r} − {n} × ({}) = {r} − {made} {near} {ratio}: {}, so that while the work turns once the plate turns {size} of a turn {turning} the crank",
                        sum(turns, holes, circle),
                        words::gears(&train, ""),
                    ),
                    TEXTBOOK,
                )
            }
        }
    }

    fn error(&self, way: &Way, diameter: Option<&Quantity>) -> Why {
        let worst = show::float(way.worst_arcsec(), 1);
        let mut values = format!("{worst}″ of the work");
        if let Some(diameter) = diameter {
            values.push_str(&format!(
                " × π × {} / 1 296 000″ = {}",
                diameter.text(),
                words::rim(way.worst, diameter)
            ));
        }
        if !way.closing.is_zero() {
            values.push_str(&format!(
                "; the same move each time, so the last space is off by all of them: {}",
                show::arc(way.closing_arcsec())
            ));
        }
        Why::new("off at the rim = worst error · π · d / a turn", values, "arithmetic")
    }
}

fn sum(turns: u32, holes: u16, circle: Option<u16>) -> String {
    match circle {
        Some(circle) if holes > 0 && turns > 0 => format!("{turns} + {holes}/{circle}"),
        Some(circle) if holes > 0 => format!("{holes}/{circle}"),
        _ => turns.to_string(),
    }
}
