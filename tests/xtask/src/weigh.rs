//! What the first load weighs, as a host sends it.

use crate::bindings::{APP, Module, WORKS};
use crate::command::{self, Outcome, program, read, write};
use crate::{crates, index, page};
use std::fs;
use std::path::Path;
use xtask::folder::files;

/// Bytes of brotli for the first load: the aim, and what no page may pass.
const GOAL: u64 = 120_000;
const LIMIT: u64 = 180_000;

/// Requests of the first load.
const REQUESTS: usize = 7;

/// Node has both packers: prints a file's size plain, by brotli 11 and by gzip 9, one a line.
const PACK: &str = "
const zlib = require('zlib'), fs = require('fs');
for (const file of process.argv.slice(1)) {
  const plain = fs.readFileSync(file);
  const brotli = zlib.brotliCompressSync(plain, { params: {
    [zlib.constants.BROTLI_PARAM_QUALITY]: 11,
    [zlib.constants.BROTLI_PARAM_SIZE_HINT]: plain.length,
  } });
  console.log(plain.length, brotli.length, zlib.gzipSync(plain, { level: 9 }).length);
}";

/// Prints the tables; refuses a first load over the limit.
pub(crate) fn table(dist: &Path) -> Outcome {
    let all = files(dist)?;
    let first = first_load(&read(&dist.join("index.html"))?, &all);
    let [_, brotli, _] = weigh(dist, &first, "first load")?;
    let later: Vec<String> = all.into_iter().filter(|file| is_works(file)).collect();
    weigh(dist, &later, "once the page stands: the works")?;
    for module in [APP, WORKS] {
        by_crate(&module)?;
    }
    if first.len() > REQUESTS {
        return Err(format!("the first load takes {} requests, more than {REQUESTS}", first.len()));
    }
    if brotli > LIMIT {
        return Err(format!(
            "the first load weighs {brotli} bytes of brotli: the limit is {LIMIT}"
        ));
    }
    if brotli > GOAL {
        let over = brotli - GOAL;
        println!(
            "heavier than the aim of {GOAL} bytes of brotli by {over}: what they buy is in DEVELOPERS.md"
        );
    }
    Ok(())
}

/// Prints what each file weighs, and the sum: plain, by brotli, by gzip.
fn weigh(dist: &Path, files: &[String], title: &str) -> Outcome<[u64; 3]> {
    let mut run = program("node", ["-e", PACK]);
    for file in files {
        run = run.arg(dist.join(file));
    }
    let said = run.said()?;
    let mut sum = [0_u64; 3];
    println!("{:>9} {:>9} {:>9}  {title}", "bytes", "brotli", "gzip");
    for (file, line) in files.iter().zip(said.lines()) {
        let sizes: Vec<u64> = line.split(' ').filter_map(|word| word.parse().ok()).collect();
        let [plain, brotli, gzip] = sizes[..] else {
            return Err(format!("{file} could not be weighed"));
        };
        println!("{plain:>9} {brotli:>9} {gzip:>9}  {file}");
        sum = [sum[0] + plain, sum[1] + brotli, sum[2] + gzip];
    }
    let [plain, brotli, gzip] = sum;
    println!("{plain:>9} {brotli:>9} {gzip:>9}  in all {}", files.len());
    Ok(sum)
}

/// Crates lighter than this, in bytes before packing, are told together.
const LIGHT: usize = 2000;

/// Prints what each crate of a module weighs: each packed by itself, so that the sum is more than
/// the module, which the optimiser has been through as well.
fn by_crate(module: &Module) -> Outcome {
    let mut parts = crates::parts(&module.built(page::PROFILE))?;
    let light: Vec<String> = parts
        .iter()
        .filter(|(_, bytes)| bytes.len() < LIGHT)
        .map(|(name, _)| name.clone())
        .collect();
    for name in &light {
        let bytes = parts.remove(name).unwrap_or_default();
        parts.entry(format!("{} light crates", light.len())).or_default().extend(bytes);
    }
    let mut parts: Vec<_> = parts.into_iter().collect();
    parts.sort_by_key(|(_, bytes)| std::cmp::Reverse(bytes.len()));
    let folder = command::target().join("weights");
    fs::create_dir_all(&folder).map_err(|why| format!("can't make {}: {why}", folder.display()))?;
    let mut names = Vec::new();
    for (name, bytes) in parts {
        write(&folder.join(&name), bytes)?;
        names.push(name);
    }
    weigh(&folder, &names, &format!("{}, crate by crate, before it is optimised", module.name))?;
    Ok(())
}

/// Whether a file belongs to the works, which are asked for only once the page stands.
fn is_works(file: &str) -> bool {
    file.starts_with("works-")
}

/// What a browser asks for before the page answers: whatever the page names, and
/// whatever scripts its scripts may name.
fn first_load(page: &str, all: &[String]) -> Vec<String> {
    let mut files = vec!["index.html".to_owned()];
    let tags = page.split('<').filter_map(|tag| tag.split('>').next());
    for tag in tags.filter(|tag| tag.starts_with("link ") || tag.starts_with("script ")) {
        // Asked for only when the page is put on a home screen, or its licences are read.
        if matches!(index::attribute(tag, "rel"), Some("apple-touch-icon" | "license")) {
            continue;
        }
        let named = ["href", "src", "data-wasm"].map(|name| index::attribute(tag, name));
        let named =
            named.into_iter().flatten().map(|name| name.trim_start_matches("./").to_owned());
        files.extend(named);
    }
    let scripts = all
        .iter()
        .filter(|file| file.ends_with(".js") && *file != "sw.js" && !is_works(file))
        .cloned();
    for script in scripts {
        if !files.contains(&script) {
            files.push(script);
        }
    }
    files
}

#[cfg(test)]
mod tests {
    use super::first_load;

    #[test]
    fn the_first_load_is_what_the_page_and_its_scripts_name() {
        let page = "<link rel=\"icon\" href=\"i.svg\"><link rel=\"apple-touch-icon\" href=\"a.png\">\
            <link rel=\"license\" href=\"l.txt\">\
            <script type=\"module\" src=\"./boot.js\"></script>\
            <link rel=\"modulepreload\" href=\"./app.js\" data-wasm=\"./app.wasm\"/>";
        let all = ["app.js", "boot.js", "snippets/lock.js", "sw.js", "a.png", "works-1.js"]
            .map(str::to_owned);
        let load = ["index.html", "i.svg", "boot.js", "app.js", "app.wasm", "snippets/lock.js"];
        assert_eq!(first_load(page, &all), load);
    }
}
