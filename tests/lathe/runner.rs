//! A setup worked out, and its steps carried out from the JSON and the shop alone.

use latheside_core::exact::Ratio;
use latheside_core::lathe::{Fault, Lathe, Part, Rule};
use latheside_core::procedure::{Action, FiledStep, Lockable};
use latheside_core::setup::{answers, read_file};
use latheside_core::shop::Shop;
use serde_json::Value;

/// What an operation's answer comes to.
#[derive(Clone, Debug)]
pub(crate) enum Answered {
    /// Steps, and the answer that they stand in.
    Made(Vec<FiledStep>, Value),
    /// Figures without steps: why, and which entry would change it.
    Unmade(String, String),
    /// Steps that no machine can carry out, and what is wrong with them.
    Prose(String),
    /// Nothing can be said, or nothing is to be done.
    Refused(String),
}

/// Works a setup out: each operation's answer, and the shop.
pub(crate) fn answered(setup: &Value) -> (Vec<Answered>, Shop) {
    let setup = read_file(&setup.to_string()).unwrap_or_else(|why| panic!("{why}: {setup}"));
    let shop = Shop::new(setup.shop.clone());
    let json = serde_json::to_string(&answers(&setup)).unwrap();
    let all: Value = serde_json::from_str(&json).unwrap();
    (all["answers"].as_array().unwrap().iter().map(one).collect(), shop)
}

fn one(answer: &Value) -> Answered {
    if let Some(refused) = answer.get("refused") {
        return Answered::Refused(refused.as_str().unwrap().to_owned());
    }
    let steps = answer.get("steps").and_then(Value::as_array).filter(|steps| !steps.is_empty());
    if let Some(unmade) = answer.get("unmade") {
        assert!(steps.is_none(), "unmade, and yet with steps: {unmade}");
        let word = |key: &str| unmade[key].as_str().unwrap().to_owned();
        assert!(!word("why").is_empty() && !word("needs").is_empty(), "{unmade}");
        return Answered::Unmade(word("why"), word("needs"));
    }
    let Some(steps) = steps else {
        let lacking = answer.get("lacking").and_then(Value::as_array).and_then(|all| all.first());
        let needs = lacking.unwrap_or_else(|| panic!("no steps, and nothing says why: {answer}"));
        return Answered::Refused(format!("no steps without {}", needs["needs"]));
    };
    match serde_json::from_value(Value::Array(steps.clone())) {
        Ok(steps) => Answered::Made(steps, answer.clone()),
        Err(why) => Answered::Prose(why.to_string()),
    }
}

/// One action under its step's id.
pub(crate) type Deed = (String, Action);

/// All actions of the steps, one after the other.
pub(crate) fn deeds(steps: &[FiledStep]) -> Vec<Deed> {
    let each = |step: &FiledStep| {
        let id = step.id.clone();
        step.actions.clone().into_iter().map(move |action| (id.clone(), action)).collect::<Vec<_>>()
    };
    steps.iter().flat_map(each).collect()
}

/// What came of a run.
pub(crate) struct Carried {
    pub(crate) faults: Vec<Fault>,
    pub(crate) part: Part,
    /// How far the work stood turned each time that the spindle which holds it was locked, in turns.
    pub(crate) places: Vec<Ratio>,
    /// Which rules came up, and how often.
    pub(crate) met: Vec<(Rule, u32)>,
}

/// Carries actions out on the lathe of a shop.
pub(crate) fn carried(deeds: &[Deed], shop: &Shop) -> Carried {
    let mut lathe = Lathe::new(shop);
    let mut places = Vec::new();
    for (step, action) in deeds {
        lathe.carry_out(step, action);
        if let Action::Lock { what: Lockable::Head | Lockable::LatheSpindle } = action {
            places.push(lathe.work_angle());
        }
    }
    lathe.finish();
    Carried {
        faults: lathe.faults().to_vec(),
        part: lathe.part().clone(),
        places,
        met: lathe.met().collect(),
    }
}
