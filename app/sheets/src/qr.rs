//! A link as a square that another phone reads.

use maud::{Markup, html};
use qrcodegen::{QrCode, QrCodeEcc};
use std::fmt::Write as _;

/// White around the square, in modules: ISO/IEC 18004 asks for four.
const QUIET: i32 = 4;

/// The address as a QR code, one path of one-module runs; none where it is too long for one.
pub fn qr(url: &str) -> Option<Markup> {
    let code = QrCode::encode_text(url, QrCodeEcc::Medium).ok()?;
    let size = code.size();
    let mut path = String::new();
    for y in 0..size {
        let mut x = 0;
        while x < size {
            let from = x;
            while x < size && code.get_module(x, y) {
                x += 1;
            }
            if x > from {
                let run = x - from;
                let _ = write!(path, "M{} {}h{run}v1h-{run}z", from + QUIET, y + QUIET);
            }
            x += 1;
        }
    }
    let side = size + 2 * QUIET;
    Some(html! {
        svg viewBox=(format!("0 0 {side} {side}")) role="img" aria-label="the link as a QR code" {
            rect class="qr-white" width=(side) height=(side) {}
            path class="qr-black" d=(path) {}
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_square_has_a_module_for_every_dark_one() {
        let url = "https://example.org/latheside/#s1.AbC";
        let code = QrCode::encode_text(url, QrCodeEcc::Medium).unwrap();
        let dark: i32 = (0..code.size())
            .flat_map(|y| (0..code.size()).map(move |x| (x, y)))
            .map(|(x, y)| i32::from(code.get_module(x, y)))
            .sum();
        let html = qr(url).unwrap().into_string();
        let path = html.split(" d=\"").nth(1).unwrap().split('"').next().unwrap();
        let runs: i32 = path
            .split('M')
            .skip(1)
            .map(|run| {
                run.split('h').nth(1).unwrap().trim_end_matches("v1").parse::<i32>().unwrap()
            })
            .sum();
        assert_eq!(runs, dark);
        assert!(qr(&"x".repeat(5000)).is_none());
    }
}
