//! The chart of one's own lathe, and what takes long: watched, stopped, taken up again.

use crate::download::Download;
use crate::phone::Phone;
use crate::setup::{add, begin};
use crate::{Outcome, ensure};
use serde_json::json;

pub(crate) async fn a_chart_is_read_and_kept_as_a_file(phone: &mut Phone) -> Outcome {
    let downloads = Download::folder()?;
    phone.downloads_go_to(&downloads).await?;
    phone.open("").await?;
    begin(phone).await?;
    add(phone, "chart", 0).await?;
    phone.tap("[data-do=done]").await?;
    phone.until("!document.querySelector('#op-0 .under-way')").await?;
    phone.says("#op-0 .setting", "exactly").await?;
    phone.find("#op-0 .d-leads").await?;
    phone.unfold("rows-0").await?;
    phone.unfold("rows-0-0").await?;
    // The rows come when it is open.
    phone.find("#op-0 [data-fold=rows-0-0] tbody tr").await?;
    let rows = phone.texts("#op-0 [data-fold=rows-0-0] tr").await?;
    ensure(rows.len() > 60, format!("{} rows of metric threads", rows.len()))?;
    phone.shot("chart").await?;
    phone.is_accessible().await?;
    phone.tap("[data-do=\"rows 0\"]").await?;
    let file = std::fs::read_to_string(downloads.arrived().await?)?;
    let lines: Vec<&str> = file.split("\r\n").filter(|line| !line.is_empty()).collect();
    ensure(lines.len() > 200, format!("{} lines in the file", lines.len()))?;
    // ISO 261: the coarse pitch of M10 is 1.5 mm.
    let m10 = lines.iter().find(|line| line.starts_with("M10,")).ok_or("no M10 in the file")?;
    ensure(m10.split(',').nth(1) == Some("1.5"), format!("M10 is {m10}"))
}

pub(crate) async fn which_gears_are_never_needed(phone: &mut Phone) -> Outcome {
    phone.open("").await?;
    begin(phone).await?;
    add(phone, "chart", 0).await?;
    phone.tap("[data-do=\"choose gears\"]").await?;
    phone.says("#op-0 .setting", "never needed").await?;
    phone.until("!document.querySelector('#op-0 .under-way')").await?;
    phone.unfold("rows-0").await?;
    phone.find("#op-0 .rows tbody tr").await?;
    let rows = phone.texts("#op-0 .rows tbody tr").await?;
    ensure(rows.len() > 5, format!("{rows:?}"))?;
    ensure(!rows.iter().any(|row| row.contains("not tried")), format!("{rows:?}"))
}

/// A frame on a slow phone may take so long, ms; three times as long is a fault.
const FRAME: f64 = 50.0;

pub(crate) async fn long_work_is_watched_stopped_and_taken_up_again(phone: &mut Phone) -> Outcome {
    phone.open("#shop").await?;
    let gears = (0..60).map(|n| (20 + n).to_string()).collect::<Vec<_>>().join(", ");
    phone.enter("#blank-lathe-change_gears", &gears).await?;
    phone.enter("#blank-lathe-pairs_max", "3").await?;
    begin(phone).await?;
    add(phone, "more-gears", 0).await?;
    phone.devtools("Emulation.setCPUThrottlingRate", json!({ "rate": 4 })).await?;
    phone
        .js("window.longest = 0;
             let last = performance.now();
             requestAnimationFrame(function look(now) {
               longest = Math.max(longest, now - last);
               last = now;
               requestAnimationFrame(look);
             })")
        .await?;
    phone.keyboard("3").await?;
    phone.find("#op-0 .under-way progress").await?;
    phone.shot("under-way").await?;
    phone.tap("[data-do=done]").await?;
    phone.tap("#op-0 [data-work^=stop]").await?;
    phone.says("#op-0 .under-way", "Stopped").await?;
    const DONE: &str = "return document.querySelector('#op-0 progress').value";
    let stopped = phone.js(DONE).await?;
    phone.rest().await;
    ensure(phone.js(DONE).await? == stopped, "it went on though it was stopped")?;
    phone.is_accessible().await?;
    phone.tap("#op-0 [data-work^=go-on]").await?;
    // What came before was the keypad's, and the rules'.
    phone.js("longest = 0").await?;
    phone
        .until(&format!(
            "(document.querySelector('#op-0 progress')?.value ?? Infinity) > {stopped} + 3e6"
        ))
        .await?;
    let longest = phone.js("return longest").await?.as_f64().unwrap_or_default();
    println!(
        "the longest frame during long work, at a fourth of the speed: {longest:.0} ms of {FRAME:.0}"
    );
    ensure(longest > 0.0 && longest < 3.0 * FRAME, format!("a frame took {longest:.0} ms"))
}
