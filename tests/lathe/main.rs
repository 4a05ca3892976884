//! Procedures carried out on the modelled lathe: the part comes out as asked, nothing forbidden happens, and
//! a procedure that was spoilt is found out.
#![allow(clippy::print_stdout)] // the tables are what a long run is for

mod asked;
mod faults;
mod judgement;
mod mutation;
mod random;
mod rules;
mod runner;
mod search;
mod setups;
mod spoilt;
mod tally;

use asked::{Asked, asked};
use latheside_core::shop::Shop;
use runner::{Answered, Carried, Deed, answered, carried, deeds};
use search::{By, Kit};
use serde_json::Value;
use setups::Case;
use spoilt::Spoilt;
use std::collections::BTreeMap;
use tally::Tally;

/// The runs of the ordinary test.
const RUNS: u64 = 2_400;

/// The share of spoilt procedures that must be found out.
const CAUGHT: f64 = 0.95;

/// The error that an answer states of the way that it carries out, in turns; nought where it is exact.
fn stated(answer: &Value) -> f64 {
    let ways = answer.get("ways").and_then(Value::as_array);
    let number = answer.get("way").and_then(Value::as_u64).unwrap_or(1);
    let way = ways.and_then(|ways| ways.get(usize::try_from(number).unwrap() - 1));
    way.and_then(|way| way["worst_error_arcsec"].as_f64()).unwrap_or(0.0) / 1_296_000.0
}

/// What is wrong with a case's run; none where all is well.
fn fault(case: &Case, asked: &Asked, off: f64, run: &Carried) -> Option<String> {
    if let Some(fault) = run.faults.first() {
        let id = fault.rule.id();
        return Some(format!("{id} {}[{}] {}", fault.step, fault.action, fault.detail));
    }
    judgement::wrong(asked, run, &case.shop, off)
}

/// What is wrong with a case's stated error, held against the whole search.
fn misstated(case: &Case, asked: &Asked, answer: &Value) -> Option<String> {
    let Asked::Marks(marks) = asked else { return None };
    let off = stated(answer);
    let kit = Kit::of(&case.shop);
    let (direct, head) = kit.owns();
    let error = |head| kit.least_error(&marks.places, marks.even, By { direct, head });
    let mut least = error(head);
    // A worm turns its head's own spindle: in the lathe's, what is on the spindle itself divides, and
    // where only a worm is exact nothing else is given as if it were.
    if least > 0.0 && in_the_spindle(&case.entries) {
        least = error(false);
    }
    (off > least * 1.000_001 + 1e-12)
        .then(|| format!("an error of {off} turns is stated, {least} is to be had"))
}

/// Whether the entries put the work in the lathe spindle.
fn in_the_spindle(entries: &Value) -> bool {
    let said = |key: &str| entries.get(key).and_then(Value::as_str);
    match (said("work_in"), said("cutter_in")) {
        (Some(work), _) => work == "lathe-spindle",
        (None, Some(cutter)) => cutter != "lathe-spindle",
        (None, None) => false,
    }
}

/// A run that passed: what can be spoilt.
struct Passed {
    case: Case,
    asked: Asked,
    off: f64,
    deeds: Vec<Deed>,
}

/// Makes a case; what is wrong with it, and what passed.
fn made(case: Case, tally: &mut Tally) -> Result<Option<(Passed, Shop)>, String> {
    let (answers, shop) = answered(&case.setup());
    match &answers[0] {
        Answered::Refused(_) => {
            tally.add(case.kind, &case.arrangement, case.lack, 2);
            Ok(None)
        }
        Answered::Prose(why) => Err(format!("steps aren't actions: {why}")),
        Answered::Unmade(why, _) if why.contains("modelled lathe") => Err(why.clone()),
        Answered::Unmade(_, needs) => {
            tally.add(case.kind, &case.arrangement, case.lack, 1);
            tally.unmade(case.kind, needs);
            Ok(None)
        }
        Answered::Made(steps, answer) => {
            tally.add(case.kind, &case.arrangement, case.lack, 0);
            let asked = asked(&case.entries, &case.shop);
            let deeds = deeds(steps);
            let run = carried(&deeds, &shop);
            let off = stated(answer);
            if let Some(why) = fault(&case, &asked, off, &run) {
                return Err(why);
            }
            if let Some(why) = misstated(&case, &asked, answer) {
                return Err(why);
            }
            for (rule, _) in &run.met {
                tally.met(rule.id());
            }
            Ok(Some((Passed { case, asked, off, deeds }, shop)))
        }
    }
}

/// A number from the environment.
fn given(name: &str) -> Option<u64> {
    std::env::var(name).ok().and_then(|number| number.parse().ok())
}

/// In a long run only one in so many that passed is spoilt: that takes longest.
const SPOILT_OF_LONG: u64 = 10;

/// Runs from a seed on, as many as wanted or as long as wanted.
struct Runs {
    tally: Tally,
    spoilt: Spoilt,
    wrong: Vec<(u64, Case, String)>,
}

impl Runs {
    fn of(seeds: impl Iterator<Item = u64>, spoils: impl Fn(u64) -> bool) -> Runs {
        let mut runs =
            Runs { tally: Tally::default(), spoilt: Spoilt::default(), wrong: Vec::new() };
        for seed in seeds {
            let case = setups::case(seed);
            let here = std::panic::AssertUnwindSafe(|| made(case.clone(), &mut runs.tally));
            let came = std::panic::catch_unwind(here).unwrap_or_else(|_| Err("panics".to_owned()));
            match came {
                Ok(Some((passed, shop))) if spoils(seed) => runs.spoilt.take(&passed, &shop, seed),
                Ok(_) => {}
                Err(why) => runs.wrong.push((seed, case, why)),
            }
        }
        runs
    }
}

/// What goes wrong, alike ones together, three of each in full.
fn listed(wrong: &[(u64, Case, String)]) -> String {
    let mut alike: BTreeMap<String, Vec<&(u64, Case, String)>> = BTreeMap::new();
    for one in wrong {
        let (_, case, why) = one;
        let short: String = why.chars().filter(|c| !c.is_ascii_digit() && *c != '.').collect();
        let short: String = short.chars().take(60).collect();
        alike.entry(format!("{} {short}", case.kind)).or_default().push(one);
    }
    let mut text = String::new();
    for (short, all) in alike {
        text += &format!("{} of {short}\n", all.len());
        for (seed, case, why) in all.into_iter().take(3) {
            let Case { arrangement, lack, entries, .. } = case;
            text += &format!("  {seed} ({arrangement}; {lack}): {why}\n    {entries}\n");
        }
    }
    text
}

#[test]
fn random_work_on_random_machines_comes_out_as_asked() {
    if let Some(seed) = given("LATHESIDE_SEED") {
        println!("{}", setups::case(seed).setup());
        let runs = Runs::of(seed..seed + 1, |_| true);
        println!("{}", runs.spoilt);
        assert!(runs.wrong.is_empty(), "{}", listed(&runs.wrong));
        return;
    }
    let began = std::time::Instant::now();
    let from = given("LATHESIDE_FROM").unwrap_or(0);
    let runs = match given("LATHESIDE_SECONDS") {
        Some(seconds) => {
            let in_time = |_: &u64| began.elapsed().as_secs() < seconds;
            Runs::of((from..).take_while(in_time), |seed| seed % SPOILT_OF_LONG == 0)
        }
        None => Runs::of(from..from + given("LATHESIDE_RUNS").unwrap_or(RUNS), |_| true),
    };
    let Runs { tally, spoilt, wrong } = runs;
    let seconds = began.elapsed().as_secs_f64();
    println!("{tally}\n{:.0} runs a second, {:.0} s", f64::from(tally.runs) / seconds, seconds);
    println!("{spoilt}");
    assert!(wrong.is_empty(), "{} of {} go wrong:\n{}", wrong.len(), tally.runs, listed(&wrong));
    assert!(spoilt.share() >= CAUGHT, "only {} of what was spoilt is found out", spoilt.share());
    println!("{}", rules::judged(&tally.met, &spoilt.fired));
}
