//! A cut on the card: the speed, how it stands to the book's, and the feed.

use super::{Cut, words};
use crate::cutting::{Process, neighbours, slot_depth_share};
use crate::operation::{Card, Fact, Line, Other, Picture, line};
use crate::quantity::show;
use alloc::format;
use alloc::string::ToString;
use alloc::vec::Vec;

impl Cut {
    pub(super) fn as_card(&self) -> Card {
        Card {
            lines: self.lines(),
            verdict: self.verdict(),
            facts: self.facts(),
            picture: self.speeds_picture(),
            others_title: "neighbouring speeds",
            others: self.others(),
            ..Card::default()
        }
    }

    fn lines(&self) -> Vec<Line> {
        let Some(at) = &self.at else {
            let unit = self.diameter.as_ref().map_or(self.like, crate::quantity::Quantity::unit);
            let speed = words::surface(self.book.low, self.book.high, unit);
            return Vec::from([line(&format!("*{speed}* at the rim"))]);
        };
        match self.spindle() {
            Some((_, speed)) => {
                let mut lines =
                    Vec::from([line(&format!("*{}* rpm", show::count(speed.rpm.into())))]);
                lines.extend(speed.how.as_ref().map(|how| line(how)));
                lines
            }
            None => Vec::from([line(&format!("*{}* rpm", words::rpm(at.range.ideal())))]),
        }
    }

    fn facts(&self) -> Vec<Fact> {
        let mut facts = Vec::new();
        let unit = self.diameter.as_ref().map_or(self.like, crate::quantity::Quantity::unit);
        let book = words::surface(self.book.low, self.book.high, unit);
        if let Some(at) = &self.at {
            let speed = words::surface(at.surface_m_per_min, at.surface_m_per_min, unit);
            facts.push(Fact::new("surface speed", format!("{speed}; the book: {book}")));
        }
        if let Some((label, chip)) = self.chip_words() {
            facts.push(Fact::new(label, chip));
        }
        if let Some(feed) = self.feed_words() {
            facts.push(Fact::new("feed", feed));
        } else if self.process.follows_a_pitch() {
            facts.push(Fact::new("feed", "the pitch, each turn"));
        }
        if let Some(beat) = self.beat_words() {
            let held = self.beat.zip(self.feed_mm_per_min).is_some_and(|(b, f)| b.held_back(f));
            let beat = if held { format!("{beat}: as quick as a hand can") } else { beat };
            facts.push(Fact::new("beat", beat));
        }
        facts.extend(self.instead_of_a_hand().map(|instead| Fact::new("beat", instead)));
        if let (Some(passes), Some(depth)) = (self.passes, &self.depth)
            && let Ok(each) = depth.value().div(passes.into())
        {
            let each = show::length_like(each, depth.unit());
            facts.push(Fact::new("passes", format!("{} of {each}", show::count(passes.into()))));
        }
        self.more_facts(&mut facts);
        if self.assumed {
            facts.push(Fact::new("cutter", format!("{}, as none is named", self.material)));
        }
        for (name, most) in &self.too_fast_for {
            let most = show::count((*most).into());
            facts.push(Fact::new("too fast for", format!("{name}, {most} rpm at most")));
        }
        facts
    }

    /// What feeds by power, what it asks of the machine, and how long it takes.
    fn more_facts(&self, facts: &mut Vec<Fact>) {
        // A saw's and a point's depth have nothing to do with their diameter.
        if self.process == Process::Mill
            && !(self.saws || self.engraves)
            && let (None, Some(diameter)) = (&self.passes, &self.diameter)
            && let Ok(deep) = diameter.value().mul(slot_depth_share(self.stock))
        {
            let deep = show::length_like(deep, diameter.unit());
            facts.push(Fact::new("a slot, each pass", format!("{deep} deep at most")));
        }
        if let Some(power) = &self.power_feed {
            facts.push(Fact::new("by power", power.words(self.like)));
        }
        if let Some(load) = &self.load {
            facts.extend(load.facts());
        }
        if let Some(time) = self.time(self.passes.unwrap_or(1)) {
            facts.push(Fact::new("it takes", time.words()));
        }
    }

    fn speeds_picture(&self) -> Option<Picture> {
        let (at, (_, speed)) = (self.at.as_ref()?, self.spindle()?);
        Some(Picture::Speeds {
            owned: self.owned.iter().map(|speed| speed.rpm).collect(),
            range: (at.range.low, at.range.high),
            chosen: speed.rpm,
        })
    }

    /// The next speed down and the next up.
    fn others(&self) -> Vec<Other> {
        let (Some(at), Some((pick, _)), Some(diameter)) =
            (&self.at, self.spindle(), &self.diameter)
        else {
            return Vec::new();
        };
        let rpms: Vec<f64> = self.owned.iter().map(|speed| f64::from(speed.rpm)).collect();
        let slower = rpms.get(..pick.index).unwrap_or_default();
        let (_, up) = neighbours(pick.rpm, &rpms);
        let down = neighbours(pick.rpm, slower).0;
        let other = |index: usize| {
            let speed = self.owned.get(index)?;
            let turns = f64::from(speed.rpm);
            let surface = crate::cutting::surface_at(turns, diameter.value()).ok()?;
            let surface = words::surface(surface, surface, diameter.unit());
            let stands = if turns > at.range.high {
                "above the range"
            } else if turns < at.range.low {
                "below the range"
            } else {
                "within the range"
            };
            let rpm = show::count(speed.rpm.into());
            let line = match &speed.how {
                Some(how) => format!("{rpm} rpm: {how}"),
                None => format!("{rpm} rpm"),
            };
            Some(Other { line, note: format!("{stands}: {surface}"), usable: true })
        };
        [up, down].into_iter().flatten().filter_map(other).collect()
    }

    /// The speed in one word for Bench.
    pub(super) fn rpm_figure(&self) -> Option<alloc::string::String> {
        let at = self.at.as_ref()?;
        Some(match self.spindle() {
            Some((_, speed)) => speed.rpm.to_string(),
            None => words::rpm(at.range.ideal()),
        })
    }
}
