//! Speeds and feeds in the words and units of the bench.

use super::Cut;
use super::kind::SLIDES;
use crate::cutting::{Beat, FeedUnit, Process, Verdict};
use crate::operation::Tone;
use crate::quantity::{Unit, show};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;

const MM_PER_FOOT: f64 = 304.8;
const MM_PER_INCH: f64 = 25.4;

/// A whole number of turns a minute.
pub(super) fn rpm(turns: f64) -> String {
    // Saturates, and is never negative.
    show::count(libm::round(turns) as u64)
}

/// A surface speed in m/min, or ft/min beside inches.
pub(super) fn surface(low: f64, high: f64, like: Unit) -> String {
    let (per, unit) =
        if like.is_inch() { (1000.0 / MM_PER_FOOT, "ft/min") } else { (1.0, "m/min") };
    let (low, high) = (low * per, high * per);
    // Below ten a whole number is too coarse.
    let places = u32::from(high < 10.0);
    let (low, high) = (show::float_trimmed(low, places), show::float_trimmed(high, places));
    if low == high { format!("{low} {unit}") } else { format!("{low} to {high} {unit}") }
}

/// What an edge takes.
pub(super) fn chip(mm: f64, like: Unit) -> String {
    match like.is_inch() {
        true => format!("{} thou", show::float_trimmed(mm / MM_PER_INCH * 1000.0, 2)),
        false => format!("{} mm", show::float_trimmed(mm, 4)),
    }
}

/// A feed a minute.
pub(super) fn feed(mm_per_min: f64, like: Unit) -> String {
    match like.is_inch() {
        true => format!("{} in/min", show::float_trimmed(mm_per_min / MM_PER_INCH, 2)),
        false => format!("{} mm/min", show::float_trimmed(mm_per_min, 1)),
    }
}

/// A slide by its name at the machine.
pub(in crate::operation) fn slide(id: &str) -> &'static str {
    SLIDES.iter().find(|slide| slide.id == id).map_or("the slide", |slide| slide.words)
}

/// How much of a turn: "1 turn", "1/4 turn".
pub(super) fn turn(beat: &Beat) -> String {
    format!("{} turn", beat.turn)
}

/// How long each takes.
pub(super) fn seconds(beat: &Beat) -> String {
    format!("{} s", show::float(beat.seconds, 1))
}

/// A share in words, for what is far below what the book asks.
fn share(of: f64) -> String {
    const NAMED: &[(f64, &str)] = &[
        (0.9, "nine tenths"),
        (0.75, "three quarters"),
        (2.0 / 3.0, "two thirds"),
        (0.6, "three fifths"),
        (0.5, "half"),
        (0.4, "two fifths"),
        (1.0 / 3.0, "a third"),
        (0.25, "a quarter"),
        (0.2, "a fifth"),
        (1.0 / 6.0, "a sixth"),
        (0.125, "an eighth"),
        (0.1, "a tenth"),
    ];
    let off = |named: f64| (named / of).max(of / named);
    let nearest =
        NAMED.iter().reduce(|best, one| if off(one.0) < off(best.0) { one } else { best });
    match nearest {
        Some((named, words)) if off(*named) < 1.15 => (*words).to_owned(),
        _ => format!("1/{}", show::float(1.0 / of, 0)),
    }
}

impl Cut {
    /// How the speed stands to the book's.
    pub(super) fn verdict(&self) -> Option<(Tone, String)> {
        let at = self.at.as_ref()?;
        if let Some(trouble) = self.load.as_ref().and_then(super::load::Load::trouble) {
            return Some((Tone::Mind, trouble));
        }
        let (low, high) = (rpm(at.range.low), rpm(at.range.high));
        let Some((pick, _)) = self.spindle() else {
            return Some((Tone::Note, format!("what the book asks: {low} to {high}")));
        };
        Some(match pick.verdict {
            Verdict::Within => (Tone::Good, format!("within {low} to {high}")),
            Verdict::Near { .. } => (Tone::Good, format!("near enough to {low} to {high}")),
            Verdict::OtherBook { .. } => {
                (Tone::Note, format!("over {low} to {high}, within what another book allows"))
            }
            Verdict::Between { .. } => {
                (Tone::Note, format!("a little slow: the next one up is beyond {low} to {high}"))
            }
            Verdict::MachineTooSlow { .. } => {
                let share = share(pick.rpm / at.range.low);
                (Tone::Note, format!("the fastest there is: {share} of what the book asks"))
            }
            Verdict::MachineTooFast { .. } => {
                (Tone::Mind, format!("the slowest there is, and too fast: {high} at most"))
            }
        })
    }

    /// What one edge takes, said as the process says it.
    pub(super) fn chip_words(&self) -> Option<(&'static str, String)> {
        let feed = self.at.as_ref()?.feeds.first()?;
        let per_turn = || ("feed a turn", chip(feed.low, self.like));
        Some(match (feed.unit, self.process) {
            (FeedUnit::PerTooth, _) => {
                let now = self.chip_mm.unwrap_or(feed.low);
                let fine = format!("{} a tooth", chip(now, self.like));
                let coarse = chip(feed.high, self.like);
                ("chip", format!("{fine}: less rubs, over {coarse} may break it"))
            }
            (FeedUnit::PerTurn, Process::Drill) => {
                let (label, turn) = per_turn();
                (label, format!("{turn}, half of it each lip"))
            }
            _ => per_turn(),
        })
    }

    /// The feed, and for a milling cutter the one at which it may break.
    pub(super) fn feed_words(&self) -> Option<String> {
        let now = self.feed_mm_per_min?;
        let words = feed(now, self.like);
        let book = self.at.as_ref()?.feeds.first()?;
        Some(match book.unit {
            FeedUnit::PerTooth => {
                let most = feed(self.most_mm_per_min().unwrap_or(now), self.like);
                format!("{words}, never over {most}")
            }
            FeedUnit::PerTurn => words,
        })
    }

    /// The beat in one line.
    pub(super) fn beat_words(&self) -> Option<String> {
        let (beat, slide_id) = (self.beat.as_ref()?, self.slide?);
        Some(format!("{} of {} each {}", turn(beat), slide(slide_id), seconds(beat)))
    }

    /// What to do where a hand can't keep the feed even.
    pub(super) fn instead_of_a_hand(&self) -> Option<String> {
        let least = self.hand_mm_per_min.filter(|_| self.beat.is_none())?;
        let least = feed(least, self.like);
        let other = if self.power_feed.is_some() {
            "feed by power"
        } else if self.process == Process::Mill {
            "a faster spindle, more teeth, or a slide with a finer screw"
        } else {
            "a faster spindle, or a slide with a finer screw"
        };
        Some(format!("not by hand: {least} is the least that one keeps even; {other}"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_are_named_as_they_are_said() {
        for (of, words) in [
            (0.5, "half"),
            (0.48, "half"),
            (0.26, "a quarter"),
            (0.66, "two thirds"),
            (0.95, "nine tenths"),
            (0.02, "1/50"),
        ] {
            assert_eq!(share(of), words, "{of}");
        }
    }

    #[test]
    fn speeds_and_feeds_in_both_systems() {
        assert_eq!(surface(21.336, 27.432, Unit::Inch), "70 to 90 ft/min");
        assert_eq!(surface(21.336, 27.432, Unit::Mm), "21 to 27 m/min");
        assert_eq!(surface(4.2, 4.2, Unit::Mm), "4.2 m/min");
        assert_eq!(chip(0.0127, Unit::Thou), "0.5 thou");
        assert_eq!(feed(25.4, Unit::Inch), "1 in/min");
    }
}
