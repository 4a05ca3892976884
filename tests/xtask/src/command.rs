//! Another program, run for what it does or for what it says.

use std::ffi::OsStr;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Command, ExitStatus, Stdio};
use std::time::Duration;

/// A failure is a plain sentence.
pub(crate) type Outcome<T = ()> = Result<T, String>;

/// The workspace's own folder.
pub(crate) fn root() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.ancestors().nth(2).unwrap_or(here).to_owned()
}

/// Where everything built goes.
pub(crate) fn target() -> PathBuf {
    std::env::var_os("CARGO_TARGET_DIR")
        .map_or_else(|| root().join("target"), |set| root().join(set))
}

/// A program and its words, in the workspace's folder, with nobody at the keyboard.
pub(crate) struct Run {
    command: Command,
}

pub(crate) fn program<const N: usize>(name: impl AsRef<OsStr>, words: [&str; N]) -> Run {
    let mut command = Command::new(name);
    command.args(words).current_dir(root()).stdin(Stdio::null());
    Run { command }
}

/// The cargo that runs this.
pub(crate) fn cargo<const N: usize>(words: [&str; N]) -> Run {
    program(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()), words)
}

impl Run {
    pub(crate) fn env(mut self, name: &str, value: impl AsRef<OsStr>) -> Run {
        self.command.env(name, value);
        self
    }

    pub(crate) fn envs(mut self, all: Vec<(&'static str, PathBuf)>) -> Run {
        self.command.envs(all);
        self
    }

    pub(crate) fn arg(mut self, word: impl AsRef<OsStr>) -> Run {
        self.command.arg(word);
        self
    }

    pub(crate) fn folder(mut self, folder: &Path) -> Run {
        self.command.current_dir(folder);
        self
    }

    /// Its name and words, as one would type them.
    fn words(&self) -> String {
        let name = Path::new(self.command.get_program()).file_name().unwrap_or_default();
        let words = self.command.get_args().map(OsStr::to_string_lossy);
        let mut all = vec![name.to_string_lossy()];
        all.extend(words);
        all.join(" ")
    }

    fn missing(&self, why: &std::io::Error) -> String {
        format!("`{}` could not be started: {why}", self.words())
    }

    fn ended(&self, status: std::io::Result<ExitStatus>) -> Outcome {
        match status {
            Ok(status) if status.success() => Ok(()),
            Ok(status) => Err(format!("`{}` failed ({status}): see above", self.words())),
            Err(why) => Err(self.missing(&why)),
        }
    }

    /// Runs it to its end, its words going straight to the screen.
    pub(crate) fn run(mut self) -> Outcome {
        let status = self.command.status();
        self.ended(status)
    }

    /// The same for as long as it is wanted: then it is stopped.
    pub(crate) fn run_while(mut self, wanted: impl Fn() -> bool) -> Outcome {
        let mut child = self.command.spawn().map_err(|why| self.missing(&why))?;
        loop {
            if let Some(status) = child.try_wait().transpose() {
                return self.ended(status);
            }
            if !wanted() {
                child.kill().ok();
            }
            std::thread::sleep(Duration::from_millis(100));
        }
    }

    /// Runs tests, shows what they say, and counts those that passed.
    pub(crate) fn tests(mut self) -> Outcome<u32> {
        self.command.stdout(Stdio::piped());
        let mut child = self.command.spawn().map_err(|why| self.missing(&why))?;
        let mut passed = 0;
        if let Some(said) = child.stdout.take() {
            for line in BufReader::new(said).lines().map_while(Result::ok) {
                println!("{line}");
                passed += counted(&line);
            }
        }
        self.ended(child.wait()).map(|()| passed)
    }

    /// What it says aside, on the second of its outputs; where it fails, that is shown.
    pub(crate) fn said_aside(mut self) -> Outcome<String> {
        self.command.stdout(Stdio::null());
        let output = self.command.output().map_err(|why| self.missing(&why))?;
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        if !output.status.success() {
            eprintln!("{}", said.trim_end());
            return Err(format!("`{}` failed ({}): see above", self.words(), output.status));
        }
        Ok(said)
    }

    /// What it prints.
    pub(crate) fn said(mut self) -> Outcome<String> {
        let output = self.command.output().map_err(|why| self.missing(&why))?;
        if !output.status.success() {
            let said = String::from_utf8_lossy(&output.stderr);
            return Err(format!("`{}` failed: {}", self.words(), said.trim()));
        }
        Ok(String::from_utf8_lossy(&output.stdout).into_owned())
    }
}

/// How many tests one line of output says have passed.
fn counted(line: &str) -> u32 {
    let after = line.trim_start().strip_prefix("test result: ok. ");
    let number = after.and_then(|after| after.split_once(" passed"));
    number.and_then(|(number, _)| number.parse().ok()).unwrap_or(0)
}

/// The words of a file.
pub(crate) fn read(file: &Path) -> Outcome<String> {
    std::fs::read_to_string(file).map_err(|why| format!("can't read {}: {why}", file.display()))
}

/// Writes a file.
pub(crate) fn write(file: &Path, words: impl AsRef<[u8]>) -> Outcome {
    std::fs::write(file, words).map_err(|why| format!("can't write {}: {why}", file.display()))
}

#[cfg(test)]
mod tests {
    use super::{counted, program};

    #[test]
    fn what_is_no_longer_wanted_is_stopped() {
        assert_eq!(program("rustc", ["--version"]).run_while(|| true), Ok(()));
        let why = program("sleep", ["600"]).run_while(|| false).unwrap_err();
        assert!(why.starts_with("`sleep 600` failed"), "{why}");
    }

    #[test]
    fn the_tests_that_passed_are_counted_from_the_closing_line_alone() {
        assert_eq!(counted("test result: ok. 12 passed; 0 failed; 1 ignored; finished"), 12);
        assert_eq!(counted("test result: FAILED. 12 passed; 1 failed"), 0);
        assert_eq!(counted("test site::tests::result ... ok"), 0);
    }
}
