//! A setup sent to somebody else, by link and by file, and what damage on the way does.

use crate::phone::{Download, Phone};
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

/// Everything that is kept.
async fn kept(phone: &Phone) -> Outcome<Value> {
    phone.js("return JSON.stringify(Object.entries(localStorage).sort())").await
}
