//! The built page with one file changed, its worker's list with it: another version.

use crate::Outcome;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};
use xtask::folder::files;
use xtask::worker;

/// A folder that goes with its value.
pub(crate) struct Altered {
    pub(crate) folder: PathBuf,
}

impl Altered {
    /// The page in `dist`, with the one file that ends so passed through `change`.
    pub(crate) fn of(
        dist: &Path,
        ending: &str,
        change: impl Fn(&str) -> String,
    ) -> Outcome<Altered> {
        let altered = Altered::copy(dist)?;
        let file = altered.folder.join(file(dist, ending)?);
        let before = fs::read_to_string(&file)?;
        let after = change(&before);
        if after == before {
            return Err(format!("nothing to change in {}", file.display()).into());
        }
        fs::write(&file, after)?;
        worker::fill(&altered.folder)?;
        Ok(altered)
    }

    /// The page in `dist` with a script that runs before its own.
    pub(crate) fn begun_with(dist: &Path, script: &str) -> Outcome<Altered> {
        const NAME: &str = "before.js";
        let altered = Altered::of(dist, "index.html", |page| {
            page.replacen(
                "<meta charset",
                &format!("<script src=\"{NAME}\"></script><meta charset"),
                1,
            )
        })?;
        fs::write(altered.folder.join(NAME), script)?;
        worker::fill(&altered.folder)?;
        Ok(altered)
    }

    fn copy(dist: &Path) -> Outcome<Altered> {
        static NEXT: AtomicU32 = AtomicU32::new(0);
        let next = NEXT.fetch_add(1, Ordering::SeqCst);
        let name = format!("latheside-altered-{}-{next}", std::process::id());
        let altered = Altered { folder: std::env::temp_dir().join(name) };
        for name in files(dist)? {
            let to = altered.folder.join(&name);
            fs::create_dir_all(to.parent().ok_or("a file without a folder")?)?;
            fs::copy(dist.join(&name), to)?;
        }
        Ok(altered)
    }
}

impl Drop for Altered {
    fn drop(&mut self) {
        fs::remove_dir_all(&self.folder).ok();
    }
}

/// The first file of the page that ends so, named from its folder.
pub(crate) fn file(dist: &Path, ending: &str) -> Outcome<String> {
    let found = files(dist)?.into_iter().find(|file| file.ends_with(ending));
    Ok(found.ok_or_else(|| format!("the page has no {ending}"))?)
}
