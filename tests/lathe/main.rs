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
mod tally;

use asked::{Asked, asked};
use latheside_core::shop::Shop;
use mutation::{SORTS, Sort, harmless, mutant};
use random::Random;
use runner::{Answered, Carried, Deed, answered, carried, deeds};
use search::{By, Kit};
use serde_json::Value;
use setups::Case;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::{self, Display, Formatter};
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
    judgement::wrong(asked, &run.part, &case.shop, off)
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

/// What became of spoilt procedures.
#[derive(Default)]
struct Spoilt {
    /// Tried, caught and harmless, by sort.
    by: BTreeMap<Sort, [u32; 3]>,
    /// Those that nobody noticed: sort, action, an example's seed.
    survivors: BTreeMap<(Sort, String), (u32, u64)>,
    /// Why others do no harm.
    harmless: BTreeMap<&'static str, u32>,
    /// Which rules found one out, how often.
    fired: BTreeMap<&'static str, u32>,
    /// Found out by the part alone.
    by_part: u32,
}

impl Spoilt {
    /// Spoils a run that passed, once by every sort that it has something for.
    fn take(&mut self, passed: &Passed, shop: &Shop, seed: u64, sorts: &[Sort]) {
        let random = &mut Random::new(seed ^ 0x5eed);
        for sort in sorts {
            let Some(mutant) = mutant(&passed.deeds, *sort, random) else { continue };
            let run = carried(&mutant.deeds, shop);
            let count = self.by.entry(*sort).or_default();
            let rules: BTreeSet<&str> = run.faults.iter().map(|fault| fault.rule.id()).collect();
            for id in rules {
                *self.fired.entry(id).or_default() += 1;
            }
            if fault(&passed.case, &passed.asked, passed.off, &run).is_some() {
                count[0] += 1;
                count[1] += 1;
                self.by_part += u32::from(run.faults.is_empty());
            } else if let Some(why) = harmless(&passed.deeds, &mutant, shop) {
                count[2] += 1;
                *self.harmless.entry(why).or_default() += 1;
            } else {
                count[0] += 1;
                let one = self.survivors.entry((*sort, mutant.what)).or_insert((0, seed));
                one.0 += 1;
            }
        }
    }

    fn tried(&self) -> u32 {
        self.by.values().map(|count| count[0]).sum()
    }

    fn caught(&self) -> u32 {
        self.by.values().map(|count| count[1]).sum()
    }
}

impl Display for Spoilt {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        let (tried, caught) = (self.tried(), self.caught());
        let share = f64::from(caught) * 100.0 / f64::from(tried.max(1));
        writeln!(
            f,
            "spoilt: {caught} of {tried} found out ({share:.2} %), {} by the part alone",
            self.by_part
        )?;
        for (sort, [tried, caught, harmless]) in &self.by {
            let name = format!("{sort:?}");
            writeln!(f, "  {name:14}{caught:7} of {tried:7}, {harmless} more do no harm")?;
        }
        writeln!(f, "that do no harm: {:?}", self.harmless)?;
        writeln!(f, "survivors, with an example's seed:")?;
        let mut survivors: Vec<_> = self.survivors.iter().collect();
        survivors.sort_by_key(|(_, (count, _))| std::cmp::Reverse(*count));
        for ((sort, what), (count, seed)) in survivors {
            writeln!(f, "  {count:5} {sort:?}: {what} ({seed})")?;
        }
        Ok(())
    }
}

fn runs() -> u64 {
    std::env::var("LATHESIDE_RUNS").ok().and_then(|runs| runs.parse().ok()).unwrap_or(RUNS)
}

#[test]
fn random_work_on_random_machines_comes_out_as_asked() {
    let mut tally = Tally::default();
    let mut spoilt = Spoilt::default();
    let mut wrong: Vec<(u64, Case, String)> = Vec::new();
    let only = std::env::var("LATHESIDE_SEED").ok().and_then(|seed| seed.parse::<u64>().ok());
    let seconds = std::env::var("LATHESIDE_SECONDS").ok().and_then(|time| time.parse::<u64>().ok());
    let began = std::time::Instant::now();
    let all = if seconds.is_some() { u64::MAX } else { runs() };
    for seed in only.map_or(0..all, |seed| seed..seed + 1) {
        if seconds.is_some_and(|seconds| began.elapsed().as_secs() >= seconds) {
            break;
        }
        let case = setups::case(seed);
        let here = std::panic::AssertUnwindSafe(|| made(case.clone(), &mut tally));
        let came = std::panic::catch_unwind(here).unwrap_or_else(|_| Err("panics".to_owned()));
        if let Ok(Some((passed, shop))) = &came {
            spoilt.take(passed, shop, seed, SORTS);
        }
        if only.is_some() {
            println!("{}", case.setup());
        }
        if let Err(why) = came {
            wrong.push((seed, case, why));
        }
    }
    println!("{tally}");
    println!("{spoilt}");
    let mut short: std::collections::BTreeMap<String, u32> = std::collections::BTreeMap::new();
    for (_, case, why) in &wrong {
        let why: String =
            why.chars().filter(|c| !c.is_ascii_digit() && *c != '.').take(90).collect();
        *short.entry(format!("{} {why}", case.kind)).or_default() += 1;
    }
    println!("{short:#?}");
    let mut told = std::collections::BTreeMap::new();
    for (seed, case, why) in wrong
        .iter()
        .filter(|(_, case, why)| {
            let why: String = why.chars().filter(|c| !c.is_ascii_digit()).take(30).collect();
            let told: &mut u32 = told.entry(format!("{} {why}", case.kind)).or_default();
            *told += 1;
            *told <= 3
        })
        .take(if short.len() > 40 { 0 } else { 400 })
    {
        println!(
            "{seed} {} ({}; {}): {why}\n    {}",
            case.kind, case.arrangement, case.lack, case.entries
        );
    }
    if only.is_none() {
        let share = f64::from(spoilt.caught()) / f64::from(spoilt.tried().max(1));
        assert!(share >= CAUGHT, "only {share} of what was spoilt is found out");
        println!("{}", rules::judged(&tally.met, &spoilt.fired));
    }
    assert!(wrong.is_empty(), "{} of {} runs go wrong", wrong.len(), tally.runs);
}
