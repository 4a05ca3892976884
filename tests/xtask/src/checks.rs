//! Every check, in the order in which a fault is cheapest to find.

use crate::command::{self, Outcome, Run, cargo, program};
use crate::tools::WASM;
use crate::{browsers, fuzz, lighthouse, page, tools, weigh};
use std::thread::{self, JoinHandle};
use std::time::Instant;

/// A check: its name, whether it is among the quick ones, and what it does.
struct Check {
    name: &'static str,
    quick: bool,
    run: fn() -> Outcome<u32>,
}

const CHECKS: [Check; 13] = [
    Check { name: "format", quick: true, run: format },
    Check { name: "clippy", quick: true, run: clippy },
    Check { name: "clippy, in the browser's build", quick: true, run: clippy_wasm },
    Check { name: "licences", quick: false, run: licences },
    Check { name: "tests on this machine", quick: true, run: host },
    Check { name: "core without an operating system", quick: true, run: bare },
    Check { name: "fuzzers, a short run of each", quick: false, run: fuzz::short },
    Check { name: "tools and browsers, where still to come", quick: false, run: at_hand },
    Check { name: "the app's own tests in a browser", quick: false, run: in_browser },
    Check { name: "the page", quick: false, run: built },
    Check { name: "journeys through the page", quick: false, run: journeys },
    Check { name: "the page's weight", quick: false, run: weighed },
    Check { name: "the page's first load on a slow phone", quick: false, run: first_load },
];

/// Runs the checks, stops at the first that fails, and closes as `cargo test` does.
pub(crate) fn all(quick: bool) -> Outcome {
    let start = Instant::now();
    let ahead = if quick { Vec::new() } else { ahead() };
    let mut took = Vec::new();
    let mut passed = 0;
    let mut failure = None;
    for check in CHECKS.iter().filter(|check| check.quick || !quick) {
        println!("\n== {}", check.name);
        let from = Instant::now();
        let outcome = (check.run)();
        took.push((check.name, from.elapsed()));
        match outcome {
            Ok(tests) => passed += tests,
            Err(why) => {
                failure = Some(format!("stopped at \"{}\": {why}", check.name));
                break;
            }
        }
    }
    tools::stop();
    ahead.into_iter().for_each(|thread| _ = thread.join());
    println!();
    for (name, took) in took {
        println!("{:>7.1} s  {name}", took.as_secs_f64());
    }
    if quick {
        println!("left out, for they need a browser or the page, or take long to build:");
        CHECKS
            .iter()
            .filter(|check| !check.quick)
            .for_each(|check| println!("           {}", check.name));
    }
    let (word, failed) = if failure.is_none() { ("ok", 0) } else { ("FAILED", 1) };
    let seconds = start.elapsed().as_secs_f64();
    if let Some(sentence) = &failure {
        println!("\n{sentence}");
    }
    println!(
        "\ntest result: {word}. {passed} passed; {failed} failed; 0 ignored; 0 measured; \
         0 filtered out; finished in {seconds:.2}s"
    );
    // The closing line is the last one: what failed has been said.
    failure.map_or(Ok(()), |_| Err(String::new()))
}

/// Begins to fetch and build what later checks need while the earlier ones are made: neither keeps
/// two processors busy by itself. Whichever check needs it waits for it, and says why it can't be had.
fn ahead() -> Vec<JoinHandle<()>> {
    let tools = thread::spawn(|| _ = tools::for_the_checks());
    let browsers = thread::spawn(|| _ = browsers::all());
    Vec::from([tools, browsers])
}

/// Nothing is built any more while a browser is timed.
fn at_hand() -> Outcome<u32> {
    tools::for_the_checks()?;
    browsers::all().map(|_| 0)
}

fn format() -> Outcome<u32> {
    cargo(["fmt", "--all", "--check"]).run().map(|()| 1)
}

fn clippy() -> Outcome<u32> {
    cargo(["clippy", "--locked", "--workspace", EXCEPT, "--all-targets"])
        .arg("--features=latheside-tests/browser")
        .arg("--")
        .arg("-D")
        .arg("warnings")
        .run()
        .map(|()| 1)
}

fn clippy_wasm() -> Outcome<u32> {
    tools::target(WASM)?;
    cargo(["clippy", "--locked", "-p", "latheside-app", "-p", "latheside-works"])
        .arg("--target")
        .arg(WASM)
        .arg("--all-targets")
        .arg("--")
        .arg("-D")
        .arg("warnings")
        .run()
        .map(|()| 1)
}

/// Of the crates that all this is built from, and of those that the fuzzers add.
fn licences() -> Outcome<u32> {
    tools::deny()?;
    for (manifest, stale) in [("Cargo.toml", "--deny"), ("tests/fuzz/Cargo.toml", "--allow")] {
        program(
            "cargo-deny",
            ["deny", "--locked", "--config", ".cargo/deny.toml", "--manifest-path"],
        )
        .env("PATH", tools::path())
        .arg(manifest)
        .arg("check")
        .arg("--hide-inclusion-graph")
        // A second version that is gone is to go from the list as well.
        .arg(stale)
        .arg("unmatched-skip")
        .arg("licenses")
        .arg("bans")
        .arg("sources")
        .run()?;
    }
    Ok(1)
}

fn host() -> Outcome<u32> {
    tests().tests()
}

/// The tests, all built alike: the journeys among them are left out where no page is named.
fn tests() -> Run {
    cargo(["test", "--locked", "--workspace", EXCEPT, "--features=latheside-tests/browser"])
}

fn bare() -> Outcome<u32> {
    tools::target(BARE)?;
    cargo(["check", "--locked", "-p", "latheside-core", "--target", BARE]).run().map(|()| 1)
}

fn in_browser() -> Outcome<u32> {
    tools::target(WASM)?;
    tools::wasm_bindgen()?;
    let passed = cargo(["test", "--locked", "-p", "latheside-app", "--target", WASM])
        // Nothing is searched for in these: core is built sooner without.
        .arg("--config=profile.dev.package.latheside-core.opt-level=0")
        .env("PATH", tools::path())
        .env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUNNER", "wasm-bindgen-test-runner")
        .envs(browsers::chromium()?)
        .tests()?;
    if passed == 0 {
        return Err("not one test ran: the app's are marked #[wasm_bindgen_test]".to_owned());
    }
    Ok(passed)
}

fn built() -> Outcome<u32> {
    page::build().map(|_| 1)
}

fn weighed() -> Outcome<u32> {
    weigh::table(&command::root().join("dist")).map(|()| 1)
}

fn first_load() -> Outcome<u32> {
    lighthouse::table(&command::root().join("dist")).map(|()| 1)
}

fn journeys() -> Outcome<u32> {
    let passed = in_the_page(browsers::all()?)?.tests()?;
    if passed == 0 {
        return Err("not one journey was made".to_owned());
    }
    Ok(passed)
}

/// What goes through the built page in these browsers: its journeys, or whatever its words ask for.
pub(crate) fn in_the_page(browsers: browsers::Variables) -> Outcome<Run> {
    Ok(tests()
        .arg("--test=browser")
        .env("LATHESIDE_DIST", command::root().join("dist"))
        .env("LATHESIDE_SHOTS", command::target().join("shots"))
        .env("LATHESIDE_AXE", tools::axe()?)
        .envs(browsers))
}

/// The app runs in a browser alone: it is looked over and tried as the browser's build of it is.
const EXCEPT: &str = "--exclude=latheside-app";
/// A target with no system under it: whatever needs one fails to build.
const BARE: &str = "wasm32v1-none";
