//! What the worker keeps: every file that the finished page uses, each with its digest.

use crate::folder::{digest, files};
use data_encoding::BASE64;
use sha2::{Digest, Sha256};
use std::fmt::Write;
use std::fs;
use std::path::Path;

/// How the two lines open and close that are filled in.
const VERSION: (&str, &str) = ("const VERSION = \"", "\";");
const FILES: (&str, &str) = ("const FILES = [", "];");

/// The licences of what the page is built from: they lie beside it, and nobody waits for them.
pub const LICENCES: &str = "licences.txt";

/// Writes the list and the version into the worker of a page, over any that stand there.
///
/// # Errors
///
/// A sentence, when a file can't be read or written, or the worker has no place for them.
pub fn fill(page: &Path) -> Result<(), String> {
    let place = page.join("sw.js");
    let worker = fs::read_to_string(&place).map_err(|why| format!("can't read sw.js: {why}"))?;
    let mut all = Vec::new();
    for name in files(page)?.into_iter().filter(|name| name != "sw.js" && name != LICENCES) {
        let content =
            fs::read(page.join(&name)).map_err(|why| format!("can't read {name}: {why}"))?;
        all.push((name, content));
    }
    fs::write(&place, filled(&worker, &all)?).map_err(|why| format!("can't write sw.js: {why}"))
}

fn filled(worker: &str, files: &[(String, Vec<u8>)]) -> Result<String, String> {
    let mut list = String::from("\n");
    for (name, content) in files {
        // Hosts may send `index.html` on to its folder, and such an answer can't be kept for a page.
        let path = if name == "index.html" { "./" } else { name };
        let digest = BASE64.encode(&Sha256::digest(content));
        writeln!(list, "  [\"{path}\", \"sha256-{digest}\"],").map_err(|why| why.to_string())?;
    }
    let unnamed = replaced(&replaced(worker, FILES, &list)?, VERSION, "")?;
    // Of the whole worker: a change of it alone makes a new set too.
    replaced(&unnamed, VERSION, &digest(unnamed.as_bytes()))
}

/// `words` with what stands between the two marks replaced.
fn replaced(words: &str, (open, close): (&str, &str), with: &str) -> Result<String, String> {
    let once = || format!("sw.js should have the line `{open}{close}` once");
    let (before, after) = words.split_once(open).ok_or_else(once)?;
    let (_, after) = after.split_once(close).ok_or_else(once)?;
    if after.contains(open) {
        return Err(once());
    }
    Ok([before, open, with, close, after].concat())
}

#[cfg(test)]
mod tests {
    use super::filled;

    const WORKER: &str = "const VERSION = \"\";\nconst FILES = [];\n";

    fn files(page: &str) -> Vec<(String, Vec<u8>)> {
        [("app.js", "abc"), ("index.html", page)].map(|(n, c)| (n.to_owned(), c.into())).into()
    }

    #[test]
    fn each_file_stands_with_its_digest_and_the_page_by_its_folder() {
        let filled = filled(WORKER, &files("page")).unwrap();
        let abc = "[\"app.js\", \"sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=\"],";
        assert!(filled.contains(abc), "the digest of \"abc\" in NIST's examples: {filled}");
        assert!(
            filled.contains("[\"./\", \"sha256-") && !filled.contains("index.html"),
            "{filled}"
        );
    }

    #[test]
    fn another_content_or_another_worker_is_another_version() {
        let version = |worker: &str, page: &str| {
            let filled = filled(worker, &files(page)).unwrap();
            filled.lines().next().unwrap().to_owned()
        };
        assert_eq!(version(WORKER, "page"), version(WORKER, "page"));
        assert_ne!(version(WORKER, "page"), version(WORKER, "Page"));
        assert_ne!(version(WORKER, "page"), version(&format!("{WORKER}//"), "page"));
    }

    #[test]
    fn filling_again_is_as_filling_once() {
        let once = filled(WORKER, &files("page")).unwrap();
        assert_eq!(filled(&once, &files("page")).unwrap(), once);
    }

    #[test]
    fn a_worker_without_its_lines_or_with_them_twice_is_refused() {
        assert!(filled("const FILES = [];", &files("page")).is_err());
        assert!(filled(&[WORKER, WORKER].concat(), &files("page")).is_err());
    }
}
