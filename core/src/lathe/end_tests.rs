//! Drilling, reaming, tapping, dies, parting and knurling: each carried out without a fault, and one change
//! in it breaks one rule first.

use super::{Lathe, run};
use crate::procedure::Action;
use crate::record::{Node, read};
use crate::shop::{SHOP, Shop};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec;
use alloc::vec::Vec;

const OWNED: &str = r#"{"lathe": {"nose": "screwed", "spindle_speeds": [100, 200, 400, 800],
    "dials": {"cross": {"reads": "radius", "division": "0.02 mm", "divisions": 100},
              "carriage": {"division": "0.1 mm", "divisions": 200},
              "tailstock": {"division": "0.1 mm", "divisions": 30}}}}"#;

fn shop() -> Shop {
    let node: Node = serde_json::from_str(OWNED).unwrap();
    Shop::new(read(&node, &SHOP, "", &[]).unwrap())
}

fn carried(text: &str) -> Lathe {
    let lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
    let actions: Vec<Action> = lines
        .map(|line| serde_json::from_str(line).unwrap_or_else(|why| panic!("{line}: {why}")))
        .collect();
    run(vec![("all/1".to_string(), actions.as_slice())], &shop())
}

fn first(lathe: &Lathe) -> &'static str {
    lathe.faults().first().map_or("", |fault| fault.rule.id())
}

const SAFE: &str = r#"
{"do":"isolate"}
{"do":"key","is":"out"}
{"do":"look","that":"half-nuts","is":"out"}
{"do":"look","that":"power-feed","is":"out"}
{"do":"look","that":"lock","what":"lathe-spindle","is":"off"}
{"do":"look","that":"lock","what":"quill","is":"off"}
{"do":"look","that":"tailstock-in-line"}
{"do":"lock","what":"tailstock"}
"#;
const CLEARS: &str = r#"
{"do":"look","that":"clears","what":"work"}
{"do":"guard","is":"shut"}
"#;
const GO: &str = r#"
{"do":"energise"}
{"do":"spindle","of":"lathe","is":"forward"}
"#;
const STOP: &str = r#"
{"do":"clear","slide":"quill","toward":"tailstock"}
{"do":"spindle","of":"lathe","is":"stopped"}
"#;

/// A tool in the tailstock, touched on at a face, nought set there.
fn tool(shape: &str, more: &str, rpm: u32, face: &str) -> String {
    format!(
        r#"
{{"do":"mount","what":"cutter","shape":"{shape}","at":"tailstock"{more}}}
{{"do":"key","is":"out"}}
{{"do":"set","what":"speed","rpm":{rpm}}}
{{"do":"oil","what":"cutter"}}
{{"do":"touch","slide":"quill","toward":"headstock","face":"{face}","between":"metal"}}
{{"do":"zero","slide":"quill","on":"dial"}}
{{"do":"clear","slide":"quill","toward":"tailstock"}}
"#
    )
}

fn feed(turns: u32, lines: u32, until: &str) -> String {
    format!(
        r#"{{"do":"feed","slide":"quill","toward":"headstock","to":{{"turns":{turns},"lines":{lines}}}{until},"by":"hand"}}
"#
    )
}

const BACK: &str = r#"{"do":"clear","slide":"quill","toward":"tailstock"}
"#;
const END: &str = r#"
{"do":"isolate"}
{"do":"deburr","what":"edges"}
{"do":"clean","what":"hole"}
"#;
const WORK: &str = r#"{"do":"look","that":"work","at":"lathe-spindle","diameter":"30 mm","length":"30 mm","stock":"mild-steel"}"#;

fn centre() -> String {
    let mut text = tool("centre-drill", "", 800, "end") + GO;
    text += r#"{"do":"feed","slide":"quill","toward":"headstock","until":"cone","by":"hand"}"#;
    text + STOP
}

/// Ø 14 through 30 mm by way of Ø 5, then reamed to 14.2.
fn drilling() -> String {
    let through = r#","until":"through""#;
    let mut text = format!("{SAFE}{WORK}\n");
    text += r#"{"do":"look","that":"clears","what":"behind"}"#;
    text += CLEARS;
    text += &centre();
    text += &tool("drill", r#","diameter":"5 mm""#, 400, "end");
    text += GO;
    for (turns, lines) in [(5, 0), (6, 20), (8, 10)] {
        text += &feed(turns, lines, "");
        text += BACK;
    }
    text += r#"{"do":"wind","slide":"quill","to":{"turns":8,"lines":0},"toward":"headstock","from":"tailstock","on":"dial"}
"#;
    text += &feed(9, 25, "");
    text += BACK;
    text += &feed(10, 15, through);
    text += STOP;
    text += &tool("drill", r#","diameter":"14 mm""#, 200, "end");
    text += GO;
    text += &feed(9, 20, "");
    text += &feed(11, 15, through);
    text += STOP;
    text += &tool("reamer", r#","diameter":"14.2 mm""#, 100, "mouth");
    text += GO;
    text += &feed(10, 20, "");
    text += STOP;
    text + END
}

/// M8 by hand, 12 mm into a hole of 6.8.
fn tapping() -> String {
    let mut text = format!("{SAFE}{WORK}{CLEARS}");
    text += &centre();
    text += &tool("drill", r#","diameter":"6.8 mm""#, 400, "end");
    text += GO;
    text += &feed(5, 28, "");
    text += STOP;
    text += &tool("countersink", r#","diameter":"12 mm","angle":"90 deg""#, 200, "mouth");
    text += GO;
    text += &feed(0, 8, "");
    text += STOP;
    text += r#"
{"do":"isolate"}
{"do":"guard","is":"open"}
{"do":"mount","what":"cutter","shape":"tap","at":"tailstock","diameter":"8 mm","pitch":"1.25 mm","thread":"M8"}
{"do":"key","is":"out"}
{"do":"oil","what":"cutter"}
{"do":"turn-in","what":"tap","by":"chuck","over":"12 mm","forward":"1/2","back":"1/4","follows":"quill"}
{"do":"turn-out","what":"tap","by":"chuck"}
{"do":"guard","is":"shut"}
"#;
    text + END
}

/// M5 by a split die on a bar of 5 mm.
fn threading() -> String {
    let bar = r#"{"do":"look","that":"work","at":"lathe-spindle","diameter":"5 mm","stock":"mild-steel"}"#;
    format!(
        r#"{SAFE}{bar}{CLEARS}
{{"do":"mount","what":"cutter","shape":"die","at":"tailstock","diameter":"5 mm","pitch":"0.8 mm","thread":"M5"}}
{{"do":"oil","what":"cutter"}}
{{"do":"set","what":"die","is":"open"}}
{{"do":"turn-in","what":"die","by":"chuck","over":"2.4 mm","forward":"1","back":"1/4","follows":"quill"}}
{{"do":"look","that":"square"}}
{{"do":"turn-in","what":"die","by":"chuck","over":"12 mm","forward":"1","back":"1/4","follows":"quill"}}
{{"do":"turn-out","what":"die","by":"chuck"}}
{{"do":"set","what":"die","is":"shut"}}
{{"do":"turn-in","what":"die","by":"chuck","over":"12 mm","forward":"1","back":"1/4","follows":"quill"}}
{{"do":"turn-out","what":"die","by":"chuck"}}
{END}"#
    )
}

const POST: &str = r#"
{"do":"set-height","what":"tool","above":"0 mm"}
{"do":"square-up","what":"compound","to":"along"}
{"do":"lock","what":"compound"}
{"do":"set","what":"speed","rpm":100}
{"do":"look","that":"clears","what":"work"}
{"do":"look","that":"clears","what":"tool"}
{"do":"guard","is":"shut"}
{"do":"energise"}
{"do":"spindle","of":"lathe","is":"forward"}
{"do":"touch","slide":"carriage","toward":"headstock","face":"end","between":"turning-work"}
{"do":"zero","slide":"carriage","on":"dial"}
"#;

/// A piece of 15 mm off a bar of 20.
fn parting() -> String {
    format!(
        r#"{SAFE}
{{"do":"look","that":"work","at":"lathe-spindle","diameter":"20 mm","out":"20 mm","stock":"mild-steel"}}
{{"do":"mount","what":"cutter","shape":"parting-blade","at":"tool-post","width":"2 mm","out":"12 mm"}}
{{"do":"deburr","what":"edges"}}
{{"do":"mount","what":"fitting","which":"catcher"}}
{{"do":"oil","what":"cutter"}}
{POST}
{{"do":"clear","slide":"cross","toward":"out"}}
{{"do":"wind","slide":"carriage","to":{{"turns":0,"lines":170}},"toward":"headstock","from":"tailstock","on":"dial"}}
{{"do":"lock","what":"carriage"}}
{{"do":"touch","slide":"cross","toward":"in","face":"rim","between":"turning-work"}}
{{"do":"zero","slide":"cross","on":"dial"}}
{{"do":"feed","slide":"cross","toward":"in","to":{{"turns":3,"lines":0}},"by":"hand"}}
{{"do":"clear","slide":"cross","toward":"out"}}
{{"do":"feed","slide":"cross","toward":"in","until":"middle","by":"hand"}}
{{"do":"clear","slide":"cross","toward":"out"}}
{{"do":"spindle","of":"lathe","is":"stopped"}}
{{"do":"unlock","what":"carriage"}}
{END}{{"do":"unlock","what":"compound"}}"#
    )
}

/// A knurl along 20 mm of a bar of 20.
fn knurling() -> String {
    format!(
        r#"{SAFE}
{{"do":"look","that":"work","at":"lathe-spindle","diameter":"20 mm","out":"40 mm","stock":"mild-steel"}}
{{"do":"mount","what":"cutter","shape":"knurl","at":"tool-post"}}
{{"do":"look","that":"cutter","is":"clear"}}
{{"do":"clean","what":"work"}}
{{"do":"measure","what":"diameter","with":"caliper"}}
{POST}
{{"do":"clear","slide":"carriage","toward":"tailstock"}}
{{"do":"wind","slide":"carriage","to":{{"turns":0,"lines":30}},"toward":"headstock","from":"tailstock","on":"dial"}}
{{"do":"touch","slide":"cross","toward":"in","face":"rim","between":"turning-work"}}
{{"do":"zero","slide":"cross","on":"dial"}}
{{"do":"lock","what":"carriage"}}
{{"do":"feed","slide":"cross","toward":"in","over":"0.3 mm","by":"hand"}}
{{"do":"unlock","what":"carriage"}}
{{"do":"spindle","of":"lathe","is":"stopped"}}
{{"do":"look","that":"pattern"}}
{{"do":"spindle","of":"lathe","is":"forward"}}
{{"do":"feed","slide":"carriage","toward":"headstock","over":"20 mm","by":"hand"}}
{{"do":"clear","slide":"cross","toward":"out"}}
{{"do":"clear","slide":"carriage","toward":"tailstock"}}
{{"do":"spindle","of":"lathe","is":"stopped"}}
{END}{{"do":"unlock","what":"compound"}}"#
    )
}

/// Work on a centre, started.
fn centred() -> String {
    format!(
        r#"{SAFE}
{{"do":"look","that":"work","at":"lathe-spindle","diameter":"20 mm","stock":"brass"}}
{{"do":"mount","what":"fitting","which":"tailstock-centre"}}
{{"do":"oil","what":"centre"}}
{{"do":"lock","what":"quill"}}
{{"do":"mount","what":"cutter","shape":"turning-tool","at":"tool-post"}}
{{"do":"look","that":"cutter","is":"clear"}}
{{"do":"set","what":"speed","rpm":100}}
{CLEARS}{GO}
{{"do":"spindle","of":"lathe","is":"stopped"}}
{{"do":"isolate"}}
"#
    )
}

#[test]
fn each_is_carried_out() {
    for text in [drilling(), tapping(), threading(), parting(), knurling(), centred()] {
        let lathe = carried(&text);
        assert!(lathe.faults().is_empty(), "{:#?}\n{text}", lathe.faults());
    }
}

#[test]
fn what_comes_out_is_what_was_cut() {
    let lathe = carried(&drilling());
    let bore = &lathe.part().bore;
    assert!(bore.iter().all(|s| (s.radius - 7.1).abs() < 1e-9), "reamed through: {bore:?}");
    assert!((bore[0].from + 30.0).abs() < 1e-9, "as thick as the part: {bore:?}");
    let lathe = carried(&tapping());
    let [tapped] = lathe.part().tapped.as_slice() else { panic!("one thread") };
    assert_eq!((tapped.name.as_deref(), tapped.inside), (Some("M8"), true));
    assert!((tapped.from + 12.0).abs() < 1e-9);
    let mouth = lathe.part().mouth.unwrap();
    assert!((mouth - 8.4).abs() < 1e-9, "6.8 and twice 0.8 at 90°: {mouth}");
    let lathe = carried(&parting());
    assert!(lathe.part().parted && (lathe.part().length.unwrap() - 15.0).abs() < 1e-9);
    let lathe = carried(&knurling());
    let [knurl] = lathe.part().knurls.as_slice() else { panic!("one knurl") };
    assert!((knurl.from + 23.0).abs() < 1e-9 && (knurl.to + 3.0).abs() < 1e-9);
}

/// One change, and that rule fires first.
fn breaks(text: &str, changes: &[(&str, &str, &str)]) {
    for (from, to, rule) in changes {
        let changed = text.replacen(from, to, 1);
        assert_ne!(&changed, text, "{rule}: nothing was changed by {from}");
        let lathe = carried(&changed);
        assert_eq!(first(&lathe), *rule, "{from} → {to}: {:?}", lathe.faults().first());
    }
}

/// Everything between two marks taken out.
fn without(text: &str, from: &str, to: &str) -> String {
    let start = text.find(from).unwrap();
    let end = text[start..].find(to).unwrap() + start;
    format!("{}{}", &text[..start], &text[end..])
}

#[test]
fn drilling_and_reaming() {
    let text = drilling();
    let reamer = r#"{"do":"mount","what":"cutter","shape":"reamer""#;
    let large =
        r#"{"do":"mount","what":"cutter","shape":"drill","at":"tailstock","diameter":"14 mm"}"#;
    let small =
        r#"{"do":"mount","what":"cutter","shape":"drill","at":"tailstock","diameter":"5 mm"}"#;
    let centre = r#"{"do":"mount","what":"cutter","shape":"centre-drill""#;
    for (from, to, rule) in
        [(centre, small, "DRI-001"), (small, large, "DRI-002"), (small, reamer, "REA-012")]
    {
        // What stands between is the tools left out; the reamer goes without the large drill too.
        let mut changed = without(&text, from, if rule == "REA-012" { reamer } else { to });
        if rule == "REA-012" {
            changed = changed.replace(r#""face":"mouth""#, r#""face":"end""#);
        }
        assert_eq!(first(&carried(&changed)), rule);
    }
    breaks(
        &text,
        &[
            (r#"{"do":"lock","what":"tailstock"}"#, "", "DRI-003"),
            (
                r#""slide":"quill","toward":"headstock","to":{"turns":5,"lines":0},"by""#,
                r#""slide":"carriage","toward":"headstock","over":"5 mm","by""#,
                "DRI-004",
            ),
            (
                r#"{"do":"look","that":"tailstock-in-line"}"#,
                r#"{"do":"set-over","by":"1 mm","toward":"in"}"#,
                "DRI-005",
            ),
            (r#"{"turns":5,"lines":0}"#, r#"{"turns":7,"lines":0}"#, "DRI-007"),
            (
                r#"{"turns":10,"lines":15},"until":"through""#,
                r#"{"turns":10,"lines":15}"#,
                "DRI-008",
            ),
            (r#"{"do":"look","that":"clears","what":"behind"}"#, "", "DRI-009"),
            (r#""rpm":800"#, r#""rpm":100"#, "DRI-012"),
            (r#""until":"cone""#, r#""over":"4 mm""#, "DRI-013"),
            (
                "\"at\":\"tailstock\",\"diameter\":\"5 mm\"}\n{\"do\":\"key\",\"is\":\"out\"}",
                "\"at\":\"tailstock\",\"diameter\":\"5 mm\"}",
                "DRI-017",
            ),
            (r#""14.2 mm""#, r#""14.4 mm""#, "REA-001"),
            (r#""14.2 mm""#, r#""15 mm""#, "REA-006"),
            (r#""14.2 mm""#, r#""14.02 mm""#, "REA-018"),
            (r#""rpm":100"#, r#""rpm":400"#, "REA-003"),
        ],
    );
    // The reamer's own last lines.
    let (head, tail) = text.split_at(text.find(reamer).unwrap());
    for (from, to, rule) in [
        (
            "{\"do\":\"clear\",\"slide\":\"quill\",\"toward\":\"tailstock\"}\n{\"do\":\"spindle\",\"of\":\"lathe\",\"is\":\"stopped\"}",
            "{\"do\":\"spindle\",\"of\":\"lathe\",\"is\":\"stopped\"}",
            "REA-011",
        ),
        (
            r#"{"turns":10,"lines":20},"by":"hand"}"#,
            "{\"turns\":5,\"lines\":0},\"by\":\"hand\"}\n{\"do\":\"feed\",\"slide\":\"quill\",\"toward\":\"headstock\",\"to\":{\"turns\":10,\"lines\":20},\"by\":\"hand\"}",
            "REA-011",
        ),
        (
            "{\"do\":\"clear\",\"slide\":\"quill\",\"toward\":\"tailstock\"}\n{\"do\":\"spindle\",\"of\":\"lathe\",\"is\":\"stopped\"}",
            "{\"do\":\"spindle\",\"of\":\"lathe\",\"is\":\"reverse\"}",
            "RUN-TOOL-IN-WORK",
        ),
    ] {
        let changed = tail.replacen(from, to, 1);
        assert_ne!(changed, tail, "{rule}");
        assert_eq!(first(&carried(&format!("{head}{changed}"))), rule);
    }
    let back = tail.replacen(r#""is":"forward""#, r#""is":"reverse""#, 1);
    assert_eq!(first(&carried(&format!("{head}{back}"))), "REA-009");
    let over = head.to_string() + r#"{"do":"set-over","by":"1 mm","toward":"in"}"# + "\n" + tail;
    assert_eq!(first(&carried(&over)), "REA-015");
    let brass = text.replace("mild-steel", "brass");
    breaks(
        &brass,
        &[(
            r#"{"turns":5,"lines":0},"by":"hand""#,
            r#"{"turns":5,"lines":0},"by":"power","each_turn":"0.1 mm""#,
            "DRI-010",
        )],
    );
}

#[test]
fn taps_and_dies() {
    breaks(
        &tapping(),
        &[
            (
                "{\"do\":\"isolate\"}\n{\"do\":\"guard\",\"is\":\"open\"}",
                r#"{"do":"guard","is":"open"}"#,
                "TPH-003",
            ),
            (r#""forward":"1/2""#, r#""forward":"2""#, "TPH-007"),
            (r#""back":"1/4""#, r#""back":"0""#, "TPH-007"),
            (r#""over":"12 mm""#, r#""over":"15 mm""#, "TPH-009"),
            (
                "\"thread\":\"M8\"}\n{\"do\":\"key\",\"is\":\"out\"}\n{\"do\":\"oil\",\"what\":\"cutter\"}",
                "\"thread\":\"M8\"}",
                "TPH-010",
            ),
            (r#","follows":"quill""#, "", "TPH-011"),
            (r#"{"turns":0,"lines":8}"#, r#"{"turns":0,"lines":2}"#, "TPH-012"),
            (r#""diameter":"6.8 mm""#, r#""diameter":"6 mm""#, "PART-TOO-WIDE"),
            (r#""by":"chuck","over""#, r#""by":"tap-wrench","over""#, "TPH-003"),
            (r#"{"do":"turn-out","what":"tap","by":"chuck"}"#, "", "LEFT-CUTTER"),
        ],
    );
    let power = tapping().replace("{\"do\":\"isolate\"}\n{\"do\":\"guard\",\"is\":\"open\"}", "");
    let runs = |text: &str| {
        text.replacen(r#"{"do":"turn-in""#, "{\"do\":\"look\",\"that\":\"cutter\",\"is\":\"clear\"}\n{\"do\":\"energise\"}\n{\"do\":\"spindle\",\"of\":\"lathe\",\"is\":\"forward\"}\n{\"do\":\"turn-in\"", 1)
    };
    assert_eq!(first(&carried(&runs(&power))), "TPH-004");
    let die = threading().replacen(r#"{"do":"turn-in""#, "{\"do\":\"set\",\"what\":\"speed\",\"rpm\":100}\n{\"do\":\"key\",\"is\":\"out\"}\n{\"do\":\"turn-in\"", 1);
    assert_eq!(first(&carried(&runs(&die))), "TPH-006", "a small thread is cut by hand");
    let fed = tapping().replacen(
        r#"{"do":"turn-in","what":"tap","by":"chuck","over":"12 mm","forward":"1/2","back":"1/4","follows":"quill"}"#,
        r#"{"do":"feed","slide":"quill","toward":"headstock","over":"12 mm","by":"hand"}"#,
        1,
    );
    assert_eq!(first(&carried(&fed)), "TPH-004");
    breaks(
        &threading(),
        &[
            (r#","follows":"quill""#, "", "TPH-011"),
            (r#""back":"1/4""#, r#""back":"1/8""#, "DIE-006"),
            (r#""forward":"1""#, r#""forward":"2""#, "DIE-006"),
            (r#"{"do":"look","that":"square"}"#, "", "DIE-007"),
            (r#"{"do":"set","what":"die","is":"open"}"#, "", "DIE-005"),
            (r#"{"do":"set","what":"die","is":"shut"}"#, "", "DIE-005"),
            (r#""diameter":"5 mm","stock""#, r#""diameter":"6 mm","stock""#, "PART-TOO-WIDE"),
        ],
    );
    // Where the tailstock slides along by itself, nothing flat holds the die square.
    let slides = threading().replacen(
        r#"{"do":"lock","what":"tailstock"}"#,
        r#"{"do":"unlock","what":"tailstock"}"#,
        1,
    );
    breaks(&slides, &[(r#","follows":"quill""#, "", "DIE-004")]);
}

#[test]
fn parting_knurling_and_centres() {
    breaks(
        &parting(),
        &[
            (r#""width":"2 mm","out":"12 mm""#, r#""width":"2 mm","out":"16 mm""#, "PAR-004"),
            (r#""width":"2 mm","out":"12 mm""#, r#""width":"2 mm","out":"5 mm""#, "PAR-021"),
            (r#"{"do":"lock","what":"carriage"}"#, "", "PAR-008"),
            (r#""out":"20 mm","stock""#, r#""out":"50 mm","stock""#, "PAR-011"),
            (r#"{"do":"oil","what":"cutter"}"#, "", "PAR-013"),
            (r#"{"do":"deburr","what":"edges"}"#, "", "PAR-015"),
            (r#"{"do":"mount","what":"fitting","which":"catcher"}"#, "", "PAR-016"),
            (
                r#"{"do":"mount","what":"fitting","which":"catcher"}"#,
                "{\"do\":\"mount\",\"what\":\"fitting\",\"which\":\"catcher\"}\n{\"do\":\"mount\",\"what\":\"fitting\",\"which\":\"tailstock-centre\"}\n{\"do\":\"oil\",\"what\":\"centre\"}\n{\"do\":\"lock\",\"what\":\"quill\"}",
                "PAR-003",
            ),
            (
                "\"until\":\"middle\",\"by\":\"hand\"}\n{\"do\":\"clear\",\"slide\":\"cross\",\"toward\":\"out\"}",
                "\"until\":\"middle\",\"by\":\"hand\"}\n{\"do\":\"clear\",\"slide\":\"cross\",\"toward\":\"out\"}\n{\"do\":\"feed\",\"slide\":\"cross\",\"toward\":\"in\",\"over\":\"2 mm\",\"by\":\"hand\"}\n{\"do\":\"clear\",\"slide\":\"cross\",\"toward\":\"out\"}",
                "PAR-019",
            ),
        ],
    );
    let place = without(
        &parting(),
        r#"{"do":"touch","slide":"carriage""#,
        r#"{"do":"lock","what":"carriage"}"#,
    );
    let faults = carried(&place);
    assert!(faults.faults().iter().any(|fault| fault.rule.id() == "PAR-012"));
    breaks(
        &knurling(),
        &[
            (r#"{"turns":0,"lines":30}"#, r#"{"turns":1,"lines":0}"#, "KNU-003"),
            (r#"{"do":"look","that":"pattern"}"#, "", "KNU-006"),
            (
                "\"over\":\"20 mm\",\"by\":\"hand\"}\n{\"do\":\"clear\",\"slide\":\"cross\",\"toward\":\"out\"}\n{\"do\":\"clear\",\"slide\":\"carriage\",\"toward\":\"tailstock\"}",
                "\"over\":\"20 mm\",\"by\":\"hand\"}",
                "KNU-008",
            ),
            (
                r#""slide":"cross","toward":"in","over":"0.3 mm""#,
                r#""slide":"cross","toward":"out","over":"0.3 mm""#,
                "KNU-009",
            ),
        ],
    );
    let long = knurling().replace(r#""out":"40 mm""#, r#""out":"90 mm""#);
    assert!(carried(&long).faults().iter().any(|fault| fault.rule.id() == "KNU-014"));
    breaks(
        &centred(),
        &[
            (r#"{"do":"lock","what":"quill"}"#, "", "CEN-004"),
            (r#"{"do":"oil","what":"centre"}"#, "", "CEN-006"),
            (
                r#"{"do":"look","that":"cutter","is":"clear"}"#,
                "{\"do\":\"look\",\"that\":\"cutter\",\"is\":\"clear\"}\n{\"do\":\"oil\",\"what\":\"cutter\"}",
                "GEN-040",
            ),
        ],
    );
}
