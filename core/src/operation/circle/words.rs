//! Ways and places in the words of the bench.

use super::divided::Circle;
use crate::dividing::{AS_GOOD, At, Holes, Pin, Setting, Train, Way, misplaced, sector_arms};
use crate::exact::Ratio;
use crate::operation::Tone;
use crate::quantity::{Quantity, show};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// "1 turn", "3 turns", figures between stars where `star` is one.
fn some(n: i64, one: &str, many: &str, star: &str) -> String {
    let word = if n == 1 { one } else { many };
    format!("{star}{n}{star} {word}")
}

/// Half teeth as a whole number and a half: `7½`.
pub(super) fn halves(half_teeth: u32) -> String {
    let whole = half_teeth >> 1;
    match (half_teeth & 1, whole) {
        (0, _) => whole.to_string(),
        (_, 0) => "½".to_string(),
        _ => format!("{whole}½"),
    }
}

/// "1 turn and 12 holes".
fn turns_and_holes(turns: i64, holes: i64, star: &str) -> String {
    match (turns, holes) {
        (0, 0) => "no move".to_string(),
        (0, holes) => some(holes, "hole", "holes", star),
        (turns, 0) => some(turns, "whole turn", "whole turns", star),
        (turns, holes) => {
            let turns = some(turns, "turn", "turns", star);
            format!("{turns} and {}", some(holes, "hole", "holes", star))
        }
    }
}

fn signed(holes: Holes, star: &str) -> String {
    let way = if holes.holes < 0 { "back" } else { "forward" };
    let size = i64::from(holes.holes.unsigned_abs());
    format!("{} of {star}{}{star} {way}", some(size, "hole", "holes", star), holes.circle)
}

/// The gears of a train: "40 drives 56", "40 drives 56, 24 drives 48".
pub(super) fn gears(train: &Train, star: &str) -> String {
    train.pairs().iter().map(|pair| drives(pair, star)).collect::<Vec<_>>().join(", ")
}

pub(super) fn drives((driver, driven): &(u16, u16), star: &str) -> String {
    format!("{star}{driver}{star} drives {star}{driven}{star}")
}

/// "1 idler", "no idler".
pub(super) fn idlers(train: &Train) -> String {
    match train.idlers() {
        0 => "no idler".to_string(),
        n => some(n.into(), "idler", "idlers", ""),
    }
}

/// The lines of a way, figures between stars.
pub(super) fn lines(setting: &Setting) -> Vec<String> {
    match *setting {
        Setting::Direct { positions, step } => Vec::from([
            format!("move {}", some(step.into(), "tooth", "teeth", "*")),
            format!("of *{positions}*"),
        ]),
        Setting::HalfTooth { positions, step } => {
            Vec::from([format!("move *{}* teeth", halves(step)), format!("of *{positions}*")])
        }
        Setting::Plain { turns, holes, circle } => {
            let mut lines = Vec::from([turns_and_holes(turns.into(), holes.into(), "*")]);
            lines.extend(circle.filter(|_| holes > 0).map(|circle| format!("of *{circle}*")));
            lines
        }
        Setting::Compound { turns, first, second, .. } => {
            let mut lines = Vec::new();
            if turns > 0 {
                lines.push(format!("{} and", some(turns.into(), "turn", "turns", "*")));
            }
            lines.push(signed(first, "*").replace(" holes", "").replace(" hole", ""));
            lines.push("then plate and all".to_string());
            lines.push(signed(second, "*").replace(" holes", "").replace(" hole", ""));
            lines
        }
        Setting::Differential { turns, holes, circle, train } => {
            let mut lines = lines(&Setting::Plain { turns, holes, circle });
            lines.extend(train.pairs().iter().map(|pair| drives(pair, "*")));
            lines
        }
    }
}

/// A way in one line.
pub(in crate::operation) fn short(setting: &Setting) -> String {
    let words = lines(setting).join(" ").replace('*', "");
    match setting {
        // The gears are another matter than the move.
        Setting::Differential { turns, holes, circle, train } => {
            let plain = Setting::Plain { turns: *turns, holes: *holes, circle: *circle };
            let words = lines(&plain).join(" ").replace('*', "");
            format!("{words}; {}, {}", gears(train, ""), idlers(train))
        }
        Setting::Compound { turns, first, second, .. } => {
            let turns = match turns {
                0 => String::new(),
                turns => format!("{} and ", some((*turns).into(), "turn", "turns", "")),
            };
            format!("{turns}{}, then {}, plate and all", signed(*first, ""), signed(*second, ""))
        }
        _ => words,
    }
}

/// What the method is called.
pub(super) fn method(setting: &Setting) -> &'static str {
    match setting {
        Setting::Direct { .. } => "direct",
        Setting::HalfTooth { .. } => "direct, half teeth",
        Setting::Plain { .. } => "plain",
        Setting::Compound { .. } => "compound",
        Setting::Differential { .. } => "differential",
    }
}

/// A place: "tooth 8", "hole 12", "turn 3, hole 12", figures between stars.
pub(super) fn place(at: &At, star: &str) -> String {
    match at {
        At::Tooth { tooth, .. } => format!("tooth {star}{tooth}{star}"),
        At::HalfTooth { half_teeth, .. } => format!("tooth {star}{}{star}", halves(*half_teeth)),
        At::Pin(pin) => in_hole(pin, star),
        At::Pins { crank, plate } => format!(
            "hole {star}{}{star} of the crank's circle, hole {star}{}{star} of the plate's",
            crank.hole, plate.hole
        ),
    }
}

fn in_hole(pin: &Pin, star: &str) -> String {
    match pin.circle {
        Some(_) => format!("hole {star}{}{star}", pin.hole),
        None => format!("the same hole, turn {star}{}{star}", pin.turns),
    }
}

/// The figure that is read from two metres, and what it is.
pub(super) fn figure(at: &At, turns_moved: i64) -> (&'static str, String) {
    match at {
        At::Tooth { tooth, .. } => ("forward to tooth", tooth.to_string()),
        At::HalfTooth { half_teeth, .. } => ("forward to tooth", halves(*half_teeth)),
        At::Pin(Pin { turns, circle: None, .. }) => ("forward to turn", turns.to_string()),
        At::Pin(Pin { hole, .. }) if turns_moved == 0 => ("forward to hole", hole.to_string()),
        At::Pin(Pin { turns, hole, .. }) => ("forward to turn + hole", format!("{turns} + {hole}")),
        At::Pins { crank, plate } => {
            ("crank's hole, plate's hole", format!("{}, {}", crank.hole, plate.hole))
        }
    }
}

/// What is counted to a place.
pub(super) fn counted(at: &At) -> &'static str {
    match at {
        At::Tooth { .. } | At::HalfTooth { .. } => "tooth",
        At::Pin(Pin { circle: None, .. }) => "turn",
        At::Pin(_) => "turn + hole",
        At::Pins { .. } => "holes",
    }
}

/// The crank's own part of a compound move, always forward: whole turns and spaces.
pub(super) fn crank_move(turns: u32, first: Holes) -> (i64, i64) {
    let (turns, spaces) = (i64::from(turns), i64::from(first.holes));
    match spaces < 0 && turns > 0 {
        true => (turns.saturating_sub(1), spaces.saturating_add(first.circle.into())),
        false => (turns, spaces.saturating_abs()),
    }
}

/// How the sector arms are set on each circle, in spaces and in holes, figures between stars;
/// nothing where there is nothing to count.
pub(super) fn arms(setting: &Setting) -> Vec<(u16, String)> {
    sector_arms(setting)
        .iter()
        .enumerate()
        .map(|(at, arms)| {
            let spaces = match *setting {
                Setting::Compound { turns, first, .. } if at == 0 => crank_move(turns, first).1,
                _ => arms.spaces.into(),
            };
            let holes = spaces.saturating_add(1);
            (arms.circle, format!("{}, *{holes}* holes", some(spaces, "space", "spaces", "*")))
        })
        .collect()
}

/// The diameter's arc of an error, in the diameter's system.
pub(super) fn rim(error: Ratio, diameter: &Quantity) -> String {
    show::small_like(misplaced::at_rim(error, diameter.value()), diameter.unit())
}

/// An error where a spacing is so fine that it shows: common practice, no source.
const SHOWS: f64 = 0.05;

impl Circle {
    /// How a way stands.
    pub(super) fn stands(&self, way: &Way, diameter: Option<&Quantity>) -> String {
        if way.exact {
            return "exact".to_string();
        }
        let arc = show::arc(way.worst_arcsec());
        match diameter {
            Some(d) => format!("{arc} off at worst: {}", rim(way.worst, d)),
            None => format!("{arc} off at worst"),
        }
    }

    /// The verdict on the best way.
    pub(in crate::operation) fn verdict(
        &self,
        diameter: Option<&Quantity>,
    ) -> Option<(Tone, String)> {
        let way = self.best()?;
        let short = self.idlers_short();
        if short > 0 {
            let stands = self.stands(way, diameter);
            let gears = some(short.into(), "gear", "gears", "");
            return Some((Tone::Mind, format!("{stands}, but {gears} short for its idlers")));
        }
        if way.exact {
            return Some((Tone::Good, "exact".to_string()));
        }
        let stands = self.stands(way, diameter);
        let words = match diameter {
            Some(d) => format!("{stands} at the rim of Ø {}", d.text()),
            None => stands,
        };
        let shows = match self.irregular() {
            true => way.worst > AS_GOOD,
            false => way.worst_share() > SHOWS,
        };
        let tone = if shows { Tone::Mind } else { Tone::Note };
        Some((tone, words))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn moves_are_said_as_they_are_made() {
        for (turns, holes, words) in [
            (0, 3, "3 holes"),
            (1, 4, "1 turn and 4 holes"),
            (5, 0, "5 whole turns"),
            (1, 0, "1 whole turn"),
            (2, 1, "2 turns and 1 hole"),
        ] {
            assert_eq!(turns_and_holes(turns, holes, ""), words);
        }
        assert_eq!((halves(15).as_str(), halves(1).as_str(), halves(8).as_str()), ("7½", "½", "4"));
        // A turn less three holes is the rest of the circle forward.
        assert_eq!(crank_move(1, Holes { holes: -3, circle: 20 }), (0, 17));
        assert_eq!(crank_move(0, Holes { holes: 9, circle: 21 }), (0, 9));
        let back = Holes { holes: -5, circle: 33 };
        assert_eq!(signed(back, "*"), "*5* holes of *33* back");
    }
}
