//! The spindle's speeds on a ladder of equal ratios, with the ideal range and the speed to use.

use super::hatch::hatch;
use super::lettering::{FIGURE, WORD, fitted, spread, width_at};
use super::reckon::{order, within};
use super::sheet::{COLUMN, Path, Sheet, Stand, at, grouped};

/// A speed of the spindle.
pub(crate) struct Speed<'a> {
    pub(crate) rpm: u32,
    /// The machine's own word for it: "back gear, belt 1", or nothing.
    pub(crate) how: &'a str,
}

/// The speeds of a shop, beside the ideal.
pub(crate) struct SpeedLadder<'a> {
    pub(crate) speeds: &'a [Speed<'a>],
    /// The ideal range, slowest and fastest, in rev/min.
    pub(crate) ideal: Option<(u32, u32)>,
    /// Which of the speeds to use.
    pub(crate) chosen: Option<usize>,
}

const AXIS: f64 = 108.0;
const HALF_RUNG: f64 = 7.0;
const LETTERS: f64 = 158.0;
const HOWS: f64 = LETTERS + 52.0;
const ROW: f64 = 24.0;
const TOP: f64 = 20.0;

/// The ladder, fastest at the top; empty where no speed is known.
pub(crate) fn speed_ladder(ladder: &SpeedLadder) -> String {
    let rpm = |index: &usize| ladder.speeds.get(*index).map_or(1, |speed| speed.rpm.max(1));
    let keys: Vec<f64> = ladder.speeds.iter().map(|speed| -f64::from(speed.rpm.max(1))).collect();
    let order = order(&keys);
    let (Some(fastest), Some(slowest)) = (order.first().map(rpm), order.last().map(rpm)) else {
        return String::new();
    };
    let ideal = ladder.ideal.map(|(a, b)| (a.min(b).max(1), a.max(b).max(1)));
    let (low, high) = ideal.unwrap_or((slowest, fastest));
    let log = |rpm: u32| f64::from(rpm).ln();
    let (least, most) = (log(low.min(slowest)), log(high.max(fastest)));
    let high_of_sheet = (order.len() as f64 * (ROW + 4.0)).max(200.0);
    let foot = TOP + high_of_sheet;
    let span = (most - least).max(0.1);
    let height = |rpm: u32| foot - (log(rpm) - least) / span * high_of_sheet;
    let mut sheet = Sheet::new("speeds", COLUMN, foot + TOP, &said(ladder));

    if let Some((low, high)) = ideal {
        // At least a hair of band, however narrow the range.
        let (top, bottom) = (height(high) - 1.0, height(low) + 1.0);
        let (left, right) = (AXIS - 2.0 * HALF_RUNG, AXIS + HALF_RUNG);
        let mut band = Path::new();
        band.rectangle(at(left, top), at(right, bottom));
        sheet.path("d-band", &band);
        let mut lines = Path::new();
        let corners = [at(left, top), at(right, top), at(right, bottom), at(left, bottom)];
        hatch(&mut lines, &corners, 5.0, true);
        sheet.path("d-hatch", &lines);
        let middle = within((top + bottom) / 2.0, TOP + 16.0, foot - 22.0);
        let rows = ["ideal".to_string(), [&grouped(low), " to"].concat(), grouped(high)];
        for (row, words) in rows.iter().enumerate() {
            let y = middle + (row as f64 - 1.0) * 18.0 + 5.0;
            sheet.text("d-word", Stand::End, at(AXIS - 34.0, y), words);
        }
        let mut leader = Path::new();
        let at_band = within(middle, top, bottom);
        leader.stroke(at(AXIS - 29.0, middle), at(left, at_band));
        sheet.path("d-leader", &leader);
    }

    sheet.line("d-ink", at(AXIS, TOP - 8.0), at(AXIS, foot + 8.0));
    let wished: Vec<f64> = order.iter().map(|index| height(rpm(index))).collect();
    let rows = spread(&wished, ROW, TOP - 2.0, foot + 2.0);
    for ((index, rung), row) in order.iter().zip(&wished).zip(&rows) {
        let Some(speed) = ladder.speeds.get(*index) else { continue };
        let chosen = ladder.chosen == Some(*index);
        let mut leader = Path::new();
        // All leaders turn at the same two places, so that none crosses another.
        let turn = AXIS + HALF_RUNG + 16.0;
        let off = if chosen { turn } else { AXIS + HALF_RUNG + 4.0 };
        leader.go(at(off, *rung)).line(at(turn, *rung)).line(at(LETTERS - 12.0, *row));
        leader.line(at(LETTERS - 5.0, *row));
        sheet.path(if chosen { "d-now-fine" } else { "d-leader" }, &leader);
        let (from, to) = (at(AXIS - HALF_RUNG, *rung), at(AXIS + HALF_RUNG, *rung));
        sheet.line(if chosen { "d-now" } else { "d-ink" }, from, to);
        let baseline = row + 6.0;
        let figures = grouped(speed.rpm);
        if chosen {
            let tip = at(AXIS + HALF_RUNG + 3.0, *rung);
            let mut index = Path::new();
            index.polygon(&[tip, tip.shifted(12.0, -6.0), tip.shifted(12.0, 6.0)]);
            sheet.path("d-index", &index);
            sheet.text("d-fig d-chosen", Stand::Start, at(LETTERS, baseline), &figures);
        } else {
            sheet.text("d-word", Stand::Start, at(LETTERS, baseline - 1.0), &figures);
        }
        if !speed.how.is_empty() {
            let bold = if chosen { FIGURE * 1.1 } else { WORD };
            let start = HOWS.max(LETTERS + width_at(&figures, bold) + 8.0);
            let how = fitted(speed.how, WORD, COLUMN - 6.0 - start);
            sheet.text("d-word", Stand::Start, at(start, baseline - 1.0), &how);
        }
    }
    sheet.finish()
}

fn said(ladder: &SpeedLadder) -> String {
    let mut out = String::from("Spindle speeds");
    if let Some((low, high)) = ladder.ideal {
        out.push_str("; ideal ");
        out.push_str(&grouped(low));
        out.push_str(" to ");
        out.push_str(&grouped(high));
    }
    if let Some(speed) = ladder.chosen.and_then(|index| ladder.speeds.get(index)) {
        out.push_str("; run at ");
        out.push_str(&grouped(speed.rpm));
        if !speed.how.is_empty() {
            out.push_str(", ");
            out.push_str(speed.how);
        }
    }
    out.push('.');
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn speeds(rpm: &[u32]) -> Vec<Speed<'static>> {
        rpm.iter().map(|&rpm| Speed { rpm, how: "" }).collect()
    }

    #[test]
    fn equal_ratios_stand_equally_far_apart() {
        let speeds = speeds(&[100, 200, 400, 800]);
        let picture = speed_ladder(&SpeedLadder { speeds: &speeds, ideal: None, chosen: None });
        let rungs: Vec<f64> = picture
            .split("class=\"d-ink\" d=\"M101 ")
            .skip(1)
            .map(|rest| rest.split('L').next().unwrap().parse().unwrap())
            .collect();
        assert_eq!(rungs.len(), 4);
        let steps: Vec<f64> = rungs.windows(2).map(|w| w[1] - w[0]).collect();
        assert!(steps.iter().all(|step| (step - 66.67).abs() < 0.02), "{steps:?}");
    }

    #[test]
    fn odd_shops_are_drawn() {
        for (rpm, ideal) in [
            (&[][..], None),
            (&[300][..], Some((300, 300))),
            (&[0, 0, u32::MAX][..], Some((0, u32::MAX))),
            (&[45, 70, 110][..], Some((5000, 9000))),
        ] {
            let speeds = speeds(rpm);
            let picture = speed_ladder(&SpeedLadder { speeds: &speeds, ideal, chosen: Some(9) });
            assert_eq!(picture.is_empty(), rpm.is_empty());
            assert!(picture.len() < 20_000);
        }
    }

    #[test]
    fn what_is_said_gives_the_speed_to_use() {
        let speeds =
            [Speed { rpm: 45, how: "back gear, belt 1" }, Speed { rpm: 1030, how: "belt 3" }];
        let ladder = SpeedLadder { speeds: &speeds, ideal: Some((820, 1100)), chosen: Some(1) };
        assert_eq!(said(&ladder), "Spindle speeds; ideal 820 to 1100; run at 1030, belt 3.");
    }
}
