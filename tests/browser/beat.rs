//! The beat of the hand: silent until asked for, steady, and seen as well as heard.

use crate::download::Download;
use crate::phone::Phone;
use crate::{Outcome, ensure};
use serde_json::{Value, json};
use std::fs;

/// Goes to the step of a cut that has a beat: 3 mm in steel at 900 turns a minute.
async fn to_the_cut(phone: &Phone) -> Outcome {
    let setup = json!({
        "format": "latheside-setup", "version": 1, "name": "Slot",
        "shop": { "lathe": { "spindle_speeds": [900], "dials": { "cross": { "reads": "radius", "division": "0.02 mm", "divisions": 100 } } } },
        "operations": [{ "kind": "cut", "process": "mill", "stock": "mild-steel", "diameter": "3 mm", "teeth": 2 }],
    });
    let folder = Download::folder()?;
    let file = folder.path.join("slot.json");
    fs::write(&file, setup.to_string())?;
    phone.open("#setups").await?;
    phone.unfold("open").await?;
    phone.choose_file("#import", &file).await?;
    phone.tap("a.start").await?;
    for step in 1..=2 {
        phone.tap("[data-do=forward]").await?;
        phone.says(".bench-lit span", &format!("{step} of 3")).await?;
        phone.rest().await;
    }
    phone.find("#beat").await?;
    Ok(())
}

fn numbers(list: &Value) -> Vec<f64> {
    list.as_array().into_iter().flatten().filter_map(Value::as_f64).collect()
}

/// Notes when each beat is set out to fall.
const NOTE: &str = "
  window.beats = [];
  const Known = AudioContext;
  window.AudioContext = class extends Known { constructor() { super(); window.sound = this; } };
  const set = AudioParam.prototype.setValueAtTime;
  AudioParam.prototype.setValueAtTime = function (value, at) {
    if (value > 0 && value <= 1) window.beats.push(at);
    return set.call(this, value, at);
  };";

pub(crate) async fn it_sounds_when_asked_and_stops(phone: &mut Phone) -> Outcome {
    phone.before_load(NOTE).await?;
    to_the_cut(phone).await?;
    ensure(phone.js("return window.sound").await?.is_null(), "it sounds unasked")?;
    phone.is_accessible().await?;
    phone.tap("[data-work=beat]").await?;
    phone.until("window.beats.length > 1 && window.sound.state === 'running'").await?;
    phone.until("['on', 'lit'].includes(document.querySelector('#beat').dataset.on)").await?;
    phone
        .until(
            "/rotate\\([1-9]/.test(document.querySelector('#beat-hand').getAttribute('transform'))",
        )
        .await?;
    phone.shot("bench-beat").await?;
    phone.is_accessible().await?;
    let every = phone.text("#beat-every").await?;
    phone.tap("[data-work=slower]").await?;
    phone.until(&format!("document.querySelector('#beat-every').innerText > {every:?}")).await?;
    phone.tap("[data-work=faster]").await?;
    phone.says("#beat-every", &every).await?;
    // The device takes the sound away, and a tap brings it back.
    phone.js("window.sound.suspend()").await?;
    phone.says("[data-work=beat]", "held up").await?;
    phone.tap("[data-work=beat]").await?;
    phone.says("[data-work=beat]", "Stop").await?;
    phone.tap("[data-work=beat]").await?;
    phone.until("window.sound.state === 'closed'").await?;
    phone.says("[data-work=beat]", "Start").await?;
    // It doesn't outlast the step.
    phone.tap("[data-work=beat]").await?;
    phone.until("window.sound.state === 'running'").await?;
    phone.tap("[data-do=forward]").await?;
    phone.until("window.sound.state === 'closed'").await
}

/// A sound whose clock runs five times as fast, which notes what it is told and when.
const QUICK: &str = "
  window.beats = [];
  window.AudioContext = class {
    constructor() { this.from = performance.now(); this.state = 'running'; this.destination = {}; }
    get currentTime() { return (performance.now() - this.from) / 200; }
    createOscillator() { return { frequency: { setValueAtTime() {} }, connect() {}, start() {} }; }
    createGain() {
      const setValueAtTime = (value, at) => window.beats.push([at, this.currentTime]);
      return { gain: { value: 1, setValueAtTime, linearRampToValueAtTime() {} }, connect() {} };
    }
    resume() { return Promise.resolve(); }
    close() { return Promise.resolve(); }
  };";

#[allow(clippy::print_stdout)] // the figure is what it is for
pub(crate) async fn it_keeps_time(phone: &mut Phone) -> Outcome {
    // The audio's own clock against the page's, as the browser pairs them.
    phone.before_load(NOTE).await?;
    to_the_cut(phone).await?;
    phone.tap("[data-work=beat]").await?;
    phone
        .until("window.beats.length > 1 && window.sound.getOutputTimestamp().contextTime > 0")
        .await?;
    const PAIR: &str = "const t = window.sound.getOutputTimestamp(); return [t.contextTime * 1000, t.performanceTime]";
    let from = numbers(&phone.js(PAIR).await?);
    tokio::time::sleep(std::time::Duration::from_secs(2)).await;
    let to = numbers(&phone.js(PAIR).await?);
    if let ([audio, page], [later_audio, later_page]) = (&from[..], &to[..]) {
        let passed = later_page - page;
        let off = (later_audio - audio - passed) / passed * 60_000.0;
        println!("the audio's clock and the page's part by {off:.2} ms a minute");
    }
    phone.tap("[data-work=beat]").await?;
    // Half a minute of beats, on a clock that is quicker than ours.
    let other = phone.stranger().await?;
    other.before_load(QUICK).await?;
    to_the_cut(&other).await?;
    let every =
        other.js("return Number(document.querySelector('#beat').dataset.ms) / 1000").await?;
    let every = every.as_f64().ok_or("no beat")?;
    other.tap("[data-work=beat]").await?;
    other.until("window.beats.some(([at]) => at > 30)").await?;
    let beats = other.js("return window.beats").await?;
    let beats: Vec<Vec<f64>> = beats.as_array().into_iter().flatten().map(numbers).collect();
    let first = beats.first().and_then(|beat| beat.first()).copied().ok_or("no beats")?;
    let (mut worst, mut last) = (0.0_f64, 0.0_f64);
    for beat in &beats {
        let [at, now] = beat[..] else { return Err("a beat without its times".into()) };
        let place = ((at - first) / every).round();
        worst = worst.max((at - first - place * every).abs());
        last = at - first;
        ensure(at >= now, format!("a beat for {at} was set out at {now}"))?;
        ensure(at <= now + 0.2001, format!("a beat for {at} was set out as early as {now}"))?;
    }
    // A frame that came late leaves a beat out; most are there.
    let wanted = last / every;
    ensure(beats.len() as f64 > wanted / 2.0, format!("{} beats of {wanted}", beats.len()))?;
    let drift = worst * 1000.0 * 60.0 / last;
    println!("{} beats in {last:.1} s drift by {drift:.6} ms a minute at most", beats.len());
    ensure(drift < 10.0, format!("the beat drifts by {drift} ms a minute"))
}
