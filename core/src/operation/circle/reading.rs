//! A travel as it is read on a slide's dial, its length beside it.

use crate::quantity::{Unit, show};
use crate::shop::Dial;
use alloc::format;
use alloc::string::String;

/// A travel in mm as turns and lines of a dial, its length beside it, `*2 turns + 37* (5.74 mm)`;
/// without a dial, the length alone. Figures between stars.
pub(in crate::operation) fn reading(dial: Option<&Dial>, like: Unit, mm: f64) -> String {
    let length = show::float_like(mm, like);
    match dial.and_then(|dial| dial.reading_near(mm)) {
        Some(reading) => format!("{} ({length})", reading.set()),
        None => starred(&length),
    }
}

/// A figure between stars, its unit outside: `*2.5* thou`.
pub(in crate::operation) fn starred(text: &str) -> String {
    match text.rsplit_once(' ') {
        Some((figure, unit)) => format!("*{figure}* {unit}"),
        None => format!("*{text}*"),
    }
}

/// Without its stars.
pub(in crate::operation) fn plain(starred: &str) -> String {
    starred.replace('*', "")
}
