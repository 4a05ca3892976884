//! The tools that the page and its checks need, each of one version, fetched once.

use crate::command::{self, Outcome, Run, program, read, write};
use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Mutex, OnceLock, PoisonError};

/// Of the same version as the `wasm-bindgen` that the app names.
static WASM_BINDGEN: Tool =
    Tool::new("wasm-bindgen-cli", "0.2.129", &[TEST_RUNNER], &["--bin", TEST_RUNNER], "0");
const TEST_RUNNER: &str = "wasm-bindgen-test-runner";
static GECKODRIVER: Tool = Tool::new("geckodriver", "0.37.1", &["geckodriver"], &[], "1");
static DENY: Tool =
    Tool::new("cargo-deny", "0.20.2", &["cargo-deny"], &["--no-default-features"], "1");
const BINARYEN: &str = "132.0.0";
const ESBUILD: &str = "0.25.12";
const AXE: &str = "4.14.1";
const LIGHTHOUSE: &str = "12.8.2";
const PACKAGES: [(&str, &str); 4] =
    [("binaryen", BINARYEN), ("esbuild", ESBUILD), ("axe-core", AXE), ("lighthouse", LIGHTHOUSE)];

/// Nobody waits for what these do: built quickly they do the same.
const QUICK: [(&str, &str); 2] =
    [("CARGO_PROFILE_RELEASE_LTO", "off"), ("CARGO_PROFILE_RELEASE_CODEGEN_UNITS", "16")];

/// What the page is built for.
pub(crate) const WASM: &str = "wasm32-unknown-unknown";

fn folder() -> PathBuf {
    command::target().join("tools")
}

/// `PATH` with our own tools before all others.
pub(crate) fn path() -> OsString {
    let ours = [folder().join("bin"), folder().join("node_modules/.bin")];
    let others = std::env::var_os("PATH").unwrap_or_default();
    let all = ours.into_iter().chain(std::env::split_paths(&others));
    std::env::join_paths(all).unwrap_or(others)
}

/// Where a program stands, ours first.
pub(crate) fn find(name: &str) -> Option<PathBuf> {
    std::env::split_paths(&path()).map(|folder| folder.join(name)).find(|file| file.is_file())
}

/// The version that a program says it is of: the first of its words that begins with a figure.
pub(crate) fn version(file: &Path) -> Option<String> {
    let said = program(file, ["--version"]).said().ok()?;
    let begins = |word: &&str| word.starts_with(|c: char| c.is_ascii_digit());
    said.split_whitespace().find(begins).map(str::to_owned)
}

/// Whether the program at hand says that it is of this version.
fn is_of(name: &str, wanted: &str) -> bool {
    find(name).and_then(|file| version(&file)).is_some_and(|version| version == wanted)
}

/// Makes sure of what the page is made small with.
pub(crate) fn for_the_page() -> Outcome {
    find("node").ok_or("Node isn't on PATH: install Node 20 or later, with its npm")?;
    let major = BINARYEN.split('.').next().unwrap_or(BINARYEN);
    if is_of("wasm-opt", major) && is_of("esbuild", ESBUILD) {
        return Ok(());
    }
    packages()
}

/// Makes sure of what the app's own tests are run by.
pub(crate) fn wasm_bindgen() -> Outcome {
    WASM_BINDGEN.installed()
}

/// What drives Firefox, built once.
pub(crate) fn geckodriver() -> Outcome<PathBuf> {
    GECKODRIVER.installed()?;
    Ok(folder().join("bin/geckodriver"))
}

/// Makes sure of all that the checks are made with, but for the browsers.
pub(crate) fn for_the_checks() -> Outcome {
    deny()?;
    wasm_bindgen()?;
    for_the_page()?;
    packages()
}

/// The accessibility rules, as a script to run in the page.
pub(crate) fn axe() -> Outcome<PathBuf> {
    packages()?;
    Ok(folder().join("node_modules/axe-core/axe.min.js"))
}

/// The measure of a page's first load, as a script for Node.
pub(crate) fn lighthouse() -> Outcome<PathBuf> {
    packages()?;
    Ok(folder().join("node_modules/lighthouse/cli/index.js"))
}

/// Debian's packages, where this is Debian and we may; elsewhere nothing is done.
pub(crate) fn from_debian(what: &str, packages: &[&str]) -> Outcome {
    let root = program("id", ["-u"]).said().is_ok_and(|said| said.trim() == "0");
    if !root || find("apt-get").is_none() {
        return Ok(());
    }
    static APT: Mutex<()> = Mutex::new(());
    alone(&APT, || {
        println!("installing {what}");
        let quiet = |run: Run| run.env("DEBIAN_FRONTEND", "noninteractive").said();
        quiet(program("apt-get", ["update"]))?;
        let mut install = program("apt-get", ["install", "-y", "--no-install-recommends"]);
        for package in packages {
            install = install.arg(package);
        }
        quiet(install).map(|_| ())
    })
}

/// Makes sure of a compiler for C++: what drives the fuzzers is written in it.
pub(crate) fn cpp() -> Outcome {
    const MISSING: &str = "the fuzzers need a compiler for C++: install the package g++ or clang, or set \
        CXX to where one is";
    let at_hand = || std::env::var_os("CXX").is_some() || find("c++").is_some();
    if !at_hand() {
        from_debian("a compiler for C++", &["g++"])?;
    }
    if at_hand() { Ok(()) } else { Err(MISSING.to_owned()) }
}

/// Makes sure of what looks over the crates and their licences.
pub(crate) fn deny() -> Outcome {
    DENY.installed()
}

/// Makes sure that Rust can build for this target.
pub(crate) fn target(name: &str) -> Outcome {
    static RUSTUP: Mutex<()> = Mutex::new(());
    let sysroot = program("rustc", ["--print", "sysroot"]).said()?;
    let library = Path::new(sysroot.trim()).join("lib/rustlib").join(name).join("lib");
    alone(&RUSTUP, || {
        if library.is_dir() {
            return Ok(());
        }
        println!("adding the target {name}");
        program("rustup", ["target", "add", name]).run()
    })
}

/// A crate whose programs are wanted.
struct Tool {
    krate: &'static str,
    version: &'static str,
    programs: &'static [&'static str],
    /// Words for its build.
    words: &'static [&'static str],
    /// How far its build is optimised: what works for a moment only needn't be.
    level: &'static str,
    /// How that went: whoever asks meanwhile waits for it.
    built: OnceLock<Outcome>,
}

impl Tool {
    const fn new(
        krate: &'static str,
        version: &'static str,
        programs: &'static [&'static str],
        words: &'static [&'static str],
        level: &'static str,
    ) -> Tool {
        Tool { krate, version, programs, words, level, built: OnceLock::new() }
    }

    /// Makes sure that its programs are there: built once, into our folder.
    fn installed(&self) -> Outcome {
        self.built.get_or_init(|| self.install()).clone()
    }

    fn install(&self) -> Outcome {
        let Tool { krate, version, .. } = self;
        if self.programs.iter().all(|name| is_of(name, version)) {
            return Ok(());
        }
        println!("installing {krate} {version}: some minutes, once");
        let exact = format!("={version}");
        // Apart from whatever is being built at the same time.
        let build = folder().join("build").join(krate);
        let mut run =
            command::cargo(["install", "--locked", "--force", krate, "--version", &exact])
                .arg("--root")
                .arg(folder())
                .arg("--target-dir")
                .arg(&build);
        for word in self.words {
            run = run.arg(word);
        }
        for (name, value) in QUICK {
            run = run.env(name, value);
        }
        run = run.env("CARGO_PROFILE_RELEASE_OPT_LEVEL", self.level);
        run.run_while(|| !STOPPED.load(Ordering::Relaxed))?;
        // Only the programs are wanted, and what they were built from is large.
        fs::remove_dir_all(&build).ok();
        Ok(())
    }
}

/// Whether nothing is to be built any more.
static STOPPED: AtomicBool = AtomicBool::new(false);

/// Stops what is being built: nobody waits for it any longer.
pub(crate) fn stop() {
    STOPPED.store(true, Ordering::Relaxed);
}

/// Does what can't be done twice at the same time.
fn alone<T>(of: &Mutex<()>, work: impl FnOnce() -> T) -> T {
    let _guard = of.lock().unwrap_or_else(PoisonError::into_inner);
    work()
}

/// The packages of Node's, unpacked once into our folder.
fn packages() -> Outcome {
    static UNPACKED: OnceLock<Outcome> = OnceLock::new();
    UNPACKED.get_or_init(unpacked).clone()
}

fn unpacked() -> Outcome {
    let there = |(package, version): &(&str, &str)| {
        let manifest = folder().join("node_modules").join(package).join("package.json");
        read(&manifest).is_ok_and(|words| words.contains(&format!("\"version\": \"{version}\"")))
    };
    if PACKAGES.iter().all(there) {
        return Ok(());
    }
    println!("fetching {}", PACKAGES.map(|(name, version)| format!("{name} {version}")).join(", "));
    fs::create_dir_all(folder())
        .map_err(|why| format!("can't make {}: {why}", folder().display()))?;
    let wanted =
        PACKAGES.map(|(package, version)| format!("\"{package}\": \"{version}\"")).join(", ");
    let manifest = format!("{{ \"private\": true, \"dependencies\": {{ {wanted} }} }}\n");
    write(&folder().join("package.json"), manifest)?;
    // None of them needs the scripts that a package may run as it is unpacked.
    program("npm", ["install", "--ignore-scripts", "--no-audit", "--no-fund", "--no-package-lock"])
        .folder(&folder())
        .said()?;
    match PACKAGES.iter().find(|package| !there(package)) {
        None => Ok(()),
        Some((name, version)) => {
            Err(format!("npm fetched no {name} {version}, and didn't say why"))
        }
    }
}
