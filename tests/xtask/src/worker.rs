//! What the worker keeps: every file of the finished page, each with its digest.

use crate::command::{Outcome, read, write};
use crate::page::{self, digest};
use data_encoding::BASE64;
use sha2::{Digest, Sha256};
use std::fmt::Write;
use std::fs;
use std::path::Path;

/// The two lines that the build fills in.
const VERSION: &str = "const VERSION = \"\";";
const FILES: &str = "const FILES = [];";

/// Writes the list and the version into the worker of the page in `made`.
pub(crate) fn fill(made: &Path) -> Outcome {
    let file = made.join("sw.js");
    let mut files = Vec::new();
    for name in page::files(made)?.into_iter().filter(|name| name != "sw.js") {
        let content =
            fs::read(made.join(&name)).map_err(|why| format!("can't read {name}: {why}"))?;
        files.push((name, content));
    }
    write(&file, filled(&read(&file)?, &files)?)
}

fn filled(worker: &str, files: &[(String, Vec<u8>)]) -> Outcome<String> {
    let mut list = String::from("const FILES = [\n");
    for (name, content) in files {
        // Hosts may send `index.html` on to its folder, and a page may not be kept from such an answer.
        let path = if name == "index.html" { "./" } else { name };
        let digest = BASE64.encode(&Sha256::digest(content));
        writeln!(list, "  [\"{path}\", \"sha256-{digest}\"],").map_err(|why| why.to_string())?;
    }
    list.push_str("];");
    // A change of the worker alone makes a new set too.
    let version = format!("const VERSION = \"{}\";", digest([worker, &list].concat().as_bytes()));
    let mut words = worker.to_owned();
    for (line, with) in [(VERSION, version), (FILES, list)] {
        if words.matches(line).count() != 1 {
            return Err(format!("sw.js should have the line `{line}` once"));
        }
        words = words.replacen(line, &with, 1);
    }
    Ok(words)
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
        assert!(filled.contains(abc), "SHA-256 of \"abc\", NIST FIPS 180-4 example: {filled}");
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
    fn a_worker_without_its_lines_is_refused() {
        assert!(filled("const FILES = [];", &files("page")).is_err());
    }
}
