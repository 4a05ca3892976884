//! What stands on the screen: the example at once, and every room fit to be read and touched.

use crate::phone::Phone;
use crate::{Outcome, ensure};
use serde_json::Value;

pub(crate) async fn the_example_stands_there_at_once(phone: &mut Phone) -> Outcome {
    phone.open("").await?;
    phone.shot("setup").await?;
    ensure(phone.fragment().await?.starts_with("#setup/"), "the example isn't open")?;
    let train = phone.figures("#op-0").await?;
    let teeth: Vec<f64> = train.iter().filter_map(|figure| figure.parse().ok()).collect();
    ensure(teeth.len() >= 2 && teeth.len().is_multiple_of(2), format!("a train of {train:?}"))?;
    let ratio: f64 = teeth.chunks(2).map(|pair| pair[0] / pair[1]).product();
    // 20 threads an inch, an inch being 25.4 mm (international yard and pound agreement, 1959),
    // on a leadscrew of 3 mm.
    let error = ratio * 3.0 - 25.4 / 20.0;
    ensure(error.abs() < 0.001, format!("{train:?} cuts a lead {error} mm off"))?;
    // 72 ÷ 24: arithmetic.
    let divide = phone.figures("#op-1").await?;
    ensure(divide.first().is_some_and(|move_by| move_by == "3"), format!("divides by {divide:?}"))?;
    // The example's fastest: a 3 mm slot drill in mild steel wants more than there is.
    let speed = phone.figures("#op-2").await?;
    ensure(speed == ["900"], format!("runs at {speed:?}"))?;
    for at in 0..3 {
        phone.find(&format!("#op-{at} .answer > .drawing svg")).await?;
        phone.find(&format!("#op-{at} .verdict")).await?;
    }
    let rooms = phone.texts("nav.block .block-room").await?;
    ensure(rooms == ["Shop", "Setups", "Bench"], format!("the rooms are {rooms:?}"))
}

pub(crate) async fn every_room_can_be_read_on_blue(phone: &mut Phone) -> Outcome {
    every_room_can_be_read(phone, "blue").await
}

pub(crate) async fn every_room_can_be_read_on_paper(phone: &mut Phone) -> Outcome {
    every_room_can_be_read(phone, "paper").await
}

pub(crate) async fn every_room_can_be_read_in_the_sun(phone: &mut Phone) -> Outcome {
    every_room_can_be_read(phone, "sun").await
}

async fn every_room_can_be_read(phone: &mut Phone, ground: &str) -> Outcome {
    phone.open("#shop").await?;
    phone.tap(&format!("[data-do=\"ground {ground}\"]")).await?;
    phone.until(&format!("document.documentElement.dataset.theme === '{ground}'")).await?;
    round(phone, async |phone, room| {
        phone.shot(&format!("{ground}-{room}")).await?;
        for (wide, high, letters) in SHEETS {
            phone.resize(wide, high).await?;
            phone.js(&format!("document.documentElement.style.fontSize = '{letters}'")).await?;
            phone.is_accessible().await.map_err(|why| {
                let letters = if letters.is_empty() { "" } else { " in large letters" };
                format!("{room} on {ground}, {wide} wide{letters}: {why}")
            })?;
        }
        phone.js("document.documentElement.style.fontSize = ''").await?;
        phone.resize(390, 844).await
    })
    .await
}

/// A narrow phone, a phone, a tablet and a screen on the wall, in pixels wide and high; and the
/// phone of somebody who wants large letters.
const SHEETS: [(u32, u32, &str); 5] =
    [(390, 844, ""), (320, 640, ""), (820, 1180, ""), (1280, 800, ""), (390, 844, TWICE)];

/// Letters of twice their size.
const TWICE: &str = "2.25rem";

pub(crate) async fn whatever_is_touched_is_large_enough(phone: &mut Phone) -> Outcome {
    phone.open("#shop").await?;
    round(phone, async |phone, room| {
        let small = phone.js(SMALL).await?;
        let small = small.as_array().ok_or("nothing was measured")?;
        let small: Vec<&str> = small.iter().filter_map(Value::as_str).collect();
        ensure(small.is_empty(), format!("{room}: too small\n{}", small.join("\n")))
    })
    .await
}

pub(crate) async fn fault_15_nothing_hangs_over_a_narrow_sheet(phone: &mut Phone) -> Outcome {
    phone.open("#shop").await?;
    phone.resize(320, 640).await?;
    nothing_hangs_over(phone, "narrow").await
}

pub(crate) async fn fault_15_nothing_hangs_over_with_letters_twice_the_size(
    phone: &mut Phone,
) -> Outcome {
    phone.open("#shop").await?;
    phone.js(&format!("document.documentElement.style.fontSize = '{TWICE}'")).await?;
    nothing_hangs_over(phone, "large").await
}

async fn nothing_hangs_over(phone: &mut Phone, name: &str) -> Outcome {
    round(phone, async |phone, room| {
        let over = phone.js(OVER).await?;
        let over = over.as_array().ok_or("nothing was measured")?;
        let over: Vec<&str> = over.iter().filter_map(Value::as_str).collect();
        phone.shot(&format!("{name}-{room}")).await?;
        ensure(over.is_empty(), format!("{room}: hangs over\n{}", over.join("\n")))
    })
    .await
}

/// Whoever asks for less motion gets none: every browser here is started so.
pub(crate) async fn nothing_moves_by_itself(phone: &mut Phone) -> Outcome {
    phone.open("#shop").await?;
    round(phone, async |phone, room| {
        let asked = phone.js("return matchMedia('(prefers-reduced-motion: reduce)').matches").await?;
        ensure(asked == true, "this browser wasn't asked for less motion")?;
        let moving = phone
            .js("return document.getAnimations()
                   .filter((a) => a.playState === 'running' && a.effect.getComputedTiming().activeDuration > 20)
                   .map((a) => a.effect.target?.outerHTML.slice(0, 120))")
            .await?;
        ensure(moving == serde_json::json!([]), format!("{room}: moves by itself: {moving}"))
    })
    .await
}

/// Goes through every room, and what can be opened in it, and has a look at each.
async fn round(
    phone: &mut Phone,
    mut look: impl AsyncFnMut(&mut Phone, &str) -> Outcome,
) -> Outcome {
    const UNFOLD: &str =
        "document.querySelectorAll('details:not(.menu)').forEach((d) => d.open = true)";
    phone.to("#shop").await?;
    phone.js(UNFOLD).await?;
    look(phone, "shop").await?;
    phone.open_blank("#blank-lathe-change_gears").await?;
    look(phone, "number-keys").await?;
    phone.tap("[data-do=done]").await?;
    phone.open_blank("#blank-lathe-nose").await?;
    look(phone, "choice-keys").await?;
    phone.tap("[data-do=done]").await?;
    phone.to("#setups").await?;
    phone.js(UNFOLD).await?;
    look(phone, "setups").await?;
    phone.tap(".entry a").await?;
    phone.find("#op-2 .setting").await?;
    phone.js(UNFOLD).await?;
    look(phone, "setup").await?;
    phone.tap("header .menu summary").await?;
    look(phone, "menu").await?;
    phone.tap("header .menu summary").await?;
    phone.js("Object.defineProperty(navigator, 'share', { value: async () => {}, configurable: true })").await?;
    phone.tap("#setup-foot [data-do=share]").await?;
    phone.find(".shared .qr svg").await?;
    look(phone, "shared").await?;
    phone.tap("[data-do=put-away]").await?;
    phone.tap("a[href^='#paper/']").await?;
    phone.find("#paper article .setting").await?;
    look(phone, "on-paper").await?;
    phone.tap("#paper a.key").await?;
    phone.open_blank("#blank-0-designation").await?;
    look(phone, "suggestions").await?;
    phone.keyboard("3/8 BS").await?;
    phone.find("#op-0 .stale-for").await?;
    phone.tap("[data-do=done]").await?;
    look(phone, "unfinished").await?;
    phone.enter("#blank-0-designation", "3/8 BSF").await?;
    phone.tap("a.start").await?;
    phone.find(".bench-title").await?;
    look(phone, "bench").await?;
    phone.tap("[data-do=forward]").await?;
    phone.says(".bench-lit", "1 of").await?;
    look(phone, "bench-figure").await?;
    phone.tap("nav.block a:nth-child(1)").await?;
    phone.find("#shop .section").await?;
    phone.tap("nav.block a:nth-child(3)").await?;
    phone.find("[data-do=not-yet]").await?;
    look(phone, "is-this-done").await?;
    phone.rest().await;
    phone.tap("[data-do=not-yet]").await?;
    phone.rest().await;
    phone.tap("[data-do=back]").await?;
    phone.says(".bench-lit", "0 of").await?;
    phone.to("#s1.AAAAAAAA").await?;
    phone.find("#link .complaint").await?;
    look(phone, "damaged-link").await
}

/// What can be touched and is below its floor: the steps' keys 160 by 96, the keypad's 76, others
/// 64 on the bench and 48 elsewhere; and figures and settings too small to be read from afar.
const SMALL: &str = "
  const floor = (e) =>
    e.matches('.bench-keys button') ? [160, 96]
    : e.matches('.pad button') ? [76, 76]
    : document.documentElement.dataset.room === 'bench' ? [64, 64]
    : [48, 48];
  const name = (e) => e.outerHTML.slice(0, 120);
  const seen = (e) => e.checkVisibility({ visibilityProperty: true });
  const touched = [...document.querySelectorAll('a, button, summary, input, textarea, select')].filter(seen);
  if (!touched.length) throw new Error('nothing to touch');
  const small = touched.flatMap((e) => {
    const { width, height } = e.getBoundingClientRect();
    const [w, h] = floor(e);
    return width + 0.01 < w || height + 0.01 < h
      ? [`${width.toFixed(1)} by ${height.toFixed(1)}, not ${w} by ${h}: ${name(e)}`] : [];
  });
  const read = [['.answer .setting b', 48], ['.bench-figure', 32], ['.bench-question', 32], ['.pad input', 32]];
  for (const [css, least] of read) for (const e of [...document.querySelectorAll(css)].filter(seen)) {
    const size = parseFloat(getComputedStyle(e).fontSize);
    if (size < least) small.push(`${size} px, not ${least}: ${name(e)}`);
  }
  // Keys that stand together leave room between them for a thumb.
  for (const group of ['.pad-digits', '.pad-side', '.pad-foot', '.pad-choices', '.bench-keys'])
    for (const keys of document.querySelectorAll(group)) {
      const boxes = [...keys.querySelectorAll('button')].filter(seen).map((e) => e.getBoundingClientRect());
      boxes.forEach((a, i) => boxes.slice(i + 1).forEach((b) => {
        const across = Math.max(b.left - a.right, a.left - b.right);
        const down = Math.max(b.top - a.bottom, a.top - b.bottom);
        if (Math.max(across, down) < 11.99) small.push(`keys closer than 12 px in ${group}`);
      }));
    }
  return small;
";

/// What reaches beyond the sheet's edge, unless it scrolls or is cut off in its own box.
const OVER: &str = "
  const edge = document.documentElement.clientWidth;
  if (document.documentElement.scrollWidth <= edge) return [];
  return [...document.querySelectorAll('body *')]
    .filter((e) => e.checkVisibility() && e.getBoundingClientRect().right > edge + 0.5)
    .map((e) => `${e.getBoundingClientRect().right.toFixed(0)} of ${edge}: ${e.outerHTML.slice(0, 120)}`);
";
