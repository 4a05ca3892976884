//! Work carried out a step at a time, its place kept whatever happens.

use crate::download::Download;
use crate::phone::{ARROW_LEFT, ARROW_RIGHT, Phone};
use crate::{Outcome, ensure};
use serde_json::json;
use std::fs;
use std::time::Duration;

/// The step that is shown, by how many are done.
async fn done(phone: &Phone) -> Outcome<String> {
    let said = phone.text(".bench-lit span").await?;
    Ok(said.split_whitespace().next().unwrap_or_default().to_owned())
}

async fn is_at(phone: &Phone, step: usize) -> Outcome {
    phone.says(".bench-lit span", &format!("{step} of ")).await
}

async fn start(phone: &Phone) -> Outcome {
    phone.open("").await?;
    phone.tap("a.start").await?;
    phone.find(".bench-title").await?;
    is_at(phone, 0).await
}

pub(crate) async fn steps_go_forward_and_back(phone: &mut Phone) -> Outcome {
    start(phone).await?;
    phone.shot("bench").await?;
    let first = phone.text(".bench-title").await?;
    phone.tap("[data-do=forward]").await?;
    is_at(phone, 1).await?;
    let second = phone.text(".bench-title").await?;
    ensure(first != second, format!("{first} twice"))?;
    phone.rest().await;
    phone.tap("[data-do=back]").await?;
    is_at(phone, 0).await?;
    ensure(phone.text(".bench-title").await? == first, "back is somewhere else")?;
    phone.rest().await;
    phone.tap("[data-do=back]").await?;
    phone.rest().await;
    is_at(phone, 0).await?;
    // The keys of a pedal.
    phone.keyboard(ARROW_RIGHT).await?;
    is_at(phone, 1).await?;
    phone.rest().await;
    phone.js("document.activeElement.blur()").await?;
    phone.keyboard(" ").await?;
    is_at(phone, 2).await?;
    phone.rest().await;
    phone.keyboard(ARROW_LEFT).await?;
    is_at(phone, 1).await
}

pub(crate) async fn fault_15_a_double_tap_is_one_step(phone: &mut Phone) -> Outcome {
    start(phone).await?;
    const TAP: &str = "document.querySelector('[data-do=forward]').click()";
    phone
        .js(&format!("{TAP}; {TAP}; setTimeout(() => {TAP}, 60); setTimeout(() => {TAP}, 250)"))
        .await?;
    tokio::time::sleep(Duration::from_millis(700)).await;
    is_at(phone, 1).await?;
    phone.js(&format!("{TAP}; setTimeout(() => {TAP}, 480)")).await?;
    is_at(phone, 3).await?;
    phone.rest().await;
    // Two fingers, or a drip beside the thumb: the tap that they make together is no step.
    let key = phone
        .js("const { left, top } = document.querySelector('[data-do=forward]').getBoundingClientRect();
             return [left + 20, top + 20]")
        .await?;
    let at = |n: usize| key.get(n).and_then(serde_json::Value::as_f64).unwrap_or_default();
    let touch = |x: f64| json!({ "x": at(0) + x, "y": at(1) });
    let both = json!({ "type": "touchStart", "touchPoints": [touch(0.0), touch(60.0)] });
    phone.devtools("Input.dispatchTouchEvent", both).await?;
    phone
        .devtools("Input.dispatchTouchEvent", json!({ "type": "touchEnd", "touchPoints": [] }))
        .await?;
    phone.js(TAP).await?;
    phone.rest().await;
    is_at(phone, 3).await?;
    phone.rest().await;
    phone.tap("[data-do=forward]").await?;
    is_at(phone, 4).await
}

pub(crate) async fn the_place_is_kept_with_the_server_gone(phone: &mut Phone) -> Outcome {
    start(phone).await?;
    phone.is_kept().await?;
    phone.expect("ERR_CONNECTION_REFUSED");
    // To a step in which something is cut.
    let mut step = 0;
    while !phone.text(".bench-title").await?.starts_with("Pass 2") {
        phone.tap("[data-do=forward]").await?;
        step += 1;
        is_at(phone, step).await?;
        phone.rest().await;
        ensure(step < 40, "no second pass in 40 steps")?;
    }
    let figure = phone.text(".bench-figure").await?;
    phone.site.stop();
    phone.reload().await?;
    phone.says(".bench-question", "Is this one cut?").await?;
    ensure(phone.text(".bench-figure").await? == figure, "the figure is another")?;
    ensure(done(phone).await? == step.to_string(), "the place is another")?;
    phone.shot("bench-return").await?;
    // A pedal under a boot doesn't answer a question.
    phone.keyboard(ARROW_RIGHT).await?;
    phone.rest().await;
    is_at(phone, step).await?;
    phone.tap("[data-do=not-yet]").await?;
    phone.find("[data-do=back]").await?;
    is_at(phone, step).await?;
    phone.reload().await?;
    phone.says(".bench-question", "Is this one cut?").await?;
    phone.tap("[data-do=forward]").await?;
    is_at(phone, step + 1).await?;
    // From anywhere else, the way back leads to the same place.
    phone.to("#setups").await?;
    phone.says(".entry .running", "on the bench").await?;
    phone.open("").await?;
    phone.tap("nav.block a:nth-child(3)").await?;
    is_at(phone, step + 1).await
}

pub(crate) async fn what_was_said_stays_with_the_setup(phone: &mut Phone) -> Outcome {
    phone.open("").await?;
    // The thread alone.
    phone.js("document.querySelector('[data-do=\"out 2\"]').click()").await?;
    phone.until("!document.getElementById('op-2')").await?;
    phone.js("document.querySelector('[data-do=\"out 1\"]').click()").await?;
    phone.until("!document.getElementById('op-1')").await?;
    phone.tap("a.start").await?;
    is_at(phone, 0).await?;
    phone.tap("[data-do=forward]").await?;
    is_at(phone, 1).await?;
    let step = phone.text(".bench-title").await?;
    phone.rest().await;
    phone.unfold("bench-more").await?;
    phone.tap("#bench-note").await?;
    phone.keyboard("the dial slip").await?;
    // Half typed, it outlives a reload.
    phone.reload().await?;
    phone.says(".bench-question", "Is this done?").await?;
    phone.says(".bench-label", "Done last, just now: The blank for 3/8 BSF").await?;
    phone.tap("[data-do=not-yet]").await?;
    phone.unfold("bench-more").await?;
    let typed = phone.js("return document.getElementById('bench-note').value").await?;
    ensure(typed == "the dial slip", format!("half typed, and gone: {typed}"))?;
    // Letters and spaces are of the note, not of a pedal.
    phone
        .js("const note = document.getElementById('bench-note'); note.focus();
              note.setSelectionRange(99, 99)")
        .await?;
    phone.keyboard("ped ").await?;
    phone.keyboard(ARROW_RIGHT).await?;
    is_at(phone, 1).await?;
    phone.rest().await;
    phone.tap("[data-do=wrong]").await?;
    phone.says(".bench-record", "went wrong: the dial slipped").await?;
    phone.shot("bench-record").await?;
    phone.is_accessible().await?;
    phone.rest().await;
    phone.tap("[data-do=skip]").await?;
    is_at(phone, 2).await?;
    phone.says(".bench-record", &format!("{step}: skipped")).await?;
    // Back to it: it isn't skipped any more.
    phone.rest().await;
    phone.tap("[data-do=back]").await?;
    is_at(phone, 1).await?;
    phone.until("!document.querySelector('.bench-record').innerText.includes('skipped')").await?;
    phone.rest().await;
    phone.tap("[data-do=repeat]").await?;
    phone.says(".bench-record", "done again").await?;
    phone.tap("[data-do=\"unsay 1\"]").await?;
    phone
        .until("!document.querySelector('.bench-record').innerText.includes('done again')")
        .await?;
    phone.js(RUN_OUT).await?;
    phone.until("document.querySelector('.bench-title').innerText === 'Done'").await?;
    phone.reload().await?;
    phone.tap("a.bench-what").await?;
    phone.says(".made", "Last made").await?;
    phone.says(".made", "went wrong: the dial slipped").await?;
    phone.is_accessible().await?;
    // Next time it stands at its step.
    phone.tap("a.start").await?;
    phone.tap("[data-do=again]").await?;
    is_at(phone, 0).await?;
    phone.rest().await;
    phone.tap("[data-do=forward]").await?;
    phone.says(".bench-before", "Last time: went wrong: the dial slipped").await?;
    // Begun over by mistake: back is where it was.
    phone.rest().await;
    phone.tap("[data-do=forward]").await?;
    is_at(phone, 2).await?;
    phone.rest().await;
    phone.unfold("bench-more").await.ok();
    phone.tap("[data-do=over]").await?;
    is_at(phone, 0).await?;
    phone.rest().await;
    phone.tap("[data-do=back]").await?;
    is_at(phone, 2).await
}

pub(crate) async fn what_is_measured_decides_what_follows(phone: &mut Phone) -> Outcome {
    let folder = Download::folder()?;
    let file = folder.path.join("pin.json");
    fs::write(&file, PIN)?;
    phone.open("#setups").await?;
    phone.unfold("open").await?;
    phone.choose_file("#import", &file).await?;
    phone.until("location.hash.startsWith('#setup/')").await?;
    phone.tap("a.start").await?;
    is_at(phone, 0).await?;
    let mut step = 0;
    while phone.text(".bench-title").await? != "Measure" {
        phone.tap("[data-do=forward]").await?;
        step += 1;
        is_at(phone, step).await?;
        phone.rest().await;
    }
    phone.says(".bench-lit", "4 of 7 steps").await?;
    phone.shot("bench-measure").await?;
    phone.is_accessible().await?;
    // 10.96 − 9.9 is 0.53 mm of slide: two cuts more than a last one of 0.25. By hand.
    phone.open_blank("#blank-0-measured").await?;
    phone.keyboard("10.96").await?;
    phone.tap("[data-do=done]").await?;
    phone.says(".bench-changed", "more to do: 4 steps left, not 3").await?;
    phone.says(".bench-title", "Measure").await?;
    phone.rest().await;
    phone.tap("[data-do=forward]").await?;
    phone.says(".bench-title", "ut 3 of 4").await?;
    phone.rest().await;
    phone.tap("[data-do=back]").await?;
    phone.says(".bench-title", "Measure").await?;
    // What isn't understood holds the bench up until it is.
    phone.open_blank("#blank-0-measured").await?;
    phone.keyboard("9.9x").await?;
    phone.tap("[data-do=done]").await?;
    phone.says("main", "An entry in this setup is unfinished").await?;
    phone.tap("main a.key").await?;
    phone.enter("#blank-0-measured", "9.8").await?;
    phone.tap("nav.block a:nth-child(3)").await?;
    phone.tap("[data-do=not-yet]").await?;
    phone.says(".bench-title", "Measure").await?;
    phone.says(".bench-say", "It is past its size").await?;
    phone.says(".bench-lit", "4 of 6 steps").await?;
    // The next piece begins with the blank empty.
    phone.rest().await;
    phone.unfold("bench-more").await.ok();
    phone.tap("[data-do=over]").await?;
    phone.says(".bench-lit", "0 of 7 steps").await?;
    phone.tap("a.bench-what").await?;
    phone.says(".made", "Measure: measured: 10.96 mm").await?;
    phone.says(".made", "not finished").await
}

/// A pin turned to size.
const PIN: &str = r#"{"format": "latheside-setup", "version": 1, "name": "Pin", "operations": [
  {"kind": "size", "process": "turn", "from": "12 mm", "to": "9.9 mm", "length": "25 mm", "stock": "mild-steel"}]}"#;

/// Steps on to the end, as fast as the bench hears.
const RUN_OUT: &str = "const on = () => {
  const next = document.querySelector('.bench-next[data-do=forward]');
  if (next) { next.click(); setTimeout(on, 410); }
}; on()";

pub(crate) async fn the_last_step_ends_the_work(phone: &mut Phone) -> Outcome {
    phone.open("#setups").await?;
    phone.tap("[data-do=new-setup]").await?;
    phone.unfold("kinds").await?;
    phone.tap("[data-do=\"add hold\"]").await?;
    phone.keyboard("the head").await?;
    phone.tap("[data-do=done]").await?;
    phone.open_blank("#blank-0-in").await?;
    phone.tap("[data-do=\"choose three-jaw\"]").await?;
    phone.tap("a.start").await?;
    is_at(phone, 0).await?;
    while phone.js("return document.querySelector('[data-do=again]')").await?.is_null() {
        phone.tap("[data-do=forward]").await?;
        phone.rest().await;
    }
    phone.says(".bench-title", "Done").await?;
    phone.is_accessible().await?;
    phone.says("nav.block", "done").await?;
    phone.tap("[data-do=back]").await?;
    phone.find("[data-do=forward]").await?;
    phone.rest().await;
    phone.tap("[data-do=forward]").await?;
    phone.rest().await;
    phone.tap("[data-do=again]").await?;
    is_at(phone, 0).await
}

pub(crate) async fn fault_15_a_screen_that_may_go_dark_is_owned_up_to(
    phone: &mut Phone,
) -> Outcome {
    let other = phone.stranger().await?;
    other
        .before_load(
            "Object.defineProperty(navigator, 'wakeLock', { value: {
               request: async () => { throw new DOMException('no', 'NotAllowedError'); } } })",
        )
        .await?;
    start(&other).await?;
    other.says(".bench-lit", "may go dark").await?;
    start(phone).await?;
    phone.says(".bench-lit", "screen stays on").await
}

pub(crate) async fn a_division_is_locked_before_it_is_cut(phone: &mut Phone) -> Outcome {
    start(phone).await?;
    // To the first division of the collar.
    let mut step = 0;
    while !phone.text(".bench-title").await?.to_lowercase().starts_with("move to division 2") {
        phone.tap("[data-do=forward]").await?;
        step += 1;
        is_at(phone, step).await?;
        phone.rest().await;
        ensure(step < 60, "no second division in 60 steps")?;
    }
    phone.says("[data-do=forward]", "Locked").await?;
    phone.shot("bench-move").await?;
    phone.tap("[data-do=forward]").await?;
    phone.says("[data-do=forward]", "Cut").await?;
    phone.says(".bench-say", "locked").await?;
    phone.find(".bench-drawing .d-rim").await?;
    phone.shot("bench-cut").await?;
    ensure(phone.texts(".bench-again").await?.is_empty(), "nothing was gone past")?;
    phone.rest().await;
    phone.tap("[data-do=back]").await?;
    phone.says(".bench-again", "back past").await?;
    phone.says(".bench-again", "then forward up to it").await?;
    phone.is_accessible().await?;
    phone.shot("bench-back").await?;
    phone.rest().await;
    phone.tap("[data-do=forward]").await?;
    phone.until("!document.querySelector('.bench-again')").await
}

/// What a tap on Next may take until it is painted on a slow phone, and what saving may take of it,
/// in milliseconds. A busy machine may take three times as long before that is a fault.
const PAINTED: f64 = 50.0;
const SAVED: f64 = 16.0;

pub(crate) async fn a_step_among_a_thousand_is_painted_soon(phone: &mut Phone) -> Outcome {
    phone.open("").await?;
    phone.enter("#blank-1-into", "1000").await?;
    phone.js("document.querySelector('[data-do=\"out 0\"]').click()").await?;
    phone.tap("a.start").await?;
    is_at(phone, 0).await?;
    phone.devtools("Emulation.setCPUThrottlingRate", json!({ "rate": 4 })).await?;
    let times = phone
        .promised(
            "(async () => {
              const { setItem, getItem } = Storage.prototype;
              let saving = 0;
              const timed = (call) => function (...words) {
                const from = performance.now();
                const said = call.apply(this, words);
                saving += performance.now() - from;
                return said;
              };
              Storage.prototype.setItem = timed(setItem);
              Storage.prototype.getItem = timed(getItem);
              const painted = [], saved = [];
              for (let n = 0; n < 12; n += 1) {
                await new Promise((done) => setTimeout(done, 450));
                saving = 0;
                const from = performance.now();
                document.querySelector('[data-do=forward]').click();
                await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
                painted.push(performance.now() - from);
                saved.push(saving);
              }
              const middle = (all) => all.sort((a, b) => a - b)[all.length >> 1];
              return [middle(painted), middle(saved), Math.max(...saved)];
            })()",
        )
        .await?;
    phone.devtools("Emulation.setCPUThrottlingRate", json!({ "rate": 1 })).await?;
    let time = |at: usize| times.get(at).and_then(serde_json::Value::as_f64).unwrap_or(f64::MAX);
    println!(
        "a step of 1,000 is painted in {:.0} ms at a quarter of the speed, saved in {:.1}, {:.1} at worst",
        time(0),
        time(1),
        time(2)
    );
    is_at(phone, 12).await?;
    ensure(time(0) < 3.0 * PAINTED, format!("a tap is painted after {:.0} ms", time(0)))?;
    ensure(time(1) < 3.0 * SAVED, format!("saving takes {:.1} ms", time(1)))
}
