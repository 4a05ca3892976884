//! The rules of `rules.csv`, and which of them count as judged.
//!
//! A row's last field says what makes its rule fire: `random`, a procedure spoilt at random; `one change`, a
//! change of the model's own tests; `drop`, `after` or `end`, an action of an accepted run left out, put in after,
//! or put at the end; or `no` with why it isn't judged. What is judged comes up in twenty accepted runs.

use super::runner::{Deed, carried};
use latheside_core::lathe::Rule;
use latheside_core::procedure::Action;
use latheside_core::shop::Shop;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::sync::LazyLock;

/// In so many accepted runs a rule must come up.
const COMES_UP: u32 = 20;

/// Rules of operations that aren't tried here: their rows come with their kinds.
const ELSEWHERE: &[&str] = &[
    "THR-",
    "DRI-",
    "REA-",
    "TPH-",
    "DIE-",
    "PAR-",
    "KNU-",
    "TAP-",
    "CHG-003",
    "CHG-007",
    "CHG-012",
    "CHG-013",
    "PART-LEAD",
    "PART-FLANK",
    "PART-INTO-SHOULDER",
    "UNKNOWN-TRAIN",
    "GEN-040",
];

/// The model's own tests: each change there breaks one rule first.
const ONE_CHANGE: &str = include_str!("../../core/src/lathe/tests.rs");

/// A row of the table.
struct Row {
    id: &'static str,
    rule: &'static str,
    judged: Judged,
}

/// What makes a rule fire.
enum Judged {
    Random,
    OneChange,
    /// Without the first action that has this in it.
    Drop(&'static str),
    /// With another after the first action that has this in it.
    After(&'static str, &'static str),
    /// With another at the end.
    End(&'static str),
    No(&'static str),
}

static ROWS: LazyLock<Vec<Row>> =
    LazyLock::new(|| include_str!("rules.csv").lines().skip(1).map(row).collect());

fn row(line: &'static str) -> Row {
    let fields: Vec<&str> = line.splitn(5, '|').collect();
    let [id, rule, _, source, judged] = fields[..] else { panic!("{line}") };
    assert!(!rule.is_empty() && !source.is_empty(), "{line}");
    let judged = match judged.split_once(' ').unwrap_or((judged, "")) {
        ("random", "") => Judged::Random,
        ("one", "change") => Judged::OneChange,
        ("drop", find) => Judged::Drop(find),
        ("after", both) => {
            let (find, action) = both.split_once(" => ").unwrap();
            Judged::After(find, action)
        }
        ("end", action) => Judged::End(action.trim_start_matches("=> ")),
        ("no:", why) => Judged::No(why),
        _ => panic!("{line}"),
    };
    Row { id, rule, judged }
}

/// The rules that an action of an accepted run, left out or put in, made fire.
#[derive(Default)]
pub(crate) struct Broken(BTreeSet<&'static str>);

impl Broken {
    /// Breaks a run that passed by each row's own change that isn't proven yet.
    pub(crate) fn take(&mut self, deeds: &[Deed], met: &[&'static str], shop: &Shop) {
        for row in ROWS.iter().filter(|row| met.contains(&row.id)) {
            if self.0.contains(row.id) {
                continue;
            }
            let Some(changed) = changed(deeds, &row.judged) else { continue };
            if carried(&changed, shop).faults.iter().any(|fault| fault.rule.id() == row.id) {
                self.0.insert(row.id);
            }
        }
    }
}

impl Broken {
    pub(crate) fn join(&mut self, other: Broken) {
        self.0.extend(other.0);
    }
}

fn changed(deeds: &[Deed], judged: &Judged) -> Option<Vec<Deed>> {
    let find = |text: &str| {
        let json = |action: &Action| serde_json::to_string(action).unwrap();
        deeds.iter().position(|(_, action)| json(action).contains(text))
    };
    let read =
        |json: &str| serde_json::from_str(json).unwrap_or_else(|why| panic!("{json}: {why}"));
    let mut new = deeds.to_vec();
    match judged {
        Judged::Drop(text) => {
            new.remove(find(text)?);
        }
        Judged::After(text, action) => new.insert(find(text)? + 1, (String::new(), read(action))),
        Judged::End(action) => new.push((String::new(), read(action))),
        Judged::Random | Judged::OneChange | Judged::No(_) => return None,
    }
    Some(new)
}

/// The list of all rules of the model, those judged and those not, with why not.
pub(crate) fn judged(
    met: &BTreeMap<&'static str, u32>,
    fired: &BTreeMap<&'static str, u32>,
    broken: &Broken,
) -> String {
    let count = |of: &BTreeMap<&'static str, u32>, id| of.get(id).copied().unwrap_or(0);
    let (mut yes, mut no, mut wrong) = (String::new(), String::new(), String::new());
    let mut all = 0;
    for row in ROWS.iter() {
        let Row { id, rule, judged } = row;
        let known = Rule::ALL.iter().any(|rule| rule.id() == *id);
        assert!(known, "{id} is no rule of the model");
        let (met, fired) = (count(met, id), count(fired, id));
        let (how, fires) = match judged {
            Judged::Random => ("spoilt at random", fired > 0),
            Judged::OneChange => ("one change", ONE_CHANGE.contains(&format!("\"{id}\""))),
            Judged::Drop(_) | Judged::After(..) | Judged::End(_) => {
                ("its own change", broken.0.contains(id))
            }
            Judged::No(why) => {
                let _ = writeln!(no, "  {id:16} {met:6} runs: {why}");
                continue;
            }
        };
        all += 1;
        let _ = writeln!(yes, "  {id:30} {met:7} runs, fired {fired:6}, {how}: {rule}");
        if !fires || met < COMES_UP {
            let _ = writeln!(wrong, "{id}: {met} runs meet it, fired {fired}, {how}");
        }
    }
    for rule in Rule::ALL {
        let id = rule.id();
        let elsewhere = ELSEWHERE.iter().any(|operation| id.starts_with(operation));
        if elsewhere {
            let _ = writeln!(no, "  {id:16} its kind isn't tried here");
        } else if ROWS.iter().all(|row| row.id != id) {
            let _ = writeln!(wrong, "{id} has no row");
        }
    }
    let text = format!("{all} rules judged:\n{yes}not judged:\n{no}");
    assert!(wrong.is_empty(), "{text}\nsaid to be judged and not:\n{wrong}");
    text
}
