//! A thread's name cut into numbers, words and marks.

use alloc::string::{String, ToString};
use alloc::vec::Vec;

use super::class::Class;
use super::lead::{Inches, Plain};
use super::refusal::DesignationError;
use crate::exact::Ratio;

/// A piece of a name.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Token {
    /// A number, and whether it was written as a fraction.
    Number(Ratio, bool),
    /// Letters, as written.
    Word(String),
    /// Anything else but a space.
    Mark(char),
}

/// Cuts text into numbers, words and marks.
pub(super) fn tokens(text: &str) -> Result<Vec<Token>, DesignationError> {
    let mut out: Vec<Token> = Vec::new();
    let chars: Vec<char> = text
        .chars()
        .map(|c| match c {
            '×' | '✕' | '*' => 'x',
            '–' | '—' | '−' | '‑' => '-',
            '″' | '”' | '“' => '"',
            '⁄' => '/',
            '№' => '#',
            other => other,
        })
        .collect();
    let at = |i: usize| chars.get(i).copied().unwrap_or(' ');
    let mut i = 0usize;
    while i < chars.len() {
        let c = at(i);
        if let Some((num, den)) = vulgar(c) {
            out.push(Token::Number(Ratio::of(num, den), true));
        } else if c.is_ascii_digit() || (c == '.' && at(i.saturating_add(1)).is_ascii_digit()) {
            let start = i;
            let mut slash = false;
            loop {
                let (here, next) = (at(i), at(i.saturating_add(1)));
                let inside = here.is_ascii_digit()
                    || (matches!(here, '.' | ',') && next.is_ascii_digit() && !slash)
                    || (here == '/' && next.is_ascii_digit() && !slash);
                if !inside || i >= chars.len() {
                    break;
                }
                slash |= here == '/';
                i = i.saturating_add(1);
            }
            let written: String = chars.get(start..i).unwrap_or_default().iter().collect();
            let number =
                number(&written).ok_or_else(|| DesignationError::BadNumber(written.clone()))?;
            out.push(Token::Number(number, slash));
            continue;
        } else if letter(c) && !c.is_whitespace() && !ignored(c) {
            let start = i;
            while letter(at(i)) && !at(i).is_whitespace() {
                i = i.saturating_add(1);
            }
            let word: String = chars.get(start..i).unwrap_or_default().iter().collect();
            split_cross(&word, &mut out);
            continue;
        } else if !c.is_whitespace() && !ignored(c) && c != '"' {
            out.push(Token::Mark(c));
        } else if c == '"' {
            out.push(Token::Word("in".to_string()));
        }
        i = i.saturating_add(1);
    }
    Ok(mixed(out))
}

/// "xPh" is a cross before a lead, "xP" one before a pitch.
fn split_cross(word: &str, out: &mut Vec<Token>) {
    let lower = word.to_ascii_lowercase();
    if matches!(lower.as_str(), "xp" | "xph") {
        out.push(Token::Word("x".to_string()));
        out.push(Token::Word(word.chars().skip(1).collect()));
    } else {
        out.push(Token::Word(word.to_string()));
    }
}

/// Signs that say nothing here: a diameter's.
const fn ignored(c: char) -> bool {
    matches!(c, 'Ø' | 'ø' | '⌀' | ';')
}

/// Letters, and all that is no letter of ours: whatever it is, it's read as one word.
const fn letter(c: char) -> bool {
    c.is_ascii_alphabetic() || c > '\u{bf}'
}

/// The fractions that have a character of their own.
const fn vulgar(c: char) -> Option<(i64, i64)> {
    Some(match c {
        '½' => (1, 2),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        _ => return None,
    })
}

/// `"10"`, `"0.25"`, `".25"`, `"0,25"`, `"5/16"`: never nothing, at most six decimals.
fn number(written: &str) -> Option<Ratio> {
    if let Some((above, below)) = written.split_once('/') {
        let ratio = number(above)?.div(number(below)?).ok()?;
        return Some(ratio);
    }
    let (whole, rest) = written.split_once(['.', ',']).unwrap_or((written, ""));
    if rest.len() > 6 || whole.len() > 9 || rest.contains(['.', ',']) {
        return None;
    }
    let mut digits: i64 = 0;
    for c in whole.chars().chain(rest.chars()) {
        digits = digits.checked_mul(10)?.checked_add(i64::from(c.to_digit(10)?))?;
    }
    let scale = 10i64.checked_pow(u32::try_from(rest.len()).ok()?)?;
    Some(Ratio::of(digits, scale))
}

/// Puts "1 1/4" and "1-1/4" together.
fn mixed(tokens: Vec<Token>) -> Vec<Token> {
    let mut out: Vec<Token> = Vec::with_capacity(tokens.len());
    for token in tokens {
        if let Token::Number(part, true) = token
            && part < Ratio::ONE
        {
            let dash = matches!(out.last(), Some(Token::Mark('-')));
            let place = out.len().checked_sub(if dash { 2 } else { 1 });
            if let Some(Token::Number(whole, false)) = place.and_then(|p| out.get(p))
                && whole.is_whole()
                && let Ok(sum) = whole.add(part)
            {
                out.truncate(place.unwrap_or_default());
                out.push(Token::Number(sum, true));
                continue;
            }
        }
        out.push(token);
    }
    out
}

#[inline(never)]
pub(super) fn word_is(token: Option<&Token>, names: &[&str]) -> bool {
    matches!(token, Some(Token::Word(word)) if names.iter().any(|n| word.eq_ignore_ascii_case(n)))
}

/// Reads the tokens one after another.
pub(super) struct Reader<'a> {
    pub(super) tokens: &'a [Token],
    pub(super) at: usize,
}

impl Reader<'_> {
    pub(super) fn peek(&self) -> Option<&Token> {
        self.tokens.get(self.at)
    }

    pub(super) fn advance(&mut self) {
        self.at = self.at.saturating_add(1);
    }

    #[inline(never)]
    pub(super) fn word(&mut self, names: &[&str]) -> bool {
        let there = word_is(self.peek(), names);
        if there {
            self.advance();
        }
        there
    }

    #[inline(never)]
    pub(super) fn mark(&mut self, marks: &[char]) -> bool {
        let there = matches!(self.peek(), Some(Token::Mark(c)) if marks.contains(c));
        if there {
            self.advance();
        }
        there
    }

    #[inline(never)]
    pub(super) fn number(&mut self) -> Option<Ratio> {
        let Some(Token::Number(n, _)) = self.peek() else { return None };
        let n = *n;
        self.advance();
        Some(n)
    }

    /// Everything that is left, as text.
    pub(super) fn rest(&self) -> String {
        let mut text = String::new();
        for token in self.tokens.get(self.at..).unwrap_or_default() {
            match token {
                Token::Number(n, false) => text.push_str(&Plain(*n).to_string()),
                Token::Number(n, true) => text.push_str(&Inches(*n).to_string()),
                Token::Word(word) => text.push_str(word),
                Token::Mark(c) => text.push(*c),
            }
        }
        text
    }

    /// The class that ends the name, if there is one; all must be used up by then.
    #[inline(never)]
    pub(super) fn class(&mut self) -> Result<Option<Class>, DesignationError> {
        while self.mark(&['-', ',', '(', ')']) || self.word(&["class"]) {}
        let rest = self.rest();
        if rest.is_empty() {
            return Ok(None);
        }
        let rest = rest.trim_end_matches(')');
        Class::parse(rest)
            .map(Some)
            .ok_or_else(|| DesignationError::NotUnderstood(rest.to_string()))
    }
}
