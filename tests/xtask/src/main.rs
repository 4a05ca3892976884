//! The project's own commands: each sets itself up on a fresh machine.
#![allow(clippy::print_stdout)] // printing is what a command does

mod bindings;
mod browsers;
mod checks;
mod command;
mod crates;
mod dev;
mod fuzz;
mod index;
mod lighthouse;
mod notices;
mod page;
mod serve;
mod shots;
mod tools;
mod weigh;

use command::Outcome;
use std::process::ExitCode;

const HELP: &str = "\
cargo xtask build                       the page, as a folder of files, in dist
cargo xtask serve [--lan] [--port N]    build it and serve it, on this machine or to a phone too
cargo xtask serve --dev                 the same while it is worked on: what is saved is built and shown
cargo xtask test [--quick]              every check; quick leaves out whatever needs a browser
cargo xtask bench                       the benchmarks and what the page weighs
cargo xtask lathe SECONDS               random work on the modelled lathe for so long, with its tables
cargo xtask lighthouse                  what Lighthouse says of three rooms on a slow phone
cargo xtask fuzz NAME SECONDS           a long run of a fuzzer, or of all
cargo xtask fuzz NAME keep              what it found that goes further, into tests/fuzz/kept
cargo xtask shots [NAME]                every screen's pictures, in target/shots/index.html; the README's too";

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    match run(&words) {
        Ok(()) => ExitCode::SUCCESS,
        Err(sentence) => {
            if !sentence.is_empty() {
                eprintln!("{sentence}");
            }
            ExitCode::FAILURE
        }
    }
}

fn run(words: &[&str]) -> Outcome {
    match words {
        ["build"] => {
            let dist = page::build()?;
            weigh::table(&dist)?;
            println!("the page is in {}", dist.display());
            Ok(())
        }
        // Trunk calls it: see Trunk.toml.
        ["works"] => dev::beside_trunks(),
        ["serve", options @ ..] => serve::serve(options),
        ["test"] => checks::all(false),
        ["test", "--quick"] => checks::all(true),
        ["bench"] => {
            command::cargo(["bench", "--locked", "-p", "latheside-tests"]).run()?;
            weigh::table(&page::build()?)
        }
        ["fuzz", name, "keep"] => fuzz::keep(name),
        ["fuzz", name, seconds] => fuzz::long(name, seconds),
        ["lathe", seconds] => command::cargo([
            "test",
            "--release",
            "--locked",
            "-p",
            "latheside-tests",
            "--test",
            "lathe",
            "--",
            "--nocapture",
        ])
        .env("LATHESIDE_SECONDS", seconds)
        .run(),
        ["lighthouse"] => lighthouse::table(&page::build()?),
        ["shots"] => shots::all(),
        ["shots", name] => shots::some(name),
        ["help" | "--help" | "-h"] => {
            println!("{HELP}");
            Ok(())
        }
        [] => Err(HELP.to_owned()),
        _ => Err(format!("`{}` isn't one of the commands:\n{HELP}", words.join(" "))),
    }
}
