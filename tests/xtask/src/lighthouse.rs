//! What a published tool says of three rooms on a slow phone: scores, and when what is there.

use crate::command::{self, Outcome, program};
use crate::{browsers, tools};
use std::fs;
use std::path::{Path, PathBuf};
use std::thread;
use std::time::Duration;
use xtask::folder::files;
use xtask::site::Site;

/// The rooms, by their places in the page.
const ROOMS: [(&str, &str); 3] =
    [("Shop", "#shop"), ("Setups", "#setups"), ("Bench", "#bench/example")];

/// A room's score for speed may not fall below this; the other three are 100, or it is a fault.
const FAST: u32 = 85;

/// Nor may a touch wait longer than this in all, ms: three times the aim.
const HELD: u32 = 300;

/// A busy machine is given so many goes at being fast.
const GOES: u32 = 8;

/// By the tool's own measure of a machine: below this it warns that its figures say little of the page,
/// and the next go waits a while.
const TOO_SLOW: u32 = 1000;
const WHILE: Duration = Duration::from_secs(20);

/// Prints the scores, then when what stands, in milliseconds, and how much moved, in thousandths.
const READ: &str = "
const { categories, audits, environment } = JSON.parse(require('fs').readFileSync(process.argv[1]));
const wrong = Object.values(categories)
  .flatMap(({ id, auditRefs }) => id === 'performance' ? [] : auditRefs)
  .map(({ id, weight }) => ({ ...audits[id], weight }))
  .filter(({ score, weight }) => weight > 0 && score !== null && score < 1)
  .map(({ title }) => title);
const score = (id) => Math.round(categories[id].score * 100);
const time = (id) => Math.round(audits[id].numericValue);
console.log(score('performance'), score('accessibility'), score('best-practices'), score('seo'),
  time('first-contentful-paint'), time('largest-contentful-paint'), time('total-blocking-time'),
  Math.round(audits['cumulative-layout-shift'].numericValue * 1000),
  Math.round(environment.benchmarkIndex));
console.log(wrong.join('; '));";

/// Packs each file beside itself, as a host does once for all who ask.
const PACK: &str = "
const zlib = require('zlib'), fs = require('fs');
for (const file of process.argv.slice(1)) {
  const plain = fs.readFileSync(file);
  fs.writeFileSync(file + '.br', zlib.brotliCompressSync(plain));
}";

/// Prints the table; refuses a room that isn't whole in all but speed, or far too slow.
pub(crate) fn table(dist: &Path) -> Outcome {
    let tool = tools::lighthouse()?;
    let packed = packed(dist)?;
    let site = Site::here(&packed, "/").map_err(|why| format!("can't serve the page: {why}"))?;
    let folder = command::target().join("lighthouse");
    fs::create_dir_all(&folder).map_err(|why| format!("can't make {}: {why}", folder.display()))?;
    println!(
        "{:>6} {:>6} {:>9} {:>4}  {:>6} {:>6} {:>6} {:>6} {:>8}",
        "speed", "access", "practices", "SEO", "FCP ms", "LCP ms", "TBT ms", "CLS", "machine"
    );
    let mut wrong = Vec::new();
    for (room, place) in ROOMS {
        for go in 1..=GOES {
            let to = folder.join(format!("{room}.json"));
            let (figures, said) = look(&tool, &format!("{}{place}", site.url()), &to)?;
            let [speed, access, practices, seo, fcp, lcp, tbt, moved, machine] = figures;
            println!(
                "{speed:>6} {access:>6} {practices:>9} {seo:>4}  {fcp:>6} {lcp:>6} {tbt:>6} {:>6} {machine:>8}  {room}",
                f64::from(moved) / 1000.0
            );
            if [access, practices, seo] != [100; 3] {
                wrong.push(format!("{room}: {said}"));
            }
            if speed >= FAST && tbt <= HELD {
                break;
            }
            if go == GOES {
                wrong.push(format!(
                    "{room} scores {speed} for speed, where {FAST} will do, and is held up for {tbt} ms, where {HELD} will"
                ));
            } else if machine < TOO_SLOW {
                thread::sleep(WHILE);
            }
        }
    }
    println!("aims: four scores of 100, FCP 1000, LCP 1500, TBT 100, CLS 0");
    if wrong.is_empty() { Ok(()) } else { Err(wrong.join("\n")) }
}

/// The page in a folder of its own, each of its files also packed.
fn packed(dist: &Path) -> Outcome<PathBuf> {
    let folder = command::target().join("packed");
    fs::remove_dir_all(&folder).ok();
    let mut pack = program("node", ["-e", PACK]);
    for name in files(dist)? {
        let to = folder.join(&name);
        let copied = to.parent().map_or(Ok(()), fs::create_dir_all);
        copied
            .and_then(|()| fs::copy(dist.join(&name), &to))
            .map_err(|why| format!("can't copy {name}: {why}"))?;
        pack = pack.arg(to);
    }
    pack.run()?;
    Ok(folder)
}

fn look(tool: &Path, url: &str, to: &Path) -> Outcome<([u32; 9], String)> {
    let flags = "--headless --no-sandbox --disable-gpu --disable-quic --disable-dev-shm-usage \
        --disable-background-networking --disable-component-update --disable-sync";
    let mut run = program("node", [])
        .arg(tool)
        .arg(url)
        .arg("--quiet")
        .arg("--output=json")
        .arg(format!("--output-path={}", to.display()))
        .arg("--only-categories=performance,accessibility,best-practices,seo")
        .arg(format!("--chrome-flags={flags}"));
    for (name, file) in browsers::chromium()? {
        run = run.env(if name == "CHROME" { "CHROME_PATH" } else { name }, file);
    }
    run.said()?;
    let said = program("node", ["-e", READ]).arg(to).said()?;
    let mut lines = said.lines();
    let figures = lines.next().unwrap_or_default();
    let figures: Vec<u32> = figures.split(' ').filter_map(|word| word.parse().ok()).collect();
    let figures = figures.try_into().map_err(|_| format!("no figures in {}", to.display()))?;
    Ok((figures, lines.next().unwrap_or_default().to_owned()))
}
