//! From an address to a page that runs, and what it says when it can't.

use crate::altered::{Altered, file};
use crate::phone::{BACKSPACE, Phone};
use crate::{Outcome, ensure};
use serde_json::json;
use std::time::Duration;
use xtask::folder::files;
use xtask::site::Fault;

pub(crate) async fn the_shell_is_read_before_the_works_arrive(phone: &mut Phone) -> Outcome {
    let wasm = file(&phone.settings.dist, ".wasm")?;
    phone.site.fault(&wasm, Some(Fault::Slow(Duration::from_secs(3))));
    phone.visit("").await?;
    phone.says("#shell h1", "Latheside").await?;
    phone.shot("shell").await?;
    let early = phone.js("return !document.body.hasAttribute('data-ready')").await?;
    ensure(early == true, "the works were there before they could be")?;
    phone.is_accessible().await?;
    phone.is_ready().await
}

/// Adds up how much of what is in view has moved without a touch.
const MOVED: &str = "
  window.moved = 0;
  new PerformanceObserver((list) => {
    for (const shift of list.getEntries()) if (!shift.hadRecentInput) window.moved += shift.value;
  }).observe({ type: 'layout-shift', buffered: true });
";

pub(crate) async fn nothing_in_view_moves_when_the_answers_come(phone: &mut Phone) -> Outcome {
    phone.before_load(MOVED).await?;
    phone.devtools("Emulation.setCPUThrottlingRate", json!({ "rate": 4 })).await?;
    phone.open("").await?;
    for place in ["", "#shop", "#setups"] {
        if place.is_empty() {
            phone.find("#op-2 .setting").await?;
        } else {
            phone.to(place).await?;
            phone.reload().await?;
        }
        phone.rest().await;
        let moved = phone.js("return window.moved").await?.as_f64().unwrap_or(f64::MAX);
        ensure(moved < 0.01, format!("{place}: what was in view moved by {moved:.3}"))?;
    }
    Ok(())
}

pub(crate) async fn a_first_visit_fetches_each_file_once(phone: &mut Phone) -> Outcome {
    phone.open("").await?;
    phone.shot("first-visit").await?;
    phone.is_accessible().await?;
    phone.is_kept().await?;
    let mut first = phone.site.asked();
    let end = first.iter().position(|file| file == "sw.js").ok_or("the page isn't kept")?;
    first.truncate(end);
    let mut once = first.clone();
    once.sort();
    once.dedup();
    // An icon may be looked at again: by the browser itself, to offer to install the page.
    let twice = once.iter().filter(|file| !file.starts_with("icons/"));
    let twice: Vec<_> =
        twice.filter(|file| first.iter().filter(|f| f == file).count() > 1).collect();
    ensure(twice.is_empty(), format!("asked twice for {twice:?}"))?;
    // The works come once the page stands: their script and themselves.
    let (works, page): (Vec<_>, Vec<_>) = once.iter().partition(|file| file.starts_with("works-"));
    ensure(page.len() <= 7 && works.len() == 2, format!("asked for too much: {once:?}"))?;
    let wasm = file(&phone.settings.dist, ".wasm")?;
    ensure(once.contains(&wasm), format!("ran without its works: {first:?}"))
}

pub(crate) async fn fault_14_works_that_do_not_arrive_are_owned_up_to(
    phone: &mut Phone,
) -> Outcome {
    let wasm = file(&phone.settings.dist, ".wasm")?;
    phone.expect("404");
    phone.site.fault(&wasm, Some(Fault::Missing));
    phone.visit("").await?;
    phone.says("#trouble", "could not be loaded whole").await?;
    phone.is_accessible().await?;
    phone.site.fault(&wasm, None);
    phone.rest().await;
    phone.tap("#trouble-reload").await?;
    phone.is_ready().await?;
    let hidden = phone.js("return document.getElementById('trouble').hidden").await?;
    ensure(hidden == true, "the panel stayed after the page was mended")
}

pub(crate) async fn fault_14_sentences_stand_where_the_answers_do_not_arrive(
    phone: &mut Phone,
) -> Outcome {
    let all = files(&phone.settings.dist)?;
    let works = all.iter().find(|file| file.starts_with("works-") && file.ends_with(".wasm"));
    let works = works.ok_or("the page has no works")?;
    phone.site.fault(works, Some(Fault::Slow(Duration::from_secs(3))));
    phone.visit("").await?;
    phone.says("#op-0 .sentence", "3/8 BSF").await?;
    phone.says("#op-0", "Working it out").await?;
    phone.enter("#blank-1-into", "36").await?;
    // 72 ÷ 36: arithmetic.
    phone.until("document.querySelector('#op-1 .setting b')?.innerText === '2'").await?;
    let other = phone.stranger().await?;
    phone.expect("404");
    phone.site.fault(works, Some(Fault::Missing));
    other.visit("").await?;
    other.says("#trouble", "could not be loaded whole").await?;
    other.says("#op-0 .sentence", "3/8 BSF").await?;
    phone.site.fault(works, None);
    other.rest().await;
    other.tap("#trouble-reload").await?;
    other.says("#op-0 .setting", "drives").await
}

pub(crate) async fn fault_14_a_death_offers_what_was_saved(phone: &mut Phone) -> Outcome {
    phone.expect("unreachable");
    let mortal = Altered::of(&phone.settings.dist, ".js", |boot| format!("{boot}{TRAP}"))?;
    phone.host_serves(mortal);
    phone.open("").await?;
    phone.js("localStorage.setItem('latheside.test', '40 drives 63')").await?;
    phone.js("localStorage.setItem('another page of this host', 'not ours')").await?;
    phone.js("dispatchEvent(new CustomEvent('trap'))").await?;
    phone.find("#trouble-copy").await?;
    phone.rest().await;
    phone.tap("#trouble-copy").await?;
    phone.find("#trouble-data").await?;
    phone.until("document.getElementById('trouble-said').innerText").await?;
    let data = phone.js("return document.getElementById('trouble-data').value").await?;
    let data = data.as_str().unwrap_or_default();
    ensure(data.contains("40 drives 63") && !data.contains("not ours"), data)?;
    phone.shot("trouble").await?;
    phone.is_accessible().await?;
    phone.tap("#trouble-reload").await?;
    phone.until("document.getElementById('trouble')?.hidden").await?;
    phone.is_ready().await?;
    let kept = phone.js("return localStorage.getItem('latheside.test')").await?;
    ensure(kept == "40 drives 63", "what was saved is gone")
}

pub(crate) async fn whatever_is_amiss_is_heard(phone: &mut Phone) -> Outcome {
    let noisy = Altered::of(&phone.settings.dist, "index.html", |page| {
        let page = page.replacen("connect-src 'self'", "connect-src *", 1);
        page.replacen("</body>", "<p style='color:red'></p></body>", 1)
    })?;
    phone.host_serves(noisy);
    phone.open("").await?;
    phone.js("console.error('a complaint of its own')").await?;
    phone.js("fetch('http://127.0.0.1:1/').catch(() => {})").await?;
    phone.js("setTimeout(() => { throw new Error('nobody caught this') })").await?;
    phone.js("setTimeout(() => Promise.reject('nor that'))").await?;
    phone.js("document.querySelector('#op-0 h2').outerHTML = '<img src=\"data:,\">'").await?;
    let rules = phone.is_accessible().await.err().map(|why| why.to_string()).unwrap_or_default();
    ensure(rules.contains("image-alt"), format!("the rules found only: {rules}"))?;
    let said = phone.is_quiet().await.err().map(|why| why.to_string()).unwrap_or_default();
    for part in [
        "Content Security Policy",
        "a complaint of its own",
        "another origin: http://127.0.0.1:1/",
        "nobody caught this",
        "nor that",
    ] {
        ensure(said.contains(part), format!("nothing was heard of \"{part}\" in:\n{said}"))?;
    }
    Ok(())
}

pub(crate) async fn a_breach_of_the_policy_is_heard(phone: &mut Phone) -> Outcome {
    let noisy = Altered::of(&phone.settings.dist, "index.html", |page| {
        page.replacen("</body>", "<p style='color:red'></p></body>", 1)
    })?;
    phone.expect("Content Security Policy");
    phone.host_serves(noisy);
    phone.open("").await?;
    let mut heard = phone.site.breaches();
    for _ in 0..100 {
        if !heard.is_empty() {
            break;
        }
        phone.promised("new Promise((done) => setTimeout(done, 50))").await?;
        heard = phone.site.breaches();
    }
    ensure(heard.iter().any(|said| said.contains("style-src")), format!("heard: {heard:?}"))
}

/// More than this at one touch, in milliseconds of the processor, is felt as a halt.
const HALT: f64 = 100.0;
/// A room may take so long to be drawn, in several goes.
const ROOM: f64 = 300.0;
/// Machines differ, and share their processors: only so many times too long is a fault.
const GROSS: f64 = 3.0;

pub(crate) async fn nothing_holds_the_page_up(phone: &mut Phone) -> Outcome {
    /// All that the page does about one thing, drawing included.
    async fn held(
        phone: &Phone,
        name: &str,
        most: f64,
        doing: impl AsyncFnOnce() -> Outcome,
    ) -> Outcome<Option<String>> {
        phone.promised("new Promise((done) => setTimeout(done, 200))").await?;
        let before = phone.time_taken().await?;
        doing().await?;
        phone.promised("new Promise((done) => setTimeout(done, 200))").await?;
        let taken = phone.time_taken().await? - before;
        println!("{name} takes {taken:.0} ms of {most:.0}");
        ensure(taken > 0.0, "no time was counted")?;
        Ok((taken > most * GROSS).then(|| format!("{name} takes {taken:.0} ms")))
    }
    phone.open("").await?;
    phone.find("#op-2 .setting").await?;
    phone.is_kept().await?;
    phone.count_time().await?;
    let mut halts = Vec::new();
    phone.open_blank("#blank-0-designation").await?;
    phone.keyboard("3/8 BS").await?;
    halts.extend(
        held(phone, "a thread's last letter", HALT, async || phone.keyboard("F").await).await?,
    );
    phone.tap("[data-do=done]").await?;
    phone.open_blank("#blank-1-into").await?;
    phone.keyboard("999").await?;
    halts.extend(
        held(phone, "a circle into 9,999", HALT, async || phone.keyboard("9").await).await?,
    );
    phone.tap("[data-do=done]").await?;
    let gears = (0..100).map(|n| (20 + n).to_string()).collect::<Vec<_>>().join(", ");
    phone.to("#shop").await?;
    phone.open_blank("#blank-lathe-change_gears").await?;
    phone.js(&format!("document.getElementById('keypad-field').value = '{gears}'")).await?;
    halts.extend(
        held(phone, "a letter among 100 gears", HALT, async || phone.keyboard(",").await).await?,
    );
    phone.keyboard(BACKSPACE).await?;
    phone.tap("[data-do=done]").await?;
    halts.extend(
        held(phone, "a setup's three answers from 100 gears", ROOM, async || {
            phone.tap("nav.block a:nth-child(2)").await?;
            phone.find("#op-0 .setting").await?;
            Ok(())
        })
        .await?,
    );
    phone.to("#setups").await?;
    phone.unfold("open").await?;
    phone
        .js("const file = new File(['[' + '1,'.repeat(2e6) + '1]'], 'vast.json');
             const chosen = new DataTransfer();
             chosen.items.add(file);
             document.getElementById('import').files = chosen.files")
        .await?;
    halts.extend(
        held(phone, "a file of 4 MB", HALT, async || {
            const CHOSEN: &str = "document.getElementById('import')
                .dispatchEvent(new Event('change', { bubbles: true }))";
            phone.js(CHOSEN).await?;
            phone.says("#setups .complaint", "of 4 MB at most").await
        })
        .await?,
    );
    ensure(halts.is_empty(), halts.join("\n"))
}

/// A module whose one function is `unreachable`, called on an event: what a panic comes to.
const TRAP: &str = "
addEventListener('trap', () => {
  const bytes = '0061736d01000000 010401600000 03020100 07050101660000 0a05010300000b'.replace(/ /g, '');
  const module = new WebAssembly.Module(Uint8Array.from(bytes.match(/../g), (pair) => parseInt(pair, 16)));
  new WebAssembly.Instance(module).exports.f();
});
";
