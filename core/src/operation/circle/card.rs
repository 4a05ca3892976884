//! A divided circle on the card: the move, the plate, the arms, and the other ways.

use super::divided::Circle;
use super::words;
use crate::dividing::Setting;
use crate::operation::{Fact, Line, Other, Picture, line};
use crate::quantity::{Quantity, show};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// Other ways that are listed.
const LISTED: usize = 40;
/// Angles that are told on the card.
const TOLD: u32 = 6;

impl Circle {
    /// The setting, the largest thing.
    pub(in crate::operation) fn lines(&self) -> Vec<Line> {
        let Some(way) = self.best() else { return Vec::new() };
        if !self.uneven() {
            return words::lines(&way.setting).iter().map(|words| line(words)).collect();
        }
        let moved = words::lines(&way.setting);
        let on = match way.setting {
            Setting::Direct { positions, .. } | Setting::HalfTooth { positions, .. } => {
                format!("on the *{positions}*")
            }
            Setting::Plain { circle: Some(circle), .. }
            | Setting::Differential { circle: Some(circle), .. } => {
                format!("on the *{circle}* circle")
            }
            Setting::Compound { first, second, .. } => {
                format!("on the *{}* and *{}*", first.circle, second.circle)
            }
            _ => "whole turns".to_string(),
        };
        let mut lines = Vec::from([line(&on)]);
        if let Setting::Differential { train, .. } = way.setting {
            lines.extend(train.pairs().iter().map(|pair| line(&words::drives(pair, "*"))));
        }
        if !self.irregular() {
            lines.push(line("to the nearest, about"));
            lines.extend(moved.first().map(|moved| line(moved)));
            return lines;
        }
        for number in 0..self.into.min(TOLD) {
            if let Some(place) = self.place(number)
                && let Some(degrees) = self.degrees(&place)
            {
                let (angle, (_, figure)) = (show::angle(degrees), words::figure(&place.at, 1));
                lines.push(line(&format!("{angle} at *{figure}*")));
            }
        }
        if self.into > TOLD {
            let more = self.into.saturating_sub(TOLD);
            lines.push(line(&format!("and *{more}* more")));
        }
        lines
    }

    /// The plate, the arms, and what it comes to at the rim.
    pub(in crate::operation) fn facts(&self, diameter: Option<&Quantity>) -> Vec<Fact> {
        let Some(way) = self.best() else { return Vec::new() };
        let mut facts = Vec::from([Fact::seldom("way", words::method(&way.setting))]);
        if let Some(asked) = self.asked.filter(|asked| *asked > self.listed()) {
            facts.push(Fact::new("way asked for", format!("{asked}, of {} here", self.listed())));
        }
        if let (true, Some(place)) = (self.irregular(), self.place(0)) {
            facts.push(Fact::new("told as", words::counted(&place.at)));
        }
        let number = |circles: &[u16]| {
            let has = |plate: &Vec<u16>| circles.iter().all(|circle| plate.contains(circle));
            let at = self.plates.iter().position(has).filter(|_| self.plates.len() > 1);
            at.map_or_else(String::new, |at| format!("plate {}: ", at.saturating_add(1)))
        };
        match way.setting {
            Setting::Direct { positions, .. } | Setting::HalfTooth { positions, .. } => {
                facts.push(Fact::new("on the spindle", format!("gear or plate of {positions}")));
            }
            Setting::Compound { first, second, .. } => {
                let circles = [first.circle, second.circle];
                let [one, other] = circles;
                facts.push(Fact::new(
                    "circles",
                    format!("{}{one} for the crank, {other} for the plate", number(&circles)),
                ));
            }
            Setting::Plain { circle: Some(circle), .. }
            | Setting::Differential { circle: Some(circle), .. } => {
                facts.push(Fact::new("circle", format!("{}{circle}", number(&[circle]))));
            }
            Setting::Plain { .. } | Setting::Differential { .. } => {}
        }
        if let Some((passed, moves)) = self.laps() {
            facts.push(Fact::new(
                "out of order",
                format!(
                    "each move passes {}; the first one's neighbour is made {} on",
                    show::many(passed, "place", "places"),
                    show::many(moves, "move", "moves")
                ),
            ));
        }
        if !self.uneven() {
            for (circle, arms) in words::arms(&way.setting) {
                let on = match way.setting {
                    Setting::Compound { .. } => format!("sector arms on {circle}"),
                    _ => "sector arms".to_string(),
                };
                facts.push(Fact::new(on, arms.replace('*', "")));
            }
        }
        if let Setting::Differential { train, .. } = way.setting {
            let turning = if train.with_crank() { "with" } else { "against" };
            facts.push(Fact::new(
                "plate turns",
                format!("{turning} the crank, {}", words::idlers(&train)),
            ));
        }
        if let (false, Some(diameter)) = (way.exact, diameter) {
            let share = show::float(way.worst_share() * 100.0, 1);
            let rim = words::rim(way.worst, diameter);
            facts.push(Fact::new(
                "off at the rim",
                match self.irregular() {
                    true => rim,
                    false => format!("{rim}, {share} % of a space"),
                },
            ));
            if let Some(off) = self.neighbours_off() {
                facts.push(Fact::new("each to the next off by", words::rim(off, diameter)));
            } else if !way.closing.is_zero() {
                facts.push(Fact::new("last space off by", words::rim(way.closing, diameter)));
            }
        }
        if let (false, Some((number, exact))) =
            (way.exact, self.rest().find(|(_, other)| other.exact))
        {
            let method = words::method(&exact.setting);
            facts.push(Fact::new("exact would be", format!("way {number}: {method}")));
        }
        if !self.complete {
            facts.push(Fact::new("looked at", "not every train: too many gears"));
        }
        facts
    }

    /// How many ways are listed.
    fn listed(&self) -> u32 {
        u32::try_from(self.ways.len()).unwrap_or(u32::MAX)
    }

    /// The ways but the one that is carried out, by the numbers under which they are asked for.
    pub(in crate::operation) fn others(&self, diameter: Option<&Quantity>) -> Vec<Other> {
        let ways = self.rest().take(LISTED);
        ways.map(|(number, way)| {
            let stands = self.stands(way, diameter);
            let short = match way.setting {
                Setting::Differential { train, .. } => train.idlers_lacking(),
                _ => 0,
            };
            let idlers = if short > 0 { ", short of gears for idlers" } else { "" };
            let method = words::method(&way.setting);
            let note = format!("way {number}: {method}, {stands}{idlers}");
            Other { line: words::short(&way.setting), note, usable: short == 0 }
        })
        .collect()
    }

    /// The plate or gear, or the train that turns it.
    pub(in crate::operation) fn card_picture(&self) -> Option<Picture> {
        match self.best()?.setting {
            Setting::Differential { train, .. } => Some(Picture::HeadTrain {
                pairs: train.pairs().to_vec(),
                idlers: train.idlers().into(),
            }),
            _ => self.picture(None, 0),
        }
    }
}
