//! Journeys through the built page, in a phone's browser.
//!
//! `cargo xtask test` makes them all. One by one, once the page is built:
//! `LATHESIDE_DIST=dist cargo test -p latheside-tests --features browser --test browser -- NAME`.
#![allow(clippy::print_stdout)] // printing is what a list of journeys does

mod altered;
mod axe;
mod driver;
mod keeping;
mod phone;
mod start;

use driver::Driver;
use phone::{Phone, Settings};
use std::future::Future;
use std::pin::Pin;
use std::process::ExitCode;
use std::time::{Duration, Instant};

/// What a journey comes to: nothing, or what was wrong.
type Outcome<T = ()> = Result<T, Box<dyn std::error::Error>>;

type Journey = for<'a> fn(&'a mut Phone) -> Pin<Box<dyn Future<Output = Outcome> + 'a>>;

/// The journeys' names and themselves.
macro_rules! journeys {
    ($($room:ident :: $name:ident),* $(,)?) => {
        &[$((concat!(stringify!($room), "::", stringify!($name)), |phone| Box::pin($room::$name(phone)))),*]
    };
}

const JOURNEYS: &[(&str, Journey)] = journeys![
    start::the_shell_is_read_before_the_works_arrive,
    start::a_first_visit_fetches_each_file_once,
    start::works_that_do_not_arrive_are_owned_up_to,
    start::a_death_in_the_works_offers_what_was_saved,
    keeping::the_page_opens_with_its_server_gone,
    keeping::a_set_with_a_fault_is_not_kept,
    keeping::a_newer_page_waits_for_a_tap,
];

/// No journey is this long: whatever it waits for will not come.
const LONGEST: Duration = Duration::from_secs(120);

fn main() -> ExitCode {
    let Some(settings) = Settings::from_environment() else {
        println!("skipped: the journeys need LATHESIDE_DIST, the folder of the built page");
        println!("\ntest result: ok. 0 passed; 0 failed; {} ignored", JOURNEYS.len());
        return ExitCode::SUCCESS;
    };
    match make(&settings) {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::FAILURE,
        Err(why) => {
            eprintln!("the journeys could not begin: {why}");
            ExitCode::FAILURE
        }
    }
}

/// Makes every journey that is asked for, each with a browser of its own; whether all went well.
fn make(settings: &Settings) -> Outcome<bool> {
    let start = Instant::now();
    let asked: Vec<String> =
        std::env::args().skip(1).filter(|word| !word.starts_with('-')).collect();
    let chosen = |name: &str| asked.is_empty() || asked.iter().any(|word| name.contains(word));
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build()?;
    let driver = Driver::start(&settings.driver)?;
    let (mut passed, mut failures) = (0, Vec::new());
    for (name, journey) in JOURNEYS.iter().filter(|(name, _)| chosen(name)) {
        let from = Instant::now();
        let outcome = runtime.block_on(made(name, *journey, settings, &driver));
        let took = from.elapsed().as_secs_f64();
        match outcome {
            Ok(()) => {
                passed += 1;
                println!("test {name} ... ok ({took:.1} s)");
            }
            Err(why) => {
                println!("test {name} ... FAILED ({took:.1} s)");
                failures.push((name, why));
            }
        }
    }
    for (name, why) in &failures {
        println!("\n---- {name} ----\n{why}");
    }
    let word = if failures.is_empty() { "ok" } else { "FAILED" };
    println!(
        "\ntest result: {word}. {passed} passed; {} failed; 0 ignored; 0 measured; {} filtered \
         out; finished in {:.2}s",
        failures.len(),
        JOURNEYS.len() - passed - failures.len(),
        start.elapsed().as_secs_f64(),
    );
    Ok(failures.is_empty())
}

async fn made(name: &str, journey: Journey, settings: &Settings, driver: &Driver) -> Outcome {
    let mut phone = Phone::new(settings, driver).await?;
    let mut outcome = match tokio::time::timeout(LONGEST, journey(&mut phone)).await {
        Ok(outcome) => outcome,
        Err(_) => Err(format!("not over after {} s", LONGEST.as_secs()).into()),
    };
    if outcome.is_ok() {
        outcome = phone.is_quiet().await;
    } else {
        let picture = format!("failed-{}", name.replace("::", "-"));
        phone.shot(&picture).await.ok();
        // What the page said may tell more than what the journey saw.
        if let (Err(why), Err(said)) = (&outcome, phone.is_quiet().await) {
            outcome = Err(format!("{why}\n{said}").into());
        }
    }
    phone.close().await?;
    outcome
}
