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
    all.retain(|(shop, operation)| text(&answer(shop, operation), "refused").is_empty());
    assert!(all.len() > 60);
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
        if !text(&answered, "refused").is_empty() {
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
        prop_assert!(all.iter().all(|step| !step.title.is_empty() && !step.say.is_empty() && !step.done.is_empty()));
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
            assert!(of_vernier || before.done == "Locked", "{operation}: {}", before.title);
            assert!(of_vernier || said(before).contains("Lock the "), "{:?}", before.say);
            assert!(!before.cuts && said(step).contains("lock"), "{operation}: {:?}", step.say);
            last = at;
        }
        assert!(last > 0, "{operation}");
        // Nor is the lock taken off but with the cutter clear and still.
        for step in steps.iter().filter(|step| said(step).contains("Unlock")) {
            let clear = step.say[0].contains("clear");
            assert!(
                clear && said(step).find("clear") < said(step).find("Unlock"),
                "{:?}",
                step.say
            );
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
            let Some(back) = back.map(|words| words.replace('*', "")) else { continue };
            let order =
                ["clear", "Unlock", "out", "back past", "then forward up to", "in.", "Lock "];
            assert!(in_order(&back, &order), "{back}");
            // The place that it comes up to is the step's own.
            if step.done == "Locked" {
                let to = back.split("back past ").nth(1).unwrap();
                let to = to.split(" by ").next().unwrap();
                let stays = said(&step).contains("no move yet");
                assert!(stays || said(&step).contains(to), "{to}: {:?}", step.say);
            }
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

/// What may hurt, each with the answer and with the step that it belongs to.
#[test]
fn each_caution_stands_with_the_answer_and_with_its_step() {
    let head = PLACES[1];
    #[rustfmt::skip]
    let rows: [(&str, &str, &str, &str); 6] = [
        // the arrangement, on the card, in the title of a step, there
        ("",   "Lock the spindle that holds the work before the cutter meets it", "cut ",       "Lock on, pin or detent home, before the cutter meets"),
        (head, "A cutter in the lathe spindle is stopped before each move",       "move ",      "lathe spindle stopped"),
        ("",   "Thin cutters want a light feed; eyes covered",                    "cut ",       "light feed"),
        ("",   "A drill chuck isn't made for side load",                          "Make ready", "not in a drill chuck"),
        ("",   "Every fresh cut has a sharp edge: break it",                      "Deburr",     "Fresh edges are sharp"),
        ("",   "look at the lock and the pin before each cut",                    "cut ",       "Look: the lathe spindle locked, pin home"),
    ];
    for (places, on_card, title, there) in rows {
        let operation = format!(r#"{{"kind":"divide","into":24,"diameter":"32 mm"{places}}}"#);
        let found = answer(NO_GEARS, &operation);
        let cautions = items(at(&found, "cautions"));
        let says = |part: &str| cautions.iter().any(|one| one.as_text().unwrap().contains(part));
        assert!(says(on_card), "{on_card}");
        assert!(says("machine's maker and the rules of the place"), "each defers to them");
        let steps = steps_of(NO_GEARS, &operation);
        let those: Vec<&Step> = steps.iter().filter(|step| step.title.starts_with(title)).collect();
        assert!(!those.is_empty(), "{title}");
        for step in those {
            let all = [said(step), step.caution.unwrap_or_default().to_owned()].join(" ");
            assert!(all.contains(there), "{there}: {all}");
        }
    }
    let ready = steps_of(NO_GEARS, r#"{"kind":"divide","into":24,"diameter":"32 mm"}"#);
    let ready = ready.iter().find(|step| step.title == "Make ready").unwrap();
    assert!(ready.caution.unwrap().contains("Eyes covered"));
    // Holes by co-ordinates alone: nothing is locked and turned, the rest holds.
    let bare = answer(
        r#"{"name":"bare"}"#,
        r#"{"kind":"divide","into":6,"diameter":"40 mm","marks":"holes"}"#,
    );
    let words: Vec<_> =
        items(at(&bare, "cautions")).iter().map(|one| one.as_text().unwrap()).collect();
    assert_eq!(words.len(), 5, "{words:?}");
}
