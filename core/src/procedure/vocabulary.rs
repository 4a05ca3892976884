//! Every field of every action is said: another value of it makes other words.

use super::term::{
    Adjustable, Axis, Between, CutterAt, Face, FeedBy, Fitting, Gauge, GearOn, HolderKind, InOut,
    Instrument, Joining, Lockable, Measured, OnOff, OpenShut, Running, Screwed, Shape, Slide,
    Spindle, Tended, Toward, Tumbler, Turned, TurnedBy, Turning, Until, WaitFor, Winding, WorkAt,
};
use super::{Action, Span, words};
use alloc::collections::BTreeSet;
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use serde_json::{Value, json};

/// Every action, setting, item and statement, with every field that it may have.
const ALL: &str = r#"
{"do":"isolate"}
{"do":"energise"}
{"do":"guard","is":"shut"}
{"do":"key","is":"out"}
{"do":"mount","what":"work","at":"lathe-spindle","in":"three-jaw","holder_kind":"chuck","gripped_by":"the rim","gripped":"22 mm","grip":"15 mm","out":"40 mm","diameter":"21 mm","bore":"8 mm","bore_depth":"12 mm","length":"60 mm","stock":"mild-steel"}
{"do":"mount","what":"cutter","shape":"end-mill","at":"lathe-spindle","axis":"along","name":"mill 6","diameter":"6 mm","width":"5 mm","angle":"60 deg","teeth":4,"out":"20 mm","holder":"collet 6","material":"hss","thread":"M6"}
{"do":"mount","what":"gear","teeth":40,"on":"stud"}
{"do":"mount","what":"plate","on":"plate-shaft","number":2,"circles":[15,16]}
{"do":"mount","what":"pin","pin":"crank","circle":18}
{"do":"mount","what":"head","axis":"across"}
{"do":"mount","what":"holder","name":"three-jaw","kind":"chuck","on":"lathe-spindle"}
{"do":"mount","what":"fitting","which":"compound"}
{"do":"remove","what":"work","at":"lathe-spindle","in":"three-jaw","holder_kind":"chuck","gripped_by":"the rim","gripped":"22 mm","grip":"15 mm","out":"40 mm","diameter":"21 mm","bore":"8 mm","bore_depth":"12 mm","length":"60 mm","stock":"mild-steel"}
{"do":"remove","what":"cutter","shape":"end-mill","at":"lathe-spindle","axis":"along","name":"mill 6","diameter":"6 mm","width":"5 mm","angle":"60 deg","teeth":4,"out":"20 mm","holder":"collet 6","material":"hss","thread":"M6"}
{"do":"remove","what":"gear","teeth":40,"on":"stud"}
{"do":"remove","what":"plate","on":"plate-shaft","number":2,"circles":[15,16]}
{"do":"remove","what":"pin","pin":"crank","circle":18}
{"do":"remove","what":"head","axis":"across"}
{"do":"remove","what":"holder","name":"three-jaw","kind":"chuck","on":"lathe-spindle"}
{"do":"remove","what":"fitting","which":"compound"}
{"do":"set","what":"speed","rpm":400,"how":"belt 2"}
{"do":"set","what":"cutter-speed","rpm":1500}
{"do":"set","what":"feed","each_turn":"0.1 mm","how":"lever A"}
{"do":"set","what":"gearbox","ratio":"2/3","how":"lever B"}
{"do":"set","what":"tumbler","is":"forward"}
{"do":"set","what":"back-gear","is":"in"}
{"do":"spindle","of":"lathe","is":"forward"}
{"do":"turn-by-hand","what":"lathe-spindle","by":"chuck","way":"forward","turns":"1","teeth":"10","of":60}
{"do":"lock","what":"carriage"}
{"do":"unlock","what":"carriage"}
{"do":"mesh","driver":{"teeth":40,"on":"first-driver"},"driven":{"teeth":60,"on":"leadscrew"}}
{"do":"part","driver":{"teeth":40,"on":"first-driver"},"driven":{"teeth":60,"on":"leadscrew"}}
{"do":"half-nuts","is":"in","at":[1,3]}
{"do":"power-feed","is":"in","slide":"carriage"}
{"do":"crank-pin","is":"in"}
{"do":"stop-pin","is":"in"}
{"do":"detent","is":"in"}
{"do":"worm","is":"in"}
{"do":"turn-crank","turns":4,"holes":8,"circle":18,"way":"forward"}
{"do":"turn-plate","holes":3,"circle":15,"way":"forward"}
{"do":"set-arms","circle":18,"spaces":8}
{"do":"swing-arms"}
{"do":"swing","what":"compound","to":"29.5 deg","from":"across","handle":"out"}
{"do":"square-up","what":"compound","to":"along"}
{"do":"set-over","by":"2 mm","toward":"out"}
{"do":"set-height","what":"tool","above":"0.1 mm"}
{"do":"touch","slide":"cross","toward":"in","face":"rim","between":"paper","thick":"0.1 mm"}
{"do":"zero","slide":"cross","on":"dial"}
{"do":"wind","slide":"cross","to":{"turns":2,"lines":41,"mark":40,"beyond":"1/3"},"toward":"in","from":"out","on":"dial"}
{"do":"wind","slide":"cross","by":"2.5 mm","toward":"in","from":"out","on":"rule"}
{"do":"feed","slide":"carriage","toward":"headstock","over":"22 mm","to":{"turns":2,"lines":41,"mark":40,"beyond":"1/3"},"until":"middle","by":"hand","each_turn":"0.1 mm","beat":{"turn":"1/3","seconds":"2"}}
{"do":"clear","slide":"cross","toward":"out","by":"2 mm"}
{"do":"look","that":"supply","is":"on"}
{"do":"look","that":"guard","is":"shut"}
{"do":"look","that":"key","is":"out"}
{"do":"look","that":"spindle","of":"lathe","is":"stopped"}
{"do":"look","that":"lock","what":"carriage","is":"on"}
{"do":"look","that":"half-nuts","is":"out"}
{"do":"look","that":"power-feed","is":"out"}
{"do":"look","that":"tumbler","is":"neutral"}
{"do":"look","that":"crank-pin","is":"in","hole":8,"circle":18}
{"do":"look","that":"stop-pin","is":"in","hole":8,"circle":18}
{"do":"look","that":"detent","is":"in","tooth":"7.5","of":60}
{"do":"look","that":"worm","is":"in"}
{"do":"look","that":"plate-creep","way":"forward"}
{"do":"look","that":"dial","slide":"cross","reads":{"turns":2,"lines":41,"mark":40,"beyond":"1/3"},"toward":"in"}
{"do":"look","that":"cutter","is":"over-first","off":"0.02 mm"}
{"do":"look","that":"tool","shape":"end-mill","at":"lathe-spindle","axis":"along","name":"mill 6","diameter":"6 mm","width":"5 mm","angle":"60 deg","teeth":4,"out":"20 mm","holder":"collet 6","material":"hss","thread":"M6"}
{"do":"look","that":"work","at":"lathe-spindle","in":"three-jaw","holder_kind":"chuck","gripped_by":"the rim","gripped":"22 mm","grip":"15 mm","out":"40 mm","diameter":"21 mm","bore":"8 mm","bore_depth":"12 mm","length":"60 mm","stock":"mild-steel"}
{"do":"look","that":"lies","what":"compound","to":"along"}
{"do":"look","that":"tailstock-in-line"}
{"do":"look","that":"height","what":"tool","above":"0.1 mm"}
{"do":"look","that":"clears","what":"work"}
{"do":"look","that":"slack","slide":"cross","toward":"in"}
{"do":"look","that":"runs-true","within":"0.05 mm"}
{"do":"measure","what":"diameter","with":"micrometer","should_be":"20 mm","up_to":"20.2 mm","is":"20.1 mm","fills":"measured"}
{"do":"measure","what":"diameter","with":"micrometer","should_be":"20 mm","fills":"measured"}
{"do":"try","with":"nut"}
{"do":"clean","what":"work"}
{"do":"oil","what":"work"}
{"do":"deburr","what":"work"}
{"do":"chalk","what":"detent"}
{"do":"wait","until":"cool"}
{"do":"adjust","what":"compound","angle":"0.5 deg","toward":"out"}
{"do":"adjust","what":"tailstock","by":"0.5 mm","toward":"out"}
{"do":"indicate","slide":"carriage","over":"20 mm","reads":{"turns":2,"lines":41,"mark":40,"beyond":"1/3"},"should_be":"0.5 mm","is":"0.52 mm","fills":"measured"}
{"do":"look","that":"touches","face":"rim","between":"paper"}
{"do":"turn-in","what":"tap","by":"tap-wrench","over":"12 mm","forward":"0.5","back":"0.25","follows":"quill"}
{"do":"turn-in","what":"die","by":"chuck","until":"through","forward":"1","back":"0.5"}
{"do":"turn-out","what":"tap","by":"tap-wrench"}
{"do":"drive-by-hand","what":"lathe-spindle","by":"chuck","way":"forward","over":"20 mm","until":"groove"}
{"do":"mark-out","from_edge":"12 mm"}
{"do":"approach","slide":"cross","toward":"in"}
{"do":"find-slack","slide":"cross","should_be":"0.1 mm"}
{"do":"join","how":"shrunk","warmer":"120"}
{"do":"set","what":"die","is":"open"}
{"do":"set","what":"lead","each_turn":"1.5 mm"}
{"do":"look","that":"carriage-creep","toward":"headstock"}
{"do":"look","that":"spaces","count":10,"over":"15 mm"}
{"do":"look","that":"flanks-square"}
{"do":"look","that":"chasing-dial","wheel":32}
{"do":"look","that":"tap-hole"}
{"do":"look","that":"square"}
{"do":"look","that":"pattern"}
"#;

/// Whole numbers, figures with a unit, lists, and every word of the trade: whatever might stand in a field.
fn values() -> Vec<Value> {
    let mut all = Vec::from([
        json!(1),
        json!(7),
        json!("7"),
        json!("2/7"),
        json!("7.7 mm"),
        json!("-7.7 mm"),
        json!("0 mm"),
        json!("7.7 in"),
        json!("7 deg"),
        json!([7]),
        json!([]),
        json!("another name"),
    ]);
    let mut keys: Vec<&str> = Vec::from(["detent", "crank-pin", "stop-pin", "work", "crank"]);
    keys.extend(["stop", "cutter", "tool", "train", "clear", "over-first", "opposite-first"]);
    keys.extend(["in-groove", "beyond-end", "in-run-out"]);
    macro_rules! every {
        ($($name:ident)*) => {$( keys.extend($name::ALL.iter().map(|one| one.key())); )*};
    }
    every! {
        Adjustable Axis Between CutterAt Face FeedBy Fitting Gauge GearOn HolderKind InOut Instrument
        Joining Lockable Measured OnOff OpenShut Running Screwed Shape Slide Spindle Tended Toward Tumbler Turned
        TurnedBy Turning Until WaitFor Winding WorkAt
    }
    keys.sort_unstable();
    keys.dedup();
    all.extend(keys.into_iter().map(|key| json!(key)));
    all
}

fn said(action: &Action) -> String {
    let text = |span: &Span| match span {
        Span::Word(text) | Span::Figure(text) => text.clone(),
    };
    let lines = words::lines(core::slice::from_ref(action));
    lines.iter().flatten().map(text).collect()
}

/// The same with one field, however deep, changed to each value, or left out.
fn changed(json: &Value, values: &[Value]) -> Vec<Value> {
    let Value::Object(fields) = json else { return Vec::new() };
    let mut all = Vec::new();
    for (key, old) in fields {
        let put = |value: Value| {
            let mut new = fields.clone();
            new.insert(key.clone(), value);
            Value::Object(new)
        };
        let mut without = fields.clone();
        without.remove(key);
        all.push(Value::Object(without));
        all.extend(values.iter().cloned().map(put));
        all.extend(changed(old, values).into_iter().map(put));
    }
    all
}

/// The fields in which two differ.
fn differs(one: &Value, other: &Value) -> String {
    let (Value::Object(a), Value::Object(b)) = (one, other) else { return String::new() };
    let keys = a.keys().filter(|key| a.get(*key) != b.get(*key));
    keys.cloned().collect::<Vec<_>>().join(", ")
}

fn samples() -> Vec<Value> {
    let lines = ALL.lines().filter(|line| !line.is_empty());
    lines.map(|line| serde_json::from_str(line).unwrap()).collect()
}

#[test]
fn another_value_of_any_field_makes_other_words() {
    let values = values();
    let mut wrong: BTreeSet<String> = BTreeSet::new();
    let mut tried = 0;
    for json in samples() {
        let action: Action =
            serde_json::from_value(json.clone()).unwrap_or_else(|why| panic!("{json}: {why}"));
        assert_eq!(serde_json::to_value(&action).unwrap(), json, "every field is read");
        for other in changed(&json, &values) {
            let Ok(new) = serde_json::from_value::<Action>(other.clone()) else { continue };
            if new == action {
                continue;
            }
            tried += 1;
            if said(&new) == said(&action) {
                wrong.insert(format!("{}\n{}", said(&action), differs(&json, &other)));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert!(tried > 2000, "{tried} were tried");
}

/// What a tag may be, from what is said of one that it may not.
fn known(of: &Value) -> Vec<String> {
    let why = serde_json::from_value::<Action>(of.clone()).unwrap_err().to_string();
    let names = why.split('`').skip(3).step_by(2);
    names.map(ToString::to_string).collect()
}

#[test]
fn every_action_is_among_them() {
    let samples = samples();
    let among = |of: Value, tag: &str| {
        let names = known(&of);
        assert!(names.len() > 5, "{names:?}");
        for name in names {
            let mut wanted = of.clone();
            wanted[tag] = json!(name);
            let has =
                samples.iter().any(|one| one["do"] == wanted["do"] && one[tag] == wanted[tag]);
            assert!(has, "{wanted} isn't tried");
        }
    };
    among(json!({"do": "?"}), "do");
    among(json!({"do": "mount", "what": "?"}), "what");
    among(json!({"do": "remove", "what": "?"}), "what");
    among(json!({"do": "set", "what": "?"}), "what");
    among(json!({"do": "look", "that": "?"}), "that");
}
