//! The chasing dial's face, with the marks at which the half-nuts may be closed.

use super::sheet::{COLUMN, Path, Sheet, Stand, at, clock};

/// A dial with marks numbered clockwise from 1.
pub(crate) struct ChasingDial<'a> {
    pub(crate) marks: u16,
    /// The marks that may be used; none where the half-nuts must stay closed.
    pub(crate) usable: &'a [u16],
}

const RADIUS: f64 = 96.0;
/// No dial has more marks than can be told apart.
const MARKS_MOST: u16 = 16;

/// The dial with mark 1 at the index.
pub(crate) fn chasing_dial(dial: &ChasingDial) -> String {
    let centre = at(COLUMN / 2.0, RADIUS + 34.0);
    let none = !(1..=dial.marks).any(|mark| dial.usable.contains(&mark));
    let height = 2.0 * RADIUS + if none { 74.0 } else { 48.0 };
    let mut sheet = Sheet::new("dial", COLUMN, height, &said(dial));
    sheet.circle("d-driven", centre, RADIUS);
    sheet.circle("d-fine", centre, RADIUS - 3.0);
    let marks = dial.marks.min(MARKS_MOST);
    let (mut usable, mut not) = (Path::new(), Path::new());
    for mark in 1..=marks {
        let angle = clock(f64::from(mark - 1) / f64::from(marks));
        let is_usable = dial.usable.contains(&mark);
        let long = if is_usable { 26.0 } else { 14.0 };
        let (from, to) = (centre.polar(RADIUS - 5.0, angle), centre.polar(RADIUS - long, angle));
        if is_usable { &mut usable } else { &mut not }.stroke(from, to);
        let middle = centre.polar(RADIUS - if is_usable { 43.0 } else { 30.0 }, angle);
        let (class, size) = match (is_usable, marks > 10) {
            (true, false) => ("d-fig", 6.8),
            (true, true) => ("d-dim", 5.0),
            (false, _) => ("d-word", 5.0),
        };
        if is_usable {
            let ring = 145.0 / f64::from(marks);
            sheet.circle("d-now-fine", middle, ring.min(14.5));
        }
        sheet.text(class, Stand::Middle, middle.shifted(0.0, size), &mark.to_string());
    }
    sheet.path("d-fine", &not);
    sheet.path("d-now", &usable);
    // The screw that holds the dial to its spindle.
    sheet.circle("d-hole", centre, 13.0);
    let mut slot = Path::new();
    slot.rectangle(centre.shifted(-11.0, -1.6), centre.shifted(11.0, 1.6));
    sheet.path("d-fine", &slot);
    let tip = centre.shifted(0.0, -RADIUS - 3.0);
    let mut index = Path::new();
    index.polygon(&[tip, tip.shifted(-7.0, -14.0), tip.shifted(7.0, -14.0)]);
    sheet.path("d-solid", &index);
    if none {
        let foot = at(COLUMN / 2.0, height - 12.0);
        sheet.text("d-dim", Stand::Middle, foot, "keep the half-nuts closed");
    }
    sheet.line("d-ink", tip.shifted(-44.0, -14.0), tip.shifted(44.0, -14.0));
    sheet.finish()
}

fn said(dial: &ChasingDial) -> String {
    let usable: Vec<u16> = (1..=dial.marks).filter(|mark| dial.usable.contains(mark)).collect();
    let mut out = String::from("Chasing dial of ");
    out.push_str(&dial.marks.to_string());
    out.push_str(if dial.marks == 1 { " mark: " } else { " marks: " });
    match usable.split_last() {
        None => out.push_str("none may be used, keep the half-nuts closed."),
        Some(_) if usable.len() == usize::from(dial.marks) => out.push_str("any may be used."),
        Some((last, [])) => {
            out.push_str("use only ");
            out.push_str(&last.to_string());
            out.push('.');
        }
        Some((last, before)) => {
            out.push_str("use only ");
            let before: Vec<String> = before.iter().map(u16::to_string).collect();
            out.push_str(&before.join(", "));
            out.push_str(" and ");
            out.push_str(&last.to_string());
            out.push('.');
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn usable_marks_are_told_apart_by_more_than_colour() {
        for marks in 1..=MARKS_MOST {
            let usable: Vec<u16> = (1..=marks).step_by(3).collect();
            let picture = chasing_dial(&ChasingDial { marks, usable: &usable });
            assert_eq!(picture.matches("d-now-fine").count(), usable.len(), "a ring each");
            assert_eq!(picture.matches("<text").count(), usize::from(marks));
        }
        assert!(chasing_dial(&ChasingDial { marks: 0, usable: &[1] }).ends_with("</svg>"));
    }

    #[test]
    fn what_is_said_tells_when_to_close_the_half_nuts() {
        for (usable, text) in [
            (&[][..], "Chasing dial of 4 marks: none may be used, keep the half-nuts closed."),
            (&[3][..], "Chasing dial of 4 marks: use only 3."),
            (&[1, 3][..], "Chasing dial of 4 marks: use only 1 and 3."),
            (&[1, 2, 4][..], "Chasing dial of 4 marks: use only 1, 2 and 4."),
            (&[1, 2, 3, 4][..], "Chasing dial of 4 marks: any may be used."),
        ] {
            assert_eq!(said(&ChasingDial { marks: 4, usable }), text);
        }
    }
}
