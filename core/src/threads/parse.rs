//! A thread's name as people write it, read into what it says.

use alloc::string::{String, ToString};
use alloc::vec::Vec;

use super::class::Class;
use super::designation::{Designation, Hand, is_number, numbered};
use super::lead::{Inches, Lead, Plain};
use super::refusal::DesignationError;
use super::series::{
    Series, ba, coarse, dp_worm, inch_thread, metric_thread, module_worm, of_size, pipe, standard,
};
use super::tokens::{Reader, Token, number, tokens, word_is};
use crate::exact::Ratio;
use crate::quantity::{Measure, Quantity};

/// What stands beside the size and pitch in any thread's name.
struct Extras {
    hand: Hand,
    starts: Option<u16>,
}

#[inline(never)]
fn not_understood(what: &str) -> DesignationError {
    DesignationError::NotUnderstood(what.trim().to_string())
}

#[inline(never)]
fn bad(number: Ratio) -> DesignationError {
    DesignationError::BadNumber(Plain(number).to_string())
}

#[inline(never)]
fn bad_lead(lead: Lead) -> DesignationError {
    DesignationError::BadNumber(lead.to_string())
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
            ba(number).ok_or_else(|| DesignationError::NoSuchSize {
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
            dp_worm(dp).ok_or_else(|| bad(dp))?
        }
        Some(series) => inch(series, &mut reader, text)?,
        None => unnamed(&mut reader, text)?,
    };
    if let Some(starts) = extras.starts {
        thread = thread.with_starts(starts).map_err(|_| bad_lead(thread.pitch))?;
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

fn wanted(reader: &mut Reader<'_>, text: &str) -> Result<Ratio, DesignationError> {
    reader.mark(&['-', '#', ':', '=']);
    reader.word(&["no"]);
    reader.number().ok_or_else(|| not_understood(text))
}

fn no_such(series: Series, size: Ratio) -> DesignationError {
    // The nearest size below and the nearest above.
    let (mut below, mut above): (Option<Designation>, Option<Designation>) = (None, None);
    for thread in standard().into_iter().filter(|d| d.series == series) {
        if thread.size <= size {
            if below.is_none_or(|b| b.size < thread.size) {
                below = Some(thread);
            }
        } else if above.is_none_or(|a| thread.size < a.size) {
            above = Some(thread);
        }
    }
    let mut near = String::new();
    for thread in [below, above].into_iter().flatten() {
        if !near.is_empty() {
            near.push_str(" and ");
        }
        near.push_str(&thread.to_string());
    }
    DesignationError::NoSuchSize { size: Inches(size).to_string(), series: series.name(), near }
}

/// What follows M or Tr: a diameter, perhaps a pitch or a lead and a pitch.
fn metric(
    iso: bool,
    reader: &mut Reader<'_>,
    extras: &Extras,
) -> Result<Designation, DesignationError> {
    let series = if iso { Series::Metric } else { Series::Trapezoidal };
    let size = reader.number().ok_or_else(|| not_understood(&reader.rest()))?;
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
                    let ratio = first.div(pitch).map_err(|_| bad(pitch))?;
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
                    Some(count) => {
                        first.div(Ratio::whole(i64::from(count))).map_err(|_| bad(first))?
                    }
                    None => first,
                },
            }
        }
        None if crossed && reader.peek().is_none() => {
            return Err(not_understood(&reader.rest()));
        }
        None => {
            let own = if iso {
                coarse(size)
            } else {
                of_size(series, size).first().map(|d| d.pitch.factor())
            };
            own.ok_or_else(|| {
                let near = of_size(series, size);
                let name = alloc::format!("{}{}", if iso { "M" } else { "Tr " }, Plain(size));
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
    let size = reader.number().ok_or_else(|| not_understood(text))?;
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
        return Err(bad(tpi));
    }
    let wanted = inch_thread(series, size, tpi).ok_or_else(|| bad(tpi))?;
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
    let all = [Series::Unc, Series::Unf, Series::Unef, Series::Un8, Series::Un12, Series::Un16];
    let has = |size: Ratio| {
        all.into_iter()
            .filter(|s| tpi.is_some() || *s == series)
            .flat_map(|s| of_size(s, size))
            .any(|d| tpi.is_none_or(|tpi| d.tpi() == Some(tpi)))
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
    let hash = matches!(reader.peek(), Some(Token::Mark('#'))) || word_is(reader.peek(), &["no"]);
    if !hash {
        if let Ok(lead) = Quantity::parse(&reader.rest(), Measure::Lead, None) {
            reader.at = reader.tokens.len();
            let lead =
                if lead.pi() { Lead::of_pi_mm(lead.value()) } else { Lead::of_mm(lead.value()) };
            return Ok(Designation::of_lead(lead));
        }
        let Some(first) = reader.number() else { return Err(not_understood(text)) };
        let written = match reader.tokens.first() {
            Some(Token::Number(n, true)) => Inches(*n).to_string(),
            _ => Plain(first).to_string(),
        };
        if reader.peek().is_none() {
            return Err(DesignationError::WhichSeries(written));
        }
        if word_is(reader.peek(), &["x"]) {
            // "10 × 1.25" is metric, "1/4 x 20" is not: a pitch is smaller than its thread.
            reader.advance();
            let Some(second) = reader.number() else { return Err(not_understood(text)) };
            if second < first {
                return Ok(metric_thread(Series::Metric, first, second));
            }
        }
        reader.at = 0;
    }
    let (mut size, number) = inch_size(reader, text)?;
    let parted = reader.mark(&['-']) || reader.word(&["x"]);
    let tpi = reader.number();
    let (true, Some(tpi)) = (parted || hash, tpi) else { return Err(not_understood(text)) };
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
        return Err(bad_lead(thread.pitch));
    }
    if thread.lead().is_err() || pitch > Ratio::whole(1_000_000) || !can_be_written(&thread) {
        return Err(bad_lead(thread.pitch));
    }
    if let Some(diameter) = thread.diameter {
        if !diameter.is_positive() {
            return Err(bad(thread.size));
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

/// Whether what its name says of the pitch has few enough figures to be read again.
fn can_be_written(thread: &Designation) -> bool {
    let fits = |n: Ratio| number(&Plain(n).to_string()).is_some();
    match thread.series {
        Series::Metric | Series::Trapezoidal => fits(thread.pitch.factor()),
        Series::Plain => thread.to_string().split(' ').next().and_then(number).is_some(),
        _ => fits(thread.pitch.factor()) || thread.tpi().is_some_and(fits),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::format;
    use proptest::prelude::*;

    #[test]
    fn a_refusal_says_little_of_a_long_name_again() {
        for name in ["lunchtime".repeat(100), format!("M6-{}", "6h".repeat(300))] {
            let said = parse(&name).unwrap_err().to_string();
            assert!(said.contains('…') && said.chars().count() < 250, "{said}");
        }
    }

    #[test]
    fn a_pitch_that_could_not_be_written_down_is_refused() {
        for name in ["999999.9999 tpi", "123456789/123456788 tpi", "1234.567891 tpi LH"] {
            let said = parse(name).unwrap_err().to_string();
            assert!(said.ends_with("can't be a size or a pitch"), "{said}");
        }
        // What can, is read from its own words as the same.
        for (name, said) in [
            ("11.5 tpi", "11.5 tpi"),
            ("11 1/2 tpi", "11.5 tpi"),
            ("2.5 tpi", "10.16 mm"),
            ("76.2 tpi", "1/3 mm"),
            ("1/3 mm", "1/3 mm"),
        ] {
            let read = parse(name).unwrap();
            assert_eq!(read.to_string(), said);
            assert_eq!(parse(said), Ok(read));
        }
    }

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
