//! The page as a folder of files, ready for any host.

use crate::command::{self, Outcome, cargo, program, read, write};
use crate::tools::WASM;
use crate::{notices, tools};
use std::fs;
use std::path::{Path, PathBuf};
use xtask::folder::{digest, files};
use xtask::worker;

/// What rustc 1.95 uses of WebAssembly without being asked, and every browser since 2023 has.
const FEATURES: [&str; 6] = [
    "--enable-bulk-memory",
    "--enable-multivalue",
    "--enable-mutable-globals",
    "--enable-nontrapping-float-to-int",
    "--enable-reference-types",
    "--enable-sign-ext",
];

/// Builds the page and puts it in `dist`, whole or not at all.
pub(crate) fn build() -> Outcome<PathBuf> {
    tools::for_the_page()?;
    cargo(["fetch", "--locked", "--target", WASM]).run()?;
    let flags = without_folders();
    // Both at once, so that what they share is built once; what follows finds them built.
    cargo(["build", "--locked", "--profile", "page", "--target", WASM])
        .arg("--package=latheside-app")
        .arg("--package=latheside-works")
        .env(FLAGS, &flags)
        .run()?;
    program("trunk", ["build", "--config", "Trunk.toml"])
        .env("PATH", tools::path())
        .env(FLAGS, &flags)
        // Says what failed, and not what went well.
        .env("RUST_LOG", "warn")
        .env("NO_COLOR", "true")
        .run()?;
    let made = command::target().join("site");
    shrink_wasm(&made)?;
    add_works(&made)?;
    join_sheets(&made)?;
    shrink_words(&made)?;
    worker::fill(&made)?;
    notices::write_beside(&made)?;
    let dist = command::root().join("dist");
    if dist.exists() {
        fs::remove_dir_all(&dist)
            .map_err(|why| format!("can't clear {}: {why}", dist.display()))?;
    }
    fs::rename(&made, &dist).map_err(|why| format!("can't put the page in place: {why}"))?;
    Ok(dist)
}

/// Where cargo looks for the compiler's flags; they stand apart by [`BETWEEN`].
const FLAGS: &str = "CARGO_ENCODED_RUSTFLAGS";
const BETWEEN: &str = "\u{1f}";

/// Flags by which a panic's place is named from the crate's own folder: the page holds none of the
/// folders of whoever builds it.
fn without_folders() -> String {
    let home = std::env::var_os("CARGO_HOME").map(PathBuf::from);
    let home = home.or_else(|| Some(std::env::home_dir()?.join(".cargo"))).unwrap_or_default();
    let registries = fs::read_dir(home.join("registry/src")).into_iter().flatten().flatten();
    let folders = registries.map(|registry| registry.path()).chain([command::root()]);
    let flag = |folder: PathBuf| format!("--remap-path-prefix={}/=", folder.display());
    folders.map(flag).collect::<Vec<_>>().join(BETWEEN)
}

fn ending(made: &Path, ending: &str) -> Outcome<Vec<PathBuf>> {
    Ok(files(made)?
        .iter()
        .filter(|file| file.ends_with(ending))
        .map(|file| made.join(file))
        .collect())
}

fn shrink_wasm(made: &Path) -> Outcome {
    let found = ending(made, ".wasm")?;
    let [wasm] = found.as_slice() else {
        return Err(format!("the page should have one wasm file, and has {}", found.len()));
    };
    shrink(wasm)
}

fn shrink(wasm: &Path) -> Outcome {
    let mut run = program("wasm-opt", ["-Oz"]).env("PATH", tools::path());
    for feature in FEATURES {
        run = run.arg(feature);
    }
    run.arg(wasm).arg("-o").arg(wasm).run()
}

/// What the page says of its works until they are built: the bindings' script and the wasm.
const WORKS: &str = "content=\"works.js works_bg.wasm\"";

/// Makes the works, the module with the answers, ready for the page, and names it there: loaded once
/// the page stands.
fn add_works(made: &Path) -> Outcome {
    let folder = command::target().join("works");
    program(
        "wasm-bindgen",
        ["--target", "web", "--no-typescript", "--out-name", "works", "--out-dir"],
    )
    .env("PATH", tools::path())
    .arg(&folder)
    .arg(command::target().join(WASM).join("page/latheside_works.wasm"))
    .run()?;
    let wasm = folder.join("works_bg.wasm");
    shrink(&wasm)?;
    let named = |file: &Path, ending: &str| -> Outcome<String> {
        let bytes =
            fs::read(file).map_err(|why| format!("can't read {}: {why}", file.display()))?;
        let name = format!("works-{}.{ending}", digest(&bytes));
        fs::write(made.join(&name), bytes).map_err(|why| format!("can't write {name}: {why}"))?;
        Ok(name)
    };
    let script = named(&folder.join("works.js"), "js")?;
    let wasm = named(&wasm, "wasm")?;
    let index = made.join("index.html");
    let page = read(&index)?;
    if !page.contains(WORKS) {
        return Err(format!("index.html should name the works: {WORKS}"));
    }
    write(&index, page.replacen(WORKS, &format!("content=\"./{script} ./{wasm}\""), 1))
}

/// Scripts and sheets without their comments and spaces. The worker stays readable: it isn't waited for.
fn shrink_words(made: &Path) -> Outcome {
    let scripts = ending(made, ".js")?.into_iter().filter(|file| !file.ends_with("sw.js"));
    for file in scripts {
        program("esbuild", ["--minify", "--log-level=warning", "--allow-overwrite"])
            .env("PATH", tools::path())
            .arg(format!("--outfile={}", file.display()))
            .arg(&file)
            .run()?;
    }
    Ok(())
}

/// One sheet for the page in place of several: one request, in the order in which they stood.
fn join_sheets(made: &Path) -> Outcome {
    let index = made.join("index.html");
    let page = read(&index)?;
    let (page, sheets) = take_sheets(&page);
    let mut joined = String::new();
    for sheet in &sheets {
        let file = made.join(sheet.href.trim_start_matches("./"));
        let words = read(&file)?;
        if words.contains("@import") || words.contains("@charset") {
            return Err(format!(
                "{}: name each sheet in index.html instead of importing it",
                sheet.href
            ));
        }
        match &sheet.media {
            Some(media) => joined.extend(["@media ", media, " {\n", &words, "}\n"]),
            None => joined.push_str(&words),
        }
        fs::remove_file(&file).map_err(|why| format!("can't remove {}: {why}", file.display()))?;
    }
    let plain = command::target().join("style.css");
    write(&plain, joined)?;
    let small = program("esbuild", ["--minify", "--log-level=warning", "--loader:.css=css"])
        .env("PATH", tools::path())
        .arg(&plain)
        .said()?;
    let name = format!("style-{}.css", digest(small.as_bytes()));
    write(&made.join(&name), &small)?;
    let link = format!("<link rel=\"stylesheet\" href=\"./{name}\">");
    write(&index, page.replacen(PLACE, &link, 1))
}

/// Where the first sheet stood.
const PLACE: &str = "<!-- style -->";

#[derive(Debug, PartialEq, Eq)]
struct Sheet {
    href: String,
    media: Option<String>,
}

/// The page without its sheets, [`PLACE`] where the first of them stood, and the sheets.
fn take_sheets(page: &str) -> (String, Vec<Sheet>) {
    let mut without = String::new();
    let mut sheets = Vec::new();
    let mut rest = page;
    while let Some((before, after)) = rest.split_once("<link ") {
        without.push_str(before);
        let (tag, after) = after.split_once('>').unwrap_or((after, ""));
        rest = after;
        match (attribute(tag, "rel"), attribute(tag, "href")) {
            (Some("stylesheet"), Some(href)) => {
                if sheets.is_empty() {
                    without.push_str(PLACE);
                }
                let media = attribute(tag, "media").map(str::to_owned);
                sheets.push(Sheet { href: href.to_owned(), media });
            }
            _ => without.extend(["<link ", tag, ">"]),
        }
    }
    without.push_str(rest);
    (without, sheets)
}

/// The value of a tag's attribute, where it is written in double quotes.
pub(crate) fn attribute<'a>(tag: &'a str, name: &str) -> Option<&'a str> {
    let (before, after) = tag.split_once(&format!("{name}=\""))?;
    let whole = before.is_empty() || before.ends_with(char::is_whitespace);
    whole.then(|| after.split('"').next()).flatten()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sheets_are_taken_in_their_order_and_the_rest_stays() {
        let page = "<link rel=\"icon\" href=\"i.svg\">\n<link rel=\"stylesheet\" href=\"./a.css\"/>\n\
            <link media=\"print\" rel=\"stylesheet\" href=\"b.css\">x";
        let (without, sheets) = take_sheets(page);
        assert_eq!(without, format!("<link rel=\"icon\" href=\"i.svg\">\n{PLACE}\n{}x", ""));
        let sheet = |href: &str, media: Option<&str>| Sheet {
            href: href.to_owned(),
            media: media.map(str::to_owned),
        };
        assert_eq!(sheets, [sheet("./a.css", None), sheet("b.css", Some("print"))]);
    }
}
