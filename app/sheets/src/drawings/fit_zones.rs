//! The zones that a hole and its shaft may lie in, about the basic size.

use super::dimension::{Note, notes};
use super::hatch::hatch;
use super::reckon::within;
use super::sheet::{COLUMN, Path, Sheet, Stand, at};

/// One part's zone.
pub(crate) struct Zone<'a> {
    /// Lower and upper deviation from the basic size, in micrometres.
    pub(crate) deviation: (f64, f64),
    /// "hole H7".
    pub(crate) name: &'a str,
    /// The smallest and the largest size, in words.
    pub(crate) least: &'a str,
    pub(crate) most: &'a str,
}

/// A fit.
pub(crate) struct FitZones<'a> {
    pub(crate) hole: Zone<'a>,
    pub(crate) shaft: Zone<'a>,
    /// The basic size, in words.
    pub(crate) basic: &'a str,
}

const TOP: f64 = 40.0;
const HIGH: f64 = 150.0;
const BOX: f64 = 58.0;
const HOLE: f64 = COLUMN / 2.0 - BOX - 9.0;
const SHAFT: f64 = COLUMN / 2.0 + 9.0;

/// Both zones to one scale, the hole's to the left.
pub(crate) fn fit_zones(fit: &FitZones) -> String {
    let usable = |value: f64| if value.is_nan() { 0.0 } else { within(value, -1e5, 1e5) };
    let sorted = |zone: &Zone| {
        let (a, b) = (usable(zone.deviation.0), usable(zone.deviation.1));
        (a.min(b), a.max(b))
    };
    let (hole, shaft) = (sorted(&fit.hole), sorted(&fit.shaft));
    let least = hole.0.min(shaft.0).min(0.0);
    let most = hole.1.max(shaft.1).max(0.0);
    let scale = HIGH / (most - least).max(1.0);
    let height = |deviation: f64| TOP + (most - deviation) * scale;
    let said = [
        fit.hole.name,
        ", ",
        fit.hole.least,
        " to ",
        fit.hole.most,
        "; ",
        fit.shaft.name,
        ", ",
        fit.shaft.least,
        " to ",
        fit.shaft.most,
        "; about ",
        fit.basic,
        ".",
    ]
    .concat();
    let foot = TOP + HIGH;
    let mut sheet = Sheet::new("fit", COLUMN, foot + 44.0, &said);

    for (zone, left, rising, class) in
        [(hole, HOLE, true, "d-driven"), (shaft, SHAFT, false, "d-driver")]
    {
        let (top, bottom) = (height(zone.1), height(zone.0));
        let corners =
            [at(left, top), at(left + BOX, top), at(left + BOX, bottom), at(left, bottom)];
        let (mut edge, mut lines) = (Path::new(), Path::new());
        edge.polygon(&corners);
        hatch(&mut lines, &corners, 5.0, rising);
        sheet.path(class, &edge);
        sheet.path("d-hatch", &lines);
    }
    let zero = height(0.0);
    sheet.line("d-zero", at(HOLE - 12.0, zero), at(SHAFT + BOX + 12.0, zero));
    sheet.text("d-dim", Stand::Middle, at(HOLE + BOX / 2.0 - 8.0, 20.0), fit.hole.name);
    sheet.text("d-dim", Stand::Middle, at(SHAFT + BOX / 2.0 + 8.0, 20.0), fit.shaft.name);
    for (zone, words, edge, turn, column) in [
        (hole, &fit.hole, HOLE, HOLE - 16.0, HOLE - 34.0),
        (shaft, &fit.shaft, SHAFT + BOX, SHAFT + BOX + 16.0, SHAFT + BOX + 34.0),
    ] {
        let both = [
            Note { place: at(edge, height(zone.1)), words: words.most },
            Note { place: at(edge, height(zone.0)), words: words.least },
        ];
        notes(&mut sheet, &both, turn, column, TOP - 4.0, foot + 4.0);
    }
    // What the chain line stands for.
    let low = foot + 28.0;
    sheet.line("d-zero", at(COLUMN / 2.0 - 66.0, low), at(COLUMN / 2.0 - 12.0, low));
    sheet.text("d-dim", Stand::Start, at(COLUMN / 2.0 - 2.0, low + 5.0), fit.basic);
    sheet.finish()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn odd_fits_are_drawn_and_said() {
        for deviation in [(0.0, 0.0), (f64::NAN, 3.0), (-7.0, 41.0), (1e12, -1e12)] {
            let zone = || Zone { deviation, name: "hole H7", least: "25.000", most: "25.021" };
            let fit = FitZones { hole: zone(), shaft: zone(), basic: "25 mm" };
            let picture = fit_zones(&fit);
            assert!(picture.contains("\"hole H7, 25.000 to 25.021; hole H7, "));
            assert!(picture.len() < 12_000);
        }
    }
}
