//! The page while it is worked on: whatever is saved is built again, as much of it as it touches, and shown.

mod watch;

use crate::bindings::{APP, Module, WORKS, compile};
use crate::command::{self, Outcome, read, write};
use crate::index::{Index, Names};
use crate::page;
use crate::tools;
use std::path::{Path, PathBuf};
use std::thread;
use std::time::{Duration, Instant, SystemTime};
use watch::{Changed, Watch};

/// The profile that it is built by: soon built again, and large.
pub(crate) const PROFILE: &str = "page-dev";

/// How often the tree is looked at.
const PAUSE: Duration = Duration::from_millis(200);

/// Asks its host whether something newer is there: a sheet is exchanged, for anything else the page is
/// loaded again. The host puts it into the page; no other build knows of it.
const RELOAD: &str = include_str!("reload.js");
/// In the place of the page's worker: takes back what an earlier one keeps, and keeps nothing.
const FORGET: &str = include_str!("forget.js");

/// The folder that is served, and what it was made from.
pub(crate) struct Dev {
    made: PathBuf,
    watch: Watch,
    /// When each module was last written, as the page has it.
    bound: [Option<SystemTime>; 2],
    /// How often the page, and the sheet alone, have been made.
    page: u32,
    style: u32,
}

impl Dev {
    /// Builds it for the first time. What can't be built yet is said, and built once it is mended.
    pub(crate) fn begin() -> Outcome<Dev> {
        tools::target(tools::WASM)?;
        let made = command::target().join("dev");
        page::empty(&made)?;
        let watch = Watch::begin(&command::root())?;
        let mut dev = Dev { made, watch, bound: [None; 2], page: 0, style: 0 };
        dev.make(Changed::all());
        Ok(dev)
    }

    /// The folder to be served.
    pub(crate) fn folder(&self) -> &Path {
        &self.made
    }

    /// Builds again whatever is saved, for ever.
    pub(crate) fn go_on(mut self) -> Outcome {
        loop {
            thread::sleep(PAUSE);
            let changed = self.watch.changed()?;
            if changed.any() {
                self.make(changed);
            }
        }
    }

    fn make(&mut self, changed: Changed) {
        let from = Instant::now();
        match self.made_anew(changed) {
            Ok(what) => println!("{what} made in {:.1} s", from.elapsed().as_secs_f64()),
            // The compiler has said where; the page stays as it was.
            Err(why) => eprintln!("{why}"),
        }
    }

    fn made_anew(&mut self, changed: Changed) -> Outcome<String> {
        let index = page::index()?;
        let mut what = Vec::new();
        if changed.style {
            write(&self.made.join("style.css"), page::sheets(&index)?)?;
            self.style += 1;
            what.push("style");
        }
        if changed.page {
            self.put_together(&index)?;
            what.push("page");
        }
        if changed.modules {
            what.extend(self.modules()?);
        }
        if changed.page || changed.modules {
            self.page += 1;
        }
        // Last, when all is there.
        write(&self.made.join("made.txt"), format!("{} {}", self.page, self.style))?;
        Ok(what.join(" and "))
    }

    /// All but the modules.
    fn put_together(&self, index: &Index) -> Outcome {
        page::copy_folder(index, &self.made)?;
        write(&self.made.join("sw.js"), FORGET)?;
        write(&self.made.join("reload.js"), RELOAD)?;
        write(&self.made.join("boot.js"), read(&page::source(&index.script))?)?;
        let files =
            |module: Module| (format!("{}.js", module.name), format!("{}_bg.wasm", module.name));
        let (app, works) = (files(APP), files(WORKS));
        let names = Names {
            style: "style.css",
            script: "boot.js",
            app: (&app.0, &app.1),
            works: (&works.0, &works.1),
        };
        write(&self.made.join("index.html"), with_reload(&index.filled(&names))?)
    }

    /// Builds the modules, and binds those that came out otherwise.
    fn modules(&mut self) -> Outcome<Vec<&'static str>> {
        compile(&[APP, WORKS], PROFILE, None)?;
        let written =
            |module: Module| module.built(PROFILE).metadata().and_then(|file| file.modified()).ok();
        let now = [written(APP), written(WORKS)];
        let due = |at: usize, module: Module| {
            (self.bound.get(at) != now.get(at) || now.get(at) == Some(&None)).then_some(module)
        };
        let (app, works) = (due(0, APP), due(1, WORKS));
        let bind = |module: Option<Module>| match module {
            Some(module) => module.bind(PROFILE, &self.made),
            None => Ok(()),
        };
        page::both(|| bind(app), || bind(works))?;
        self.bound = now;
        Ok([app, works].into_iter().flatten().map(|module| module.name).collect())
    }
}

/// The page with the script that loads it again, before its own: a file, as its policy asks.
fn with_reload(page: &str) -> Outcome<String> {
    let (before, after) = page.split_once("</head>").ok_or("index.html has no end of its head")?;
    Ok([before, "<script src=\"./reload.js\" type=\"module\"></script>\n</head>", after].concat())
}

/// The answers' module beside a page that Trunk is putting together, which knows of one module only.
pub(crate) fn beside_trunks() -> Outcome {
    /// Where Trunk says the page stands until it is whole.
    const FOLDER: &str = "TRUNK_STAGING_DIR";
    let folder =
        std::env::var_os(FOLDER).ok_or("`cargo xtask works` is Trunk's to call: see Trunk.toml")?;
    // Both, so that what they share is what Trunk has built.
    compile(&[APP, WORKS], PROFILE, None)?;
    WORKS.bind(PROFILE, folder.as_ref())
}
