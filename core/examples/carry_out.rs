//! Works a setup file out and carries its steps out on the modelled lathe, from the JSON and the shop
//! alone: faults by step, and the part as it comes out.

#![allow(clippy::print_stdout)] // printing is what it is for

use latheside_core::lathe::Lathe;
use latheside_core::procedure::FiledStep;
use latheside_core::record::Node;
use latheside_core::setup::{answers, read_file};
use latheside_core::shop::Shop;
use std::io::Read;

fn main() {
    let path = std::env::args().nth(1).unwrap_or_else(|| "-".to_owned());
    let mut text = String::new();
    let read = match path.as_str() {
        "-" => std::io::stdin().read_to_string(&mut text).map(|_| ()),
        path => std::fs::read_to_string(path).map(|file| text = file),
    };
    let setup = match (read, read_file(&text)) {
        (Ok(()), Ok(setup)) => setup,
        (Err(why), _) => return eprintln!("{why}"),
        (_, Err(why)) => return eprintln!("{why}"),
    };
    let shop = Shop::new(setup.shop.clone());
    let json = serde_json::to_string(&answers(&setup)).unwrap_or_default();
    let all: Node = serde_json::from_str(&json).unwrap_or(Node::Null);
    let Some(Node::List(answers)) = all.get("answers") else { return };
    for (at, answer) in answers.iter().enumerate() {
        println!("operation {at}");
        if let Some(unmade) = answer.get("unmade") {
            println!("  unmade: {}", serde_json::to_string(unmade).unwrap_or_default());
        }
        let steps =
            answer.get("steps").map(|steps| serde_json::to_string(steps).unwrap_or_default());
        let steps: Vec<FiledStep> = match serde_json::from_str(&steps.unwrap_or_default()) {
            Ok(steps) => steps,
            Err(why) => {
                println!("  steps aren't actions: {why}");
                continue;
            }
        };
        let mut lathe = Lathe::new(&shop);
        for step in &steps {
            for action in &step.actions {
                lathe.carry_out(&step.id, action);
            }
        }
        lathe.finish();
        for fault in lathe.faults() {
            let step = steps.iter().find(|step| step.id == fault.step);
            let action = step.and_then(|step| step.actions.get(fault.action));
            let action = action.map(|action| serde_json::to_string(action).unwrap_or_default());
            println!(
                "  {} {}[{}] {} {}",
                fault.rule.id(),
                fault.step,
                fault.action,
                fault.detail,
                action.unwrap_or_default()
            );
        }
        println!(
            "  {} steps, {} faults; part {:?}",
            steps.len(),
            lathe.faults().len(),
            lathe.part()
        );
    }
}
