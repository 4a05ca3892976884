//! The fuzzers: a short run of each among the checks, or a long one that keeps what went further.

use crate::command::{self, Outcome, Run, cargo, program};
use crate::tools;
use std::fs;
use std::path::{Path, PathBuf};
use std::thread::{self, ScopedJoinHandle};
use xtask::folder::files;

/// What marks every branch for libFuzzer, on a stable compiler; the same as `cargo fuzz -s none` gives.
const MARKS: &str = "-Cpasses=sancov-module -Cllvm-args=-sanitizer-coverage-level=4 \
    -Cllvm-args=-sanitizer-coverage-inline-8bit-counters -Cllvm-args=-sanitizer-coverage-pc-table \
    -Cllvm-args=-sanitizer-coverage-trace-compares --cfg fuzzing \
    -Cllvm-args=-simplifycfg-branch-fold-threshold=0 \
    -Cllvm-args=-sanitizer-coverage-stack-depth -Cdebug-assertions -Ccodegen-units=1";

/// Seconds for all fuzzers among the checks, side by side.
const SHORT: u32 = 25;
/// Seconds for one input, before it is taken to hang: by the clock on the wall, which goes on while a busy
/// machine does something else. What is only slow fails by the clock of its own thread, long before.
const HANGS: u32 = 300;

/// One of the fuzzers.
struct Fuzzer {
    name: String,
    program: PathBuf,
}

fn folder() -> PathBuf {
    command::root().join("tests/fuzz")
}

fn made(name: &str) -> PathBuf {
    command::target().join("fuzz").join(name)
}

fn empty(folder: &Path) -> Outcome {
    if folder.exists() {
        fs::remove_dir_all(folder)
            .map_err(|why| format!("can't clear {}: {why}", folder.display()))?;
    }
    make(folder)
}

fn make(folder: &Path) -> Outcome {
    fs::create_dir_all(folder).map_err(|why| format!("can't make {}: {why}", folder.display()))
}

/// Builds them all. Each is a file beside the fuzzers' own `Cargo.toml`.
fn built() -> Outcome<Vec<Fuzzer>> {
    tools::cpp()?;
    let manifest = folder().join("Cargo.toml");
    cargo(["fmt", "--check", "--manifest-path"]).arg(&manifest).run()?;
    let said = program("rustc", ["-vV"]).said()?;
    let host = said.lines().find_map(|line| line.strip_prefix("host: "));
    let host = host.ok_or("`rustc -vV` doesn't say for which machine it builds")?;
    let into = made("build");
    // With a target named, what only helps to build isn't marked.
    cargo(["build", "--quiet", "--locked", "--release", "--manifest-path"])
        .arg(&manifest)
        .arg("--target")
        .arg(host)
        .arg("--target-dir")
        .arg(&into)
        .env("RUSTFLAGS", MARKS)
        .env("CARGO_INCREMENTAL", "0")
        .run()?;
    let programs = into.join(host).join("release");
    let names = files(&folder())?
        .into_iter()
        .filter_map(|file| file.strip_suffix(".rs").map(str::to_owned))
        .filter(|name| !name.contains('/'));
    Ok(names.map(|name| Fuzzer { program: programs.join(&name), name }).collect())
}

impl Fuzzer {
    fn kept(&self) -> PathBuf {
        folder().join("kept").join(&self.name)
    }

    /// The fuzzer with what each of its runs is told.
    fn ready(&self) -> Outcome<Run> {
        let failed = made("failed");
        make(&failed)?;
        let mut run = program(&self.program, [])
            .arg(format!("-artifact_prefix={}/{}-", failed.display(), self.name))
            .arg(format!("-timeout={HANGS}"))
            .arg(format!("-report_slow_units={HANGS}"))
            .arg("-print_final_stats=1");
        let words = folder().join(format!("words/{}.dict", self.name));
        if words.is_file() {
            run = run.arg(format!("-dict={}", words.display()));
        }
        Ok(run)
    }

    /// Runs for so many seconds, from what was kept and what `found` holds already. How many inputs were
    /// tried.
    fn run(&self, seconds: u32, found: &Path, word: Option<&str>) -> Outcome<u64> {
        let mut run = self.ready()?.arg(format!("-max_total_time={seconds}"));
        if let Some(word) = word {
            run = run.arg(word);
        }
        let said = run.arg(found).arg(self.kept()).said_aside().map_err(|why| {
            format!("{}: {why}\nthe input is in {}", self.name, made("failed").display())
        })?;
        let tried = figure(&said, "stat::number_of_executed_units:");
        println!("{tried:>9} inputs tried  {} in {seconds} s", self.name);
        let kept = files(&self.kept())?.len();
        // The kept ones come first, however long they take.
        if kept == 0 || tried < kept as u64 {
            return Err(format!(
                "{}: only {tried} of the {kept} kept inputs were tried",
                self.name
            ));
        }
        Ok(tried)
    }
}

/// A figure of the closing lines.
fn figure(said: &str, name: &str) -> u64 {
    let line = said.lines().find_map(|line| line.trim().strip_prefix(name));
    line.and_then(|figure| figure.trim().parse().ok()).unwrap_or(0)
}

/// A short run of each, all at once: alike each time as far as the clock lets it.
pub(crate) fn short() -> Outcome<u32> {
    let fuzzers = built()?;
    let run = |fuzzer: &Fuzzer| {
        let found = made("short").join(&fuzzer.name);
        empty(&found)?;
        fuzzer.run(SHORT, &found, Some("-seed=1"))
    };
    let runs = thread::scope(|scope| {
        let begun = fuzzers.iter().map(|fuzzer| scope.spawn(move || run(fuzzer)));
        let begun: Vec<_> = begun.collect();
        let joined = |run: ScopedJoinHandle<'_, Outcome<u64>>| {
            run.join().unwrap_or_else(|_| Err("a fuzzer's run panicked".to_owned()))
        };
        begun.into_iter().map(joined).collect::<Outcome<Vec<u64>>>()
    })?;
    if runs.is_empty() {
        return Err("there is not one fuzzer in tests/fuzz".to_owned());
    }
    Ok(u32::try_from(runs.len()).unwrap_or(u32::MAX))
}

fn of(name: &str) -> Outcome<Vec<Fuzzer>> {
    let all = built()?;
    let names: Vec<String> = all.iter().map(|fuzzer| fuzzer.name.clone()).collect();
    let chosen: Vec<Fuzzer> =
        all.into_iter().filter(|fuzzer| name == "all" || fuzzer.name == name).collect();
    if chosen.is_empty() {
        return Err(format!("there is no fuzzer {name}: they are {}, or all", names.join(", ")));
    }
    Ok(chosen)
}

/// A long run of one or all; what it finds stays in the target folder, for the next to go on from.
pub(crate) fn long(name: &str, seconds: &str) -> Outcome {
    let seconds: u32 = seconds.parse().map_err(|_| {
        format!("for how many seconds is each to run? {seconds} is no number of them")
    })?;
    for fuzzer in of(name)? {
        let found = made("found").join(&fuzzer.name);
        make(&found)?;
        fuzzer.run(seconds, &found, None)?;
    }
    Ok(())
}

/// Puts into the tree, of what long runs have found, the smallest inputs that go everywhere they went.
pub(crate) fn keep(name: &str) -> Outcome {
    for fuzzer in of(name)? {
        let (found, fewest) = (made("found").join(&fuzzer.name), made("fewest").join(&fuzzer.name));
        make(&found)?;
        empty(&fewest)?;
        // A branch taken once or often is one branch here: the tree holds no more than it needs.
        let run = fuzzer.ready()?.arg("-set_cover_merge=1").arg("-use_counters=0");
        run.arg(&fewest).arg(fuzzer.kept()).arg(&found).said_aside()?;
        let kept = files(&fewest)?;
        if kept.is_empty() {
            return Err(format!("{}: the merge kept nothing", fuzzer.name));
        }
        empty(&fuzzer.kept())?;
        let mut bytes = 0;
        for file in &kept {
            bytes += fs::copy(fewest.join(file), fuzzer.kept().join(file))
                .map_err(|why| format!("can't keep {file}: {why}"))?;
        }
        println!("{}: {} inputs of {bytes} bytes kept", fuzzer.name, kept.len());
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::figure;

    #[test]
    fn the_inputs_tried_are_read_from_the_closing_lines() {
        let said =
            "#8\tINITED\nDone 812 runs in 2 second(s)\nstat::number_of_executed_units: 812\n";
        assert_eq!(figure(said, "stat::number_of_executed_units:"), 812);
        assert_eq!(figure("", "stat::number_of_executed_units:"), 0);
    }
}
