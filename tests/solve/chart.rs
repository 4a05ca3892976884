//! A setup in, its chart and its advice out: as a file does it.

use latheside_core::operation::{Answer, Tone};
use latheside_core::record::{Node, Value};
use latheside_core::setup::{Setup, read_file};
use latheside_core::shop::Shop;
use latheside_tests::solved::{
    answer, at, card, fact, file, items, lines, needs, number, solved, text,
};

const LATHE: &str = r#"{"name":"Small lathe","lathe":{"leadscrew":"3 mm","leadscrew_hand":"right","tumbler":false,
  "change_gears":[20,20,25,30,35,40,45,50,55,60,65,70,75,80,85,90,95,100,105,110,115,120],
  "gearbox":["1/1",{"ratio":"1/2","how":"lever B"}],"pairs_max":2,"stud_clearance_teeth":15},
  "dividing":{"direct":[72,24],"head":{"worm_ratio":40,
  "plates":[[15,16,17,18,19,20],[21,23,27,29,31,33],[37,39,41,43,47,49]],
  "gears":[24,24,28,32,40,44,48,56,64,72,86,100],"pairs_max":2}}}"#;

fn setup(operation: &str) -> Setup {
    read_file(&file(LATHE, operation)).unwrap()
}

#[test]
fn every_row_has_the_train_that_its_thread_has() {
    let chart = answer(LATHE, r#"{"kind":"chart","also":["0.123 mm","Tr 20 × 8 (P4)"]}"#);
    let rows = items(at(&chart, "rows"));
    assert!(rows.len() > 200);
    assert_eq!(text(&rows[rows.len() - 2], "designation"), "0.123 mm");
    // A limit of the file is a thousand operations; these are enough.
    let names: Vec<&str> = rows.iter().map(|row| text(row, "designation")).collect();
    let operations: Vec<String> =
        names.iter().map(|name| format!(r#"{{"kind":"thread","designation":"{name}"}}"#)).collect();
    let threads = solved(LATHE, &operations.join(","));
    let mut exact = 0;
    for (row, thread) in rows.iter().zip(&threads) {
        let name = text(row, "designation");
        assert_eq!(at(row, "lead"), at(thread, "lead"), "{name}");
        assert_eq!(at(row, "train"), at(thread, "trains.0"), "{name}");
        if *at(row, "train.exact") == Node::Flag(true) {
            exact += 1;
            assert!(*at(row, "share") == Node::Null || number(row, "share") == 0.0);
        }
    }
    assert_eq!(number(&chart, "exact") as usize, exact);
}

#[test]
fn a_share_is_left_out_where_nothing_judges_it_and_a_train_is_null_where_nothing_mounts() {
    let shop = r#"{"name":"x","lathe":{"leadscrew":"8 tpi","change_gears":[63,80],"pairs_max":1,"centres_teeth":[10,20]}}"#;
    let chart = answer(shop, r#"{"kind":"chart"}"#);
    let first = &items(at(&chart, "rows"))[0];
    assert_eq!(first.get("train"), Some(&Node::Null));
    assert_eq!(first.get("share"), None);
    assert_eq!(number(&chart, "not_mountable") as usize, items(at(&chart, "rows")).len());
    let cannot = answer(shop, r#"{"kind":"chart","only":"cannot","order":"changes"}"#);
    assert_eq!(items(at(&cannot, "rows")).len(), items(at(&chart, "rows")).len());
}

#[test]
fn rows_chosen_and_in_order() {
    let exact = answer(LATHE, r#"{"kind":"chart","only":"exact","order":"lead"}"#);
    let leads: Vec<f64> = items(at(&exact, "rows"))
        .iter()
        .map(|row| text(row, "lead").trim_end_matches(" mm").parse().unwrap())
        .collect();
    assert!(leads.len() > 100 && leads.is_sorted());
    let turns = answer(LATHE, r#"{"kind":"chart","only":"exact","order":"changes","now":[35,60]}"#);
    let first = &items(at(&turns, "rows"))[0];
    assert_eq!((text(first, "designation"), number(first, "changed")), ("M12", 0.0));
    let feeds = answer(LATHE, r#"{"kind":"chart","of":"feeds"}"#);
    assert_eq!(text(&items(at(&feeds, "rows"))[0], "designation"), "0.025 mm");
    let divisions = answer(LATHE, r#"{"kind":"chart","of":"divisions"}"#);
    let rows = items(at(&divisions, "rows"));
    assert_eq!((number(&rows[0], "divisions"), rows.len()), (2.0, 399));
    assert_eq!(text(&rows[10], "way.method"), "direct");
    let shown = card(LATHE, r#"{"kind":"chart","of":"divisions"}"#);
    assert!(lines(&shown)[0].ends_with("of 399 exactly"));
    let rows = &shown.table.as_ref().unwrap().rows;
    let row = |name: &str| rows.iter().find(|row| row.name == name).unwrap();
    assert_eq!((row("12").note.as_str(), row("12").tone), ("exact", Some(Tone::Good)));
    assert!(row("383").note.ends_with("off at worst"));
}

/// A little at a time comes to the same as all at once, and each row stands from when it is known.
#[test]
fn a_chart_is_worked_a_little_at_a_time() {
    for order in ["error", "changes"] {
        slice_by_slice(&setup(&format!(r#"{{"kind":"chart","order":"{order}"}}"#)));
    }
}

fn slice_by_slice(setup: &Setup) {
    let shop = Shop::new(setup.shop.clone());
    let mut work = setup.operations[0].begin(&shop).unwrap().unwrap();
    let (mut steps, mut before, mut done) = (0, 0, 0);
    loop {
        let progress = work.go_on();
        let rows = rows(&work.so_far());
        assert!(rows >= before && progress.done >= done && progress.done <= progress.of);
        (steps, before, done) = (steps + 1, rows, progress.done);
        if progress.finished() {
            break;
        }
    }
    assert!(steps > 90, "{steps}");
    let whole = setup.operations[0].answer(&shop);
    assert_eq!(work.so_far().found.unwrap().json(), whole.found.unwrap().json());

    fn rows(answer: &Answer) -> usize {
        answer.found.as_ref().unwrap().card().table.unwrap().rows.len()
    }
}

/// Of every gear, whether some thread needs it: taken away, no lead is further off.
#[test]
fn gears_that_no_thread_needs() {
    let gears = answer(LATHE, r#"{"kind":"chart","of":"gears"}"#);
    let rows = items(at(&gears, "rows"));
    let owned: Vec<f64> = rows.iter().map(|row| number(row, "teeth")).collect();
    assert!(owned.is_sorted() && owned.len() > 10);
    let setup = setup(r#"{"kind":"chart"}"#);
    let all = Shop::new(setup.shop.clone());
    let worst = |shop: &Shop| {
        let found = setup.operations[0].answer(shop).found.unwrap();
        let rows = found.json().into_iter().find(|(key, _)| key == "rows").unwrap().1;
        let error = |row: &Node| {
            let known = !matches!(at(row, "train"), Node::Null);
            known.then(|| number(row, "train.error_ppm").abs())
        };
        items(&rows).iter().map(error).collect::<Vec<_>>()
    };
    let best = worst(&all);
    for row in rows.iter().take(6) {
        let mut fewer = setup.shop.clone();
        let teeth = number(row, "teeth") as u32;
        fewer.change("lathe", |lathe| {
            let mut gears = lathe.counts("change_gears");
            let gone = gears.iter().position(|gear| *gear == teeth).unwrap();
            gears.remove(gone);
            let list = gears.iter().map(|teeth| Value::Count(*teeth)).collect();
            lathe.set("change_gears", Some(Value::List(list)));
        });
        let without = worst(&Shop::new(fewer));
        let no_worse = best.iter().zip(&without).all(|(best, without)| match (best, without) {
            (Some(best), Some(without)) => without <= best,
            (best, _) => best.is_none(),
        });
        assert_eq!(at(row, "spare"), &Node::Flag(no_worse), "{teeth}");
    }
}

#[test]
fn what_one_more_gear_would_do() {
    let more = answer(
        LATHE,
        r#"{"kind":"more-gears","want":["8 tpi","19 tpi","0.75 mm","M10","module 1","26 tpi"],"add":1,"from":[20,127]}"#,
    );
    let best = items(at(&more, "best"));
    assert_eq!(best.len(), 1);
    assert_eq!(at(&best[0], "gears"), &Node::from(vec![127_u32]));
    assert_eq!((number(&best[0], "gained"), number(&best[0], "of")), (3.0, 6.0));
    assert_eq!((number(&more, "tried"), number(&more, "before")), (108.0, 2.0));
    // And so the threads say themselves.
    let with = LATHE.replace("115,120]", "115,120,127]");
    for (name, before) in [("8 tpi", false), ("19 tpi", false), ("26 tpi", false), ("M10", true)] {
        let thread = format!(r#"{{"kind":"thread","designation":"{name}"}}"#);
        assert_eq!(at(&answer(LATHE, &thread), "trains.0.exact"), &Node::Flag(before));
        assert_eq!(at(&answer(&with, &thread), "trains.0.exact"), &Node::Flag(true));
    }
    let shown =
        card(LATHE, r#"{"kind":"more-gears","want":["8 tpi","19 tpi"],"add":2,"shelf":[21,127]}"#);
    assert_eq!(lines(&shown), ["21 and 127 teeth"]);
    assert_eq!(fact(&shown, "127 alone"), "2");
    let none = card(LATHE, r#"{"kind":"more-gears","want":["module 1"],"from":[20,40]}"#);
    assert_eq!(lines(&none), ["nothing from 20 to 40 teeth"]);
}

#[test]
fn gears_for_dividing_and_circles_for_a_plate() {
    let more = answer(LATHE, r#"{"kind":"more-gears","divisions":[383],"add":1,"from":[20,30]}"#);
    let gears: Vec<f64> =
        items(at(&more, "best")).iter().map(|best| number(best, "gears.0")).collect();
    let source = "known answer: a 20, 23, 26 or 30 tooth gear makes 383 possible with two pairs, a 21, 22 or 25 doesn't";
    assert_eq!(gears, [20.0, 23.0, 26.0, 30.0], "{source}");
    let both = answer(
        LATHE,
        r#"{"kind":"more-gears","want":["8 tpi"],"divisions":[383,60],"add":2,"shelf":[23,127]}"#,
    );
    let best = &items(at(&both, "best"))[0];
    assert_eq!(at(best, "gears"), &Node::from(vec![23_u32, 127]));
    assert_eq!(
        (number(best, "gained"), number(best, "of"), number(&both, "before")),
        (2.0, 3.0, 1.0)
    );
    let circles = answer(
        &LATHE.replace(r#""gears":[24,24,28,32,40,44,48,56,64,72,86,100],"#, ""),
        r#"{"kind":"more-gears","what":"circles","divisions":[53,51,60],"from":[50,60]}"#,
    );
    let best = &items(at(&circles, "best"))[0];
    assert_eq!(at(best, "circles"), &Node::from(vec![53_u32]), "a circle of 53 divides into 53");
    assert_eq!(number(best, "gained"), 1.0);
}

#[test]
fn what_is_missing_is_named() {
    let none = r#"{"name":"x"}"#;
    for (operation, key, need) in [
        (r#"{"kind":"chart"}"#, "rows", "shop.lathe.leadscrew"),
        (r#"{"kind":"chart","of":"divisions"}"#, "rows", "shop.dividing"),
        (r#"{"kind":"more-gears","want":["M10"]}"#, "best", "shop.lathe.leadscrew"),
        (r#"{"kind":"more-gears","divisions":[51]}"#, "best", "shop.dividing"),
    ] {
        let answer = answer(none, operation);
        assert!(!text(&answer, "refused").is_empty());
        assert_eq!(needs(&answer, key), need, "{operation}");
    }
    let screw = r#"{"name":"x","lathe":{"leadscrew":"3 mm"}}"#;
    assert_eq!(needs(&answer(screw, r#"{"kind":"chart"}"#), "rows"), "shop.lathe.change_gears");
    // An empty drawer can be added to all the same: a pair of what is new.
    let more = answer(screw, r#"{"kind":"more-gears","want":["1.5 mm"],"add":2,"shelf":[20,40]}"#);
    assert_eq!(at(&more, "best.0.gears"), &Node::from(vec![20_u32, 40]));
    let wrong = answer(LATHE, r#"{"kind":"more-gears","want":["M10","what"]}"#);
    assert!(text(&wrong, "refused").starts_with("want[1]: “what”"));
    let wide = answer(LATHE, r#"{"kind":"more-gears","want":["8 tpi"],"add":3,"from":[1,999]}"#);
    assert!(text(&wide, "refused").contains("999 sizes"));
    let back = answer(LATHE, r#"{"kind":"more-gears","want":["8 tpi"],"from":[50,20]}"#);
    assert!(text(&back, "refused").contains("50"));
}
