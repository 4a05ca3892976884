//! What holds of every circle, way and arrangement.

use super::*;

const PLACES: [&str; 3] = [
    "",
    r#","work_in":"head-on-cross-slide","cutter_in":"lathe-spindle""#,
    r#","cutter_in":"dragged-by-slide""#,
];

/// Every kind of circle, each way of dividing it and each arrangement of work and cutter.
fn circles() -> Vec<(&'static str, String)> {
    let mut all = Vec::new();
    for places in PLACES {
        for kind in [
            r#""kind":"divide","into":24,"diameter":"32 mm""#,
            r#""kind":"divide","into":6,"diameter":"32 mm","marks":"flats""#,
            r#""kind":"divide","into":87,"diameter":"32 mm""#,
            r#""kind":"divide","into":40,"diameter":"32 mm","way":2"#,
            r#""kind":"divide","angles":["0 deg","17 deg 30 min","52 deg 20 min"],"diameter":"30 mm""#,
            r#""kind":"graduate","lead":"2 mm","least_count":"0.02 mm","diameter":"60 mm","vernier":"0.002 mm""#,
            r#""kind":"make-plate","holes":13,"diameter":"120 mm","further":true"#,
        ] {
            for shop in [HEAD, NO_GEARS, FULL, GEAR] {
                all.push((shop, format!("{{{kind}{places}}}")));
            }
        }
    }
    all.retain(|(shop, operation)| {
        let found = answer(shop, operation);
        text(&found, "refused").is_empty() && text(&found, "unmade.why").is_empty()
    });
    assert!(all.len() > 30, "{}", all.len());
    all
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// Whatever is owned, each exact place is where it belongs, and each step can be shown.
    #[test]
    fn any_shop_and_any_number(
        into in 2u32..300, direct in proptest::collection::vec(1u16..200, 0..4), half in any::<bool>(),
        plates in proptest::collection::vec(proptest::collection::vec(1u16..60, 1..4), 0..3),
        gears in proptest::collection::vec(18u16..100, 0..6),
    ) {
        let shop = format!(
            r#"{{"name":"any","dividing":{{"direct":{direct:?},"half_tooth":{half},"head":{{"worm_ratio":40,"plates":{plates:?},"gears":{gears:?}}}}}}}"#
        );
        let operation = format!(r#"{{"kind":"divide","into":{into},"diameter":"2 in"}}"#);
        let answered = answer(&shop, &operation);
        if !text(&answered, "refused").is_empty() || !text(&answered, "unmade.why").is_empty() {
            return Ok(());
        }
        let places = items(at(&answered, "positions"));
        prop_assert_eq!(places.len(), usize::try_from(into).unwrap());
        let exact = at(&answered, "ways.0.exact") == &Node::Flag(true);
        if exact && text(&answered, "ways.0.method") != "direct-half-tooth" {
            for (division, place) in places.iter().enumerate() {
                let wanted = Ratio::of(i64::try_from(division).unwrap(), into.into());
                prop_assert_eq!(stands(&answered, place), wanted);
            }
        }
        let found = found(&shop, &operation);
        let steps = found.steps();
        let all: Vec<Step> = (0..steps.len()).map(|at| steps.get(at).unwrap()).collect();
        prop_assert_eq!(all.iter().filter(|step| step.cuts).count(), places.len());
        prop_assert!(all.iter().all(|step| !step.title.is_empty() && !step.lines().is_empty() && !step.done.is_empty()));
        prop_assert!(!found.card().lines.is_empty());
    }
}

/// No cut is come to but past a step that puts the lock on and is done by it.
#[test]
fn before_each_cut_a_step_puts_the_lock_on() {
    for (shop, operation) in circles() {
        let steps = steps_of(shop, &operation);
        let mut last = 0;
        for (at, step) in steps.iter().enumerate().filter(|(_, step)| step.cuts) {
            let of_vernier = step.title == "Cut the vernier";
            let before = &steps[at - 1];
            let half = before.title == "Half-way check";
            let before = if half { &steps[at - 2] } else { before };
            assert!(of_vernier || before.done == "Locked", "{operation}: {}", before.title);
            assert!(of_vernier || said(before).contains("Lock the "), "{}", said(before));
            assert!(!before.cuts && said(step).contains("lock"), "{operation}: {}", said(step));
            last = at;
        }
        assert!(last > 0, "{operation}");
        // Nor is the lock taken off but with the cutter clear.
        for step in steps.iter().filter(|step| step.done == "Locked") {
            let words = said(step);
            let (clear, unlock) = (words.find("clear"), words.find("Unlock"));
            assert!(clear.is_some() && unlock.is_none_or(|at| clear < Some(at)), "{words}");
        }
    }
}

/// A step that is come back to is passed and come up to again the same way.
#[test]
fn back_turns_past_and_comes_up_again() {
    for (shop, operation) in circles() {
        let found = found(shop, &operation);
        let steps = found.steps();
        for at in 0..steps.len() {
            let (step, back) = (steps.get(at).unwrap(), steps.back(at));
            let place = step.title.contains("move ") || step.title.contains("cut ");
            assert_eq!(place, back.is_some(), "{operation}: {}", step.title);
            let Some(back) = back else { continue };
            let order = ["Gone past it", "back past", "by half a turn", "then forward up to it"];
            assert!(in_order(&back, &order), "{back}");
        }
        assert_eq!(steps.back(steps.len()), None);
    }
}

/// Where no plate, gear or train is drawn, the rim tells what is done and what is to do.
#[test]
fn every_step_is_drawn() {
    for (shop, operation) in circles() {
        let steps = steps_of(shop, &operation);
        let mut done = 0;
        for step in &steps {
            let Some(picture) = &step.picture else {
                assert_eq!(step.title, "The vernier", "{operation}");
                continue;
            };
            if let Picture::Rim { into, at, .. } = picture {
                assert!(
                    at <= into && done <= *at || operation.contains("make-plate"),
                    "{operation}"
                );
                done = *at;
            }
            if step.title == "Deburr" {
                let Picture::Rim { into, at, .. } = picture else { panic!("{operation}") };
                assert_eq!(into, at);
            }
        }
    }
}

/// What may hurt follows from the actions: with the answer, and with the first step that it matters in.
#[test]
fn each_caution_stands_with_the_answer_and_with_its_step() {
    let head = PLACES[1];
    #[rustfmt::skip]
    let rows = [
        (GEAR, r#","marks":"lines","depth":"0.2 mm","cutter_in":"dragged-by-slide""#, "a pin or detent doesn't hold the cut", "Put the gear or plate on"),
        (NO_GEARS, head, "Isolated while hands are inside", "Put the plate on"),
        (GEAR, r#","marks":"slots","width":"2 mm","depth":"1 mm","cutter_in":"driven-spindle-on-slide""#, "Hands clear until the cutter stands still", "Set the depth"),
        (GEAR, r#","marks":"slots","width":"2 mm","depth":"1 mm","cutter_in":"driven-spindle-on-slide""#, "Fresh edges and swarf cut", "cut slot 1 of 20"),
    ];
    for (shop, places, words, title) in rows {
        let operation = format!(r#"{{"kind":"divide","into":20,"diameter":"32 mm"{places}}}"#);
        let found = answer(shop, &operation);
        let cautions = items(at(&found, "cautions"));
        let says = |part: &str| cautions.iter().any(|one| one.as_text().unwrap().contains(part));
        assert!(says(words), "{words}: {cautions:?}");
        assert!(says("machine's maker and the rules of the place"), "each defers to them");
        let steps = steps_of(shop, &operation);
        assert!(steps.iter().any(|step| step.title == title), "{title}");
        // It is said once, where it first matters.
        let told = steps.iter().filter(|step| step.caution.is_some_and(|one| one.contains(words)));
        assert!(told.count() <= 1, "{words}");
        let all: Vec<_> = steps.iter().filter_map(|step| step.caution).collect();
        assert!(!all.is_empty() && all.len() < 7, "{all:?}");
    }
}
