//! What stands in a thread's name beside its numbers: hand, starts, and the series.

use alloc::vec::Vec;

use super::designation::Hand;
use super::refusal::{DesignationError, not_understood};
use super::series::Series;
use super::tokens::{Token, word_is};
use crate::exact::Ratio;

/// What stands beside the size and pitch in any thread's name.
pub(super) struct Extras {
    pub(super) hand: Hand,
    pub(super) starts: Option<u16>,
}

/// Takes hand and starts out of the name.
pub(super) fn extras(tokens: &mut Vec<Token>) -> Result<Extras, DesignationError> {
    let mut extras = Extras { hand: Hand::Right, starts: None };
    let mut kept: Vec<Token> = Vec::with_capacity(tokens.len());
    for token in core::mem::take(tokens) {
        if word_is(Some(&token), &["lh", "left", "l"]) {
            extras.hand = Hand::Left;
        } else if word_is(Some(&token), &["start", "starts"]) {
            // The count stands just before, perhaps with a dash between.
            while matches!(kept.last(), Some(Token::Mark('-'))) {
                kept.pop();
            }
            let count = match kept.pop() {
                Some(Token::Number(n, false)) if n.is_whole() => u16::try_from(n.numer()).ok(),
                Some(Token::Word(word)) => ["single", "two", "three", "four", "five", "six"]
                    .iter()
                    .zip(1u16..)
                    .find(|(name, _)| word.eq_ignore_ascii_case(name))
                    .map(|(_, n)| n)
                    .or_else(|| match word.to_ascii_lowercase().as_str() {
                        "double" | "twin" => Some(2),
                        "triple" | "treble" => Some(3),
                        "quadruple" => Some(4),
                        _ => None,
                    }),
                _ => None,
            };
            let count = count.filter(|n| (1..=99).contains(n));
            extras.starts = Some(count.ok_or_else(|| not_understood("starts"))?);
        } else if !word_is(Some(&token), &["rh", "right", "hand", "handed", "thread"]) {
            kept.push(token);
        }
    }
    while matches!(kept.last(), Some(Token::Mark('-' | ',' | '.'))) {
        kept.pop();
    }
    *tokens = kept;
    Ok(extras)
}

/// The words that name a series, each with what it names.
const NAMES: &[(&str, Series)] = &[
    ("unc", Series::Unc),
    ("unf", Series::Unf),
    ("unef", Series::Unef),
    ("uns", Series::Uns),
    ("un", Series::Uns),
    ("unr", Series::Uns),
    ("nc", Series::Unc),
    ("nf", Series::Unf),
    ("bsw", Series::Bsw),
    ("whit", Series::Whitworth),
    ("whitworth", Series::Whitworth),
    ("w", Series::Whitworth),
    ("bsf", Series::Bsf),
    ("g", Series::Pipe),
    ("bsp", Series::Pipe),
    ("bspp", Series::Pipe),
    ("bspf", Series::Pipe),
    ("ba", Series::Ba),
    ("tr", Series::Trapezoidal),
    ("acme", Series::Acme),
    ("me", Series::ModelEngineer),
    ("brass", Series::Brass),
    ("bsb", Series::Brass),
    ("bsc", Series::Cycle),
    ("cei", Series::Cycle),
    ("cycle", Series::Cycle),
    ("module", Series::Module),
    ("mod", Series::Module),
    ("dp", Series::DiametralPitch),
    ("m", Series::Metric),
];

/// The series named, with its word taken out; the words before it must not be eaten as classes.
pub(super) fn named(tokens: &mut Vec<Token>) -> Option<Series> {
    // "0.5 mm" and "8 tpi" have words too, but "m" stands only before a number.
    for (name, series) in NAMES {
        let Some(place) = tokens.iter().position(|t| word_is(Some(t), &[name])) else { continue };
        if *name == "m" && place != 0 {
            continue;
        }
        // A class letter after a digit at the very end is no series: "6g", "6G".
        if *name == "g" && place != 0 {
            continue;
        }
        tokens.remove(place);
        if let Some(stub) = tokens.iter().position(|t| word_is(Some(t), &["stub"])) {
            tokens.remove(stub);
            return Some(Series::StubAcme);
        }
        return Some(*series);
    }
    None
}

/// "8-UN", "12 UN", "16UN" after a size, where the number is the series and the pitch.
pub(super) fn constant_pitch(tokens: &mut Vec<Token>) -> Option<Series> {
    let un = tokens.iter().position(|t| word_is(Some(t), &["un", "unr"]))?;
    let mut count = un.checked_sub(1)?;
    if matches!(tokens.get(count), Some(Token::Mark('-'))) {
        count = count.checked_sub(1)?;
    }
    let Some(Token::Number(tpi, false)) = tokens.get(count) else { return None };
    let series = [(8, Series::Un8), (12, Series::Un12), (16, Series::Un16)]
        .into_iter()
        .find(|(n, _)| *tpi == Ratio::whole(*n))?
        .1;
    // The size must stand before it, or "16 UN" would be a size.
    if count == 0 {
        return None;
    }
    // "1-8 8-UN" names its pitch twice; the name's own number goes, the pitch stays if given.
    let pitch_given =
        tokens.iter().take(count).filter(|t| matches!(t, Token::Number(..))).count() > 1;
    if pitch_given {
        tokens.drain(count..=un);
    } else {
        tokens.remove(un);
    }
    Some(series)
}
