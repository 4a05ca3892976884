//! The page kept for working with no network: whole, and replaced only by a tap.

use crate::altered::{Altered, file};
use crate::phone::{GLANCE, PATIENCE, Phone};
use crate::{Outcome, ensure};
use serde_json::json;
use std::net::TcpStream;
use std::time::{Duration, Instant};
use xtask::site::Fault;

pub(crate) async fn fault_10_the_page_opens_with_its_server_gone(phone: &mut Phone) -> Outcome {
    phone.before_load(ANSWERED).await?;
    phone.open("").await?;
    phone.is_kept().await?;
    // The browser may look for a newer worker, and says so when nobody answers.
    phone.expect("ERR_CONNECTION_REFUSED");
    phone.site.stop();
    if TcpStream::connect(phone.site.address()).is_ok() {
        return Err("the server is still there".into());
    }
    phone.reload().await?;
    phone.visit("index.html?from=a+bookmark").await?;
    phone.is_ready().await?;
    phone.visit("about:blank").await.ok();
    phone.open("").await?;
    phone.shot("offline").await?;
    // A link that comes in while there is no network opens and is answered.
    let table = include_str!("../files/links/golden.tsv");
    let link = table.lines().next().and_then(|row| row.split('\t').nth(1)).ok_or("no link")?;
    phone.visit("about:blank").await.ok();
    phone.open(&format!("#{link}")).await?;
    phone.says("main", "Nothing is saved until you say so").await?;
    phone.find("#link .setting").await?;
    let shell = "return performance.getEntriesByName('first-contentful-paint')[0].startTime";
    let shell = phone.js(shell).await?.as_f64().unwrap_or(f64::MAX);
    let answer = phone.js("return window.answered").await?.as_f64().unwrap_or(f64::MAX);
    println!(
        "with no network the shell stands after {shell:.0} ms of {SHELL:.0}, a link's answer after {answer:.0} of {ANSWER:.0}"
    );
    ensure(shell < 3.0 * SHELL, format!("the shell stands after {shell:.0} ms"))?;
    ensure(answer < 3.0 * ANSWER, format!("the answer stands after {answer:.0} ms"))
}

/// How soon the page's shell and a link's first answer are to stand, with no network, in ms; three
/// times as long is a fault.
const SHELL: f64 = 500.0;
const ANSWER: f64 = 1000.0;

/// Notes when the first answer stands.
const ANSWERED: &str = "
  new MutationObserver(() => {
    if (!window.answered && document.querySelector('#link .setting')) window.answered = performance.now();
  }).observe(document, { childList: true, subtree: true });
";

pub(crate) async fn fault_09_a_set_with_a_fault_is_not_kept(phone: &mut Phone) -> Outcome {
    let icon = file(&phone.settings.dist, "apple-touch.png")?;
    let faults = [Fault::Missing, Fault::Halved, Fault::Corrupt];
    for fault in faults {
        // Not of the first load: the page itself runs all the same.
        phone.site.fault(&icon, Some(fault));
        phone.open("").await?;
        // What is left is asked below, once the worker has come as far as the fault.
        let from = Instant::now();
        let mut asked = Vec::new();
        while !asked.contains(&icon) {
            ensure(from.elapsed() < PATIENCE, format!("{fault:?}: only {asked:?} were asked for"))?;
            tokio::time::sleep(GLANCE).await;
            asked.extend(phone.site.asked());
        }
        let state = settled(phone).await?;
        if state != "gone" {
            return Err(format!("{fault:?}: the worker is {state}").into());
        }
        let caches = phone.promised("caches.keys()").await?;
        if caches.as_array().is_none_or(|names| !names.is_empty()) {
            return Err(format!("{fault:?}: something was kept: {caches}").into());
        }
    }
    // The page asks again by itself, and what is slow is waited for.
    phone.site.fault(&icon, Some(Fault::Slow(Duration::from_secs(2))));
    let from = Instant::now();
    while phone.is_kept().await.is_err() {
        ensure(from.elapsed() < 3 * PATIENCE, "it isn't asked for again")?;
    }
    Ok(())
}

pub(crate) async fn fault_08_a_newer_page_in_the_middle_of_work_waits_for_a_tap(
    phone: &mut Phone,
) -> Outcome {
    phone.open("").await?;
    phone.is_kept().await?;
    phone.promised("caches.open('another page of this host')").await?;
    // In the middle of a piece of work.
    phone.tap("a.start").await?;
    phone.tap("[data-do=forward]").await?;
    phone.says(".bench-lit", "1 of").await?;
    let newer = Altered::of(&phone.settings.dist, "index.html", |page| {
        page.replacen("<html ", "<html data-newer ", 1)
    })?;
    phone.host_serves(newer);
    phone
        .promised("navigator.serviceWorker.ready.then((registration) => registration.update())")
        .await?;
    phone.says(".notice", "A newer Latheside is ready").await?;
    for _ in 0..2 {
        if phone.js(&format!("return {NEWER}")).await? == true {
            return Err("the newer page came by itself".into());
        }
        phone.reload().await?;
    }
    phone.says(".notice", "A newer Latheside is ready").await?;
    phone.is_accessible().await?;
    phone.tap("[data-do=update]").await?;
    phone.until(NEWER).await?;
    phone.is_ready().await?;
    phone.says(".bench-lit", "1 of").await?;
    let names = phone.promised("caches.keys()").await?;
    let names: Vec<&str> =
        names.as_array().into_iter().flatten().filter_map(|n| n.as_str()).collect();
    let ours = names.iter().filter(|name| name.starts_with("latheside ")).count();
    if ours != 1 || !names.contains(&"another page of this host") {
        return Err(format!("kept: {names:?}").into());
    }
    Ok(())
}

pub(crate) async fn fault_07_two_tabs_keep_each_others_changes(phone: &mut Phone) -> Outcome {
    phone.open("#shop").await?;
    let (first, second) = phone.another_tab().await?;
    phone.open("").await?;
    phone.turn_to(&first).await?;
    phone.enter("#blank-lathe-leadscrew", "4 mm").await?;
    phone.turn_to(&second).await?;
    // 1.27 mm on a leadscrew of 4 mm: another train than on one of 3 mm, without a reload.
    phone
        .until("document.querySelector('#op-0 [data-fold=why-0]').textContent.includes('÷ 4 ')")
        .await?;
    phone.enter("#blank-0-length", "31 mm").await?;
    phone.tap("nav.block a:nth-child(1)").await?;
    phone.says("#blank-lathe-leadscrew", "4 mm").await?;
    phone.turn_to(&first).await?;
    phone.enter("#blank-lathe-dials-cross-backlash", "0.2 mm").await?;
    phone.tap("nav.block a:nth-child(2)").await?;
    phone.says("#blank-0-length", "31 mm").await?;
    phone.turn_to(&second).await?;
    phone.says("#blank-lathe-dials-cross-backlash", "0.2 mm").await?;
    phone.reload().await?;
    phone.says("#blank-lathe-leadscrew", "4 mm").await?;
    phone.says("#blank-lathe-dials-cross-backlash", "0.2 mm").await
}

pub(crate) async fn fault_03_with_nothing_to_keep_in_it_still_works(phone: &mut Phone) -> Outcome {
    let blocked = json!({ "profile.default_content_setting_values.cookies": 2 });
    let other = phone.stranger_with(blocked).await?;
    other.open("").await?;
    other.says(".notice", "lets the page keep nothing").await?;
    other.is_accessible().await?;
    let denied =
        other.js("try { return String(localStorage) } catch (why) { return why.name }").await?;
    ensure(denied == "SecurityError", format!("the storage isn't blocked: {denied}"))?;
    other.enter("#blank-1-into", "36").await?;
    // 72 ÷ 36: arithmetic.
    other.until("document.querySelector('#op-1 .setting b').innerText === '2'").await?;
    other.tap("a.start").await?;
    other.tap("[data-do=forward]").await?;
    other.says(".bench-lit", "1 of").await?;
    other.tap("[data-do=\"seen 0\"]").await?;
    other.until("!document.querySelector('.notice')").await?;
    Ok(())
}

pub(crate) async fn fault_02_a_full_device_is_owned_up_to(phone: &mut Phone) -> Outcome {
    phone.open("").await?;
    let fill = "let size = 1 << 22;
      for (let n = 0; size >= 1; n += 1)
        try { localStorage.setItem('another page of this host ' + n, 'x'.repeat(size)) } catch { size >>= 1 }";
    phone.js(fill).await?;
    phone.enter("#blank-1-into", "36").await?;
    phone.says(".notice", "storage is full").await?;
    phone.until("document.querySelector('#op-1 .setting b').innerText === '2'").await?;
    phone.reload().await?;
    // What was kept before is whole.
    phone.says("#blank-1-into", "24").await?;
    phone.js("Object.keys(localStorage).filter((key) => key.startsWith('another')).forEach((key) => localStorage.removeItem(key))").await?;
    phone.enter("#blank-1-into", "36").await?;
    phone.reload().await?;
    phone.says("#blank-1-into", "36").await?;
    phone.until("!document.querySelector('.notice')").await
}

pub(crate) async fn fault_04_damage_is_set_aside_and_what_was_before_counts(
    phone: &mut Phone,
) -> Outcome {
    phone.open("").await?;
    phone.enter("#blank-1-into", "36").await?;
    phone.enter("#blank-1-into", "18").await?;
    let spoil = "const keys = Object.keys(localStorage).filter((key) => key.startsWith('latheside.setup.'));
      const number = (key) => Number(localStorage.getItem(key).split(' ')[1]);
      const newest = keys.sort((a, b) => number(b) - number(a))[0];
      localStorage.setItem(newest, localStorage.getItem(newest).replace('18', '81'));
      return keys.length";
    let slots = phone.js(spoil).await?;
    ensure(slots == 2, format!("a setup is kept in {slots} slots"))?;
    phone.reload().await?;
    phone.says(".notice", "damaged").await?;
    phone.find("#blank-1-into").await?;
    let kept = phone.entered("#blank-1-into").await?;
    ensure(kept != "81" && kept != "18", format!("a damaged {kept} counts"))?;
    phone.to("#setups").await?;
    phone.says("#setups", "set aside").await?;
    phone.is_accessible().await?;
    let aside = phone
        .js("return Object.entries(localStorage).filter(([key, value]) => key.includes('aside') && value.includes('81')).length")
        .await?;
    ensure(aside == 1, "what was damaged is thrown away")
}

pub(crate) async fn fault_05_a_newer_pages_writing_is_left_alone(phone: &mut Phone) -> Outcome {
    phone.open("").await?;
    phone.js("localStorage.setItem('latheside.shop.a', '2 9 00000000 something new')").await?;
    phone.reload().await?;
    phone.says(".notice", "A newer Latheside has written here").await?;
    phone.to("#shop").await?;
    phone.enter("#blank-lathe-leadscrew", "5 mm").await?;
    let kept = phone.js("return localStorage.getItem('latheside.shop.a')").await?;
    ensure(kept == "2 9 00000000 something new", format!("it was overwritten: {kept}"))
}

/// What became of the worker, once that is settled: "kept", or "gone".
async fn settled(phone: &Phone) -> Outcome<String> {
    let state = "navigator.serviceWorker.getRegistration().then((registration) =>
        !registration?.installing && !registration?.waiting && !registration?.active ? 'gone'
          : registration.active?.state === 'activated' ? 'kept' : 'under way')";
    for _ in 0..100 {
        let state = phone.promised(state).await?;
        if state != "under way" {
            return Ok(state.as_str().unwrap_or_default().to_owned());
        }
        tokio::time::sleep(Duration::from_millis(100)).await;
    }
    Err("the worker is never done with".into())
}

/// Whether the page on the screen is the newer one.
const NEWER: &str = "document.documentElement.hasAttribute('data-newer')";
