//! What the page is put together from, as `app/index.html` names it line by line, in Trunk's way of writing it.

use crate::command::Outcome;

/// The page with a mark where something is to be named, and the files that it is to be made from.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Index {
    page: String,
    /// In the order in which they hold.
    pub(crate) sheets: Vec<Sheet>,
    /// A folder whose files stand beside the page.
    pub(crate) folder: String,
    /// What starts the page.
    pub(crate) script: String,
}

#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Sheet {
    pub(crate) href: String,
    pub(crate) media: Option<String>,
}

/// What the finished files are called.
pub(crate) struct Names<'a> {
    pub(crate) style: &'a str,
    pub(crate) script: &'a str,
    /// The page's module: its script and its wasm.
    pub(crate) app: (&'a str, &'a str),
    /// The answers', which the page loads later.
    pub(crate) works: (&'a str, &'a str),
}

/// Where the first sheet, the module and the script stood.
const STYLE: &str = "<!-- style -->";
const MODULE: &str = "<!-- module -->";
const SCRIPT: &str = "<!-- script -->";
/// What the page says of its works until they are built.
const WORKS: &str = "content=\"works.js works_bg.wasm\"";

impl Index {
    /// Reads a page: each tag marked `data-trunk` on a line of its own.
    pub(crate) fn read(page: &str) -> Outcome<Index> {
        let mut index = Index {
            page: String::new(),
            sheets: Vec::new(),
            folder: String::new(),
            script: String::new(),
        };
        for line in page.lines() {
            let tag = line.trim();
            if !tag.contains("data-trunk") {
                index.page.extend([line, "\n"]);
                continue;
            }
            let unknown = || format!("index.html: it isn't known what to make of {tag}");
            let named = |name| attribute(tag, name).map(str::to_owned).ok_or_else(unknown);
            let mark = match attribute(tag, "rel") {
                Some("css") => {
                    let media = attribute(tag, "media").map(str::to_owned);
                    index.sheets.push(Sheet { href: named("href")?, media });
                    if index.sheets.len() > 1 {
                        continue;
                    }
                    STYLE
                }
                Some("copy-dir") if index.folder.is_empty() => {
                    index.folder = named("href")?;
                    continue;
                }
                Some("rust") => MODULE,
                None if tag.starts_with("<script ") && index.script.is_empty() => {
                    index.script = named("src")?;
                    SCRIPT
                }
                _ => return Err(unknown()),
            };
            index.page.extend(["  ", mark, "\n"]);
        }
        match [STYLE, MODULE, SCRIPT, WORKS]
            .iter()
            .find(|mark| index.page.matches(**mark).count() != 1)
        {
            None if index.folder.is_empty() => {
                Err("index.html should name a folder to copy".to_owned())
            }
            None => Ok(index),
            Some(mark) => Err(format!("index.html should say once what becomes {mark}")),
        }
    }

    /// The page with everything named.
    pub(crate) fn filled(&self, names: &Names<'_>) -> String {
        let Names { style, script, app: (app, wasm), works: (works, works_wasm) } = names;
        self.page
            .replacen(STYLE, &format!("<link rel=\"stylesheet\" href=\"./{style}\">"), 1)
            .replacen(
                MODULE,
                &format!("<link rel=\"modulepreload\" href=\"./{app}\" data-wasm=\"./{wasm}\">"),
                1,
            )
            .replacen(SCRIPT, &format!("<script src=\"./{script}\" type=\"module\"></script>"), 1)
            .replacen(WORKS, &format!("content=\"./{works} ./{works_wasm}\""), 1)
    }
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

    const PAGE: &str = "<link rel=\"icon\" href=\"i.svg\">
  <meta name=\"latheside-works\" content=\"works.js works_bg.wasm\">
  <link data-trunk rel=\"css\" href=\"a.css\">
  <link data-trunk rel=\"css\" href=\"b.css\" media=\"print\">
  <link data-trunk rel=\"copy-dir\" href=\"../public\" data-target-path=\".\">
  <link data-trunk rel=\"rust\" href=\"Cargo.toml\">
  <script data-trunk type=\"module\" src=\"boot.js\"></script>
";

    #[test]
    fn sheets_are_taken_in_their_order_and_the_rest_stays() {
        let index = Index::read(PAGE).unwrap();
        let sheet = |href: &str, media: Option<&str>| Sheet {
            href: href.to_owned(),
            media: media.map(str::to_owned),
        };
        assert_eq!(index.sheets, [sheet("a.css", None), sheet("b.css", Some("print"))]);
        assert_eq!((index.folder.as_str(), index.script.as_str()), ("../public", "boot.js"));
        let names = Names {
            style: "s.css",
            script: "b.js",
            app: ("p.js", "p.wasm"),
            works: ("w.js", "w.wasm"),
        };
        assert_eq!(
            index.filled(&names),
            "<link rel=\"icon\" href=\"i.svg\">
  <meta name=\"latheside-works\" content=\"./w.js ./w.wasm\">
  <link rel=\"stylesheet\" href=\"./s.css\">
  <link rel=\"modulepreload\" href=\"./p.js\" data-wasm=\"./p.wasm\">
  <script src=\"./b.js\" type=\"module\"></script>
"
        );
    }

    #[test]
    fn what_is_not_understood_or_missing_is_refused() {
        let without = |what: &str| {
            PAGE.lines().filter(|line| !line.contains(what)).collect::<Vec<_>>().join("\n")
        };
        for what in [".css", "copy-dir", "rust", "script", "works.js"] {
            assert!(Index::read(&without(what)).is_err(), "{what}");
        }
        let why = Index::read(&PAGE.replace("rel=\"rust\"", "rel=\"sass\"")).unwrap_err();
        assert!(why.contains("rel=\"sass\""), "{why}");
    }
}
