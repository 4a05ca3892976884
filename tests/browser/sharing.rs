//! A setup sent to somebody else, by link and by file, and what damage on the way does.

use crate::download::Download;
use crate::phone::Phone;
use crate::{Outcome, ensure};
use serde_json::Value;
use std::fs;

/// The system's own sheet, standing in for the phone's.
const SHEET: &str = "
  window.sent = [];
  Object.defineProperty(navigator, 'share', { value: async (data) => { sent.push(data.url); } });
";

/// No sheet, and a clipboard that takes what it is given.
const CLIPBOARD: &str = "
  window.sent = [];
  Object.defineProperty(navigator, 'share', { value: undefined });
  Object.defineProperty(navigator, 'clipboard', { value: { writeText: async (text) => { sent.push(text); } } });
";

/// No sheet, and a clipboard that refuses.
const NEITHER: &str = "
  Object.defineProperty(navigator, 'share', { value: undefined });
  Object.defineProperty(navigator, 'clipboard', { value: { writeText: async () => { throw new DOMException('no', 'NotAllowedError'); } } });
";

/// Shares the example and gives the link that was sent.
async fn shared(phone: &Phone) -> Outcome<String> {
    phone.before_load(SHEET).await?;
    phone.open("").await?;
    phone.tap("header .menu summary").await?;
    phone.tap("[data-do=share]").await?;
    phone.says(".shared", "Sent").await?;
    let sent = phone.js("return window.sent").await?;
    let link = sent.get(0).and_then(Value::as_str).ok_or("nothing was sent")?.to_owned();
    ensure(sent.as_array().is_some_and(|sent| sent.len() == 1), format!("sent {sent}"))?;
    Ok(link)
}

pub(crate) async fn work_goes_on_on_another_device(phone: &mut Phone) -> Outcome {
    phone.before_load(SHEET).await?;
    phone.open("").await?;
    phone.tap("a.start").await?;
    for step in 1..=3 {
        phone.tap("[data-do=forward]").await?;
        phone.says(".bench-lit span", &format!("{step} of ")).await?;
        phone.rest().await;
    }
    let title = phone.text(".bench-title").await?;
    phone.tap("nav.block a:nth-child(2)").await?;
    phone.tap("header .menu summary").await?;
    phone.tap("[data-do=hand-on]").await?;
    phone.says(".shared", "Sent").await?;
    let sent = phone.js("return window.sent[0]").await?;
    let link = sent.as_str().ok_or("nothing was sent")?;

    let other = phone.stranger().await?;
    other.open(&link[link.find('#').ok_or("no fragment")?..]).await?;
    other.says("main", "On the bench: operation 1, step 4.").await?;
    other.tap("[data-do=save-link]").await?;
    other.until("location.hash.startsWith('#bench/')").await?;
    other.says(".bench-title", &title).await?;
    // Whoever comes to it is asked first whether it is done.
    other.find(".bench-question").await?;
    // A link that is only shared has no place in it.
    phone.tap("header .menu summary").await?;
    phone.tap("[data-do=share]").await?;
    phone.until("window.sent.length === 2").await?;
    let plain = phone.js("return window.sent[1]").await?;
    ensure(plain.as_str().is_some_and(|plain| plain.len() < link.len()), "the place goes along")
}

pub(crate) async fn a_link_opens_for_somebody_else(phone: &mut Phone) -> Outcome {
    let link = shared(phone).await?;
    ensure(link.starts_with(&format!("{}#s1.", phone.site.url())), &link)?;
    let train = phone.figures("#op-0").await?;
    phone.tap("[data-do=put-away]").await?;
    phone.until("!document.querySelector('.shared')").await?;

    let other = phone.stranger().await?;
    let fragment = &link[link.find('#').ok_or("no fragment")?..];
    other.open(fragment).await?;
    other.says("main", "Nothing is saved until you say so").await?;
    other.shot("link").await?;
    other.is_accessible().await?;
    let theirs = other.figures("#link").await?;
    ensure(theirs.starts_with(&train), format!("{theirs:?}"))?;
    let keys = "return Object.keys(localStorage).filter((key) => key.startsWith('latheside.setup.')).length";
    ensure(other.js(keys).await? == 1, "more is kept than the example")?;
    other.tap("[data-do=\"own 1\"]").await?;
    other.find("[data-do=\"own 1\"][aria-pressed=true]").await?;
    other.tap("[data-do=\"own 0\"]").await?;
    other.tap("[data-do=save-link]").await?;
    other.until("location.hash.startsWith('#setup/')").await?;
    other.find("#op-0 .setting").await?;
    ensure(other.js(keys).await? == 2, "it isn't kept")?;
    // A reload doesn't open the link a second time.
    other.reload().await?;
    ensure(other.js(keys).await? == 2, "it is kept twice")?;
    ensure(other.figures("#op-0").await? == train, "the train is another")?;
    other.tap("[data-do=\"own 1\"]").await?;
    other.find("[data-do=\"own 1\"][aria-pressed=true]").await?;
    // Pasted as a messenger leaves it: broken over lines, and with a full stop.
    other.to("#setups").await?;
    other.unfold("open").await?;
    let broken = format!("{} {}.", &link[..link.len() - 9], &link[link.len() - 9..]);
    other.tap("#paste").await?;
    other.keyboard(&broken).await?;
    other.tap("[data-do=open-link]").await?;
    other.find("[data-do=save-link]").await?;
    Ok(())
}

pub(crate) async fn a_damaged_link_says_so_and_changes_nothing(phone: &mut Phone) -> Outcome {
    let link = shared(phone).await?;
    let mut fragment = link[link.find('#').ok_or("no fragment")?..].to_owned();
    let before = kept(phone).await?;
    let middle = fragment.len() / 2;
    let other = if fragment.as_bytes()[middle] == b'A' { "B" } else { "A" };
    fragment.replace_range(middle..=middle, other);
    for damaged in
        [&*fragment, &link[link.find('#').unwrap_or(0)..link.len() - 1], "#s1.", "#s9.AAAA"]
    {
        phone.open(damaged).await?;
        phone.says("main h1", "can't be opened").await?;
        phone.says("main", "Nothing here has been changed").await?;
        let why = phone.text("#link .complaint").await?;
        ensure(why.len() > 10, format!("{damaged}: {why}"))?;
        ensure(kept(phone).await? == before, format!("{damaged} changed what is kept"))?;
    }
    phone.to("#setups").await?;
    phone.unfold("open").await?;
    phone.tap("#paste").await?;
    phone.keyboard("https://example.test/").await?;
    phone.tap("[data-do=open-link]").await?;
    phone.find("#setups .complaint").await?;
    ensure(kept(phone).await? == before, "a bad paste changed what is kept")
}

pub(crate) async fn a_link_goes_by_the_clipboard_or_by_hand(phone: &mut Phone) -> Outcome {
    phone.before_load(CLIPBOARD).await?;
    phone.open("").await?;
    phone.tap("header .menu summary").await?;
    phone.tap("[data-do=share]").await?;
    phone.says(".shared", "on the clipboard").await?;
    let sent = phone.js("return window.sent[0]").await?;
    let shown = phone.js("return document.querySelector('.shared input').value").await?;
    ensure(
        sent == shown && sent.as_str().is_some_and(|link| link.contains("#s1.")),
        format!("{sent}"),
    )?;
    phone.is_accessible().await?;
    let other = phone.stranger().await?;
    other.before_load(NEITHER).await?;
    other.open("").await?;
    other.tap("header .menu summary").await?;
    other.tap("[data-do=share]").await?;
    other.says(".shared", "by hand").await?;
    // A shop and three operations: a code of version 12 at level M holds 287 (ISO/IEC 18004:2015, table 7).
    let long = other.js("return document.querySelector('.shared input').value.length").await?;
    ensure(long.as_u64().is_some_and(|long| (40..=287).contains(&long)), format!("{long} long"))?;
    Ok(())
}

pub(crate) async fn a_file_comes_back_to_the_byte(phone: &mut Phone) -> Outcome {
    let downloads = Download::folder()?;
    phone.downloads_go_to(&downloads).await?;
    phone.open("").await?;
    phone.tap("header .menu summary").await?;
    phone.tap("[data-do=export]").await?;
    let first = downloads.arrived().await?;
    let words = fs::read(&first)?;
    let file: Value = serde_json::from_slice(&words)?;
    ensure(file.get("format").is_some_and(|f| f == "latheside-setup"), "it is no setup file")?;
    ensure(
        file.pointer("/shop/lathe/leadscrew").is_some_and(|l| l == "3 mm"),
        "the shop is left out",
    )?;

    let other = phone.stranger().await?;
    let theirs = Download::folder()?;
    other.downloads_go_to(&theirs).await?;
    other.open("#shop").await?;
    other.enter("#blank-lathe-leadscrew", "8 tpi").await?;
    other.to("#setups").await?;
    other.unfold("open").await?;
    other.choose_file("#import", &first).await?;
    other.until("location.hash.startsWith('#setup/')").await?;
    // Worked for the shop that it came with.
    let train = other.figures("#op-0").await?;
    ensure(train == phone.figures("#op-0").await?, format!("{train:?}"))?;
    other.tap("header .menu summary").await?;
    other.tap("[data-do=export]").await?;
    ensure(fs::read(theirs.arrived().await?)? == words, "another file came back")?;
    Ok(())
}

pub(crate) async fn a_bad_file_gets_its_sentence(phone: &mut Phone) -> Outcome {
    let folder = Download::folder()?;
    phone.open("#setups").await?;
    phone.unfold("open").await?;
    let before = kept(phone).await?;
    let good = r#"{"format":"latheside-setup","version":1,"operations":[{"kind":"thread","lead":"LEAD"}]}"#;
    let vast = good.replace("LEAD", &"1".repeat(4_000_000));
    for (name, words, said) in [
        ("torn", &good[..40], "can't be opened"),
        ("other", "<svg></svg>", "can't be opened"),
        ("unit", &good.replace("LEAD", "1 kg"), "operations[0].lead"),
        ("none", &good.replace("LEAD", "0 mm"), "operations[0].lead"),
        ("newer", &good.replace("\"version\":1", "\"version\":99"), "99"),
        ("vast", &vast, "of 4 MB at most"),
    ] {
        let file = folder.path.join(format!("{name}.json"));
        fs::write(&file, words)?;
        // What was said of the file before goes first.
        phone.to("#shop").await?;
        phone.to("#setups").await?;
        phone.choose_file("#import", &file).await?;
        phone.says("#setups .complaint", said).await.map_err(|why| format!("{name}: {why}"))?;
        ensure(kept(phone).await? == before, format!("{name} changed what is kept"))?;
    }
    phone.is_accessible().await
}

pub(crate) async fn fault_11_all_evicted_everything_comes_back_from_one_file(
    phone: &mut Phone,
) -> Outcome {
    phone.open("#shop").await?;
    phone.enter("#blank-lathe-leadscrew", "8 tpi").await?;
    phone.to("#setups").await?;
    phone.tap(".entry a").await?;
    phone.enter("#blank-1-into", "36").await?;
    phone.enter("#blank-2-depth", "0.2 m").await?;
    phone.to("#setups").await?;
    phone.tap("[data-do=new-setup]").await?;
    phone.until("location.hash.startsWith('#setup/')").await?;
    phone.to("#setups").await?;
    let saved = Download::folder()?;
    phone.downloads_go_to(&saved).await?;
    phone.tap("[data-do=backup]").await?;
    let file = saved.arrived().await?;
    ensure(
        file.file_name()
            .is_some_and(|name| name.to_string_lossy().starts_with("latheside-backup-")),
        format!("{file:?}"),
    )?;
    let before = fs::read(&file)?;
    phone.js("localStorage.clear()").await?;
    phone.reload().await?;
    phone.until("document.querySelectorAll('.entry').length === 1").await?;
    phone.unfold("open").await?;
    phone.choose_file("#import", &file).await?;
    phone.until("document.querySelectorAll('.entry').length === 2").await?;
    let again = Download::folder()?;
    phone.downloads_go_to(&again).await?;
    phone.tap("[data-do=backup]").await?;
    ensure(fs::read(again.arrived().await?)? == before, "another backup came back")?;
    phone.to("#shop").await?;
    phone.says("#blank-lathe-leadscrew", "8 tpi").await?;
    // A damaged one says so and changes nothing.
    let kept_before = kept(phone).await?;
    let torn = again.path.join("latheside-backup-torn.json");
    fs::write(&torn, &before[..before.len() / 2])?;
    phone.to("#setups").await?;
    phone.choose_file("#import", &torn).await?;
    phone.says("#setups .complaint", "nothing was changed").await?;
    ensure(kept(phone).await? == kept_before, "a torn backup changed something")
}

pub(crate) async fn a_shop_goes_alone_by_link(phone: &mut Phone) -> Outcome {
    phone.before_load(SHEET).await?;
    phone.open("#shop").await?;
    phone.enter("#blank-lathe-leadscrew", "8 tpi").await?;
    phone.tap("header .menu summary").await?;
    phone.tap("[data-do=share]").await?;
    phone.says(".shared", "Sent").await?;
    let sent = phone.js("return window.sent[0]").await?;
    let link = sent.as_str().ok_or("nothing was sent")?;
    let other = phone.stranger().await?;
    other.open(&link[link.find('#').ok_or("no fragment")?..]).await?;
    other.says("main", "The leadscrew is 8 tpi").await?;
    other.is_accessible().await?;
    other.tap("[data-do=save-link]").await?;
    other.says("#blank-lathe-leadscrew", "8 tpi").await?;
    other.reload().await?;
    other.says("#blank-lathe-leadscrew", "8 tpi").await?;
    other.tap("header .menu summary").await?;
    other.tap("[data-do=last-shop]").await?;
    other.says("#blank-lathe-leadscrew", "3 mm").await
}

pub(crate) async fn what_is_too_long_for_a_link_goes_as_a_file(phone: &mut Phone) -> Outcome {
    let folder = Download::folder()?;
    let operations: Vec<String> = (0..300)
        .map(|n| {
            format!(
                r#"{{"kind": "divide", "into": {}, "diameter": "{}.{} mm"}}"#,
                7 + n * 31,
                n + 10,
                n * 7
            )
        })
        .collect();
    let file = folder.path.join("many.json");
    fs::write(
        &file,
        format!(
            r#"{{"format":"latheside-setup","version":1,"name":"Many","operations":[{}]}}"#,
            operations.join(",")
        ),
    )?;
    phone.before_load(SHEET).await?;
    phone.open("#setups").await?;
    phone.unfold("open").await?;
    phone.choose_file("#import", &file).await?;
    phone.until("location.hash.startsWith('#setup/')").await?;
    phone.tap("header .menu summary").await?;
    phone.tap("[data-do=share]").await?;
    phone.says(".shared", "too much for a link").await?;
    ensure(phone.js("return window.sent.length").await? == 0, "it was sent all the same")?;
    let saved = Download::folder()?;
    phone.downloads_go_to(&saved).await?;
    phone.tap(".shared [data-do=export]").await?;
    saved.arrived().await?;
    Ok(())
}

pub(crate) async fn on_my_machine_stands_beside_theirs(phone: &mut Phone) -> Outcome {
    let link = shared(phone).await?;
    let other = phone.stranger().await?;
    other.open("#shop").await?;
    other.enter("#blank-lathe-leadscrew", "8 tpi").await?;
    other.open(&link[link.find('#').ok_or("no fragment")?..]).await?;
    other.tap("[data-do=\"own 1\"]").await?;
    other.says(".beside", "On my machine: 2 the same, 1 set otherwise").await?;
    let settings = other.texts(".beside-both > div").await?;
    ensure(settings.len() == 2 && settings[0] != settings[1], format!("{settings:?}"))?;
    other.shot("beside").await?;
    other.is_accessible().await?;
    other.tap("[data-do=save-link]").await?;
    other.says(".beside", "1 set otherwise").await?;
    other.tap("[data-do=\"own 0\"]").await?;
    other.until("!document.querySelector('.beside')").await
}

pub(crate) async fn a_setup_is_found_among_several(phone: &mut Phone) -> Outcome {
    phone.open("#setups").await?;
    ensure(
        phone.js("return document.querySelector('#search')").await?.is_null(),
        "one needs no search",
    )?;
    for name in ["Gland nut", "Clamp screw"] {
        phone.tap("[data-do=new-setup]").await?;
        phone.tap("[data-field=name]").await?;
        phone.keyboard(name).await?;
        phone.to("#setups").await?;
    }
    let names = phone.texts(".entry h2").await?;
    ensure(names.first().is_some_and(|name| name == "Clamp screw"), format!("{names:?}"))?;
    // Used last, it stands first.
    phone.tap(".entry:last-child a").await?;
    phone.tap("a.start").await?;
    phone.tap("[data-do=forward]").await?;
    phone.to("#setups").await?;
    let names = phone.texts(".entry h2").await?;
    ensure(
        names.first().is_some_and(|name| name == "Stop screw and index collar"),
        format!("{names:?}"),
    )?;
    phone.tap("#search").await?;
    phone.keyboard("NUT gl").await?;
    phone.until("document.querySelectorAll('.entry').length === 1").await?;
    phone.says(".entry", "Gland nut").await?;
    phone.keyboard("x").await?;
    phone.says("#setups", "None here").await?;
    phone.is_accessible().await
}

pub(crate) async fn where_it_is_kept_is_told_before_the_shop(phone: &mut Phone) -> Outcome {
    let asked = "Object.defineProperty(navigator, 'storage', { value: {
        persisted: async () => false, persist: async () => true } })";
    phone.before_load(asked).await?;
    phone.open("#shop").await?;
    phone.says(".keeping", "may clear it").await?;
    let first = phone
        .js("return !!(document.querySelector('.keeping').compareDocumentPosition(document.querySelector('.sections')) & 4)")
        .await?;
    ensure(first == true, "it is told after the shop is typed in")?;
    phone.is_accessible().await?;
    phone
        .js("window.lathesideInstall = { prompt() { window.installed = true } };
              dispatchEvent(new CustomEvent('latheside-install'))")
        .await?;
    phone.unfold("install").await?;
    phone.tap("[data-do=install]").await?;
    ensure(phone.js("return window.installed").await? == true, "it wasn't installed")?;
    phone.tap("[data-do=persist]").await?;
    phone.says(".keeping", "was asked to keep this, and does").await
}

/// Everything that is kept.
async fn kept(phone: &Phone) -> Outcome<Value> {
    phone.js("return JSON.stringify(Object.entries(localStorage).sort())").await
}
