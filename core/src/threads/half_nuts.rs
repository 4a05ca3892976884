//! When the half-nuts may be closed again: the chasing dial.

use alloc::vec::Vec;

use crate::exact::{Ratio, RatioError};

/// A chasing dial: a wheel in mesh with the leadscrew, and numbered marks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ChasingDial {
    /// Teeth of its wheel: leadscrew threads to one turn of the dial.
    pub wheel_teeth: u16,
    /// Marks, evenly spaced, numbered from 1.
    pub marks: u16,
}

/// Where the half-nuts may be closed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rule {
    /// Wherever they fall in.
    Anywhere,
    /// At any mark of the dial.
    AnyMark,
    /// At every so many marks.
    EveryNthMark(u16),
    /// Only at the mark where they were first closed.
    OneMark,
    /// Nowhere but at the very start: keep them closed and run back.
    KeepClosed,
}

/// The dial's rule for one lead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HalfNuts {
    /// Leadscrew threads between points at which the thread repeats: p of lead/leadscrew = p/q.
    pub repeats_every: u64,
    /// Carriage travel between such points, mm, exactly.
    pub spacing: Ratio,
    /// In the trade's words.
    pub rule: Rule,
    /// The marks that may be used after a first engagement at mark 1; empty where the nuts stay
    /// closed or there is no dial.
    pub marks: Vec<u16>,
}

/// When the half-nuts may be closed for this lead on this leadscrew (both in mm), with this dial.
///
/// lead/leadscrew = p/q in lowest terms: the carriage is right again every p leadscrew threads. A
/// mark is usable when every time it comes round the carriage is right, counted from an engagement
/// at mark 1: so one whole turn must be right too, else the nuts stay closed. With no dial, only
/// `anywhere` or `keep-closed` can be said. Take the lead that the gears really cut, and the lead
/// of a multi-start thread, not its pitch.
///
/// # Errors
///
/// [`RatioError`] when either is nothing or the two can't be divided exactly.
pub fn half_nuts(
    lead: Ratio,
    leadscrew: Ratio,
    dial: Option<ChasingDial>,
) -> Result<HalfNuts, RatioError> {
    let ratio = lead.div(leadscrew)?.abs();
    if ratio.is_zero() {
        return Err(RatioError::ZeroDenominator);
    }
    let p = u64::try_from(ratio.numer()).map_err(|_| RatioError::Overflow)?;
    let spacing = leadscrew.abs().mul(Ratio::new(i128::from(p), 1)?)?;
    let found = |rule, marks| HalfNuts { repeats_every: p, spacing, rule, marks };
    let dial = dial.filter(|dial| dial.wheel_teeth > 0 && dial.marks > 0);
    if p == 1 {
        return Ok(found(Rule::Anywhere, (1..=dial.map_or(0, |dial| dial.marks)).collect()));
    }
    let Some(dial) = dial else { return Ok(found(Rule::KeepClosed, Vec::new())) };
    // After so many marks the dial has passed teeth × steps / marks leadscrew threads.
    let right_after = |steps: u16| {
        let threads = u64::from(dial.wheel_teeth).saturating_mul(u64::from(steps));
        p.checked_mul(u64::from(dial.marks)).and_then(|every| threads.checked_rem(every)) == Some(0)
    };
    if !right_after(dial.marks) {
        return Ok(found(Rule::KeepClosed, Vec::new()));
    }
    let nth = (1..=dial.marks).find(|steps| right_after(*steps)).unwrap_or(dial.marks);
    let marks = (1..=dial.marks).filter(|mark| right_after(mark.saturating_sub(1))).collect();
    let rule = if nth == dial.marks {
        Rule::OneMark
    } else if nth == 1 {
        Rule::AnyMark
    } else {
        Rule::EveryNthMark(nth)
    };
    Ok(found(rule, marks))
}

/// The rule's name in answers.
impl Rule {
    /// `"anywhere"`, `"any-mark"`, `"every-nth-mark"`, `"one-mark"`, `"keep-closed"`.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Rule::Anywhere => "anywhere",
            Rule::AnyMark => "any-mark",
            Rule::EveryNthMark(_) => "every-nth-mark",
            Rule::OneMark => "one-mark",
            Rule::KeepClosed => "keep-closed",
        }
    }
}
