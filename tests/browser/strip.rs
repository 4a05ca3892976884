//! A dial's scale at full size: kept as a file, and printed as large as it is.

use crate::download::Download;
use crate::pdf::{self, Line};
use crate::phone::Phone;
use crate::{Outcome, ensure};
use std::f64::consts::PI;
use std::fs;

/// A dial of 100 lines on 60 mm, for a screw of 2 mm.
const DIAL: &str = r#"{"format":"latheside-setup","version":1,"name":"Dial","operations":[
  {"kind":"graduate","lead":"2 mm","least_count":"0.02 mm","diameter":"60 mm","line_width":"0.3 mm"}]}"#;

/// As exact as a strip is to be: 0.1 mm in 100.
const EXACT: f64 = 0.1;

async fn dial(phone: &Phone) -> Outcome {
    let folder = Download::folder()?;
    let file = folder.path.join("dial.json");
    fs::write(&file, DIAL)?;
    phone.open("#setups").await?;
    phone.unfold("open").await?;
    phone.choose_file("#import", &file).await?;
    phone.until("location.hash.startsWith('#setup/')").await?;
    phone.find("[data-do=\"strip 0\"]").await?;
    Ok(())
}

pub(crate) async fn a_strip_is_kept_as_a_file(phone: &mut Phone) -> Outcome {
    dial(phone).await?;
    let downloads = Download::folder()?;
    phone.downloads_go_to(&downloads).await?;
    phone.is_accessible().await?;
    phone.tap("[data-do=\"strip 0\"]").await?;
    let file = downloads.arrived().await?;
    ensure(file.ends_with("Dial-1.svg"), format!("saved as {}", file.display()))?;
    let svg = fs::read_to_string(&file)?;
    // A file opened by itself is drawn in millimetres, the same as it says.
    let url = format!("data:image/svg+xml,{}", percent(&svg));
    phone
        .js(&format!(
            "const i = new Image(); i.id = 'strip'; i.src = '{url}'; document.body.append(i)"
        ))
        .await?;
    phone.until("document.getElementById('strip').complete").await?;
    let wide = phone.js("return document.getElementById('strip').naturalWidth / 96 * 25.4").await?;
    let said: f64 = svg
        .split("width=\"")
        .nth(1)
        .and_then(|rest| rest.split("mm").next()?.parse().ok())
        .ok_or("it says no width")?;
    let wide = wide.as_f64().unwrap_or_default();
    ensure((wide - said).abs() < 0.3 && said <= 170.0, format!("{wide} wide, not {said}"))?;
    // Of a setup that came by link and isn't saved, the same.
    let link = format!("return lathesideWorks.link({})", serde_json::to_string(DIAL)?);
    let link = phone.js(&link).await?;
    let downloads = Download::folder()?;
    phone.downloads_go_to(&downloads).await?;
    phone.to(&format!("#{}", link.as_str().ok_or("no link")?)).await?;
    phone.tap("#link [data-do=\"strip 0\"]").await?;
    ensure(fs::read_to_string(downloads.arrived().await?)? == svg, "the link's strip is another")
}

fn percent(words: &str) -> String {
    words.bytes().map(|byte| format!("%{byte:02x}")).collect()
}

pub(crate) async fn a_strip_is_printed_as_large_as_it_is(phone: &mut Phone) -> Outcome {
    dial(phone).await?;
    phone.tap("a[href^='#paper/']").await?;
    phone.find("#paper .strip svg").await?;
    let paths = pdf::paths(&phone.printed().await?)?;
    let checks: Vec<f64> = paths
        .iter()
        .flatten()
        .filter_map(Line::level)
        .filter(|long| (long - 100.0).abs() <= EXACT)
        .collect();
    // Two pieces, for 188 mm round.
    ensure(checks.len() == 2, format!("{} check lines of 100 mm", checks.len()))?;
    let pitch = PI * 60.0 / 100.0;
    let mut lines = 0;
    for path in paths.iter().filter(|path| path.len() > 40) {
        let mut places: Vec<f64> = path.iter().filter_map(Line::upright).collect();
        places.sort_by(f64::total_cmp);
        let at = |n: usize| (places[n] - places[0] - n as f64 * pitch).abs();
        if places.len() == 50 && (0..50).all(|n| at(n) <= EXACT) {
            lines += places.len();
        }
    }
    ensure(lines == 100, format!("{lines} lines in their places, not 100"))
}
