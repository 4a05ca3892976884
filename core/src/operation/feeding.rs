//! How a cut is fed here, by power or by hand, and how long it takes.

use super::Why;
use crate::chart::mounting;
use crate::exact::Ratio;
use crate::gearing::{Drawer, Request, search};
use crate::quantity::{Unit, show};
use crate::shop::Shop;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// A feed that this lathe makes by power.
#[derive(Clone, Debug)]
pub(super) struct PowerFeed {
    /// A turn of the spindle, mm.
    pub(super) mm: f64,
    /// What sets it: the lever's own word, or the gears.
    pub(super) set: String,
    /// The gears, spindle end first, and the gearbox's ratio with its own word, where gears make it.
    pub(super) gears: Option<FeedGears>,
    /// Whether it is coarser than was asked for: the finest that there is.
    pub(super) coarser: bool,
}

/// Gears that make a feed.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct FeedGears {
    /// Driver and driven, spindle end first.
    pub(super) pairs: Vec<(u16, u16)>,
    /// The gearbox's position, where there is a choice.
    pub(super) gearbox: Option<(Ratio, Option<String>)>,
    /// Whether the leadscrew itself feeds, by the half-nuts.
    pub(super) by_nuts: bool,
}

/// As many trains are looked at for one that falls short of the feed.
const LOOKED_AT: usize = 20;
/// No feed is called near that is finer than a third of what was asked for.
const FINEST: f64 = 1.0 / 3.0;

/// The feed by power nearest below `wanted` mm a turn: of those listed, else of those that the change
/// gears make. Where all that are listed are coarser, the finest.
pub(super) fn power_feed(wanted: f64, shop: &Shop) -> Option<PowerFeed> {
    let listed = shop.feeds();
    let made = |(feed, how): &(Ratio, Option<String>)| PowerFeed {
        mm: feed.to_f64(),
        set: how.clone().unwrap_or_default(),
        gears: None,
        coarser: feed.to_f64() > wanted,
    };
    if let Some(fine) = listed.iter().rfind(|(feed, _)| feed.to_f64() <= wanted) {
        return Some(made(fine));
    }
    listed.first().map(made).or_else(|| by_gears(wanted, shop))
}

/// The leadscrew feeds as it cuts a thread, or a feed shaft goes some part of that.
fn by_gears(wanted: f64, shop: &Shop) -> Option<PowerFeed> {
    let screw = shop.leadscrew().filter(|lead| !lead.pi())?.value();
    let part = shop.lathe().ratio("feed_ratio").unwrap_or(Ratio::ONE);
    let turn = screw.mul(part).ok()?;
    let drawer = Drawer::new(&shop.lathe().counts("change_gears")).ok()?;
    let gearbox = shop.gearbox();
    let ratios: Vec<Ratio> = gearbox.iter().map(|(ratio, _)| *ratio).collect();
    let request = Request {
        target: show::near(wanted, 6)?.div(turn).ok()?,
        before_train: shop.before_train(),
        gearbox: &ratios,
        pairs_max: shop.pairs_max(),
        mounting: mounting(shop),
        keep: LOOKED_AT,
    };
    let found = search(&drawer, &request).ok()?;
    let short = |train: &&crate::gearing::Train| train.mountable && !train.error.is_positive();
    let train = found.best.iter().find(short)?;
    let mm = train.total.mul(turn).ok()?.to_f64();
    if mm < wanted * FINEST {
        return None;
    }
    let pairs: Vec<String> = train
        .pairs()
        .iter()
        .map(|pair| format!("{} drives {}", pair.driver, pair.driven))
        .collect();
    let mut set = pairs.join(", ");
    if let Some((_, Some(how))) = gearbox.get(train.gearbox) {
        set.push_str(&format!(", {how}"));
    }
    if part == Ratio::ONE {
        set.push_str(", half-nuts closed");
    }
    let gears = FeedGears {
        pairs: train.pairs().iter().map(|pair| (pair.driver, pair.driven)).collect(),
        gearbox: gearbox.get(train.gearbox).filter(|_| gearbox.len() > 1).cloned(),
        by_nuts: part == Ratio::ONE,
    };
    Some(PowerFeed { mm, set, gears: Some(gears), coarser: false })
}

impl PowerFeed {
    /// `0.1 mm a turn: lever A2`.
    pub(super) fn words(&self, like: Unit) -> String {
        let feed = show::small_like(self.mm, like);
        let coarse = if self.coarser { ", the finest" } else { "" };
        let set = if self.set.is_empty() { String::new() } else { format!(": {}", self.set) };
        format!("{feed} a turn{coarse}{set}")
    }

    pub(super) fn why(&self, wanted: f64, like: Unit) -> Why {
        Why::new(
            "the feed by power nearest below the one advised, else the finest",
            format!("advised {}: {}", show::small_like(wanted, like), self.words(like)),
            "the feeds entered, else the change gears: arithmetic",
        )
    }
}

/// Winding back and setting the next cut, seconds a pass. Common practice, no source.
const BETWEEN: f64 = 20.0;
/// Stopping to measure, seconds. Common practice, no source.
const MEASURING: f64 = 60.0;

/// How long an operation takes, with the hand's own time apart.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Time {
    /// While it cuts, seconds.
    pub(super) cutting: f64,
    /// Winding back, setting and measuring, seconds.
    pub(super) by_hand: f64,
}

impl Time {
    /// With so many passes over a length at a feed, mm and mm/min.
    pub(super) fn and(self, passes: u32, length: f64, feed: f64) -> Time {
        let passes = f64::from(passes);
        let each = if feed > 0.0 { 60.0 * length / feed } else { 0.0 };
        Time { cutting: self.cutting + passes * each, by_hand: self.by_hand + passes * BETWEEN }
    }

    /// With a stop to measure.
    pub(super) fn and_measuring(self) -> Time {
        Time { by_hand: self.by_hand + MEASURING, ..self }
    }

    /// `2 min cutting, 1 min by hand`.
    pub(super) fn words(self) -> String {
        format!("{} cutting, {} by hand", lasting(self.cutting), lasting(self.by_hand))
    }

    /// All of it, minutes.
    pub(super) fn minutes(self) -> f64 {
        (self.cutting + self.by_hand) / 60.0
    }

    pub(super) fn why(self) -> Why {
        Why::new(
            "time = passes · length / feed, and by hand 20 s a pass, 60 s to measure",
            self.words(),
            "arithmetic; the hand's own time is common practice, no source",
        )
    }
}

/// Seconds as they are said: `45 s`, `2 min 30 s`, `12 min`, `2 h 5 min`.
pub(super) fn lasting(seconds: f64) -> String {
    // Saturates, and is never negative.
    let seconds = libm::round(seconds) as u64;
    let (minutes, over) = (seconds / 60, seconds % 60);
    match minutes {
        0 => format!("{seconds} s"),
        1..=9 if over > 0 => format!("{minutes} min {over} s"),
        1..=119 => format!("{} min", (seconds.saturating_add(30)) / 60),
        _ => {
            let hours = show::count(minutes / 60);
            match minutes % 60 {
                0 => format!("{hours} h"),
                over => format!("{hours} h {over} min"),
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_said_as_people_say_them() {
        for (seconds, words) in [
            (0.4, "0 s"),
            (59.4, "59 s"),
            (60.0, "1 min"),
            (150.0, "2 min 30 s"),
            (629.0, "10 min"),
            (631.0, "11 min"),
            (7500.0, "2 h 5 min"),
            (7200.0, "2 h"),
        ] {
            assert_eq!(lasting(seconds), words, "{seconds}");
        }
    }

    #[test]
    fn a_cut_of_forty_at_twenty_a_minute() {
        // By hand: 40 mm at 20 mm/min is 2 min; three passes 6 min, and 20 s each by hand.
        let time = Time::default().and(3, 40.0, 20.0);
        assert_eq!(time.words(), "6 min cutting, 1 min by hand");
        assert!((time.and_measuring().minutes() - 8.0).abs() < 1e-9);
    }
}
