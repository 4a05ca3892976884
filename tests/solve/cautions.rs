//! Cautions stand with the answer, and with the step where they are needed.

use latheside_core::operation::{Answer, Step};
use latheside_core::setup::read_file;
use latheside_core::shop::Shop;
use latheside_tests::solved::said;

const SHOP: &str = r#"{"lathe": {"leadscrew": "3 mm", "spindle_speeds": [45, 70, 110, 190, 320, 540, 900],
    "dials": {"cross": {"reads": "radius", "division": "0.02 mm", "divisions": 125, "backlash": "0.1 mm"},
              "compound": {"reads": "radius", "division": "0.02 mm", "divisions": 100}, "carriage": {"division": "0.1 mm", "divisions": 180},
              "tailstock": {"division": "0.05 mm", "divisions": 60}}},
    "indicators": [{"division": "0.01 mm", "travel": "10 mm"}],
    "drills": ["4.2 mm", "5 mm", "6.6 mm", "6.8 mm", "9.7 mm", "13.5 mm"]}"#;

/// Each kind with what it does to metal: whether a tool cuts in it.
const OPERATIONS: &[(&str, bool)] = &[
    (
        r#"{"kind":"cut","process":"turn","stock":"mild-steel","diameter":"20 mm","depth":"0.5 mm"}"#,
        true,
    ),
    (
        r#"{"kind":"cut","process":"mill","stock":"brass","diameter":"6 mm","teeth":2,"depth":"9 mm"}"#,
        true,
    ),
    (r#"{"kind":"cut","process":"drill","stock":"aluminium","diameter":"10 mm"}"#, true),
    (r#"{"kind":"cut","process":"tap","stock":"mild-steel","diameter":"6 mm"}"#, true),
    (r#"{"kind":"size","from":"20 mm","to":"16 mm","length":"40 mm","stock":"mild-steel"}"#, true),
    (r#"{"kind":"size","from":"16 mm","to":"20 mm","length":"40 mm","stock":"grey-iron"}"#, true),
    (
        r#"{"kind":"size","process":"face","from":"20 mm","to":"18 mm","diameter":"30 mm","stock":"brass"}"#,
        true,
    ),
    (
        r#"{"kind":"hole","purpose":"tap","designation":"M8","depth":"12 mm","stock":"mild-steel"}"#,
        true,
    ),
    (
        r#"{"kind":"hole","purpose":"clear","designation":"M12","thickness":"50 mm","stock":"mild-steel"}"#,
        true,
    ),
    (
        r#"{"kind":"hole","purpose":"counterbore","designation":"M6","thickness":"14 mm","stock":"mild-steel"}"#,
        true,
    ),
    (
        r#"{"kind":"hole","purpose":"ream","designation":"10 mm","depth":"20 mm","stock":"mild-steel"}"#,
        true,
    ),
    (r#"{"kind":"taper","named":"MT2","stock":"mild-steel"}"#, true),
    (r#"{"kind":"taper","named":"MT2","between_centres":"200 mm","stock":"mild-steel"}"#, true),
    (r#"{"kind":"part-off","stock":"mild-steel","diameter":"20 mm","blade_width":"2 mm"}"#, true),
    (r#"{"kind":"fit","basic":"25 mm","code":"H7/g6"}"#, false),
    (r#"{"kind":"fit","basic":"25 mm","code":"H7/s6"}"#, false),
    (r#"{"kind":"hold","in":"three-jaw","on":"the bar"}"#, false),
    (r#"{"kind":"read-dial","amount":"5 mm"}"#, false),
    (r#"{"kind":"space","places":8,"pitch":"32 mm","first":"13 mm","drill":"5 mm"}"#, true),
    (r#"{"kind":"space","places":8,"pitch":"32 mm","what":"lines"}"#, false),
];

fn answer(operation: &str) -> Answer {
    let file = format!(
        r#"{{"format":"latheside-setup","version":1,"name":"x","shop":{SHOP},"operations":[{operation}]}}"#
    );
    let setup = read_file(&file).unwrap_or_else(|why| panic!("{why}: {operation}"));
    setup.operations[0].answer(&Shop::new(setup.shop.clone()))
}

fn steps(answer: &Answer) -> Vec<Step> {
    let steps = answer.found.as_ref().expect("an answer").steps();
    (0..steps.len()).filter_map(|at| steps.get(at)).collect()
}

/// Everything that a step says, in the order in which it is read.
fn words(step: &Step) -> String {
    let caution = step.caution.unwrap_or_default();
    format!("{} {caution}", said(step)).to_lowercase()
}

#[test]
fn every_answer_defers_to_the_machines_maker_and_the_rules_of_the_place() {
    for (operation, _) in OPERATIONS {
        let said = answer(operation).cautions.join(" ").to_lowercase();
        assert!(
            said.contains("maker") && said.contains("rules of the place"),
            "{operation}: {said}"
        );
    }
}

#[test]
fn every_step_that_cuts_has_its_caution() {
    for (operation, _) in OPERATIONS {
        let all = steps(&answer(operation));
        // Where steps are actions each caution is said once, where it first matters.
        let mut told: Vec<&str> = all.iter().filter_map(|step| step.caution).collect();
        if all.iter().all(|step| !step.actions.is_empty()) {
            let many = told.len();
            told.sort_unstable();
            told.dedup();
            assert!(many == told.len() && many > 0, "{operation}: {told:?}");
            continue;
        }
        for step in all.iter().filter(|step| step.cuts) {
            assert!(step.caution.is_some(), "{operation}: {}", step.title);
        }
    }
}

#[test]
fn the_key_is_out_and_the_guard_is_down_before_the_spindle_starts() {
    for (operation, cuts) in OPERATIONS {
        let answer = answer(operation);
        let said = steps(&answer).iter().map(words).collect::<Vec<_>>().join(" ");
        let starts = said.find("spindle on").or(said.find("start the lathe spindle"));
        for word in ["key out", "guard"] {
            let place = said.find(word);
            if *cuts {
                assert!(place.is_some(), "{operation}: {word} in no step: {said}");
            }
            if let Some(starts) = starts {
                assert!(place.is_some_and(|place| place < starts), "{operation}: {word}: {said}");
            }
        }
    }
}

#[test]
fn eyes_gloves_and_swarf_are_spoken_of_where_metal_is_cut() {
    for (operation, _) in OPERATIONS.iter().filter(|(_, cuts)| *cuts) {
        let answer = answer(operation);
        let said = steps(&answer).iter().map(words).collect::<Vec<_>>().join(" ");
        for word in ["eyes", "gloves", "swarf"] {
            assert!(said.contains(word), "{operation}: {word} in no step: {said}");
        }
    }
}

#[test]
fn coolant_is_spoken_of_where_a_cut_is_flooded() {
    let cut = answer(OPERATIONS[0].0);
    let said = steps(&cut).iter().map(words).collect::<Vec<_>>().join(" ");
    assert!(said.contains("coolant"), "{said}");
}

#[test]
fn nothing_is_measured_while_it_turns() {
    for (operation, _) in OPERATIONS {
        for step in steps(&answer(operation)) {
            let said = words(&step);
            let measured = step.title == "Measure" || step.title == "Check";
            let gauged = said.contains("gauge") || said.contains("indicator");
            if measured || (gauged && !step.cuts) {
                let stopped = [
                    "stopped",
                    "stop the spindle",
                    "stop the lathe spindle",
                    "stands still",
                    "isolate",
                ];
                let stopped = stopped.iter().any(|words| said.contains(words));
                assert!(stopped, "{operation}: {}: {said}", step.title);
            }
        }
    }
}

#[test]
fn heat_and_fumes_are_spoken_of_where_there_are_any() {
    let press = answer(r#"{"kind":"fit","basic":"25 mm","code":"H7/s6"}"#);
    let said = press.cautions.join(" ").to_lowercase();
    assert!(said.contains("hot") || said.contains("heat"), "{said}");
    assert!(said.contains("fumes"), "{said}");
    let screw = answer(OPERATIONS[9].0);
    let degrease = steps(&screw).into_iter().find(|step| step.title == "Degrease").unwrap();
    assert!(words(&degrease).contains("no flame") && words(&degrease).contains("air moving"));
    let cure = steps(&screw).into_iter().find(|step| step.title == "Let it cure").unwrap();
    assert!(words(&cure).contains("maker says"));
}
