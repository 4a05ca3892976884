//! The whole of the main job with a keyboard alone: a pedal's wearer, a tablet's cover, or somebody
//! who can't touch the screen.

use crate::Outcome;
use crate::phone::{ENTER, Phone};

const TAB: &str = "\u{E004}";
const SPACE: &str = " ";

/// What has the focus is in view, with a line about it; a window that nobody has turned to, as there
/// are among many on one screen, shows none.
const SEEN: &str = "(() => {
  const e = document.activeElement, style = getComputedStyle(e);
  const { top, bottom } = e.getBoundingClientRect();
  const lined = style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2;
  return (lined || !document.hasFocus()) && bottom > 0 && top < innerHeight;
})()";

/// Goes on with the tabulator until an element has the focus, and sees to it that one can see so.
async fn reach(phone: &Phone, css: &str) -> Outcome {
    let quoted = serde_json::Value::from(css);
    // What is about to be drawn can't be reached before.
    phone.find(css).await?;
    for _ in 0..150 {
        phone.press(TAB).await?;
        let there = phone.js(&format!("return document.activeElement?.matches({quoted})")).await?;
        if there == true {
            if phone.until(SEEN).await.is_ok() {
                return Ok(());
            }
            let how = phone
                .js("const e = document.activeElement, { outline } = getComputedStyle(e);
                     const { top, bottom } = e.getBoundingClientRect();
                     return `${e.outerHTML.slice(0, 80)}, outline ${outline}, ${top} to ${bottom} of ${innerHeight}`")
                .await?;
            return Err(format!("`{css}` has the focus, and nobody can see it: {how}").into());
        }
    }
    Err(format!("`{css}` can't be reached by the tabulator").into())
}

pub(crate) async fn a_keyboard_alone_does_the_whole_job(phone: &mut Phone) -> Outcome {
    phone.open("").await?;
    reach(phone, "nav.block a:nth-child(2)").await?;
    phone.to("#setups").await?;
    reach(phone, "[data-do=new-setup]").await?;
    phone.press(ENTER).await?;
    phone.until("location.hash.startsWith('#setup/')").await?;
    reach(phone, "details[data-fold=kinds] > summary").await?;
    phone.press(ENTER).await?;
    reach(phone, "[data-do=\"add thread\"]").await?;
    phone.press(ENTER).await?;
    // Its first blank is open at once; Enter goes on to the next, a choice whose first word has the
    // focus: Enter takes it.
    phone.until("document.activeElement?.id === 'keypad-field'").await?;
    phone.press("M10x1").await?;
    phone.press(ENTER).await?;
    phone.until("document.activeElement?.matches('[data-do=\"choose outside\"]')").await?;
    phone.press(ENTER).await?;
    phone.until("document.querySelector('.pad').hidden").await?;
    phone.says("#blank-0-designation", "M10").await?;
    reach(phone, "#blank-0-length").await?;
    phone.press(ENTER).await?;
    phone.until("document.activeElement?.id === 'keypad-field'").await?;
    phone.press("20").await?;
    phone.press(ENTER).await?;
    phone.until("document.querySelector('.pad').hidden").await?;
    phone.says("#op-0 .verdict", "exact").await?;
    phone.find("#op-0 .setting").await?;
    reach(phone, "a.start").await?;
    phone.press(ENTER).await?;
    phone.says(".bench-lit span", "0 of ").await?;
    reach(phone, "[data-do=forward]").await?;
    phone.press(ENTER).await?;
    phone.says(".bench-lit span", "1 of ").await?;
    phone.rest().await;
    // The key for the next step has kept the focus: once more, and a third time by the space bar.
    phone.press(SPACE).await?;
    phone.says(".bench-lit span", "2 of ").await?;
    phone.rest().await;
    reach(phone, "[data-do=back]").await?;
    phone.press(ENTER).await?;
    phone.says(".bench-lit span", "1 of ").await
}
