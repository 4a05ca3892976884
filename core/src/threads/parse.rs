//! A thread's name as people write it, read into what it says.

use alloc::string::ToString;
use alloc::vec::Vec;

use super::beside::{Extras, constant_pitch, extras, named};
use super::designation::{Designation, is_number, number_or_inches, numbered};
use super::lead::{Inches, Lead, Plain};
use super::refusal::{DesignationError, bad, bad_lead, checked, no_such, not_understood};
use super::series::{
    Series, ba, coarse, dp_worm, inch_thread, meant, metric_thread, module_worm, of_size, pipe,
};
use super::tokens::{Reader, Token, tokens, word_is};
use crate::exact::Ratio;
use crate::quantity::{Measure, Quantity};

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
    checked(read(text)?)
}

/// What a name says, before anybody asks whether such a thread could be.
pub(super) fn read(text: &str) -> Result<Designation, DesignationError> {
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
    Ok(thread)
}

fn wanted(reader: &mut Reader<'_>, text: &str) -> Result<Ratio, DesignationError> {
    reader.mark(&['-', '#', ':', '=']);
    reader.word(&["no"]);
    reader.number().ok_or_else(|| not_understood(text))
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
    let unified = series.is_unified();
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
            (Some(_), _) if own.len() > 1 => {
                Err(DesignationError::Which { written: Inches(size).to_string(), meant: own })
            }
            (Some(thread), _) => Ok(*thread),
            (None, Series::Uns) => Err(DesignationError::PitchWanted {
                size: Inches(size).to_string(),
                example: alloc::format!("{}-20 UNS", Inches(size)),
            }),
            (None, Series::Whitworth) => Err(no_such(Series::Bsw, size)),
            (None, series) => Err(no_such(series, size)),
        };
    };
    let wanted = inch_thread(series, size, tpi).ok_or_else(|| bad(tpi))?;
    // A series named outright must have it. Whit and UN take the series that has the pitch, as 1-8 UN
    // is 1-8 UNC (ASME B1.1); in none, a Whitworth or Unified thread is special.
    let kin: &[Series] = match series {
        Series::Acme | Series::StubAcme | Series::ModelEngineer => return Ok(wanted),
        // Every diameter has 26, and no other pitch.
        Series::Brass if tpi == Ratio::whole(26) => return Ok(wanted),
        Series::Bsw | Series::Bsf | Series::Whitworth => &[Series::Bsw, Series::Bsf],
        _ => &[Series::Unc, Series::Unf, Series::Unef, Series::Un8, Series::Un12, Series::Un16],
    };
    let has = |s: Series| of_size(s, size).iter().any(|d| d.pitch == wanted.pitch);
    if has(series) {
        return Ok(wanted);
    }
    let own = match series {
        Series::Whitworth | Series::Uns | Series::Un8 | Series::Un12 | Series::Un16 => {
            kin.iter().copied().find(|s| has(*s))
        }
        _ => None,
    };
    let special = matches!(series, Series::Whitworth | Series::Uns).then_some(series);
    let series = own.or(special).ok_or_else(|| no_such(series, size))?;
    Ok(Designation { series, ..wanted })
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
    let in_a_list = |d: &Designation| !matches!(d.series, Series::Uns | Series::Whitworth);
    let mut also = Vec::new();
    if let Some(n) = number {
        let inches = Ratio::whole(i64::from(n));
        let numbered = numbered(n);
        if meant(inches, tpi).iter().any(in_a_list) {
            // "1-26" could be a brass thread of one inch; a number's own thread is asked for beside it.
            let own = meant(numbered, tpi).into_iter().filter(in_a_list);
            also.extend(own.filter(|d| d.series.is_unified()));
            size = inches;
        } else {
            size = number_or_inches(n, Some(tpi), Series::Uns);
        }
    }
    // A class says whose thread it is; a screw's number is a Unified one.
    let by_number = hash || number.is_some_and(|n| size == numbered(n));
    let class = (Reader { tokens: reader.tokens, at: reader.at }).class().ok().flatten();
    let meant: Vec<Designation> = meant(size, tpi)
        .into_iter()
        .chain(also)
        .filter(|d| checked(Designation { class, ..*d }).is_ok())
        .filter(|d| !by_number || d.series.is_unified())
        .collect();
    match meant.as_slice() {
        [] => inch_thread(Series::Uns, size, tpi).ok_or_else(|| bad(tpi)),
        [only] => Ok(*only),
        // In every list the same, and that a Unified one: nothing else is meant.
        [one, rest @ ..]
            if one.series.is_unified()
                && one.series != Series::Uns
                && rest.iter().all(|d| d.series == Series::Whitworth) =>
        {
            Ok(*one)
        }
        _ => Err(DesignationError::Which {
            written: alloc::format!("{} × {}", Inches(size), Plain(tpi)),
            meant,
        }),
    }
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
