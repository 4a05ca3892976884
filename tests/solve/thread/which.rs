//! What thread is this?

use super::*;

#[test]
fn what_thread_is_this() {
    let ask = |entries: &str| {
        let file = format!(
            r#"{{"format": "latheside-setup", "version": 1, "name": "", "note": "", "shop": {{"name": ""}},
            "operations": [{{"kind": "which-thread", {entries}}}]}}"#
        );
        read_file(&file).unwrap()
    };
    let answer = |entries: &str| {
        let Node::List(all) = answers(&ask(entries)).get("answers").unwrap().clone() else {
            panic!()
        };
        all.into_iter().next().unwrap()
    };
    let m10 = answer(r#""diameter": "9.85 mm", "spaces": 10, "over": "15 mm""#);
    assert_eq!(text(&m10, "candidates.0.thread"), "M10");
    assert!((number(&m10, "candidates.0.diameter_off_mm") + 0.15).abs() < 1e-9, "arithmetic");
    assert!(number(&m10, "candidates.0.length_off_mm").abs() < 1e-9, "arithmetic");
    let card = card(&ask(r#""diameter": "9.85 mm", "spaces": 10, "over": "15 mm""#));
    assert_eq!(card.verdict.unwrap().1, "outside 0.15 mm under, 10 spaces right");
    // 3/8 in, 20 to the inch: BSF before UNF, which has 24.
    let bsf = answer(r#""diameter": "0.37 in", "spaces": 10, "over": "1/2 in""#);
    assert_eq!(text(&bsf, "candidates.0.thread"), "3/8 BSF", "BS 84: 3/8 at 20 tpi");
    let none = ask(r#""diameter": "500 mm", "spaces": 1, "over": "1 mm""#);
    assert!(self::card(&none).verdict.unwrap().1.starts_with("no standard thread"));
    let missing = answer(r#""diameter": "10 mm""#);
    assert_eq!(lacks(&missing, "candidates").as_deref(), Some("operation.spaces"));
    assert!(at(&missing, "candidates").is_none(), "nothing is listed until it is measured");
    // Measure, count, compare, try.
    let titles = |answer: &Node| -> Vec<String> {
        list(answer, "steps").iter().map(|step| text(step, "title").to_owned()).collect()
    };
    assert_eq!(titles(&missing), ["Measure the outside", "Count the crests"]);
    let whole = ["Measure the outside", "Count the crests", "Compare", "Try"];
    assert_eq!(titles(&m10), whole);
    assert_eq!(text(&list(&m10, "steps")[0], "figure"), "9.85 mm");
    assert_eq!(text(&list(&m10, "steps")[1], "figure"), "10 in 15 mm");
    assert!(
        say(&m10, "Count").contains("Count spaces") && say(&m10, "Try").contains("of M10, by hand")
    );
    // 3/4 in at 10: BSW (55°, BS 84) and UNC (60°, ASME B1.1) are told apart by the angle alone.
    let both = answer(r#""diameter": "0.742 in", "spaces": 10, "over": "1 in""#);
    let compare = say(&both, "Compare");
    assert!(compare.contains("3/4 BSW, 55°: outside"), "{compare}");
    assert!(compare.contains("UNC, 60°") && compare.contains("lay a gauge in"), "{compare}");
    assert!(say(&m10, "Compare").contains("M10, 60°"), "ISO 68-1");
}
