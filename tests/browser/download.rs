//! What is saved to the device: a folder for it, and the file that arrives.

use crate::Outcome;
use crate::phone::{GLANCE, PATIENCE};
use std::fs;
use std::path::PathBuf;
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::Instant;
use xtask::folder::files;

/// A folder that files are saved to; it goes with its value.
pub(crate) struct Download {
    pub(crate) path: PathBuf,
}

impl Download {
    pub(crate) fn folder() -> Outcome<Download> {
        static NEXT: AtomicU32 = AtomicU32::new(0);
        let name = format!(
            "latheside-saved-{}-{}",
            std::process::id(),
            NEXT.fetch_add(1, Ordering::SeqCst)
        );
        let path = std::env::temp_dir().join(name);
        fs::create_dir_all(&path)?;
        Ok(Download { path })
    }

    /// The one file that was saved, once it is whole.
    pub(crate) async fn arrived(&self) -> Outcome<PathBuf> {
        let from = Instant::now();
        while from.elapsed() < PATIENCE {
            let there = files(&self.path)?;
            if let [file] = there.as_slice()
                && [".json", ".svg", ".csv"].iter().any(|end| file.ends_with(end))
            {
                return Ok(self.path.join(file));
            }
            tokio::time::sleep(GLANCE).await;
        }
        Err(format!("saved: {:?}", files(&self.path)?).into())
    }
}

impl Drop for Download {
    fn drop(&mut self) {
        fs::remove_dir_all(&self.path).ok();
    }
}
