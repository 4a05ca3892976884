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

    /// The drawing as a screen shows it: each run of dark modules painted on a bitmap, dark or not.
    fn painted(html: &str, scale: usize) -> (usize, Vec<bool>) {
        let path = html.split(" d=\"").nth(1).unwrap().split('"').next().unwrap();
        let side: usize = html
            .split("viewBox=\"0 0 ")
            .nth(1)
            .unwrap()
            .split(' ')
            .next()
            .unwrap()
            .parse()
            .unwrap();
        let wide = side * scale;
        let mut dots = vec![false; wide * wide];
        for run in path.split('M').skip(1) {
            let numbers: Vec<usize> = run
                .split(|c: char| !c.is_ascii_digit())
                .filter_map(|number| number.parse().ok())
                .collect();
            // M x y h run v 1 h −run z
            let [x, y, run, high, back] = numbers[..] else { panic!("{numbers:?}") };
            assert_eq!((high, back), (1, run));
            for row in y * scale..(y + 1) * scale {
                dots[row * wide + x * scale..row * wide + (x + run) * scale].fill(true);
            }
        }
        (wide, dots)
    }

    /// What an independent reader of such squares makes of the drawing.
    fn read_back(html: &str, scale: usize) -> (usize, String) {
        let (wide, dots) = painted(html, scale);
        let grey = |x: usize, y: usize| if dots[y * wide + x] { 0 } else { 255 };
        let mut image = rqrr::PreparedImage::prepare_from_greyscale(wide, wide, grey);
        let grids = image.detect_grids();
        assert_eq!(grids.len(), 1, "one square is seen");
        let (meta, words) = grids[0].decode().unwrap();
        (meta.version.0, words)
    }

    #[test]
    fn fault_13_the_square_is_read_back_by_another_reader() {
        let setup =
            latheside_core::setup::read_file(include_str!("../../demo/example.json")).unwrap();
        let link = latheside_core::setup::write_link(&setup);
        let url = format!("https://example.org/shared/lathe/#{link}");
        let html = qr(&url).unwrap().into_string();
        for scale in [3, 5, 8] {
            let (version, words) = read_back(&html, scale);
            assert_eq!(words, url, "at {scale} dots a module");
            assert!(version <= 12, "a shop and three operations: version {version}");
        }
        // What it reads opens.
        let (_, words) = read_back(&html, 4);
        let opened = latheside_core::setup::read_link(&words).unwrap();
        assert_eq!(opened.operations, setup.operations);
        // The longest link that is drawn, and the shortest.
        for url in
            ["https://a.bc/#s1.A".to_owned(), format!("https://a.bc/#s1.{}", "Az09_-".repeat(330))]
        {
            let html = qr(&url).unwrap().into_string();
            assert_eq!(read_back(&html, 4).1, url);
        }
    }
}
