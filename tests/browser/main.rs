//! Journeys through the built page, in the browsers of phones and tablets.
//!
//! `cargo xtask test` makes them all. One by one, once the page is built:
//! `LATHESIDE_DIST=dist cargo test -p latheside-tests --features browser --test browser -- NAME`.
#![allow(clippy::print_stdout)] // printing is what a list of journeys does

mod altered;
mod axe;
mod beat;
mod bench;
mod budget;
mod chart;
mod download;
mod driver;
mod engine;
mod first;
mod journeys;
mod keeping;
mod keyboard;
mod look;
mod opened;
mod paper;
mod pdf;
mod phone;
mod quiet;
mod setup;
mod sharing;
mod sheet;
mod shop;
mod start;
mod strip;
mod survive;
mod trees;

use engine::{Engine, Programs};
use journeys::{ALONE, CHROMIUM, EVERYWHERE, Journey, WHOLE};
use opened::Shelf;
use phone::{Phone, Settings};
use std::process::ExitCode;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, PoisonError, RwLock};
use std::time::{Duration, Instant};

/// What a journey comes to: nothing, or what was wrong.
type Outcome<T = ()> = Result<T, Box<dyn std::error::Error>>;

/// A condition of a journey, and what was wrong where it doesn't hold.
fn ensure(holds: bool, otherwise: impl Into<String>) -> Outcome {
    if holds { Ok(()) } else { Err(otherwise.into().into()) }
}

/// No journey is this long: whatever it waits for will not come.
const LONGEST: Duration = Duration::from_secs(300);

fn main() -> ExitCode {
    let Some(settings) = Settings::from_environment() else {
        println!("skipped: the journeys need LATHESIDE_DIST, the folder of the built page");
        let ignored = EVERYWHERE.len() + CHROMIUM.len() + ALONE.len();
        println!("\ntest result: ok. 0 passed; 0 failed; {ignored} ignored");
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

/// A journey, and the browser that it is made in.
struct Made {
    name: String,
    journey: Journey,
    programs: Programs,
    /// Nothing else is made meanwhile.
    by_itself: bool,
}

/// Every journey in every browser that is at hand; or the contact sheet's pictures, where those are
/// asked for.
fn all() -> Vec<Made> {
    let pictures = std::env::args().any(|word| word == sheet::ASKED);
    let engines = [Engine::Chromium, Engine::Firefox, Engine::WebKit];
    let mut all = Vec::new();
    for programs in engines.into_iter().filter_map(Engine::programs) {
        let here: Vec<_> = match programs.engine {
            Engine::Chromium if pictures => sheet::CHAPTERS.iter().collect(),
            Engine::Chromium => EVERYWHERE.iter().chain(CHROMIUM).chain(ALONE).collect(),
            Engine::Firefox | Engine::WebKit if pictures => Vec::new(),
            Engine::Firefox | Engine::WebKit => EVERYWHERE.iter().collect(),
        };
        let among = |list: &[(&str, Journey)], name| list.iter().any(|(other, _)| *other == name);
        all.extend(here.into_iter().map(|(name, journey)| Made {
            name: format!("{}::{name}", programs.engine.name()),
            journey: *journey,
            programs: if among(WHOLE, *name) { programs.whole() } else { programs.clone() },
            by_itself: among(ALONE, *name),
        }));
    }
    all.sort_by_key(|made| made.by_itself);
    all
}

/// Makes every journey that is asked for, each on a phone that knows nothing yet, some at once; whether
/// all went well.
fn make(settings: &Settings) -> Outcome<bool> {
    let start = Instant::now();
    let asked: Vec<String> =
        std::env::args().skip(1).filter(|word| !word.starts_with('-')).collect();
    let chosen = |name: &str| asked.is_empty() || asked.iter().any(|word| name.contains(word));
    let all = all();
    let journeys: Vec<&Made> = all.iter().filter(|made| chosen(&made.name)).collect();
    let next = AtomicUsize::new(0);
    let failures = Mutex::new(Vec::new());
    let turn = RwLock::new(());
    // One more than there are processors: a journey waits for its browser half of the time.
    let hands = std::thread::available_parallelism().map_or(1, usize::from).saturating_add(1);
    let hands = hands.min(journeys.len());
    let begin = |_| tokio::runtime::Builder::new_current_thread().enable_all().build();
    let runtimes: Vec<_> = (0..hands).map(begin).collect::<Result<_, _>>()?;
    std::thread::scope(|scope| {
        for runtime in &runtimes {
            scope.spawn(|| {
                let shelf = Shelf::default();
                while let Some(made) = journeys.get(next.fetch_add(1, Ordering::SeqCst)) {
                    let _beside = (!made.by_itself).then(|| turn.read());
                    let _alone = made.by_itself.then(|| turn.write());
                    let from = Instant::now();
                    let name = &made.name;
                    let mut outcome = runtime.block_on(made.made(settings, &shelf));
                    // A browser that ended by itself leaves no word on the page: the journey is made
                    // once more, and said to have been.
                    if let Err(Failure { why, ended: true }) = &outcome {
                        println!("---- {name}, made once more, for its browser ended: {why}");
                        outcome = runtime.block_on(made.made(settings, &shelf));
                    }
                    let word = if outcome.is_ok() { "ok" } else { "FAILED" };
                    println!("test {name} ... {word} ({:.1} s)", from.elapsed().as_secs_f64());
                    if let Err(Failure { why, .. }) = outcome {
                        println!("---- {name}: {why}");
                        failures.lock().unwrap_or_else(PoisonError::into_inner).push(name);
                    }
                }
                runtime.block_on(shelf.clear()).ok();
            });
        }
    });
    let failures = failures.into_inner().unwrap_or_else(PoisonError::into_inner);
    if !failures.is_empty() {
        println!("\nfailed, for the reasons given above:");
        failures.iter().for_each(|name| println!("  {name}"));
    }
    let word = if failures.is_empty() { "ok" } else { "FAILED" };
    println!(
        "\ntest result: {word}. {} passed; {} failed; 0 ignored; 0 measured; {} filtered out; \
         finished in {:.2}s",
        journeys.len() - failures.len(),
        failures.len(),
        all.len() - journeys.len(),
        start.elapsed().as_secs_f64(),
    );
    Ok(failures.is_empty())
}

/// What WebKit says where its WebAssembly reaches what nothing leads to. Its version 2.50.6 was seen
/// to do so behind a loop that has no way out, and to end by itself about as seldom: a fault of the
/// page's own comes again, and in the other engines too.
const LOST: &str = "Unreachable code should not be executed";

/// Why a journey failed, and whether its browser had ended by then.
struct Failure {
    why: String,
    ended: bool,
}

impl Made {
    async fn made(&self, settings: &Settings, shelf: &Shelf) -> Result<(), Failure> {
        let mut phone = match Phone::new(settings, &self.programs, shelf).await {
            Ok(phone) => phone,
            Err(why) => return Err(Failure { why: why.to_string(), ended: true }),
        };
        let mut outcome = match tokio::time::timeout(LONGEST, (self.journey)(&mut phone)).await {
            Ok(outcome) => outcome,
            Err(_) => Err(format!("not over after {} s", LONGEST.as_secs()).into()),
        };
        if outcome.is_ok() {
            outcome = phone.is_quiet().await;
        } else {
            let picture = format!("failed-{}", self.name.replace("::", "-"));
            phone.shot(&picture).await.ok();
            // What the page said may tell more than what the journey saw.
            if let (Err(why), Err(said)) = (&outcome, phone.is_quiet().await) {
                outcome = Err(format!("{why}\n{said}").into());
            }
        }
        let lost = outcome.as_ref().is_err_and(|why| why.to_string().contains(LOST));
        let lost = lost && self.programs.engine == Engine::WebKit;
        let ended = outcome.is_ok() || lost || phone.have_ended().await;
        let closed = phone.close(outcome.is_ok()).await;
        outcome.and(closed).map_err(|why| Failure { why: why.to_string(), ended })
    }
}
