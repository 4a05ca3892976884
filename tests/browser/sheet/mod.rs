//! The contact sheet: every screen and every kind of operation, on each ground and in each width,
//! to be looked at side by side.
//!
//! `cargo xtask shots` takes it. Not everything is taken with everything: each screen is seen in
//! its widths, and the grounds go round, so that every two of width, ground and room meet.

mod album;
mod work;

use crate::download::Download;
use crate::journeys::Journey;
use crate::phone::Phone;
use crate::{Outcome, ensure};
use album::{Album, HIGH, HIGHEST, In, PANES, Pane};
use latheside_core::operation;
use serde_json::{Value, json};
use std::fs;
use std::time::Duration;
use work::Work;
use xtask::site::Fault;

/// The word that asks for the contact sheet and not for the journeys.
pub(crate) const ASKED: &str = "--contact-sheet";

macro_rules! chapters {
    ($($name:ident),* $(,)?) => {
        &[$((concat!("sheet::", stringify!($name)), |phone| Box::pin($name(phone)))),*]
    };
}

pub(crate) const CHAPTERS: &[(&str, Journey)] = chapters![
    kinds,
    more_of_them,
    bench,
    rooms,
    first,
    nothing,
    keys,
    amiss,
    sent,
    on_paper,
    readme,
];

/// Brings a setup in from a file, and waits until it is worked out.
async fn bring(phone: &Phone, file: &str) -> Outcome {
    let folder = Download::folder()?;
    let path = folder.path.join("setup.json");
    fs::write(&path, file)?;
    phone.to("#setups").await?;
    phone.js("document.querySelector('details[data-fold=open]').open = true").await?;
    phone.choose_file("#import", &path).await?;
    phone.until("location.hash.startsWith('#setup/')").await?;
    worked_out(phone).await
}

/// Waits until every operation in sight has its answer, and long work is at its end.
async fn worked_out(phone: &Phone) -> Outcome {
    let worked = "document.querySelector('.op') && !document.querySelector('.working')
        && [...document.querySelectorAll('.op-answer')].every((e) => e.textContent)";
    phone.until(worked).await?;
    for _ in 0..3 {
        let long = phone.until("!document.querySelector('.under-way')").await;
        if long.is_ok() {
            return Ok(());
        }
    }
    phone.until("!document.querySelector('.under-way')").await
}

/// Every fold but the menus opened.
const UNFOLD: &str =
    "document.querySelectorAll('details:not(.menu)').forEach((d) => d.open = true)";
const FOLD: &str = "document.querySelectorAll('details:not(.menu)').forEach((d) => d.open = false)";

async fn kinds(phone: &mut Phone) -> Outcome {
    for kind in operation::KINDS {
        let there = work::KINDS
            .iter()
            .any(|work| work.file().contains(&format!("\"kind\": \"{}\"", kind.name)));
        ensure(there, format!("no picture of {}: add it in sheet/work.rs", kind.name))?;
    }
    taken(phone, "kinds", work::KINDS, In::All).await
}

async fn more_of_them(phone: &mut Phone) -> Outcome {
    taken(phone, "more-of-them", work::MORE_OF_THEM, In::Two).await
}

/// Each setup as it is seen first, and on a phone with all of it opened.
async fn taken(phone: &mut Phone, room: &'static str, works: &[Work], within: In) -> Outcome {
    phone.open("#setups").await?;
    let mut album = Album::of(phone, room).await?;
    for work in works {
        bring(phone, &work.file()).await?;
        let refused = phone.texts(".refused").await?;
        ensure(refused.is_empty(), format!("{} isn't answered: {refused:?}", work.name))?;
        phone
            .find("#op-0 .answer .setting b")
            .await
            .map_err(|why| format!("{}: {why}", work.name))?;
        phone.js(FOLD).await?;
        album.sheet(work.name, within).await?;
        phone.js(UNFOLD).await?;
        album.sheet(&format!("{}-opened", work.name), In::Two).await?;
        phone.js(FOLD).await?;
    }
    Ok(())
}

/// The page's clock can be put on: no need to wait until the bench hears again.
const CLOCK: &str = "
  const now = Date.now;
  let ahead = 0;
  Date.now = () => now() + ahead;
  window.later = (ms) => { ahead += ms; };
";

/// Goes on to the first step of another sort than those seen; none left, `null`.
const ON: &str = "(async () => {
  window.sorts ??= new Set();
  const sort = () => document.querySelector('#bench .bench-title').innerText.replace(/[0-9.,/]+/g, '#')
    + (document.querySelector('#bench .beat') ? ', beat' : '');
  for (let n = 0; n < 400; n += 1) {
    const title = sort();
    if (!sorts.has(title)) { sorts.add(title); return title; }
    const next = document.querySelector('.bench-next[data-do=forward]');
    if (!next) return null;
    later(500);
    next.click();
    await new Promise((done) => setTimeout(done, 12));
  }
  return null;
})()";

async fn bench(phone: &mut Phone) -> Outcome {
    phone.before_load(CLOCK).await?;
    phone.open("#setups").await?;
    let mut album = Album::of(phone, "bench").await?;
    bring(phone, &work::setup("A stud and its collar", "", "{}", work::PART)).await?;
    phone.tap("a.start").await?;
    phone.find(".bench-title").await?;
    let mut step = 0;
    while let Value::String(title) = phone.promised(ON).await? {
        step += 1;
        let plain: String =
            title.chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' }).collect();
        let name = format!("{step:02}-{plain}");
        album.screen(&name, if step % 3 == 1 { In::All } else { In::Three }).await?;
        if title.contains("beat") {
            phone
                .js("document.querySelector('.beat-key').scrollIntoView({ block: 'center' })")
                .await?;
            phone.tap(".beat-key").await?;
            phone.find(".beat[data-on]").await?;
            album.screen(&format!("{name}-sounding"), In::Three).await?;
            phone.tap(".beat-key").await?;
        }
        if step == 4 {
            let place = phone.fragment().await?;
            phone.to("#shop").await?;
            phone.to(&place).await?;
            phone.find("[data-do=not-yet]").await?;
            album.screen("is-this-done", In::All).await?;
            phone.js("later(500)").await?;
            phone.tap("[data-do=not-yet]").await?;
            phone.unfold("bench-more").await?;
            album.sheet("skip-and-note", In::All).await?;
            phone.js(FOLD).await?;
        }
    }
    ensure(step >= 12, format!("{step} sorts of steps"))?;
    phone.says(".bench-title", "Done").await
}

async fn rooms(phone: &mut Phone) -> Outcome {
    phone.open("#shop").await?;
    let mut album = Album::of(phone, "rooms").await?;
    album.sheet("shop", In::All).await?;
    phone.js(UNFOLD).await?;
    album.sheet("shop-opened", In::Two).await?;
    phone.to("#setups").await?;
    album.sheet("setups", In::Two).await?;
    bring(phone, &work::long()).await?;
    album.sheet("long-names", In::All).await?;
    phone.to("#shop").await?;
    let order = r#"{"kind": "part-off", "stock": "brass", "diameter": "20 mm", "blade_width": "2 mm"},
        {"kind": "hole", "purpose": "tap", "designation": "M6", "depth": "8 mm"}"#;
    bring(phone, &work::setup("Knob", "Two of them.", "{}", order)).await?;
    phone.find(".order").await?;
    album.sheet("order", In::Two).await?;
    phone.tap("header .menu summary").await?;
    album.screen("menu", In::Two).await?;
    phone.tap("[data-do=duplicate]").await?;
    phone.to("#setups").await?;
    phone.js(UNFOLD).await?;
    album.sheet("several-setups", In::All).await?;
    phone.tap(".entry a").await?;
    worked_out(phone).await?;
    phone.tap("header .menu summary").await?;
    phone.tap("[data-do=delete]").await?;
    phone.find(".undo").await?;
    album.screen("deleted", In::Two).await
}

async fn first(phone: &mut Phone) -> Outcome {
    let wasm = crate::altered::file(&phone.settings.dist, ".wasm")?;
    phone.site.fault(&wasm, Some(Fault::Slow(Duration::from_secs(6))));
    phone.visit("").await?;
    phone.says("#shell h1", "Latheside").await?;
    let mut album = Album::of(phone, "first").await?;
    album.screen("shell", In::Two).await?;
    phone.site.fault(&wasm, None);
    phone.is_ready().await?;
    worked_out(phone).await?;
    album.screen("first-sight", In::All).await?;
    album.sheet("example", In::All).await
}

async fn nothing(phone: &mut Phone) -> Outcome {
    phone.open("#shop").await?;
    let mut album = Album::of(phone, "nothing").await?;
    phone.tap("header .menu summary").await?;
    phone.tap("[data-do=empty-shop]").await?;
    phone.find("#blank-lathe-leadscrew.blank-empty").await?;
    album.sheet("empty-shop", In::All).await?;
    phone.to("#setups").await?;
    phone.tap(".entry a").await?;
    worked_out(phone).await?;
    album.sheet("what-is-lacking", In::All).await?;
    phone.tap("header .menu summary").await?;
    phone.tap("[data-do=delete]").await?;
    phone.find(".undo").await?;
    phone.reload().await?;
    album.screen("no-setups", In::Two).await?;
    phone.tap("nav.block a:nth-child(3)").await?;
    phone.find("#title").await?;
    album.screen("no-bench", In::Two).await?;
    phone.to("#setups").await?;
    phone.tap("[data-do=new-setup]").await?;
    phone.find("details[data-fold=kinds]").await?;
    album.screen("new-setup", In::Two).await?;
    phone.unfold("kinds").await?;
    album.sheet("kinds", In::All).await?;
    for kind in operation::KINDS {
        phone.tap(&format!("[data-do=\"add {}\"]", kind.name)).await?;
        phone.until("document.activeElement?.id === 'keypad-field'").await?;
        phone.tap("[data-do=done]").await?;
        phone.until("document.querySelector('.pad').hidden").await?;
        phone.js("document.querySelector('details[data-fold=kinds]').open = true").await?;
    }
    phone.js(FOLD).await?;
    album.sheet("every-kind-empty", In::All).await
}

async fn keys(phone: &mut Phone) -> Outcome {
    phone.open("#shop").await?;
    let mut album = Album::of(phone, "keys").await?;
    for (blank, name) in [
        ("#blank-lathe-change_gears", "gears"),
        ("#blank-lathe-leadscrew", "lead"),
        ("#blank-lathe-nose", "choice"),
    ] {
        phone.open_blank(blank).await?;
        album.screen(name, In::All).await?;
        phone.tap("[data-do=done]").await?;
    }
    phone.to("#setups").await?;
    phone.tap(".entry a").await?;
    worked_out(phone).await?;
    phone.open_blank("#blank-0-designation").await?;
    phone.keyboard("M1").await?;
    phone.find("#suggestions button").await?;
    album.screen("thread", In::All).await?;
    phone.keyboard("x").await?;
    phone.find("#op-0 .stale-for").await?;
    album.screen("not-understood", In::Two).await?;
    phone.tap("[data-do=done]").await?;
    album.sheet("unfinished", In::All).await?;
    phone.open_blank("#blank-1-diameter").await?;
    album.screen("length", In::All).await
}

async fn amiss(phone: &mut Phone) -> Outcome {
    phone.open("#s1.AAAAAAAA").await?;
    phone.find("#link .complaint").await?;
    let mut album = Album::of(phone, "amiss").await?;
    album.screen("damaged-link", In::Two).await?;
    phone.open("#setup/gone").await?;
    album.screen("no-such-setup", In::Two).await?;
    phone.open("#setups").await?;
    phone.js("dispatchEvent(new CustomEvent('latheside-update'))").await?;
    phone.find(".notice").await?;
    album.screen("a-newer-page", In::Two).await?;
    phone
        .js("dispatchEvent(Object.assign(new Event('latheside-trouble'), { why: 'answer: unreachable' }))")
        .await?;
    album.screen("stopped", In::Two).await
}

async fn sent(phone: &mut Phone) -> Outcome {
    phone
        .before_load("Object.defineProperty(navigator, 'share', { value: async () => {}, configurable: true })")
        .await?;
    phone.open("#setups").await?;
    let mut album = Album::of(phone, "sent").await?;
    bring(phone, &work::KINDS[3].file()).await?;
    album.sheet("for-their-shop", In::Two).await?;
    phone.tap("[data-do=\"own 1\"]").await?;
    phone.find(".beside-both").await?;
    album.sheet("on-my-machine", In::All).await?;
    phone.tap("[data-do=\"own 0\"]").await?;
    phone.tap("#setup-foot [data-do=share]").await?;
    phone.find(".shared .qr svg").await?;
    phone.js("document.querySelector('.shared').scrollIntoView()").await?;
    album.screen("shared", In::Two).await?;
    let link = phone.js("return document.querySelector('.shared input').value").await?;
    let link = link.as_str().and_then(|link| link.split_once('#')).ok_or("no link")?.1;
    phone.open(&format!("#{link}")).await?;
    phone.find("#link .setting").await?;
    album.sheet("a-link", In::All).await
}

/// As wide as A4 and A6 between their margins, at 96 dots to the inch.
const PAPERS: [(&str, u32); 2] = [("a4", 718), ("a6", 352)];

async fn on_paper(phone: &mut Phone) -> Outcome {
    phone.open("").await?;
    let mut album = Album::of(phone, "paper").await?;
    let part =
        work::setup("A stud and its collar", "Turn, screw-cut, divide and mill.", "{}", work::PART);
    for (name, file) in [("example", None), ("part", Some(part)), ("long", Some(work::long()))] {
        if let Some(file) = &file {
            bring(phone, file).await?;
        }
        worked_out(phone).await?;
        let to = phone.js("return document.querySelector('a[href^=\"#paper\"]').hash").await?;
        phone.to(to.as_str().ok_or("no way to the paper")?).await?;
        phone.find(".paper-op").await?;
        album.sheet(name, In::Two).await?;
        phone.devtools("Emulation.setEmulatedMedia", json!({ "media": "print" })).await?;
        for (paper, width) in PAPERS {
            let pane = Pane { name: paper, width, height: 500, hand: true };
            album.pane(&pane, None).await?;
            let high = phone.js(HIGH).await?.as_u64().unwrap_or_default();
            album.pane(&pane, Some(high.clamp(500, 2 * HIGHEST))).await?;
            phone.shot(&format!("paper--{name}--printed--{paper}")).await?;
        }
        phone.devtools("Emulation.setEmulatedMedia", json!({ "media": "" })).await?;
        album.pane(&PANES[0], None).await?;
    }
    Ok(())
}

/// Three screens side by side, for the README: a thread, a circle, a step at the bench.
async fn readme(phone: &mut Phone) -> Outcome {
    phone.before_load(CLOCK).await?;
    phone.open("").await?;
    worked_out(phone).await?;
    phone.js("document.documentElement.dataset.theme = 'blue'").await?;
    let how = json!({ "width": 390, "height": 780, "deviceScaleFactor": 2, "mobile": true });
    phone.devtools("Emulation.setDeviceMetricsOverride", how).await?;
    let mut pictures = picture(phone).await?;
    phone.js("document.getElementById('op-1').scrollIntoView()").await?;
    pictures.push_str(&picture(phone).await?);
    phone.tap("a.start").await?;
    phone.find(".bench-title").await?;
    let step = "document.querySelector('.bench-title').innerText.toLowerCase().startsWith('move to division 4')";
    let walk = format!(
        "(async () => {{
          for (let n = 0; n < 200 && !({step}); n += 1) {{
            later(500);
            document.querySelector('.bench-next').click();
            await new Promise((done) => setTimeout(done, 12));
          }}
          return {step};
        }})()"
    );
    ensure(phone.promised(&walk).await? == true, "the fourth division was not come to")?;
    pictures.push_str(&picture(phone).await?);
    phone.devtools("Page.navigate", json!({ "url": "about:blank" })).await?;
    phone.until("location.href === 'about:blank'").await?;
    let how = json!({ "width": 1000, "height": 640, "deviceScaleFactor": 1, "mobile": false });
    phone.devtools("Emulation.setDeviceMetricsOverride", how).await?;
    let clear = json!({ "color": { "r": 0, "g": 0, "b": 0, "a": 0 } });
    phone.devtools("Emulation.setDefaultBackgroundColorOverride", clear).await?;
    let page = Value::from(format!("<style>{SIDE_BY_SIDE}</style>{pictures}"));
    phone.js(&format!("document.documentElement.innerHTML = {page}")).await?;
    phone
        .until("document.images.length === 3 && [...document.images].every((i) => i.complete)")
        .await?;
    phone.shot("readme").await
}

/// What is on the screen, as an image for a page.
async fn picture(phone: &Phone) -> Outcome<String> {
    let taken = phone.devtools("Page.captureScreenshot", json!({ "format": "png" })).await?;
    let data = taken.get("data").and_then(Value::as_str).ok_or("no picture was taken")?;
    Ok(format!("<img src='data:image/png;base64,{data}'>"))
}

/// 3 × 320 + 2 × 20 wide, 640 high.
const SIDE_BY_SIDE: &str =
    "body { margin: 0; display: flex; gap: 20px } img { width: 320px; height: 640px }";
