//! How near each lead comes, coarse leads to the right: what a lathe is good at, by eye.

use super::sheet::{COLUMN, Path, Sheet, Stand, at, grouped};

/// How a lead stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Stands {
    Exact,
    Near,
    Untold,
    Beyond,
}

/// One lead.
pub(crate) struct Lead {
    /// In mm.
    pub(crate) lead: f64,
    /// How far off over 300 mm, in mm; 0 where it is exact, none where nothing goes on.
    pub(crate) off: Option<f64>,
    pub(crate) stands: Stands,
}

const LEFT: f64 = 62.0;
const RIGHT: f64 = COLUMN - 10.0;
const TOP: f64 = 30.0;
const FOOT: f64 = 246.0;
/// The line on which what is exact stands.
const EXACT: f64 = 232.0;
/// The decades of error that are told apart, mm in 300.
const ERRORS: [(f64, &str); 5] =
    [(0.001, "0.001"), (0.01, "0.01"), (0.1, "0.1"), (1.0, "1"), (10.0, "10")];
const LEADS: [(f64, &str); 8] = [
    (0.1, "0.1"),
    (0.25, "0.25"),
    (0.5, "0.5"),
    (1.0, "1"),
    (2.0, "2"),
    (5.0, "5"),
    (10.0, "10"),
    (20.0, "20"),
];

/// The plot; empty where there is no lead.
pub(crate) fn leads(leads: &[Lead]) -> String {
    let good = |lead: &&Lead| lead.lead.is_finite() && lead.lead > 0.0;
    let logs = || leads.iter().filter(good).map(|lead| lead.lead.ln());
    let least = logs().fold(f64::INFINITY, f64::min);
    let most = logs().fold(f64::NEG_INFINITY, f64::max);
    if !(least.is_finite() && most.is_finite()) {
        return String::new();
    }
    let span = (most - least).max(0.1);
    let x = |lead: f64| LEFT + 10.0 + (lead.ln() - least) / span * (RIGHT - LEFT - 20.0);
    // Four decades between the top line and the line of what is exact, with a step above it.
    let (ends, step) = ((ERRORS[0].0.ln(), ERRORS[4].0.ln()), 26.0);
    let y = |off: f64| {
        let part = ((off.max(1e-12).ln() - ends.0) / (ends.1 - ends.0)).clamp(-0.1, 1.0);
        EXACT - step - part * (EXACT - step - TOP)
    };
    let mut sheet = Sheet::new("leads", COLUMN, FOOT + 46.0, &said(leads));
    for (off, words) in ERRORS {
        sheet.line("d-line", at(LEFT, y(off)), at(RIGHT, y(off)));
        sheet.text("d-word", Stand::End, at(LEFT - 6.0, y(off) + 5.0), words);
    }
    sheet.text("d-word", Stand::Start, at(0.0, 14.0), "mm off in 300");
    sheet.line("d-ink", at(LEFT, EXACT), at(RIGHT, EXACT));
    sheet.text("d-word", Stand::End, at(LEFT - 6.0, EXACT + 5.0), "exact");
    for (lead, words) in LEADS {
        let place = x(lead);
        if (LEFT..=RIGHT).contains(&place) {
            sheet.line("d-line", at(place, TOP - 6.0), at(place, FOOT));
            sheet.text("d-word", Stand::Middle, at(place, FOOT + 18.0), words);
        }
    }
    sheet.text("d-word", Stand::End, at(RIGHT, FOOT + 40.0), "lead, mm");
    let (mut exact, mut near, mut far, mut none) =
        (Path::new(), Path::new(), Path::new(), Path::new());
    for lead in leads.iter().filter(good) {
        let middle = at(x(lead.lead), lead.off.map_or(TOP - 12.0, y));
        match (lead.off, lead.stands) {
            (_, Stands::Exact) => {
                exact.circle(at(middle.x, EXACT), 3.4);
            }
            (Some(_), Stands::Near | Stands::Untold) => {
                near.circle(middle, 3.4);
            }
            (Some(_), Stands::Beyond) => {
                far.stroke(middle.shifted(-3.2, -3.2), middle.shifted(3.2, 3.2));
                far.stroke(middle.shifted(-3.2, 3.2), middle.shifted(3.2, -3.2));
            }
            (None, _) => {
                none.stroke(middle.shifted(0.0, -5.0), middle.shifted(0.0, 5.0));
            }
        }
    }
    sheet.path("d-solid", &exact);
    sheet.path("d-now-ring", &near);
    sheet.path("d-work", &far);
    sheet.path("d-work", &none);
    sheet.finish()
}

fn said(leads: &[Lead]) -> String {
    let count = |stands: &[Stands]| {
        let of = leads.iter().filter(|lead| stands.contains(&lead.stands)).count();
        grouped(u32::try_from(of).unwrap_or(u32::MAX))
    };
    [
        &grouped(u32::try_from(leads.len()).unwrap_or(u32::MAX)),
        " leads by how far off they are cut: ",
        &count(&[Stands::Exact]),
        " exact, ",
        &count(&[Stands::Near, Stands::Untold]),
        " near, ",
        &count(&[Stands::Beyond]),
        " too far off.",
    ]
    .concat()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lead(lead: f64, off: Option<f64>, stands: Stands) -> Lead {
        Lead { lead, off, stands }
    }

    #[test]
    fn each_lead_is_drawn_once_and_said() {
        let of = [
            lead(1.0, Some(0.0), Stands::Exact),
            lead(1.25, Some(0.02), Stands::Near),
            lead(0.5, Some(3.0), Stands::Beyond),
            lead(4.0, None, Stands::Beyond),
        ];
        let picture = leads(&of);
        assert!(
            picture.contains("4 leads by how far off they are cut: 1 exact, 1 near, 2 too far")
        );
        for class in ["d-solid", "d-now-ring", "d-work"] {
            assert!(picture.contains(class), "{class}");
        }
    }

    #[test]
    fn odd_charts_are_drawn() {
        assert_eq!(leads(&[]), "");
        assert_eq!(leads(&[lead(0.0, None, Stands::Beyond)]), "");
        for one in [1e-9, 1.0, 1e9] {
            let picture = leads(&[lead(one, Some(one), Stands::Untold)]);
            assert!(!picture.contains("NaN") && picture.len() < 9_000);
        }
    }
}
