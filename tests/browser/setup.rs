//! Operations as sentences: each kind added, read, left unfinished, moved and had back.

use crate::download::Download;
use crate::phone::{BACKSPACE, Phone};
use crate::{Outcome, ensure};
use serde_json::Value;
use std::fs;

/// Begins a setup with nothing in it.
pub(crate) async fn begin(phone: &Phone) -> Outcome {
    phone.to("#setups").await?;
    phone.tap("[data-do=new-setup]").await?;
    phone.until("location.hash.startsWith('#setup/')").await?;
    phone.find("details[data-fold=kinds]").await?;
    Ok(())
}

pub(crate) async fn add(phone: &Phone, kind: &str, at: usize) -> Outcome {
    if phone.js("return document.querySelector('details[data-fold=kinds]').open").await? == false {
        phone.unfold("kinds").await?;
    }
    phone.tap(&format!("[data-do=\"add {kind}\"]")).await?;
    phone.find(&format!("#op-{at} .sentence")).await?;
    // Its first blank is asked for at once.
    phone.until("document.activeElement?.id === 'keypad-field'").await
}

pub(crate) async fn every_kind_is_added_from_the_list(phone: &mut Phone) -> Outcome {
    phone.open("").await?;
    begin(phone).await?;
    let kinds = phone
        .js("return [...document.querySelectorAll('[data-do^=\"add \"]')].map((key) => key.dataset.do.slice(4))")
        .await?;
    let kinds: Vec<&str> =
        kinds.as_array().into_iter().flatten().filter_map(Value::as_str).collect();
    ensure(kinds.len() >= 10, format!("the kinds are {kinds:?}"))?;
    for (at, kind) in kinds.iter().enumerate() {
        add(phone, kind, at).await?;
        phone.tap("[data-do=done]").await?;
        phone.until("document.querySelector('.pad').hidden").await?;
    }
    phone.is_accessible().await?;
    phone.reload().await?;
    for at in 0..kinds.len() {
        let blanks = phone.texts(&format!("#op-{at} .sentence .blank")).await?;
        ensure(!blanks.is_empty(), format!("operation {at} asks for nothing"))?;
    }
    Ok(())
}

pub(crate) async fn a_thread_is_added_and_read(phone: &mut Phone) -> Outcome {
    phone.open("").await?;
    begin(phone).await?;
    add(phone, "thread", 0).await?;
    phone.keyboard("M6").await?;
    phone.find("#suggestions button").await?;
    phone.tap("[data-do=next]").await?;
    phone.tap("[data-do=\"choose outside\"]").await?;
    phone.open_blank("#blank-0-length").await?;
    phone.keys(&["1", "2", " mm"]).await?;
    phone.tap("[data-do=done]").await?;
    phone.says("#op-0 .verdict", "exact").await?;
    // ISO 261: the coarse pitch of M6 is 1 mm, a third of a leadscrew of 3 mm.
    let train = phone.figures("#op-0").await?;
    let teeth: Vec<u64> = train.iter().filter_map(|figure| figure.parse().ok()).collect();
    let (drivers, driven): (u64, u64) =
        teeth.chunks(2).fold((1, 1), |(a, b), pair| (a * pair[0], b * pair[1]));
    ensure(drivers * 3 == driven && !teeth.is_empty(), format!("a train of {train:?}"))?;
    phone.unfold("why-0").await?;
    let formulas = phone.texts("#op-0 .why .source").await?;
    ensure(!formulas.is_empty(), "no reason is given")?;
    // What was opened stays open when the answer is worked again.
    phone.enter("#blank-0-length", "14 mm").await?;
    phone.find("#op-0 details[data-fold=why-0][open]").await?;
    // Trains that can't be mounted are out of sight until asked for.
    phone.unfold("others-0").await?;
    let hidden = phone.js("return document.querySelector('#op-0 [data-fold=not-0]')?.open").await?;
    ensure(hidden != true, "what can't be set up is shown unasked")
}

pub(crate) async fn a_circle_is_added_and_read(phone: &mut Phone) -> Outcome {
    phone.open("#shop").await?;
    phone.enter("#blank-dividing-direct", "80").await?;
    begin(phone).await?;
    add(phone, "divide", 0).await?;
    phone.tap("[data-do=done]").await?;
    phone.open_blank("#blank-0-into").await?;
    phone.keys(&["1", "0"]).await?;
    phone.tap("[data-do=done]").await?;
    // An 80-tooth gear divided into 10: move 8 (common practice, no source).
    phone.says("#op-0 .verdict", "exact").await?;
    let figures = phone.figures("#op-0").await?;
    ensure(figures.first().is_some_and(|teeth| teeth == "8"), format!("moves by {figures:?}"))?;
    for (typed, said) in [("0", "2"), ("-3", "-3"), ("10000", "9"), ("1", "2")] {
        phone.open_blank("#blank-0-into").await?;
        phone.keyboard(typed).await?;
        phone.says("#op-0 .complaint", said).await?;
        phone.tap("[data-do=done]").await?;
    }
    phone.enter("#blank-0-into", "33").await?;
    phone.find("#op-0 .answer:not(.stale) .setting").await?;
    phone.enter("#blank-0-diameter", "32").await?;
    phone.says("#blank-0-diameter", "32 mm").await?;
    phone.find("#blank-0-diameter.blank-assumed").await?;
    Ok(())
}

pub(crate) async fn a_cut_is_added_and_read(phone: &mut Phone) -> Outcome {
    phone.open("#shop").await?;
    phone.enter("#blank-lathe-spindle_speeds", "45, 900, 2000, 3200, 5000").await?;
    begin(phone).await?;
    add(phone, "cut", 0).await?;
    phone.tap("[data-do=\"choose Mill\"]").await?;
    phone.open_blank("#blank-0-stock").await?;
    phone.tap("[data-do=\"choose mild steel\"]").await?;
    phone.enter("#blank-0-diameter", "2 mm").await?;
    phone.unfold("more-0").await?;
    phone.open_blank("#blank-0-material").await?;
    phone.tap("[data-do=\"choose high-speed steel\"]").await?;
    phone.find("#op-0 .setting b").await?;
    // A 2 mm cutter of high-speed steel in steel wants some 3,000 to 4,000 (common practice, no source).
    let speed = phone.figures("#op-0").await?;
    let speed: Vec<String> = speed.iter().map(|figure| figure.replace(',', "")).collect();
    ensure(speed == ["3200"], format!("runs at {speed:?}"))
}

pub(crate) async fn what_is_lacking_is_asked_for_in_place(phone: &mut Phone) -> Outcome {
    phone.open("#shop").await?;
    phone.tap("header .menu summary").await?;
    phone.tap("[data-do=empty-shop]").await?;
    phone.find("#blank-lathe-leadscrew.blank-empty").await?;
    phone.tap("nav.block a:nth-child(2)").await?;
    phone.find("#op-0 .ask").await?;
    let settings = phone.texts("#op-0 .setting").await?;
    let drives = settings.iter().any(|setting| setting.contains("drives"));
    ensure(!drives, format!("a train of nothing: {settings:?}"))?;
    phone.is_accessible().await?;
    phone.enter("#op-0 #blank-lathe-leadscrew", "3 mm").await?;
    phone.enter("#op-0 #blank-lathe-change_gears", "20-120 by 5, 63").await?;
    phone.says("#op-0 .setting", "drives").await?;
    phone.to("#shop").await?;
    phone.says("#blank-lathe-leadscrew", "3 mm").await
}

pub(crate) async fn an_unfinished_entry_strikes_the_last_answer_out(phone: &mut Phone) -> Outcome {
    phone.open("").await?;
    let before = phone.figures("#op-1").await?;
    phone.open_blank("#blank-1-into").await?;
    phone.keyboard("24x").await?;
    phone.find("#op-1 .answer.stale .setting").await?;
    phone.says("#op-1 .stale-for", "24").await?;
    let struck = phone
        .js("return getComputedStyle(document.querySelector('#op-1 .stale .setting b')).textDecorationLine")
        .await?;
    ensure(struck == "line-through", format!("the last answer is drawn {struck}"))?;
    let stale = phone.texts("#op-1 .stale .setting b").await?;
    ensure(stale == before, format!("{stale:?} is not the last good answer, {before:?}"))?;
    phone.tap("[data-do=done]").await?;
    phone.says("#setup-foot", "Bench waits").await?;
    ensure(
        phone.js("return document.querySelector('a.start')").await?.is_null(),
        "work may start",
    )?;
    // Nor by its address.
    phone.tap("nav.block a:nth-child(3)").await?;
    phone.says("#bench", "unfinished").await?;
    ensure(
        phone.js("return document.querySelector('[data-do=forward]')").await?.is_null(),
        "it started",
    )?;
    phone.tap("#bench a.key").await?;
    phone.reload().await?;
    phone.says("#blank-1-into.blank-unread", "24x").await?;
    phone.enter("#blank-1-into", "24").await?;
    phone.find("a.start").await?;
    // Taken away rather than unfinished: the answer is what it lacks, the last one struck out.
    phone.open_blank("#blank-1-into").await?;
    phone.keyboard(BACKSPACE).await?;
    phone.find("#op-1 .refused").await?;
    phone.find("#op-1 .answer.stale .setting").await?;
    Ok(())
}

pub(crate) async fn operations_move_and_setups_come_back(phone: &mut Phone) -> Outcome {
    async fn menu(phone: &Phone, at: usize, act: &str) -> Outcome {
        phone.tap(&format!("#op-{at} .menu summary")).await?;
        phone.tap(&format!("[data-do=\"{act} {at}\"]")).await
    }
    phone.open("").await?;
    phone.find("#op-2 .setting").await?;
    menu(phone, 0, "down").await?;
    phone.says("#op-1 .sentence", "Screw-cut").await?;
    phone.says("#op-0 .setting", "move").await?;
    menu(phone, 1, "up").await?;
    phone.says("#op-0 .sentence", "Screw-cut").await?;
    phone.says("#op-0 .setting", "drives").await?;
    menu(phone, 0, "up").await?;
    phone.says("#op-0 .sentence", "Screw-cut").await?;
    menu(phone, 1, "twice").await?;
    phone.says("#op-2 .sentence", "Divide").await?;
    phone.says("#op-3 .sentence", "Mill").await?;
    menu(phone, 2, "out").await?;
    phone.until("!document.querySelector('#op-3')").await?;
    phone.says("#op-2 .sentence", "Mill").await?;

    let first = phone.fragment().await?;
    phone.tap("header .menu summary").await?;
    phone.tap("[data-do=duplicate]").await?;
    phone.until(&format!("location.hash !== '{first}'")).await?;
    phone
        .until(
            "document.querySelector('input.name')?.value === 'Stop screw and index collar again'",
        )
        .await?;
    phone.tap("input.name").await?;
    phone.js("document.querySelector('input.name').select()").await?;
    phone.keyboard("Bed stop").await?;
    phone.says("nav.block", "Bed stop").await?;
    phone.to("#setups").await?;
    let names = phone.texts(".entry h2").await?;
    ensure(names == ["Bed stop", "Stop screw and index collar"], format!("saved: {names:?}"))?;
    phone.tap(".entry:first-child a").await?;
    phone.find("#op-2 .setting").await?;
    let second = phone.fragment().await?;
    phone.tap("header .menu summary").await?;
    phone.tap("[data-do=delete]").await?;
    phone.says(".undo", "Bed stop was deleted").await?;
    ensure(phone.texts(".entry h2").await?.len() == 1, "it is still there")?;
    phone.tap("[data-do=bring-back]").await?;
    phone.until("document.querySelectorAll('.entry').length === 2").await?;
    // Each has an address of its own, that the browser can keep.
    phone.open(&second).await?;
    phone.until("document.title === 'Bed stop · Latheside'").await?;
    phone.says("#op-1 .sentence", "Divide").await?;
    phone.open("#setup/gone").await?;
    phone.says("main", "No such setup here").await
}

pub(crate) async fn an_order_that_leaves_nothing_to_hold_is_said(phone: &mut Phone) -> Outcome {
    let folder = Download::folder()?;
    let file = folder.path.join("order.json");
    fs::write(
        &file,
        r#"{"format": "latheside-setup", "version": 1, "name": "Knob", "operations": [
          {"kind": "part-off", "stock": "brass", "diameter": "20 mm", "blade_width": "2 mm"},
          {"kind": "hole", "purpose": "tap", "designation": "M6", "depth": "8 mm"}]}"#,
    )?;
    phone.open("#setups").await?;
    phone.unfold("open").await?;
    phone.choose_file("#import", &file).await?;
    phone.says(".order", "After parting off in 1 nothing is left to hold for tapping in 2").await?;
    phone.shot("order").await?;
    phone.is_accessible().await?;
    // It holds nobody up.
    phone.find("a.start").await?;
    phone.tap("[data-do=\"arrange 1 0\"]").await?;
    phone.says("#op-0 .sentence", "M6").await?;
    phone.until("!document.querySelector('.order')").await?;
    phone.reload().await?;
    phone.says("#op-1 .sentence", "Part off").await
}
