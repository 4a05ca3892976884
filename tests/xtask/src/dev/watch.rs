//! What has been saved since the last look, by the files' times: nothing need be installed for it, and
//! some hundred files are looked over in a few thousandths of a second.

use crate::command::Outcome;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

/// What is to be made again.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Changed {
    /// The sheets.
    pub(crate) style: bool,
    /// What is copied: the page itself, its first script, the public folder.
    pub(crate) page: bool,
    /// What is compiled.
    pub(crate) modules: bool,
}

impl Changed {
    pub(crate) const fn all() -> Changed {
        Changed { style: true, page: true, modules: true }
    }

    pub(crate) const fn any(self) -> bool {
        self.style || self.page || self.modules
    }

    /// Adds what follows from one file, named from the workspace's folder.
    fn add(&mut self, file: &str) {
        let ending = file.rsplit('.').next().unwrap_or_default();
        match ending {
            "css" => self.style = true,
            // Which sheets there are, and in which order, it says too.
            "html" => (self.style, self.page) = (true, true),
            "js" => self.page = true,
            _ if file.starts_with("public/") => self.page = true,
            // Files that the sources include are compiled with them.
            "rs" | "toml" | "lock" | "json" => self.modules = true,
            // An editor's own, and words about it all.
            _ => {}
        }
    }
}

/// Where the page's sources stand.
const FOLDERS: [&str; 3] = ["app", "core", "public"];
const FILES: [&str; 3] = ["Cargo.toml", "Cargo.lock", "rust-toolchain.toml"];

type Files = BTreeMap<String, (Option<SystemTime>, u64)>;

/// The page's sources as they were at the last look.
pub(crate) struct Watch {
    root: PathBuf,
    files: Files,
}

impl Watch {
    pub(crate) fn begin(root: &Path) -> Outcome<Watch> {
        Ok(Watch { root: root.to_owned(), files: look(root)? })
    }

    /// What has changed, come or gone since the last look.
    pub(crate) fn changed(&mut self) -> Outcome<Changed> {
        let now = look(&self.root)?;
        let mut changed = Changed::default();
        let differ = |a: &Files, b: &Files, changed: &mut Changed| {
            a.iter()
                .filter(|(file, stamp)| b.get(*file) != Some(stamp))
                .for_each(|(file, _)| changed.add(file));
        };
        differ(&now, &self.files, &mut changed);
        differ(&self.files, &now, &mut changed);
        self.files = now;
        Ok(changed)
    }
}

fn look(root: &Path) -> Outcome<Files> {
    let mut files = Files::new();
    for name in FILES {
        note(&root.join(name), name.to_owned(), &mut files);
    }
    for name in FOLDERS {
        walk(&root.join(name), name, &mut files)?;
    }
    Ok(files)
}

fn walk(folder: &Path, name: &str, files: &mut Files) -> Outcome {
    let entries =
        fs::read_dir(folder).map_err(|why| format!("can't list {}: {why}", folder.display()))?;
    for entry in entries.flatten() {
        let inner = entry.file_name().to_string_lossy().into_owned();
        if inner.starts_with('.') || inner == "target" {
            continue;
        }
        let inner = format!("{name}/{inner}");
        match entry.file_type() {
            Ok(kind) if kind.is_dir() => walk(&entry.path(), &inner, files)?,
            _ => note(&entry.path(), inner, files),
        }
    }
    Ok(())
}

/// A file that goes in this moment is noted as gone at the next look.
fn note(file: &Path, name: String, files: &mut Files) {
    if let Ok(data) = fs::metadata(file) {
        files.insert(name, (data.modified().ok(), data.len()));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_file_makes_again_what_it_is_part_of() {
        let of = |file: &str| {
            let mut changed = Changed::default();
            changed.add(file);
            (changed.style, changed.page, changed.modules)
        };
        assert_eq!(of("app/style/bench.css"), (true, false, false));
        assert_eq!(of("app/index.html"), (true, true, false));
        assert_eq!(of("app/boot.js"), (false, true, false));
        assert_eq!(of("public/icons/icon.svg"), (false, true, false));
        assert_eq!(of("core/src/cutting/mod.rs"), (false, false, true));
        assert_eq!(of("app/demo/example.json"), (false, false, true));
        assert_eq!(of("app/src/main.rs~"), (false, false, false));
    }

    #[test]
    fn what_is_saved_comes_or_goes_is_seen_once() {
        let root = std::env::temp_dir().join(format!("watch-{}", std::process::id()));
        for folder in FOLDERS {
            fs::create_dir_all(root.join(folder).join("inner")).unwrap();
        }
        let (sheet, source) = (root.join("app/inner/a.css"), root.join("core/inner/a.rs"));
        fs::write(&sheet, "a").unwrap();
        let mut watch = Watch::begin(&root).unwrap();
        assert!(!watch.changed().unwrap().any());
        fs::write(&sheet, "ab").unwrap();
        fs::write(&source, "a").unwrap();
        assert_eq!(watch.changed().unwrap(), Changed { style: true, page: false, modules: true });
        assert!(!watch.changed().unwrap().any());
        fs::remove_file(&source).unwrap();
        assert_eq!(watch.changed().unwrap(), Changed { modules: true, ..Changed::default() });
        fs::remove_dir_all(&root).unwrap();
    }
}
