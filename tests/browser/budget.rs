//! What the page takes: time for each operation's answer on a slow phone, and memory.

use crate::download::Download;
use crate::phone::Phone;
use crate::{Outcome, ensure};
use serde_json::{Value, json};
use std::fs;

/// A keystroke's answer is painted within so many milliseconds at a quarter of the speed. Machines
/// differ and share their processors: what is held against this is the quickest of several, and
/// only so many times as long is a fault.
const PAINTED: f64 = 50.0;
const GROSS: f64 = 3.0;
/// What is too long on a busy machine is timed again, so many times in all.
const GOES: u32 = 4;

/// Each kind with a blank of it, and what is typed there in turn.
const TYPED: &[(&str, &str, [&str; 2])] = &[
    (
        r#"{"kind": "thread", "designation": "M10x1", "length": "20 mm"}"#,
        "designation",
        ["3/8 BSF", "M10x1"],
    ),
    (r#"{"kind": "divide", "into": 24, "diameter": "32 mm"}"#, "into", ["127", "24"]),
    (
        r#"{"kind": "graduate", "lead": "2 mm", "least_count": "0.02 mm", "diameter": "60 mm"}"#,
        "diameter",
        ["61 mm", "60 mm"],
    ),
    (r#"{"kind": "make-plate", "holes": 127, "diameter": "120 mm"}"#, "holes", ["87", "127"]),
    (
        r#"{"kind": "size", "process": "turn", "from": "12 mm", "to": "9.9 mm", "length": "25 mm", "stock": "mild-steel"}"#,
        "to",
        ["9.8 mm", "9.9 mm"],
    ),
    (
        r#"{"kind": "cut", "process": "turn", "stock": "mild-steel", "diameter": "20 mm", "depth": "0.5 mm"}"#,
        "diameter",
        ["40 mm", "20 mm"],
    ),
    (
        r#"{"kind": "hole", "purpose": "tap", "designation": "M8", "depth": "12 mm", "stock": "mild-steel"}"#,
        "designation",
        ["M6", "M8"],
    ),
    (
        r#"{"kind": "taper", "named": "MT2", "between_centres": "200 mm", "stock": "mild-steel"}"#,
        "between_centres",
        ["250 mm", "200 mm"],
    ),
    (r#"{"kind": "fit", "basic": "25 mm", "code": "H7/g6"}"#, "basic", ["40 mm", "25 mm"]),
    (
        r#"{"kind": "part-off", "stock": "mild-steel", "diameter": "20 mm", "blade_width": "2 mm"}"#,
        "diameter",
        ["30 mm", "20 mm"],
    ),
    (
        r#"{"kind": "hold", "in": "three-jaw", "on": "the bar", "diameter": "20 mm", "stick_out": "30 mm"}"#,
        "stick_out",
        ["40 mm", "30 mm"],
    ),
    (r#"{"kind": "space", "places": 5, "pitch": "20 mm"}"#, "pitch", ["25 mm", "20 mm"]),
    (r#"{"kind": "read-dial", "amount": "5 mm"}"#, "amount", ["6 mm", "5 mm"]),
    (
        r#"{"kind": "which-thread", "diameter": "9.9 mm", "spaces": 10, "over": "15 mm"}"#,
        "diameter",
        ["11.9 mm", "9.9 mm"],
    ),
    (r#"{"kind": "chart", "of": "threads"}"#, "also", ["0.123 mm", "0.321 mm"]),
    (
        r#"{"kind": "more-gears", "want": ["8 tpi", "19 tpi"], "add": 1, "from": [20, 127]}"#,
        "want",
        ["8 tpi", "8 tpi, 19 tpi"],
    ),
];

/// Types each text in turn into the keypad's field, and how long each time until another answer
/// in force is painted.
const TIMED: &str = "async (texts) => {
  const field = document.getElementById('keypad-field');
  const answer = () => {
    const fresh = document.querySelector('#op-0 .answer:not(.stale)');
    return fresh && fresh.innerHTML;
  };
  const sheet = document.querySelector('main');
  const times = [];
  for (let n = 0; n < 8; n += 1) {
    const before = answer();
    field.value = texts[n % texts.length];
    const from = performance.now();
    const drawn = new Promise((done, fail) => {
      const look = new MutationObserver(() => {
        const now = answer();
        if (now && now !== before) { look.disconnect(); done(); }
      });
      look.observe(sheet, { subtree: true, childList: true, characterData: true, attributes: true });
      setTimeout(() => fail(new Error(`no other answer for ${field.value}`)), 10_000);
    });
    field.dispatchEvent(new Event('input', { bubbles: true }));
    await drawn;
    await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
    times.push(performance.now() - from);
    await new Promise((done) => setTimeout(done, 50));
  }
  return times;
}";

pub(crate) async fn a_keystrokes_answer_is_painted_soon(phone: &mut Phone) -> Outcome {
    phone.open("").await?;
    phone.find("#op-2 .setting").await?;
    let kinds = phone
        .js("return [...document.querySelectorAll('[data-do^=\"add \"]')].map((key) => key.dataset.do.slice(4))")
        .await?;
    let kinds: Vec<&str> =
        kinds.as_array().into_iter().flatten().filter_map(Value::as_str).collect();
    let folder = Download::folder()?;
    let mut slow = Vec::new();
    let mut timed = Vec::new();
    println!(
        "{:>7} {:>7} {:>7}  ms from a keystroke to its answer at a quarter of the speed",
        "least", "middle", "worst"
    );
    for (operation, key, texts) in TYPED {
        let operation: Value = serde_json::from_str(operation)?;
        let kind = operation.get("kind").and_then(Value::as_str).unwrap_or_default().to_owned();
        let setup = json!({
            "format": "latheside-setup", "version": 1, "name": kind, "operations": [operation]
        });
        let file = folder.path.join(format!("{kind}.json"));
        fs::write(&file, setup.to_string())?;
        phone.to("#setups").await?;
        phone.js("document.querySelector('details[data-fold=open]').open = true").await?;
        phone.choose_file("#import", &file).await?;
        phone.until("location.hash.startsWith('#setup/')").await?;
        phone.says("main h1, main", &kind).await?;
        phone
            .find("#op-0 .answer:not(.stale)")
            .await
            .map_err(|why| format!("{kind} has no answer: {why}"))?;
        phone.js("document.querySelectorAll('details[data-fold^=more-]').forEach((d) => d.open = true)").await?;
        phone.open_blank(&format!("#blank-0-{key}")).await?;
        let mut times: Vec<f64> = Vec::new();
        for _ in 0..GOES {
            phone.devtools("Emulation.setCPUThrottlingRate", json!({ "rate": 4 })).await?;
            let timed = phone.promised(&format!("({TIMED})({})", json!(texts))).await;
            phone.devtools("Emulation.setCPUThrottlingRate", json!({ "rate": 1 })).await?;
            let timed = timed.map_err(|why| format!("{kind}: {why}"))?;
            times.extend(timed.as_array().into_iter().flatten().filter_map(Value::as_f64));
            times.sort_by(f64::total_cmp);
            if times.first().is_some_and(|least| *least <= GROSS * PAINTED) {
                break;
            }
        }
        let [least, .., worst] = times[..] else {
            return Err(format!("{kind}: nothing was timed").into());
        };
        let middle = times[times.len() / 2];
        println!("{least:>7.0} {middle:>7.0} {worst:>7.0}  {kind}");
        if least > GROSS * PAINTED {
            slow.push(format!("{kind}: {least:.0} ms"));
        }
        phone.tap("[data-do=done]").await?;
        timed.push(kind);
    }
    let missing: Vec<_> = kinds.iter().filter(|kind| !timed.iter().any(|t| t == *kind)).collect();
    ensure(missing.is_empty(), format!("never timed: {missing:?}"))?;
    ensure(slow.is_empty(), format!("far more than {PAINTED} ms:\n{}", slow.join("\n")))
}

/// Bytes that the page may hold after a long run.
const HEAP: f64 = 8e6;

/// A clock that makes every pause of the bench pass at once.
const HASTE: &str = "
  const now = Date.now;
  window.ahead = 0;
  Date.now = () => now() + window.ahead;
";

pub(crate) async fn a_long_run_takes_little_memory(phone: &mut Phone) -> Outcome {
    phone.before_load(HASTE).await?;
    phone.open("").await?;
    phone.enter("#blank-1-into", "600").await?;
    phone.js("document.querySelector('[data-do=\"out 0\"]').click()").await?;
    phone.until("!document.querySelector('#op-2')").await?;
    phone.tap("a.start").await?;
    phone.says(".bench-lit span", "0 of ").await?;
    let before = heap(phone).await?;
    phone
        .promised(
            "(async () => {
              for (let n = 0; n < 1000; n += 1) {
                window.ahead += 500;
                document.querySelector('[data-do=forward]').click();
                await new Promise((done) => setTimeout(done));
              }
            })()",
        )
        .await?;
    phone.says(".bench-lit span", "1000 of ").await?;
    let after = heap(phone).await?;
    let mega = |bytes: f64| bytes / 1e6;
    println!(
        "after 1,000 steps the page holds {:.1} MB of {:.0}: {:.1} of script and {:.1} of works; before them {:.1}",
        mega(after.0 + after.1),
        mega(HEAP),
        mega(after.0),
        mega(after.1),
        mega(before.0 + before.1)
    );
    ensure(after.0 + after.1 <= HEAP, format!("it holds {:.1} MB", mega(after.0 + after.1)))
}

/// Bytes that are held: by script, once nothing is kept in vain, and by both modules.
async fn heap(phone: &Phone) -> Outcome<(f64, f64)> {
    for _ in 0..2 {
        phone.devtools("HeapProfiler.collectGarbage", json!({})).await?;
    }
    let script = phone.devtools("Runtime.getHeapUsage", json!({})).await?;
    let script = script.get("usedSize").and_then(Value::as_f64).ok_or("no heap was counted")?;
    let works = phone
        .promised(
            "Promise.all([import(document.querySelector('link[rel=modulepreload][data-wasm]').href),
               window.lathesideWorks].map(async (module) => (await (await module).default()).memory.buffer.byteLength))
             .then((sizes) => sizes.reduce((a, b) => a + b))",
        )
        .await?;
    Ok((script, works.as_f64().ok_or("no works were counted")?))
}
