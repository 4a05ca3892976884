//! A setup on paper: how many pages, and nothing of the screen's own on them.

use crate::phone::Phone;
use crate::{Outcome, ensure};
use serde_json::{Value, json};

/// Paper by its name, its width and height in inches, and the most pages that the example may take.
const PAPERS: &[(&str, f64, f64, u64)] =
    &[("A4", 8.27, 11.69, 5), ("Letter", 8.5, 11.0, 5), ("A6", 4.13, 5.83, 9)];

pub(crate) async fn a_setup_prints_on_a4_letter_and_a6(phone: &mut Phone) -> Outcome {
    phone.open("").await?;
    let to = phone.js("return document.querySelector('a[href^=\"#paper\"]').hash").await?;
    phone.to(to.as_str().ok_or("no way to the paper")?).await?;
    phone.find(".paper-op .box").await?;
    phone.shot("paper").await?;
    for (name, wide, high, most) in PAPERS {
        let how = json!({ "paperWidth": wide, "paperHeight": high, "printBackground": true });
        let printed = phone.devtools("Page.printToPDF", how).await?;
        let data = printed.get("data").and_then(Value::as_str).ok_or("nothing was printed")?;
        let pages = phone
            .js(&format!("return (atob('{data}').match(/\\/Type\\s*\\/Page[^s]/g) ?? []).length"))
            .await?;
        let pages = pages.as_u64().unwrap_or_default();
        println!("the example takes {pages} pages of {name}");
        ensure((1..=*most).contains(&pages), format!("{pages} pages of {name}"))?;
    }
    // As it will be printed: nothing to touch, black on white, a box for every step.
    phone.devtools("Emulation.setEmulatedMedia", json!({ "media": "print" })).await?;
    let touched = phone
        .js("return [...document.querySelectorAll('button, nav, input, textarea, summary, .screen, .notices')]
               .filter((e) => e.checkVisibility()).map((e) => e.outerHTML.slice(0, 80))")
        .await?;
    ensure(touched == json!([]), format!("printed too: {touched}"))?;
    let ground =
        phone.js("return getComputedStyle(document.documentElement).backgroundColor").await?;
    ensure(ground == "rgb(255, 255, 255)", format!("on {ground}"))?;
    // Thirteen passes and the steps about them, the divisions of 24 and theirs: each can be ticked.
    let boxes = phone.js("return document.querySelectorAll('.paper .box').length").await?;
    phone.devtools("Emulation.setEmulatedMedia", json!({ "media": "" })).await?;
    phone.to("#setups").await?;
    phone.tap(".entry a").await?;
    phone.tap("a.start").await?;
    phone.says(".bench-lit span", &format!("0 of {boxes} steps")).await
}
