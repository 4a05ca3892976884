//! The page as a folder of files, ready for any host.

use crate::bindings::{APP, Module, WORKS, compile};
use crate::command::{self, Outcome, cargo, program, read, write};
use crate::index::{Index, Names};
use crate::tools::WASM;
use crate::{notices, tools};
use std::fs;
use std::path::{Path, PathBuf};
use std::thread;
use xtask::folder::{digest, files};
use xtask::worker;

/// The profile that the page is built by: small before all else.
pub(crate) const PROFILE: &str = "page";

/// What rustc 1.95 uses of WebAssembly without being asked, and every browser since 2023 has.
const FEATURES: [&str; 6] = [
    "--enable-bulk-memory",
    "--enable-multivalue",
    "--enable-mutable-globals",
    "--enable-nontrapping-float-to-int",
    "--enable-reference-types",
    "--enable-sign-ext",
];

/// Builds the page and puts it in `dist`, whole or not at all.
pub(crate) fn build() -> Outcome<PathBuf> {
    tools::target(WASM)?;
    // Fetched while the modules are built: neither waits for the other.
    let tools = thread::spawn(tools::for_the_page);
    cargo(["fetch", "--locked", "--target", WASM]).run()?;
    let compiled = compile(&[APP, WORKS], PROFILE, Some(&without_folders()));
    tools.join().unwrap_or_else(|_| Err("fetching the page's tools panicked".to_owned()))?;
    compiled?;
    let made = command::target().join("site");
    empty(&made)?;
    let index = index()?;
    copy_folder(&index, &made)?;
    let (app, works) = both(|| module(APP, &made), || module(WORKS, &made))?;
    let style = named(&made, "style", "css", minified(&sheets(&index)?, "css")?)?;
    let boot = minified(&read(&source(&index.script))?, "js")?;
    let names = Names {
        style: &style,
        script: &named(&made, "boot", "js", boot)?,
        app: (&app.0, &app.1),
        works: (&works.0, &works.1),
    };
    write(&made.join("index.html"), index.filled(&names))?;
    worker::fill(&made)?;
    notices::write_beside(&made)?;
    let dist = command::root().join("dist");
    if dist.exists() {
        fs::remove_dir_all(&dist)
            .map_err(|why| format!("can't clear {}: {why}", dist.display()))?;
    }
    fs::rename(&made, &dist).map_err(|why| format!("can't put the page in place: {why}"))?;
    Ok(dist)
}

/// Flags by which a panic's place is named from the crate's own folder: the page holds none of the
/// folders of whoever builds it.
fn without_folders() -> String {
    /// What stands between two of them.
    const BETWEEN: &str = "\u{1f}";
    let home = std::env::var_os("CARGO_HOME").map(PathBuf::from);
    let home = home.or_else(|| Some(std::env::home_dir()?.join(".cargo"))).unwrap_or_default();
    let registries = fs::read_dir(home.join("registry/src")).into_iter().flatten().flatten();
    let folders = registries.map(|registry| registry.path()).chain([command::root()]);
    let flag = |folder: PathBuf| format!("--remap-path-prefix={}/=", folder.display());
    folders.map(flag).collect::<Vec<_>>().join(BETWEEN)
}

/// Does both at once, and gives what comes of both.
pub(crate) fn both<A: Send, B: Send>(
    first: impl FnOnce() -> Outcome<A> + Send,
    second: impl FnOnce() -> Outcome<B>,
) -> Outcome<(A, B)> {
    thread::scope(|scope| {
        let first = scope.spawn(first);
        let second = second();
        let first = first.join().unwrap_or_else(|_| Err("half of the work panicked".to_owned()));
        Ok((first?, second?))
    })
}

/// A folder with nothing in it.
pub(crate) fn empty(folder: &Path) -> Outcome {
    if folder.exists() {
        fs::remove_dir_all(folder)
            .map_err(|why| format!("can't clear {}: {why}", folder.display()))?;
    }
    fs::create_dir_all(folder).map_err(|why| format!("can't make {}: {why}", folder.display()))
}

/// A file that the page names.
pub(crate) fn source(name: &str) -> PathBuf {
    command::root().join("app").join(name)
}

/// What the page is put together from.
pub(crate) fn index() -> Outcome<Index> {
    Index::read(&read(&source("index.html"))?)
}

/// Copies the files that stand beside the page as they are.
pub(crate) fn copy_folder(index: &Index, made: &Path) -> Outcome {
    let from = source(&index.folder);
    for name in files(&from)? {
        let to = made.join(&name);
        let folder = to.parent().unwrap_or(made);
        fs::create_dir_all(folder)
            .and_then(|()| fs::copy(from.join(&name), &to))
            .map_err(|why| format!("can't copy {name}: {why}"))?;
    }
    Ok(())
}

/// One sheet for the page in place of several: one request, in the order in which they stand.
pub(crate) fn sheets(index: &Index) -> Outcome<String> {
    let mut joined = String::new();
    for sheet in &index.sheets {
        let words = read(&source(&sheet.href))?;
        if words.contains("@import") || words.contains("@charset") {
            return Err(format!(
                "{}: name each sheet in index.html instead of importing it",
                sheet.href
            ));
        }
        match &sheet.media {
            Some(media) => joined.extend(["@media ", media, " {\n", &words, "}\n"]),
            None => joined.push_str(&words),
        }
    }
    Ok(joined)
}

/// A module made ready and named after what is in it: its script and its wasm.
fn module(module: Module, made: &Path) -> Outcome<(String, String)> {
    let folder = command::target().join("bound").join(module.name);
    empty(&folder)?;
    module.bind(PROFILE, &folder)?;
    if folder.join("snippets").exists() {
        return Err(format!(
            "{} brings scripts of its own: nothing here takes them along",
            module.name
        ));
    }
    let wasm = folder.join(format!("{}_bg.wasm", module.name));
    shrink(&wasm)?;
    let wasm = fs::read(&wasm).map_err(|why| format!("can't read {}: {why}", wasm.display()))?;
    let script = minified(&read(&folder.join(format!("{}.js", module.name)))?, "js")?;
    Ok((named(made, module.name, "js", script)?, named(made, module.name, "wasm", wasm)?))
}

fn shrink(wasm: &Path) -> Outcome {
    let mut run = program("wasm-opt", ["-Oz"]).env("PATH", tools::path());
    for feature in FEATURES {
        run = run.arg(feature);
    }
    run.arg(wasm).arg("-o").arg(wasm).run()
}

/// A script or a sheet without its comments and spaces. The worker stays readable: it isn't waited for.
fn minified(words: &str, ending: &str) -> Outcome<String> {
    let plain =
        command::target().join("bound").join(format!("{}.{ending}", digest(words.as_bytes())));
    write(&plain, words)?;
    let small = program("esbuild", ["--minify", "--log-level=warning"])
        .env("PATH", tools::path())
        .arg(&plain)
        .said();
    fs::remove_file(&plain).ok();
    small
}

/// Writes a file beside the page under a name that tells its content from any other.
fn named(made: &Path, name: &str, ending: &str, content: impl AsRef<[u8]>) -> Outcome<String> {
    let name = format!("{name}-{}.{ending}", digest(content.as_ref()));
    write(&made.join(&name), content)?;
    Ok(name)
}
