//! Works a setup file out without a browser: `solve setup.json`, or `solve -` for standard input.

use latheside_core::setup;
use std::fs::File;
use std::io::{Read, Write};
use std::process::ExitCode;

fn main() -> ExitCode {
    let path = std::env::args().nth(1).unwrap_or_else(|| "-".to_owned());
    let mut bytes = Vec::new();
    // A byte more than is read says that there is more.
    let most = (setup::LARGEST_FILE as u64).saturating_add(1);
    let read = if path == "-" {
        std::io::stdin().lock().take(most).read_to_end(&mut bytes)
    } else {
        File::open(&path).and_then(|file| file.take(most).read_to_end(&mut bytes))
    };
    if let Err(why) = read {
        return refuse(&format!("{path} can't be read: {why}"));
    }
    let text = match String::from_utf8(bytes) {
        Ok(text) => text,
        // Cut off within a letter.
        Err(why) if why.as_bytes().len() > setup::LARGEST_FILE => {
            String::from_utf8_lossy(why.as_bytes()).into_owned()
        }
        Err(_) => return refuse("not a setup file: it is not text in UTF-8"),
    };
    match setup::read_file(&text) {
        Ok(setup) => {
            let Ok(mut json) = serde_json::to_string(&setup::answers(&setup)) else {
                return refuse("the answers can't be written");
            };
            json.push('\n');
            match std::io::stdout().lock().write_all(json.as_bytes()) {
                Ok(()) => ExitCode::SUCCESS,
                Err(why) => refuse(&format!("the answers can't be written: {why}")),
            }
        }
        Err(why) => refuse(&why.to_string()),
    }
}

/// One line on standard error, and exit code 2.
fn refuse(why: &str) -> ExitCode {
    let _ = writeln!(std::io::stderr(), "{}", why.replace(['\n', '\r'], " "));
    ExitCode::from(2)
}
