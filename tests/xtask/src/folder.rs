//! A folder of files, and what tells one content from another.

use sha2::{Digest, Sha256};
use std::fs;
use std::path::Path;

/// Every file below a folder, named from it with `/` between, in order.
///
/// # Errors
///
/// A sentence, when the folder can't be listed.
pub fn files(folder: &Path) -> Result<Vec<String>, String> {
    fn walk(folder: &Path, name: &str, files: &mut Vec<String>) -> std::io::Result<()> {
        for entry in fs::read_dir(folder)? {
            let entry = entry?;
            let name = format!("{name}{}", entry.file_name().to_string_lossy());
            if entry.file_type()?.is_dir() {
                walk(&entry.path(), &format!("{name}/"), files)?;
            } else {
                files.push(name);
            }
        }
        Ok(())
    }
    let mut files = Vec::new();
    walk(folder, "", &mut files)
        .map_err(|why| format!("can't list {}: {why}", folder.display()))?;
    files.sort();
    Ok(files)
}

/// Eight bytes of a content's SHA-256, to tell one content from another by name.
#[must_use]
pub fn digest(content: &[u8]) -> String {
    let digest = Sha256::digest(content);
    data_encoding::HEXLOWER.encode(digest.get(..8).unwrap_or(&digest))
}
