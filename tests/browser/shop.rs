//! What is owned, entered by the page's own keys and by a keyboard, and what can't be so.

use crate::phone::{BACKSPACE, ENTER, ESCAPE, Phone};
use crate::{Outcome, ensure};

pub(crate) async fn gears_and_leadscrew_are_entered_by_the_keypad(phone: &mut Phone) -> Outcome {
    phone.open("#shop").await?;
    phone.open_blank("#blank-lathe-leadscrew").await?;
    phone.keys(&["8", " tpi"]).await?;
    phone.says("#keypad-said", "3.175 mm").await?;
    phone.tap("[data-do=rub]").await?;
    phone.find("#keypad-said .complaint").await?;
    phone.tap("[data-do=done]").await?;
    phone.enter("#blank-lathe-leadscrew", "3 mm").await?;
    phone.says("#blank-lathe-leadscrew", "3 mm").await?;
    phone.open_blank("#blank-lathe-change_gears").await?;
    phone.keys(&["2", "0", "-", "8", "0", " by ", "5", ", ", "1", "2", "7"]).await?;
    phone.tap("[data-do=done]").await?;
    phone.until("document.querySelector('.pad').hidden").await?;
    let focus = phone.js("return document.activeElement.id").await?;
    ensure(focus == "blank-lathe-change_gears", format!("the focus went to {focus}"))?;
    let gears = phone.text("#blank-lathe-change_gears").await?;
    ensure(gears.contains("127"), format!("the drawer holds {gears}"))?;
    phone.reload().await?;
    phone.says("#blank-lathe-change_gears", &gears).await?;
    // An inch is 127 fifths of a millimetre: with a gear of 127, 20 threads an inch come out exact.
    phone.tap("nav.block a:nth-child(2)").await?;
    phone.says("#op-0 .verdict", "exact").await?;
    let train = phone.figures("#op-0").await?;
    ensure(train.iter().any(|gear| gear == "127"), format!("a train of {train:?}"))
}

pub(crate) async fn a_keyboard_does_as_well(phone: &mut Phone) -> Outcome {
    phone.open("").await?;
    phone.open_blank("#blank-0-designation").await?;
    phone.keyboard("M10").await?;
    phone.says("#op-0 .verdict", "exact").await?;
    phone.keyboard(ENTER).await?;
    // Which side: a choice, its first word has the focus.
    phone.until("document.querySelector('#blank-0-side')?.ariaExpanded === 'true'").await?;
    phone.keyboard(ESCAPE).await?;
    phone.until("document.querySelector('.pad').hidden").await?;
    phone.until("document.activeElement.id === 'blank-0-side'").await?;
    phone.open_blank("#blank-0-length").await?;
    phone.keyboard("1 1/4 in").await?;
    phone.says("#keypad-said", "31.75 mm").await?;
    phone.keyboard(ENTER).await?;
    phone.until("document.querySelector('.pad').hidden").await?;
    phone.says("#blank-0-length", "1 1/4 in").await?;
    // ISO 261: the coarse pitch of M10 is 1.5 mm, half of a leadscrew of 3 mm.
    let train = phone.figures("#op-0").await?;
    let teeth: Vec<u64> = train.iter().filter_map(|figure| figure.parse().ok()).collect();
    let (drivers, driven): (u64, u64) =
        teeth.chunks(2).fold((1, 1), |(a, b), pair| (a * pair[0], b * pair[1]));
    ensure(drivers * 2 == driven && !teeth.is_empty(), format!("a train of {train:?}"))
}

pub(crate) async fn a_contradiction_is_said_at_once(phone: &mut Phone) -> Outcome {
    phone.open("#shop").await?;
    let complaints = phone.texts("#shop .complaint").await?;
    ensure(complaints.is_empty(), format!("the example contradicts itself: {complaints:?}"))?;
    phone.open_blank("#blank-lathe-leadscrew").await?;
    phone.keyboard(BACKSPACE).await?;
    phone.says("#shop .complaint", "a chasing dial runs on the leadscrew").await?;
    phone.keyboard("3").await?;
    phone.until("!document.querySelector('#shop .complaint')").await?;
    phone.tap("[data-do=done]").await?;
    phone.open_blank("#blank-dividing-head-plates").await?;
    phone.keyboard("15, 16, 15; 21").await?;
    phone.says("#shop .complaint", "the circle of 15 is entered twice on plate 1").await?;
    phone.tap("[data-do=done]").await?;
    phone.shot("contradiction").await?;
    phone.is_accessible().await
}

pub(crate) async fn what_cannot_be_is_kept_as_typed_and_gets_its_sentence(
    phone: &mut Phone,
) -> Outcome {
    phone.open("#shop").await?;
    let many = (0..110).map(|n| (20 + n % 100).to_string()).collect::<Vec<_>>().join(", ");
    for (blank, typed, said) in [
        ("#blank-lathe-leadscrew", "0 mm", "more than"),
        ("#blank-lathe-leadscrew", "3 kg", "kg"),
        ("#blank-lathe-change_gears", "0, 20", "0"),
        ("#blank-lathe-change_gears", &many, "100"),
        ("#blank-lathe-spindle_speeds", "fast", "fast"),
    ] {
        let before = phone.entered(blank).await?;
        phone.open_blank(blank).await?;
        phone.paste(typed).await?;
        phone.find("#keypad-said .complaint").await?;
        let why = phone.text("#keypad-said .complaint").await?;
        ensure(why.contains(said), format!("{typed:.20}: {why}"))?;
        phone.tap("[data-do=done]").await?;
        phone.find(&format!("{blank}.blank-unread")).await?;
        phone.reload().await?;
        let kept = phone.entered(blank).await?;
        ensure(kept == *typed, format!("{typed:.20} came back as {kept:.20}"))?;
        phone.enter(blank, &before).await?;
        phone
            .until(&format!("!document.querySelector('{blank}').matches('.blank-unread')"))
            .await?;
    }
    Ok(())
}

pub(crate) async fn holders_come_and_go_and_a_shop_can_be_had_back(phone: &mut Phone) -> Outcome {
    phone.open("#shop").await?;
    phone.tap("[data-do=\"one-more holding\"]").await?;
    phone.enter("#blank-holding-2-name", "faceplate").await?;
    phone.open_blank("#blank-holding-2-kind").await?;
    phone.tap("[data-do=\"choose faceplate\"]").await?;
    phone.says("#blank-holding-2-kind", "faceplate").await?;
    phone.enter("#blank-holding-2-from", "90 mm").await?;
    phone.enter("#blank-holding-2-to", "80 mm").await?;
    phone.says("#shop .complaint", "faceplate grips from 90 mm to 80 mm").await?;
    phone.tap("[data-do=\"take-out holding 2\"]").await?;
    phone.until("!document.querySelector('#blank-holding-2-name')").await?;
    phone.until("!document.querySelector('#shop .complaint')").await?;
    phone.tap("header .menu summary").await?;
    phone.tap("[data-do=empty-shop]").await?;
    phone.find("#blank-lathe-leadscrew.blank-empty").await?;
    phone.reload().await?;
    phone.find("#blank-lathe-leadscrew.blank-empty").await?;
    phone.tap("header .menu summary").await?;
    phone.tap("[data-do=last-shop]").await?;
    phone.says("#blank-lathe-leadscrew", "3 mm").await?;
    let name = phone.js("return document.querySelector('[data-field=shop-name]').value").await?;
    ensure(name == "3 mm bench lathe", format!("the shop came back as {name}"))
}
