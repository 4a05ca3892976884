//! The scripts between the page and its wasm modules, written by the library that the bindings' own tool is made of.

use crate::command::{self, Outcome, cargo};
use crate::tools::WASM;
use std::path::{Path, PathBuf};
use wasm_bindgen_cli_support::Bindgen;

/// One of the page's two modules.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Module {
    package: &'static str,
    /// What its files are called: the script `NAME.js`, the wasm `NAME_bg.wasm`.
    pub(crate) name: &'static str,
    /// What cargo calls its file.
    file: &'static str,
}

/// The page itself.
pub(crate) const APP: Module =
    Module { package: "latheside-app", name: "latheside-app", file: "latheside-app.wasm" };
/// The answers, which the page loads once it stands.
pub(crate) const WORKS: Module =
    Module { package: "latheside-works", name: "works", file: "latheside_works.wasm" };

impl Module {
    /// Where cargo puts it when it is built by a profile.
    pub(crate) fn built(&self, profile: &str) -> PathBuf {
        command::target().join(WASM).join(profile).join(self.file)
    }

    /// Writes its script and its wasm with the bindings' own parts taken out, as built by a profile.
    pub(crate) fn bind(&self, profile: &str, folder: &Path) -> Outcome {
        let mut bindgen = Bindgen::new();
        bindgen.input_path(self.built(profile)).out_name(self.name).typescript(false);
        // Its script is told where the wasm is, and needn't guess.
        bindgen.omit_default_module_path(true);
        let made = bindgen.web(true).and_then(|bindgen| bindgen.generate(folder));
        made.map_err(|why| format!("{}: the bindings can't be made: {why:#}", self.package))
    }
}

/// Builds modules by a profile, all at once so that what they share is built once. What the flags say
/// goes to the compiler; none are those that are set anyway.
pub(crate) fn compile(modules: &[Module], profile: &str, flags: Option<&str>) -> Outcome {
    /// Where cargo looks for the compiler's flags.
    const FLAGS: &str = "CARGO_ENCODED_RUSTFLAGS";
    let mut run = cargo(["build", "--locked", "--profile", profile, "--target", WASM]);
    for module in modules {
        run = run.arg(format!("--package={}", module.package));
    }
    match flags {
        Some(flags) => run.env(FLAGS, flags).run(),
        None => run.run(),
    }
}
