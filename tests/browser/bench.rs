//! Work carried out a step at a time, its place kept whatever happens.

use crate::phone::{ARROW_LEFT, ARROW_RIGHT, Phone};
use crate::{Outcome, ensure};
use serde_json::json;
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

pub(crate) async fn a_double_tap_is_one_step(phone: &mut Phone) -> Outcome {
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

pub(crate) async fn a_screen_that_may_go_dark_is_owned_up_to(phone: &mut Phone) -> Outcome {
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
