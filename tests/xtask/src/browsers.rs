//! The browsers that the page is tried in, and what drives each: from Debian's packages where we
//! may install them, else a sentence that says what to install.

use crate::command::Outcome;
use crate::tools::{self, find, from_debian};
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

/// One that is at hand: the variables that tell the journeys of it.
pub(crate) type Variables = Vec<(&'static str, PathBuf)>;

struct Browser {
    name: &'static str,
    packages: &'static [&'static str],
    at_hand: fn() -> Option<Variables>,
}

const CHROMIUM: Browser = Browser {
    name: "Chromium",
    packages: &["chromium", "chromium-driver"],
    at_hand: || {
        let browser = set("CHROME").or_else(|| find("chromium")).or_else(|| find("chrome"))?;
        let driver = set("CHROMEDRIVER").or_else(|| find("chromedriver"))?;
        Some(vec![("CHROME", browser), ("CHROMEDRIVER", driver)])
    },
};

/// The same engine without windows and menus, which takes half the time: no journey is lost without it.
const SHELL: Browser = Browser {
    name: "Chromium without windows",
    packages: &["chromium-headless-shell"],
    at_hand: || {
        // Debian's command is a script that outlives what it began.
        let debian = Some(PathBuf::from("/usr/lib/chromium/chromium-headless-shell"));
        let debian = debian.filter(|file| file.is_file());
        let shell = set("CHROME_SHELL").or(debian).or_else(|| find("chrome-headless-shell"))?;
        Some(vec![("CHROME_SHELL", shell)])
    },
};

const FIREFOX: Browser = Browser {
    name: "Firefox",
    packages: &["firefox-esr"],
    at_hand: || {
        let browser = set("FIREFOX").or_else(|| find("firefox-esr")).or_else(|| find("firefox"))?;
        Some(vec![("FIREFOX", browser)])
    },
};

/// The engine of the iPhone, in the small browser that comes with it, on a screen that nobody sees.
const WEBKIT: Browser = Browser {
    name: "WebKit",
    packages: &["webkit2gtk-driver", "xvfb"],
    at_hand: || {
        let driver = set("WEBKITDRIVER").or_else(|| find("WebKitWebDriver"))?;
        let browser = set("MINIBROWSER").or_else(mini_browser)?;
        find("Xvfb")?;
        Some(vec![("WEBKITDRIVER", driver), ("MINIBROWSER", browser)])
    },
};

/// Where Debian and its like put it: a folder named after the machine's kind.
fn mini_browser() -> Option<PathBuf> {
    let machines = std::fs::read_dir("/usr/lib").ok()?.filter_map(Result::ok);
    let mut places = machines.map(|machine| machine.path().join("webkit2gtk-4.1/MiniBrowser"));
    places.find(|file| file.is_file())
}

fn set(name: &str) -> Option<PathBuf> {
    std::env::var_os(name).map(PathBuf::from)
}

/// Chromium, without which nothing of the page can be checked.
pub(crate) fn chromium() -> Outcome<Variables> {
    CHROMIUM.found()
}

/// All three; one that can't be had is owned up to, once, and missed only where every check is made.
pub(crate) fn all() -> Outcome<Variables> {
    static ALL: OnceLock<Outcome<Variables>> = OnceLock::new();
    ALL.get_or_init(look).clone()
}

fn look() -> Outcome<Variables> {
    let mut all = chromium()?;
    let shell = SHELL.found().unwrap_or_default();
    // The driver refuses a browser of another version than its own.
    if shell.iter().all(|(_, shell)| is_of(shell, &all)) {
        all.extend(shell);
    }
    for browser in [FIREFOX, WEBKIT] {
        match browser.found() {
            Ok(variables) => all.extend(variables),
            Err(why) if std::env::var_os("CI").is_some() => return Err(why),
            Err(why) => println!("left out: {why}"),
        }
    }
    if all.iter().any(|(name, _)| *name == "FIREFOX") {
        all.push(("GECKODRIVER", tools::geckodriver()?));
    }
    Ok(all)
}

/// Whether a shell says that it is of the driver's version.
fn is_of(shell: &Path, all: &Variables) -> bool {
    let major = |file: &Path| Some(tools::version(file)?.split('.').next()?.to_owned());
    let driver = all.iter().find(|(name, _)| *name == "CHROMEDRIVER");
    let driver = driver.and_then(|(_, driver)| major(driver));
    driver.is_some() && major(shell) == driver
}

impl Browser {
    fn found(&self) -> Outcome<Variables> {
        if let Some(found) = (self.at_hand)() {
            return Ok(found);
        }
        let missing = || {
            let packages = self.packages.join(" and ");
            format!("the journeys in {} need Debian's {packages}, or their like", self.name)
        };
        from_debian(self.name, self.packages)?;
        (self.at_hand)().ok_or_else(missing)
    }
}

#[cfg(test)]
mod tests {
    use super::is_of;
    use std::path::Path;

    #[test]
    fn a_shell_is_of_the_drivers_version_or_not() {
        let rustc = || vec![("CHROMEDRIVER", "rustc".into())];
        assert!(is_of(Path::new("rustc"), &rustc()), "a program is of its own version");
        assert!(!is_of(Path::new("git"), &rustc()), "2 is not 1");
        assert!(!is_of(Path::new("there-is-no-such-program"), &rustc()));
        assert!(!is_of(Path::new("rustc"), &Vec::new()), "no driver, no version");
    }
}
