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
}
