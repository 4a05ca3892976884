//! A thread's name as people write it, read into what it says.

use alloc::string::{String, ToString};
use alloc::vec::Vec;
use core::fmt;

use super::class::Class;
use super::designation::{Designation, Hand, is_number, numbered};
use super::lead::{INCH, Inches, Lead, Plain};
use super::series::{
    Series, ba, coarse, dp_worm, inch_thread, metric_thread, module_worm, of_size, pipe, standard,
};
use crate::exact::Ratio;

/// Why a thread's name can't be taken.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum DesignationError {
    /// Nothing is written.
    Nothing,
    /// This part means nothing here.
    NotUnderstood(String),
    /// A size stands alone, and several series have it.
    WhichSeries(String),
    /// The series has no such size; what is nearest in it.
    NoSuchSize {
        /// As written.
        size: String,
        /// Of which series.
        series: &'static str,
        /// Sizes it does have.
        near: String,
    },
    /// The size has no pitch of its own, so one must be given.
    PitchWanted {
        /// As written.
        size: String,
        /// How it might be written.
        example: String,
    },
    /// A number is nothing, too large, or has a nought below the bar.
    BadNumber(String),
    /// The pitch is as large as the thread itself, or larger.
    PitchTooLarge(String),
    /// A lead that isn't a whole number of pitches.
    NotWholeStarts {
        /// The lead as written.
        lead: String,
        /// The pitch as written.
        pitch: String,
    },
    /// The class belongs to another kind of thread.
    ClassOfAnother {
        /// The class as written.
        class: String,
        /// What would be understood.
        would: &'static str,
    },
}

impl fmt::Display for DesignationError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        use DesignationError as E;
        match self {
            E::Nothing => {
                f.write_str("no thread yet: write one like M10, 1/4-20 UNC, 3/8 BSF, 2 BA")
            }
            E::NotUnderstood(what) => write!(
                f,
                "\u{201c}{what}\u{201d} isn't understood: write a thread like M10 × 1.25, 1/4-20 UNC, \
                 3/8 BSF, G 1/4, 2 BA, Tr 16 × 4, 1/2-10 Acme, module 1, DP 20, or a lead like 3 mm or 8 tpi"
            ),
            E::WhichSeries(size) => write!(
                f,
                "{size} is a size, and several threads have it: say which, like M{size}, {size} BSW, {size} UNC"
            ),
            E::NoSuchSize { size, series, near } => {
                write!(f, "there is no {series} thread of size {size}: the nearest are {near}")
            }
            E::PitchWanted { size, example } => {
                write!(f, "{size} has no pitch of its own: give one, like {example}")
            }
            E::BadNumber(number) => write!(f, "{number} can't be a size or a pitch"),
            E::PitchTooLarge(pitch) => write!(f, "a pitch of {pitch} is too large for this thread"),
            E::NotWholeStarts { lead, pitch } => {
                write!(f, "a lead of {lead} isn't a whole number of pitches of {pitch}")
            }
            E::ClassOfAnother { class, would } => {
                write!(f, "class {class} isn't one of this thread's: it would be {would}")
            }
        }
    }
}

impl core::error::Error for DesignationError {}

/// A piece of a name.
#[derive(Clone, Debug, PartialEq)]
enum Token {
    /// A number, and whether it was written as a fraction.
    Number(Ratio, bool),
    /// Letters, as written.
    Word(String),
    /// Anything else but a space.
    Mark(char),
}

/// Cuts text into numbers, words and marks.
fn tokens(text: &str) -> Result<Vec<Token>, DesignationError> {
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
        } else if c.is_alphabetic() {
            let start = i;
            while at(i).is_alphabetic() {
                i = i.saturating_add(1);
            }
            let word: String = chars.get(start..i).unwrap_or_default().iter().collect();
            split_cross(&word, &mut out);
            continue;
        } else if !c.is_whitespace() && !matches!(c, 'Ø' | 'ø' | '⌀' | '"' | ';') {
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

/// What stands beside the size and pitch in any thread's name.
struct Extras {
    hand: Hand,
    starts: Option<u16>,
}

fn word_is(token: Option<&Token>, names: &[&str]) -> bool {
    matches!(token, Some(Token::Word(word)) if names.iter().any(|n| word.eq_ignore_ascii_case(n)))
}

/// Takes hand and starts out of the name.
fn extras(tokens: &mut Vec<Token>) -> Result<Extras, DesignationError> {
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
            extras.starts =
                Some(count.ok_or_else(|| DesignationError::NotUnderstood("starts".to_string()))?);
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

/// Reads the tokens one after another.
struct Reader<'a> {
    tokens: &'a [Token],
    at: usize,
}

impl Reader<'_> {
    fn peek(&self) -> Option<&Token> {
        self.tokens.get(self.at)
    }

    fn advance(&mut self) {
        self.at = self.at.saturating_add(1);
    }

    fn word(&mut self, names: &[&str]) -> bool {
        let there = word_is(self.peek(), names);
        if there {
            self.advance();
        }
        there
    }

    fn mark(&mut self, marks: &[char]) -> bool {
        let there = matches!(self.peek(), Some(Token::Mark(c)) if marks.contains(c));
        if there {
            self.advance();
        }
        there
    }

    fn number(&mut self) -> Option<Ratio> {
        let Some(Token::Number(n, _)) = self.peek() else { return None };
        let n = *n;
        self.advance();
        Some(n)
    }

    /// Everything that is left, as text.
    fn rest(&self) -> String {
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
    fn class(&mut self) -> Result<Option<Class>, DesignationError> {
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
    ("module", Series::Module),
    ("mod", Series::Module),
    ("dp", Series::DiametralPitch),
    ("m", Series::Metric),
];

/// The series named, with its word taken out; the words before it must not be eaten as classes.
fn named(tokens: &mut Vec<Token>) -> Option<Series> {
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

/// A thread from its name.
///
/// # Errors
///
/// [`DesignationError`], which says what was not understood and what would be.
///
/// ```
/// use latheside_core::threads::{Hand, parse};
/// let thread = parse("Tr 16x4 LH").unwrap();
/// assert_eq!(thread.hand, Hand::Left);
/// assert_eq!(thread.to_string(), "Tr 16 × 4 LH");
/// assert!(parse("M10 by lunchtime").is_err());
/// ```
pub fn parse(text: &str) -> Result<Designation, DesignationError> {
    let mut tokens = tokens(text)?;
    if tokens.is_empty() {
        return Err(DesignationError::Nothing);
    }
    let extras = extras(&mut tokens)?;
    let constant = constant_pitch(&mut tokens);
    let series = constant.or_else(|| named(&mut tokens));
    let mut reader = Reader { tokens: &tokens, at: 0 };
    let mut thread = match series {
        Some(Series::Metric | Series::Trapezoidal) => {
            metric(series == Some(Series::Metric), &mut reader, &extras)?
        }
        Some(Series::Ba) => {
            let number = wanted(&mut reader, text)?;
            let found = number.is_whole().then(|| usize::try_from(number.numer()).ok()).flatten();
            found.and_then(ba).ok_or_else(|| DesignationError::NoSuchSize {
                size: Plain(number).to_string(),
                series: "BA",
                near: "0 to 16".to_string(),
            })?
        }
        Some(Series::Pipe) => {
            let size = wanted(&mut reader, text)?;
            pipe(size).ok_or_else(|| no_such(Series::Pipe, size))?
        }
        Some(Series::Module) => {
            let module = wanted(&mut reader, text)?;
            reader.word(&["mm"]);
            module_worm(module)
        }
        Some(Series::DiametralPitch) => {
            let dp = wanted(&mut reader, text)?;
            dp_worm(dp).ok_or_else(|| DesignationError::BadNumber(Plain(dp).to_string()))?
        }
        Some(series) => inch(series, &mut reader, text)?,
        None => unnamed(&mut reader, text)?,
    };
    if let Some(starts) = extras.starts {
        thread.starts = starts;
        if thread.series == Series::Plain {
            thread.pitch = shared(thread.pitch, starts)?;
        }
    }
    thread.hand = extras.hand;
    thread.class = reader.class()?;
    checked(thread)
}

/// "8-UN", "12 UN", "16UN" after a size, where the number is the series and the pitch.
fn constant_pitch(tokens: &mut Vec<Token>) -> Option<Series> {
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

/// The pitch of a lead that so many starts share.
fn shared(lead: Lead, starts: u16) -> Result<Lead, DesignationError> {
    let pitch = lead.factor().div(Ratio::whole(i64::from(starts)));
    let pitch = pitch.map_err(|_| DesignationError::BadNumber(lead.to_string()))?;
    Ok(if lead.is_exact() { Lead::of_mm(pitch) } else { Lead::of_pi_mm(pitch) })
}

fn wanted(reader: &mut Reader<'_>, text: &str) -> Result<Ratio, DesignationError> {
    reader.mark(&['-', '#', ':', '=']);
    reader.word(&["no"]);
    reader.number().ok_or_else(|| DesignationError::NotUnderstood(text.trim().to_string()))
}

fn no_such(series: Series, size: Ratio) -> DesignationError {
    let mut near: Vec<Designation> =
        standard().into_iter().filter(|d| d.series == series).collect();
    near.sort_by_key(|d| d.size.sub(size).map(Ratio::abs).unwrap_or(Ratio::whole(i64::MAX)));
    let mut names = String::new();
    for thread in near.iter().take(2) {
        if !names.is_empty() {
            names.push_str(" and ");
        }
        names.push_str(&thread.to_string());
    }
    DesignationError::NoSuchSize {
        size: Inches(size).to_string(),
        series: series.name(),
        near: names,
    }
}

/// What follows M or Tr: a diameter, perhaps a pitch or a lead and a pitch.
fn metric(
    iso: bool,
    reader: &mut Reader<'_>,
    extras: &Extras,
) -> Result<Designation, DesignationError> {
    let series = if iso { Series::Metric } else { Series::Trapezoidal };
    let size = reader.number().ok_or_else(|| DesignationError::NotUnderstood(reader.rest()))?;
    reader.word(&["mm"]);
    let before = reader.at;
    // A dash is a class's unless a pitch follows it: "M10-1.25", but "M10-6g".
    let crossed = reader.word(&["x"]) || reader.mark(&['-']);
    let ph = reader.word(&["ph"]);
    let first = reader.number();
    let class_follows = matches!(reader.peek(), Some(Token::Word(w)) if w.chars().count() == 1 && !word_is(Some(&Token::Word(w.clone())), &["p"]));
    let first = if class_follows {
        reader.at = before;
        None
    } else {
        first
    };
    if first.is_none() {
        reader.at = before;
    } else {
        reader.word(&["mm"]);
    }
    let mut starts = 1u16;
    let pitch = match first {
        Some(first) => {
            let open = reader.mark(&['(']);
            let second = if reader.word(&["p"]) { reader.number() } else { None };
            if open {
                reader.mark(&[')']);
            }
            match second {
                Some(pitch) => {
                    let ratio = first
                        .div(pitch)
                        .map_err(|_| DesignationError::BadNumber(Plain(pitch).to_string()))?;
                    let whole =
                        ratio.is_whole().then(|| u16::try_from(ratio.numer()).ok()).flatten();
                    starts = whole.filter(|n| (1..=99).contains(n)).ok_or_else(|| {
                        DesignationError::NotWholeStarts {
                            lead: Plain(first).to_string(),
                            pitch: Plain(pitch).to_string(),
                        }
                    })?;
                    pitch
                }
                // "Tr 16 × 8, 2 starts" gives the lead; "Tr 16 × 4" the pitch.
                None => match extras.starts.filter(|_| ph || !iso) {
                    Some(count) => first
                        .div(Ratio::whole(i64::from(count)))
                        .map_err(|_| DesignationError::BadNumber(Plain(first).to_string()))?,
                    None => first,
                },
            }
        }
        None if crossed && reader.peek().is_none() => {
            return Err(DesignationError::NotUnderstood(reader.rest()));
        }
        None => {
            let own = if iso {
                coarse(size)
            } else {
                of_size(series, size).first().map(|d| d.pitch.factor())
            };
            own.ok_or_else(|| {
                let near = of_size(series, size);
                let name = Designation::new(series, size, None, Lead::of_mm(Ratio::ONE));
                let name = name.to_string().replace(" × 1", "");
                DesignationError::PitchWanted {
                    example: near
                        .first()
                        .map_or_else(|| alloc::format!("{name} × 1"), ToString::to_string),
                    size: name,
                }
            })?
        }
    };
    let mut thread = metric_thread(series, size, pitch);
    thread.starts = starts;
    Ok(thread)
}

/// A size in inches: `#10`, `1/4`, `0.25`, `1 1/4 in`; with whether it was a bare whole number.
fn inch_size(reader: &mut Reader<'_>, text: &str) -> Result<(Ratio, Option<u8>), DesignationError> {
    let numbered_by = reader.mark(&['#']) || reader.word(&["no", "number"]);
    if numbered_by {
        reader.mark(&['.']);
    }
    let size =
        reader.number().ok_or_else(|| DesignationError::NotUnderstood(text.trim().to_string()))?;
    let whole = if size.is_whole() { u8::try_from(size.numer()).ok() } else { None };
    if numbered_by {
        let number =
            whole.filter(|n| is_number(*n)).ok_or_else(|| DesignationError::NoSuchSize {
                size: alloc::format!("#{}", Plain(size)),
                series: "Unified",
                near: "#0 to #6, #8, #10 and #12".to_string(),
            })?;
        return Ok((numbered(number), None));
    }
    let inches = reader.word(&["in", "inch"]);
    Ok((size, whole.filter(|n| is_number(*n) && !inches)))
}

/// What goes with an inch series: a size and perhaps threads per inch.
fn inch(
    series: Series,
    reader: &mut Reader<'_>,
    text: &str,
) -> Result<Designation, DesignationError> {
    let (mut size, number) = inch_size(reader, text)?;
    let before = reader.at;
    let _ = reader.mark(&['-', '×', ',']) || reader.word(&["x"]);
    let mut tpi = reader.number();
    if matches!(reader.peek(), Some(Token::Word(w)) if w.chars().count() == 1) {
        // That number was a class's.
        reader.at = before;
        tpi = None;
    }
    reader.word(&["tpi"]);
    let unified = matches!(
        series,
        Series::Unc
            | Series::Unf
            | Series::Unef
            | Series::Uns
            | Series::Un8
            | Series::Un12
            | Series::Un16
    );
    if let Some(n) = number
        && unified
    {
        size = number_or_inches(n, tpi, series);
    }
    let Some(tpi) = tpi else {
        let own = if series == Series::Whitworth {
            of_size(Series::Bsw, size)
        } else {
            of_size(series, size)
        };
        return match (own.first(), series) {
            (Some(thread), _) => Ok(*thread),
            (None, Series::Uns) => Err(DesignationError::PitchWanted {
                size: Inches(size).to_string(),
                example: alloc::format!("{}-20 UNS", Inches(size)),
            }),
            (None, Series::Whitworth) => Err(no_such(Series::Bsw, size)),
            (None, series) => Err(no_such(series, size)),
        };
    };
    if !tpi.is_positive() {
        return Err(DesignationError::BadNumber(Plain(tpi).to_string()));
    }
    let wanted = inch_thread(series, size, tpi)
        .ok_or_else(|| DesignationError::BadNumber(Plain(tpi).to_string()))?;
    // A series named outright must have it; UN and Whit take the pitch's own, or are special.
    let kin: &[Series] = match series {
        Series::Acme | Series::StubAcme => return Ok(wanted),
        Series::Bsw | Series::Bsf | Series::Whitworth => &[Series::Bsw, Series::Bsf],
        _ => &[Series::Unc, Series::Unf, Series::Unef, Series::Un8, Series::Un12, Series::Un16],
    };
    let has = |s: Series| of_size(s, size).iter().any(|d| d.pitch == wanted.pitch);
    let series = if has(series) {
        series
    } else if !matches!(series, Series::Uns | Series::Whitworth) {
        return Err(no_such(series, size));
    } else {
        kin.iter().copied().find(|s| has(*s)).unwrap_or(if unified {
            Series::Uns
        } else {
            Series::Whitworth
        })
    };
    Ok(Designation { series, ..wanted })
}

/// Whether "10" before a dash is the screw number ten or ten inches: the tables decide.
fn number_or_inches(n: u8, tpi: Option<Ratio>, series: Series) -> Ratio {
    let inches = Ratio::whole(i64::from(n));
    let all = standard();
    let has = |size: Ratio| {
        all.iter().any(|d| {
            d.size == size
                && matches!(
                    d.series,
                    Series::Unc
                        | Series::Unf
                        | Series::Unef
                        | Series::Un8
                        | Series::Un12
                        | Series::Un16
                )
                && (tpi.is_some() || d.series == series)
                && tpi.is_none_or(|tpi| d.tpi() == Some(tpi))
        })
    };
    if has(numbered(n)) && !has(inches) {
        return numbered(n);
    }
    if has(inches) {
        return inches;
    }
    // In no table: a fine pitch goes with a small screw.
    if tpi.is_some_and(|tpi| tpi >= Ratio::whole(24)) || n > 4 { numbered(n) } else { inches }
}

/// A name that has no series in it: `"0.25-20"`, `"10x1.25"`, `"3 mm"`, `"8 tpi"`.
fn unnamed(reader: &mut Reader<'_>, text: &str) -> Result<Designation, DesignationError> {
    let not_understood = || DesignationError::NotUnderstood(text.trim().to_string());
    let hash = matches!(reader.peek(), Some(Token::Mark('#'))) || word_is(reader.peek(), &["no"]);
    if !hash {
        let Some(first) = reader.number() else { return Err(not_understood()) };
        let written = match reader.tokens.first() {
            Some(Token::Number(n, true)) => Inches(*n).to_string(),
            _ => Plain(first).to_string(),
        };
        if reader.word(&["mm"]) && reader.peek().is_none() {
            return Ok(Designation::of_lead(Lead::of_mm(first)));
        }
        if reader.word(&["tpi"]) {
            let lead = Lead::of_tpi(first).map_err(|_| DesignationError::BadNumber(written))?;
            return Ok(Designation::of_lead(lead));
        }
        if reader.word(&["thou"]) {
            let lead = first.mul(INCH).and_then(|l| l.div(Ratio::whole(1000)));
            let lead = lead.map_err(|_| DesignationError::BadNumber(written))?;
            return Ok(Designation::of_lead(Lead::of_mm(lead)));
        }
        if reader.word(&["in", "inch"]) && reader.peek().is_none() {
            let lead = first.mul(INCH).map_err(|_| DesignationError::BadNumber(written))?;
            return Ok(Designation::of_lead(Lead::of_mm(lead)));
        }
        if word_is(reader.peek(), &["pi"]) {
            reader.advance();
            reader.word(&["mm"]);
            return Ok(Designation::of_lead(Lead::of_pi_mm(first)));
        }
        if reader.peek().is_none() {
            return Err(DesignationError::WhichSeries(written));
        }
        if word_is(reader.peek(), &["x"]) {
            // "10 × 1.25" is metric, "1/4 x 20" is not: a pitch is smaller than its thread.
            reader.advance();
            let Some(second) = reader.number() else { return Err(not_understood()) };
            if second < first {
                return Ok(metric_thread(Series::Metric, first, second));
            }
        }
        reader.at = 0;
    }
    let (mut size, number) = inch_size(reader, text)?;
    let parted = reader.mark(&['-']) || reader.word(&["x"]);
    let tpi = reader.number();
    let (true, Some(tpi)) = (parted || hash, tpi) else { return Err(not_understood()) };
    reader.word(&["tpi"]);
    if let Some(n) = number {
        size = number_or_inches(n, Some(tpi), Series::Uns);
    }
    let mut again = [Token::Number(size, true), Token::Mark('-'), Token::Number(tpi, false)];
    if let Some(Token::Number(_, slash)) = again.first_mut() {
        *slash = true;
    }
    inch(Series::Uns, &mut Reader { tokens: &again, at: 0 }, text)
}

/// Refuses what no lathe could cut.
fn checked(thread: Designation) -> Result<Designation, DesignationError> {
    let pitch = thread.pitch.factor();
    if !pitch.is_positive() {
        return Err(DesignationError::BadNumber(thread.pitch.to_string()));
    }
    if thread.lead().is_err() || pitch > Ratio::whole(1_000_000) {
        return Err(DesignationError::BadNumber(thread.pitch.to_string()));
    }
    if let Some(diameter) = thread.diameter {
        if !diameter.is_positive() {
            return Err(DesignationError::BadNumber(Plain(thread.size).to_string()));
        }
        // 60° at 0.65 P to the pitch line: at two thirds of the diameter there is no core left.
        if pitch.mul(Ratio::of(3, 2)).map_or(true, |p| p >= diameter) {
            return Err(DesignationError::PitchTooLarge(thread.pitch.to_string()));
        }
    }
    if let Some(class) = thread.class {
        let (fits, would) = match thread.series {
            Series::Metric => (matches!(class, Class::Iso { .. }), "like 6g or 6H"),
            Series::Unc
            | Series::Unf
            | Series::Unef
            | Series::Uns
            | Series::Un8
            | Series::Un12
            | Series::Un16 => (matches!(class, Class::Unified(..)), "1A to 3A or 1B to 3B"),
            Series::Bsw | Series::Bsf | Series::Whitworth => (
                matches!(class, Class::Close | Class::Medium | Class::Free | Class::Normal),
                "close, medium, free or normal",
            ),
            Series::Ba => (matches!(class, Class::Close | Class::Normal), "close or normal"),
            Series::Pipe => (matches!(class, Class::Pipe(_)), "A or B"),
            Series::Acme => (matches!(class, Class::Acme(_)), "2G"),
            Series::Trapezoidal => (matches!(class, Class::Iso { .. }), "like 7e or 7H"),
            _ => (false, "left out"),
        };
        if !fits {
            return Err(DesignationError::ClassOfAnother { class: class.to_string(), would });
        }
    }
    Ok(thread)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn nothing_written_can_upset_it(text in "\\PC{0,40}") {
            let _ = parse(&text);
        }

        #[test]
        fn nor_anything_near_a_name(text in "(M|Tr|G|#|mod |DP )?[0-9./x (P)-]{0,12}( UNC| BSF| BA| Acme| UN|mm| tpi| [2-9] starts)?(-6g| LH)?") {
            if let Ok(thread) = parse(&text) {
                prop_assert_eq!(parse(&thread.to_string()), Ok(thread), "{} from {}", thread, text);
            }
        }
    }
}
