//! The contact sheet: every screen's pictures, side by side on one page, and the README's picture.

use crate::command::{self, Outcome, write};
use crate::{browsers, checks, page};
use std::collections::BTreeMap;
use std::fmt::Write;
use std::fs;
use std::path::{Path, PathBuf};
use std::time::Instant;
use xtask::folder::files;

/// The README's picture, as the browser takes it and as it is kept.
const README: &str = "readme.png";
/// No heavier, for whoever reads it on a phone.
const HEAVIEST: u64 = 250_000;

/// Builds the page, takes every picture, and lays them out; the README's is put in its place.
pub(crate) fn all() -> Outcome {
    page::build()?;
    let shots = folder();
    // What was taken before may be of screens that are no more.
    if shots.exists() {
        fs::remove_dir_all(&shots)
            .map_err(|why| format!("can't clear {}: {why}", shots.display()))?;
    }
    take("")?;
    let kept = command::root().join("tests/shots").join(README);
    let taken = shots.join(README);
    let weight =
        fs::metadata(&taken).map_err(|why| format!("no picture for the README: {why}"))?.len();
    if weight > HEAVIEST {
        return Err(format!("the README's picture weighs {weight} bytes: at most {HEAVIEST}"));
    }
    fs::copy(&taken, &kept).map_err(|why| format!("can't write {}: {why}", kept.display()))?;
    println!(
        "the README's picture, {weight} bytes, is now {}: look at it, and commit it",
        kept.display()
    );
    Ok(())
}

/// Takes again what bears this name in the page that was built last.
pub(crate) fn some(name: &str) -> Outcome {
    take(name)
}

fn folder() -> PathBuf {
    command::target().join("shots")
}

fn take(name: &str) -> Outcome {
    let from = Instant::now();
    let taken = checks::in_the_page(browsers::chromium()?)?
        .arg("--")
        .arg("--contact-sheet")
        .arg(name)
        .tests()?;
    if taken == 0 {
        return Err(format!("no picture bears the name \"{name}\""));
    }
    let shots = folder();
    let index = shots.join("index.html");
    let pictures = files(&shots)?;
    write(&index, laid_out(&pictures))?;
    let taken = pictures.iter().filter(|file| parts(file).is_some()).count();
    println!(
        "{taken} pictures in {:.0} s: {}",
        from.elapsed().as_secs_f64(),
        Path::display(&index)
    );
    Ok(())
}

/// Room, screen, ground and width of a picture, by its file's name.
fn parts(file: &str) -> Option<[&str; 4]> {
    let parts: Vec<&str> = file.strip_suffix(".png")?.split("--").collect();
    parts.try_into().ok()
}

/// Each screen's pictures: their files, and what they are taken in.
type Screens<'a> = BTreeMap<&'a str, Vec<(&'a str, String)>>;

/// The page of all pictures: by room, and in it by screen.
fn laid_out(files: &[String]) -> String {
    let mut rooms: BTreeMap<&str, Screens<'_>> = BTreeMap::new();
    for file in files {
        if let Some([room, screen, ground, width]) = parts(file) {
            let screens = rooms.entry(room).or_default();
            screens.entry(screen).or_default().push((file, format!("{ground}, {width}")));
        }
    }
    let mut html = String::from(
        "<!doctype html>\n<html lang=\"en\">\n<meta charset=\"utf-8\">\n<title>Contact sheet</title>\n<style>\
         body { font: 16px/1.4 sans-serif; margin: 16px; background: #ddd } \
         section { display: flex; flex-wrap: wrap; gap: 16px; align-items: flex-start } \
         figure { margin: 0 } img { display: block; max-width: 390px; max-height: 844px; box-shadow: 0 0 0 1px #777 } \
         nav a { margin-right: 1em }</style>\n<h1>Contact sheet</h1>\n<nav>",
    );
    for room in rooms.keys() {
        _ = write!(html, "<a href=\"#{room}\">{room}</a> ");
    }
    html.push_str("</nav>\n");
    for (room, screens) in rooms {
        _ = writeln!(html, "<h2 id=\"{room}\">{room}</h2>");
        for (screen, pictures) in screens {
            _ = writeln!(html, "<h3>{}</h3>\n<section>", screen.replace('-', " "));
            for (file, words) in pictures {
                _ = writeln!(
                    html,
                    "<figure><a href=\"{file}\"><img src=\"{file}\" alt=\"\" loading=\"lazy\"></a><figcaption>{words}</figcaption></figure>"
                );
            }
            html.push_str("</section>\n");
        }
    }
    html
}

#[cfg(test)]
mod tests {
    use super::laid_out;

    #[test]
    fn pictures_stand_by_room_and_screen() {
        let files = [
            "bench--pass--blue--390.png",
            "bench--pass--sun--320.png",
            "keys--gears--blue--390.png",
            "readme.png",
        ];
        let html = laid_out(&files.map(str::to_owned));
        assert_eq!(html.matches("<h2 ").count(), 2, "{html}");
        assert_eq!(html.matches("<h3>").count(), 2, "{html}");
        assert_eq!(html.matches("<img ").count(), 3, "{html}");
        assert!(html.contains("<figcaption>sun, 320</figcaption>"), "{html}");
    }
}
