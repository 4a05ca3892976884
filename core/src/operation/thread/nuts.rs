//! When the half-nuts may be closed again, by the chasing dials owned.

use super::gears::{Gears, target};
use crate::exact::RatioError;
use crate::quantity::show;
use crate::shop::{self, Shop};
use crate::threads::{ChasingDial, HalfNuts, Lead, Rule, half_nuts};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use core::cmp::Reverse;

/// The rule, and the dial that it is read on.
#[derive(Clone, Debug)]
pub(super) struct Nuts {
    pub(super) rule: Rule,
    /// Marks that may be used after a first engagement at mark 1.
    pub(super) marks: Vec<u16>,
    /// Carriage travel between usable points; none where the thread never repeats.
    pub(super) spacing: Option<Lead>,
    /// p and q of lead/leadscrew in lowest terms.
    pub(super) ratio: crate::exact::Ratio,
    /// The dial, where a rule needs one.
    pub(super) dial: Option<ChasingDial>,
    /// Whether there are others that do less well.
    several: bool,
    /// Where these gears don't cut the lead asked for: marks passed, and how far off the thread the
    /// tool then stands, µm, nearest first.
    pub(super) off: Vec<(u16, f64)>,
}

impl Nuts {
    /// The rule for the lead that the best mountable train cuts, else for the lead asked for.
    pub(super) fn of(
        wanted: Lead,
        screw: Lead,
        gears: Option<&Gears>,
        shop: &Shop,
    ) -> Result<Nuts, RatioError> {
        let cut = gears.and_then(|gears| gears.best()).map(|train| train.total);
        let repeats = cut.is_some() || wanted.is_exact() == screw.is_exact();
        let ratio = match cut {
            Some(total) => total,
            None => target(wanted, screw)?,
        };
        let dials = shop.chasing_dials();
        if !repeats {
            let (rule, marks) = (Rule::KeepClosed, Vec::new());
            let off = Vec::new();
            return Ok(Nuts { rule, marks, spacing: None, ratio, dial: None, several: false, off });
        }
        let lead = ratio.mul(screw.factor())?;
        let on = |dial| half_nuts(lead, screw.factor(), dial);
        let read: Vec<(ChasingDial, HalfNuts)> = dials
            .iter()
            .filter_map(chasing_dial)
            .map(|dial| Ok((dial, on(Some(dial))?)))
            .collect::<Result<_, RatioError>>()?;
        let best = read.into_iter().min_by_key(|(_, found)| order(found));
        let several = dials.len() > 1;
        let (dial, found) = match best {
            Some((dial, found)) => (Some(dial), found),
            None => (None, on(None)?),
        };
        let spacing = if screw.is_exact() { Lead::of_mm } else { Lead::of_pi_mm }(found.spacing);
        Ok(Nuts {
            rule: found.rule,
            marks: found.marks,
            spacing: Some(spacing),
            ratio,
            dial,
            several,
            off: match (dial, found.rule) {
                (Some(dial), Rule::EveryNthMark(_) | Rule::OneMark | Rule::KeepClosed)
                    if target(wanted, screw)? != ratio =>
                {
                    off(dial, ratio.to_f64(), lead.to_f64())
                }
                _ => Vec::new(),
            },
        })
    }

    /// The marks, or what else to go by: "marks 1, 3, 5".
    pub(super) fn words(&self) -> String {
        let words = match self.rule {
            Rule::Anywhere => return String::from("close anywhere"),
            Rule::KeepClosed if self.dial.is_none() && self.spacing.is_some() => {
                return String::from(
                    "no dial: keep closed, run back; or a carriage stop, and chalk marks on spindle and leadscrew that must meet again",
                );
            }
            Rule::KeepClosed => return String::from("keep closed, run back"),
            Rule::AnyMark => String::from("any mark"),
            Rule::OneMark => String::from("always the same mark"),
            Rule::EveryNthMark(_) => format!("marks {}", self.list()),
        };
        match self.dial {
            Some(dial) if self.several => {
                format!("{words}, wheel of {} teeth", dial.wheel_teeth)
            }
            _ => words,
        }
    }

    /// How far off the thread the nearest so many other marks are: "mark 3 by 5 µm".
    pub(super) fn off_words(&self, most: usize) -> Option<String> {
        let marks = self.dial?.marks;
        let said = self.off.iter().take(most).map(|(steps, um)| {
            let um = um.abs();
            let um = show::float_trimmed(um, if um < 10.0 { 1 } else { 0 });
            if *steps == marks {
                format!("mark 1 again by {um} µm a turn")
            } else {
                format!("mark {} by {um} µm", steps.saturating_add(1))
            }
        });
        Some(said.collect::<Vec<_>>().join(", ")).filter(|said| !said.is_empty())
    }

    /// `1, 3, 5`.
    pub(super) fn list(&self) -> String {
        let marks: Vec<String> = self.marks.iter().map(ToString::to_string).collect();
        marks.join(", ")
    }

    /// Whether the nuts stay closed from the first pass to the last.
    pub(super) fn closed(&self) -> bool {
        self.rule == Rule::KeepClosed
    }
}

fn chasing_dial(dial: &shop::ChasingDial) -> Option<ChasingDial> {
    Some(ChasingDial {
        wheel_teeth: u16::try_from(dial.wheel_teeth).ok()?,
        marks: u16::try_from(dial.marks).ok()?,
    })
}

/// After so many marks, how far the tool stands off the thread, µm: nearest first. Only marks that
/// the nuts can be closed at, on a whole leadscrew thread, are there.
fn off(dial: ChasingDial, ratio: f64, lead: f64) -> Vec<(u16, f64)> {
    let wheel = u32::from(dial.wheel_teeth);
    let at = |steps: u16| {
        let passed = wheel.saturating_mul(u32::from(steps));
        let threads = passed.checked_div(u32::from(dial.marks))?;
        (passed.checked_rem(u32::from(dial.marks)) == Some(0)).then(|| {
            let turns = f64::from(threads) / ratio;
            (steps, (turns - libm::round(turns)) * lead * 1000.0)
        })
    };
    let mut found: Vec<(u16, f64)> = Vec::new();
    // What can't be measured is no matter.
    for (steps, um) in (1..=dial.marks).filter_map(at).filter(|(_, um)| um.abs() > 0.005) {
        let place = found.iter().position(|other| other.1.abs() > um.abs());
        found.insert(place.unwrap_or(found.len()), (steps, um));
    }
    found
}

/// The freest rule first, then the most marks.
fn order(found: &HalfNuts) -> (u8, Reverse<usize>) {
    let rank = match found.rule {
        Rule::Anywhere => 0,
        Rule::AnyMark => 1,
        Rule::EveryNthMark(_) => 2,
        Rule::OneMark => 3,
        Rule::KeepClosed => 4,
    };
    (rank, Reverse(found.marks.len()))
}
