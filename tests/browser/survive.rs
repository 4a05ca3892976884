//! What befalls a page beside a lathe: its own death in any room, and a clumsy world about it.

use crate::phone::{GLANCE, Phone};
use crate::{Outcome, ensure};
use serde_json::json;

/// When told to, overwrites whatever a module keeps in its memory, the page's own or that of the
/// answers: the next thing that it does is its last.
const SPOILER: &str = "
  const spoil = async (module) => {
    window.spoilt = await module;
    const works = await window.spoilt.default();
    new Uint8Array(works.memory.buffer).fill(0xA5);
    document.documentElement.dataset.spoilt = '';
  };
  addEventListener('spoil-page', () =>
    spoil(import(document.querySelector('link[rel=modulepreload][data-wasm]').href)));
  addEventListener('spoil-answers', () => spoil(window.lathesideWorks));
";

async fn spoil(phone: &Phone, what: &str) -> Outcome {
    let told = format!(
        "delete document.documentElement.dataset.spoilt; dispatchEvent(new Event('spoil-{what}'))"
    );
    phone.js(&told).await?;
    phone.until("'spoilt' in document.documentElement.dataset").await
}

pub(crate) async fn fault_14_a_death_in_any_room_is_owned_up_to(phone: &mut Phone) -> Outcome {
    for complaint in
        ["RuntimeError", "unreachable", "out of bounds", "started afresh", "the page has ended"]
    {
        phone.expect(complaint);
    }
    phone.before_load(SPOILER).await?;
    phone.open("").await?;
    phone.enter("#blank-1-into", "36").await?;
    // 72 ÷ 36: arithmetic.
    phone.until("document.querySelector('#op-1 .setting b')?.innerText === '2'").await?;
    let setup = phone.fragment().await?;
    let setup = setup.trim_start_matches("#setup/").to_owned();
    let rooms = [
        ("#shop".to_owned(), "#blank-lathe-leadscrew"),
        ("#setups".to_owned(), "[data-do=new-setup]"),
        (format!("#setup/{setup}"), "#blank-1-into"),
        (format!("#bench/{setup}"), "[data-do=forward]"),
        (format!("#paper/{setup}"), "#paper a.key"),
    ];
    for (room, touched) in &rooms {
        dies_and_comes_back(phone, room, touched).await.map_err(|why| format!("{room}: {why}"))?;
    }
    // A link that nobody has saved yet: to come back to it is enough.
    let table = include_str!("../files/links/golden.tsv");
    let link = table.lines().next().and_then(|row| row.split('\t').nth(1)).ok_or("no link")?;
    dies_and_comes_back(phone, &format!("#{link}"), "[data-do=save-link]").await?;
    // The answers' own module dies while one types: what was typed is answered by a fresh one.
    phone.to(&rooms[2].0).await?;
    phone.find("#op-1 .setting").await?;
    phone.open_blank("#blank-1-into").await?;
    spoil(phone, "answers").await?;
    phone.paste("18").await?;
    phone.until("document.querySelector('#op-1 .setting b')?.innerText === '4'").await?;
    // Under the same shell, in a memory of its own.
    is_whole(phone).await?;
    // Dead again so soon, it would die for ever: what was typed is kept.
    spoil(phone, "answers").await?;
    phone.paste("24").await?;
    is_over(phone).await?;
    phone.tap("#trouble-reload").await?;
    phone.is_ready().await?;
    phone.until("document.querySelector('#op-1 .setting b')?.innerText === '3'").await
}

/// On the bench, the step under one's hand comes back as it was, and so does the work after it; with
/// no network either.
pub(crate) async fn fault_14_answers_that_die_at_the_bench_are_worked_afresh(
    phone: &mut Phone,
) -> Outcome {
    for complaint in ["RuntimeError", "unreachable", "out of bounds", "started afresh"] {
        phone.expect(complaint);
    }
    phone.before_load(SPOILER).await?;
    phone.open("#bench/example").await?;
    phone.is_kept().await?;
    phone.site.stop();
    phone.tap("[data-do=forward]").await?;
    phone.says(".bench-lit span", "1 of ").await?;
    let step = phone.text(".bench-title").await?;
    phone.rest().await;
    spoil(phone, "answers").await?;
    phone.tap("[data-do=forward]").await?;
    is_whole(phone).await?;
    phone.says(".bench-lit span", "2 of ").await?;
    phone.rest().await;
    phone.tap("[data-do=back]").await?;
    phone.says(".bench-lit span", "1 of ").await?;
    ensure(phone.text(".bench-title").await? == step, "the step is another")
}

/// Nothing is amiss, and the answers stand in a memory that nobody has spoilt.
async fn is_whole(phone: &Phone) -> Outcome {
    phone.until("![undefined, window.spoilt].includes(window.lathesideWorks)").await?;
    phone.until("document.getElementById('trouble').hidden").await?;
    phone.until("!document.querySelector('main .working, main .complaint')").await
}

async fn dies_and_comes_back(phone: &Phone, room: &str, touched: &str) -> Outcome {
    phone.to(room).await?;
    phone.find(touched).await?;
    spoil(phone, "page").await?;
    phone.tap(touched).await.ok();
    // What it comes upon first in a spoilt memory is chance, and may be nothing at all: whoever is
    // there goes on to do this and that, as long as nothing is said.
    const STANDS: &str = "return !document.getElementById('trouble').hidden";
    for place in ["#shop", "#setups", "#shop", "#setups"] {
        for _ in 0..25 {
            if phone.js(STANDS).await? == true {
                break;
            }
            tokio::time::sleep(GLANCE).await;
        }
        if phone.js(STANDS).await? == true {
            break;
        }
        phone.js(&format!("location.hash = '{place}'")).await?;
    }
    is_over(phone).await?;
    // Whoever hears of it is told what it was, in the engine's own words.
    phone.says("#trouble-what", "in its own works: ").await?;
    phone.tap("#trouble-copy").await?;
    let data = phone.js("return document.getElementById('trouble-data').value").await?;
    let data = data.as_str().unwrap_or_default();
    ensure(data.contains("latheside.setup.") && data.contains("36"), format!("copied: {data}"))?;
    phone.tap("#trouble-reload").await?;
    phone.until("document.getElementById('trouble')?.hidden").await?;
    phone.is_ready().await?;
    phone.find("nav.block").await?;
    Ok(())
}

/// The panel of last resort stands there.
async fn is_over(phone: &Phone) -> Outcome {
    phone.says("#trouble", "Latheside has stopped").await?;
    phone.find("#trouble-reload").await?;
    // It is deaf for a moment: it may have come up under a finger that meant something else.
    phone.rest().await;
    Ok(())
}

pub(crate) async fn fault_15_a_turned_phone_keeps_its_place(phone: &mut Phone) -> Outcome {
    phone.open("").await?;
    phone.open_blank("#blank-0-length").await?;
    phone.keyboard("23").await?;
    phone.resize(844, 390).await?;
    let typed = phone.js("return document.getElementById('keypad-field').value").await?;
    ensure(typed == "23", format!("half typed, and turned: {typed}"))?;
    phone.tap("[data-do=done]").await?;
    phone.says("#blank-0-length", "23 mm").await?;
    phone.tap("a.start").await?;
    phone.says(".bench-lit span", "0 of ").await?;
    phone.tap("[data-do=forward]").await?;
    phone.says(".bench-lit span", "1 of ").await?;
    phone.rest().await;
    phone.resize(390, 844).await?;
    phone.says(".bench-lit span", "1 of ").await?;
    phone.tap("[data-do=forward]").await?;
    phone.says(".bench-lit span", "2 of ").await?;
    phone.resize(844, 390).await?;
    // On its side too, the key stands whole in view, at its full size.
    phone.find("[data-do=forward]").await?;
    let inside = phone
        .js("const { top, bottom, left, right, width, height } =
               document.querySelector('[data-do=forward]').getBoundingClientRect();
             return top >= 0 && left >= 0 && bottom <= innerHeight + 0.5 && right <= innerWidth + 0.5
               && width >= 160 && height >= 96")
        .await?;
    ensure(inside == true, "the key for the next step is cut off on a turned phone")
}

pub(crate) async fn fault_15_commas_and_minus_signs_are_numbers(phone: &mut Phone) -> Outcome {
    phone.open("").await?;
    for (typed, said) in
        [("23,5", "23.5 mm"), ("1 1/2\"", "1 1/2\""), ("23.5", "23.5 mm"), ("0,75 in", "0.75 in")]
    {
        phone.enter("#blank-0-length", typed).await?;
        let shown = phone.entered("#blank-0-length").await?;
        let plain = |words: &str| words.replace(',', ".");
        ensure(plain(&shown) == said, format!("{typed} became {shown}, not {said}"))?;
    }
    // A minus from a keyboard, from a printed page or from a phone's own: each is one, and each is
    // refused here by name.
    for minus in ["-", "\u{2212}", "\u{2013}"] {
        phone.open_blank("#blank-0-length").await?;
        phone.keyboard(&format!("{minus}5")).await?;
        phone.find("#op-0 .complaint").await?;
        let said = phone.text("#op-0 .complaint").await?;
        ensure(said.contains('5'), format!("{minus}5: {said}"))?;
        phone.tap("[data-do=done]").await?;
    }
    phone.enter("#blank-0-length", "20").await?;
    phone.until("!document.querySelector('#op-0 .complaint')").await
}

/// Hides the page from itself, and shows it again: what a browser does to one in the background.
const HIDE: &str = "
  window.shown = true;
  Object.defineProperty(document, 'visibilityState', { get: () => window.shown ? 'visible' : 'hidden' });
  Object.defineProperty(document, 'hidden', { get: () => !window.shown });
  window.later = 0;
  const now = Date.now;
  Date.now = () => now() + window.later;
  window.show = (shown) => {
    window.shown = shown;
    document.dispatchEvent(new Event('visibilitychange'));
    if (!shown) dispatchEvent(new PageTransitionEvent('pagehide', { persisted: true }));
    else dispatchEvent(new PageTransitionEvent('pageshow', { persisted: true }));
  };
";

pub(crate) async fn fault_15_half_an_hour_in_the_background(phone: &mut Phone) -> Outcome {
    phone.before_load(HIDE).await?;
    phone.open("").await?;
    phone.tap("a.start").await?;
    phone.says(".bench-lit span", "0 of ").await?;
    phone.tap("[data-do=forward]").await?;
    phone.says(".bench-lit span", "1 of ").await?;
    let title = phone.text(".bench-title").await?;
    phone.js("window.show(false)").await?;
    // Ended by the system meanwhile, or only asleep: the place is the same.
    phone.js("window.later = 30 * 60 * 1000; window.show(true)").await?;
    phone.says(".bench-lit span", "1 of ").await?;
    phone.says(".bench-title", &title).await?;
    phone.tap("[data-do=forward]").await?;
    phone.says(".bench-lit span", "2 of ").await?;
    let title = phone.text(".bench-title").await?;
    phone.js("window.show(false)").await?;
    phone.reload().await?;
    phone.says(".bench-question", "done?").await?;
    phone.tap("[data-do=not-yet]").await?;
    phone.says(".bench-title", &title).await
}

pub(crate) async fn fault_15_a_palm_is_no_step(phone: &mut Phone) -> Outcome {
    phone.open("").await?;
    phone.tap("a.start").await?;
    phone.says(".bench-lit span", "0 of ").await?;
    let key = phone
        .js("const { left, top, width, height } =
               document.querySelector('[data-do=forward]').getBoundingClientRect();
             return [left + width / 2, top + height / 2]")
        .await?;
    let at = |n: usize| key.get(n).and_then(serde_json::Value::as_f64).unwrap_or_default();
    // The heel of a hand: broad, in several places, and drawn along before it lifts.
    let touch = |id: u32, x: f64| json!({ "x": at(0) + x, "y": at(1), "radiusX": 40, "radiusY": 60, "id": id });
    let down = json!({ "type": "touchStart", "touchPoints": [touch(0, 0.0), touch(1, -70.0)] });
    phone.devtools("Input.dispatchTouchEvent", down).await?;
    let moved = json!({ "type": "touchMove", "touchPoints": [touch(0, 30.0), touch(1, -40.0)] });
    phone.devtools("Input.dispatchTouchEvent", moved).await?;
    let up = json!({ "type": "touchEnd", "touchPoints": [] });
    phone.devtools("Input.dispatchTouchEvent", up).await?;
    phone.rest().await;
    phone.says(".bench-lit span", "0 of ").await?;
    phone.rest().await;
    phone.tap("[data-do=forward]").await?;
    phone.says(".bench-lit span", "1 of ").await
}
