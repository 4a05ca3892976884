//! How much room lettering takes, and what may not touch what.

use super::sheet::{Point, at, is_figure};

/// Size of the words of a label, as in the style sheet.
pub(crate) const WORD: f64 = 14.0;
/// Size of the figures of a label, as in the style sheet.
pub(crate) const FIGURE: f64 = 19.0;

/// About how wide a label is set, in the widest of the usual screen faces.
///
/// Measured generously: a narrower face only leaves more air.
pub(crate) fn width(words: &str) -> f64 {
    let mut total = 0.0;
    for word in words.split(' ') {
        let size = if is_figure(word) { FIGURE * 1.1 } else { WORD };
        total += word.chars().map(advance).sum::<f64>() * size + WORD * 0.32;
    }
    total - WORD * 0.32
}

/// About how wide plain lettering of one size is set.
pub(crate) fn width_at(words: &str, size: f64) -> f64 {
    words.chars().map(advance).sum::<f64>() * size
}

/// Plain lettering cut short to fit its room.
pub(crate) fn fitted(words: &str, size: f64, room: f64) -> String {
    if width_at(words, size) <= room {
        return words.to_string();
    }
    let mut out = String::new();
    for letter in words.chars() {
        if width_at(&out, size) + (advance(letter) + 0.98) * size > room {
            break;
        }
        out.push(letter);
    }
    out.push('…');
    out
}

/// A letter's width as a part of its size.
fn advance(letter: char) -> f64 {
    match letter {
        'i' | 'j' | 'l' | '.' | ',' | '·' | '\'' | '|' | ' ' => 0.33,
        'f' | 't' | 'r' | 'I' | '(' | ')' | '-' => 0.42,
        'm' | 'w' | 'M' | 'W' | '—' | '…' => 0.98,
        'A'..='Z' | 'Ø' | '±' | '−' => 0.74,
        _ => 0.635,
    }
}

/// A rectangle that lettering fills.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Area {
    pub(crate) left: f64,
    pub(crate) top: f64,
    pub(crate) right: f64,
    pub(crate) bottom: f64,
}

impl Area {
    /// Whether two areas come nearer than `gap`.
    pub(crate) fn near(&self, other: &Area, gap: f64) -> bool {
        self.left < other.right + gap
            && other.left < self.right + gap
            && self.top < other.bottom + gap
            && other.top < self.bottom + gap
    }

    /// Whether an upright line at `x` between two heights comes nearer than `gap`.
    pub(crate) fn near_upright(&self, x: f64, from: f64, to: f64, gap: f64) -> bool {
        let line = Area { left: x, right: x, top: from.min(to), bottom: from.max(to) };
        self.near(&line, gap)
    }

    /// The nearest place of the area to a point.
    pub(crate) fn nearest(&self, point: Point) -> Point {
        at(
            point.x.max(self.left).min(self.right.max(self.left)),
            point.y.max(self.top).min(self.bottom.max(self.top)),
        )
    }
}

/// Moves wished-for heights (in rising order) apart to at least `gap`, as little as need be, within `least..most`.
///
/// Where there isn't room for all, they stand evenly. The order stays, so leaders to them don't cross.
pub(crate) fn spread(wished: &[f64], gap: f64, least: f64, most: f64) -> Vec<f64> {
    let count = wished.len();
    let gap = if count > 1 { gap.min((most - least) / (count - 1) as f64) } else { gap };
    // Runs of labels that touch, each centred on the mean of its wishes.
    let mut runs: Vec<(f64, usize)> = Vec::new();
    for (index, wish) in wished.iter().enumerate() {
        // Seen from the run's first label, every later wish stands `gap` earlier a place.
        let mut sum = *wish;
        let mut size = 1_usize;
        while let Some(&(last_sum, last_size)) = runs.last() {
            let start = clamp_start(sum / size as f64, size, gap, least, most);
            let last = clamp_start(last_sum / last_size as f64, last_size, gap, least, most);
            if last + last_size as f64 * gap <= start {
                break;
            }
            runs.pop();
            sum = last_sum + sum - size as f64 * last_size as f64 * gap;
            size += last_size;
        }
        runs.push((sum, size));
        debug_assert!(index < count);
    }
    let mut heights = Vec::with_capacity(count);
    for (sum, size) in runs {
        let start = clamp_start(sum / size as f64, size, gap, least, most);
        heights.extend((0..size).map(|place| start + place as f64 * gap));
    }
    heights
}

fn clamp_start(start: f64, size: usize, gap: f64, least: f64, most: f64) -> f64 {
    start.min(most - (size - 1) as f64 * gap).max(least)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn labels_are_moved_only_as_far_as_they_must() {
        assert_eq!(spread(&[10.0, 50.0], 20.0, 0.0, 100.0), [10.0, 50.0]);
        assert_eq!(spread(&[50.0, 50.0], 20.0, 0.0, 100.0), [40.0, 60.0]);
        assert_eq!(spread(&[0.0, 1.0, 99.0], 20.0, 0.0, 100.0), [0.0, 20.0, 99.0]);
        assert_eq!(spread(&[5.0, 5.0, 5.0], 60.0, 0.0, 100.0), [0.0, 50.0, 100.0]);
    }

    #[test]
    fn labels_keep_their_order_their_gap_and_the_sheet() {
        let mut seed = 7_u32;
        for _ in 0..2000 {
            let mut wished: Vec<f64> = (0..12)
                .map(|_| {
                    seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                    f64::from(seed >> 20) / 12.0
                })
                .collect();
            wished.sort_by(f64::total_cmp);
            let got = spread(&wished, 22.0, 10.0, 330.0);
            assert_eq!(got.len(), wished.len());
            assert!(got.windows(2).all(|w| w[1] - w[0] > 22.0 - 1e-6), "{wished:?} {got:?}");
            assert!(got.iter().all(|y| (10.0 - 1e-6..=330.0 + 1e-6).contains(y)));
        }
    }
}
