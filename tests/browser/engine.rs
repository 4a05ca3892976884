//! The browsers that journeys are made in: what each is started by, and what it can be asked.

use crate::Outcome;
use serde_json::{Value, json};
use std::path::PathBuf;
use thirtyfour::Capabilities;

/// The three that phones and tablets have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Engine {
    /// Touched as a phone is, slowed down, cut off from the network: it alone can be asked that.
    Chromium,
    Firefox,
    /// The engine of every browser on an iPhone.
    WebKit,
}

/// A browser and what drives it.
#[derive(Clone, PartialEq, Eq)]
pub(crate) struct Programs {
    pub(crate) engine: Engine,
    pub(crate) driver: PathBuf,
    browser: Option<PathBuf>,
    /// The same engine without windows and menus, where there is one.
    shell: Option<PathBuf>,
}

/// No sandbox for root, and nothing of the browser's own on the network.
const FLAGS: [&str; 10] = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--disable-dev-shm-usage",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--force-prefers-reduced-motion",
];

impl Engine {
    /// As a journey's name begins.
    pub(crate) const fn name(self) -> &'static str {
        match self {
            Engine::Chromium => "chromium",
            Engine::Firefox => "firefox",
            Engine::WebKit => "webkit",
        }
    }

    /// Where its programs are, from the environment: Chromium's may be left to the path.
    pub(crate) fn programs(self) -> Option<Programs> {
        let set = |name: &str| std::env::var_os(name).map(PathBuf::from);
        let (driver, browser) = match self {
            Engine::Chromium => {
                (set("CHROMEDRIVER").unwrap_or_else(|| "chromedriver".into()), set("CHROME"))
            }
            Engine::Firefox => (set("GECKODRIVER")?, Some(set("FIREFOX")?)),
            Engine::WebKit => (set("WEBKITDRIVER")?, Some(set("MINIBROWSER")?)),
        };
        let shell = set("CHROME_SHELL").filter(|_| self == Engine::Chromium);
        Some(Programs { engine: self, driver, browser, shell })
    }
}

impl Programs {
    /// The same with its windows and menus.
    pub(crate) fn whole(&self) -> Programs {
        Programs { shell: None, ..self.clone() }
    }

    /// What a new browser is asked for: 390 by 844 where it can be had, and no motion.
    pub(crate) fn wanted(&self, preferences: &Value) -> Outcome<Capabilities> {
        let browser = self.shell.as_ref().or(self.browser.as_ref());
        let browser = browser.map(|file| file.to_string_lossy());
        let mut wanted = Capabilities::new();
        match self.engine {
            Engine::Chromium => {
                let metrics = json!({
                    "width": 390, "height": 844, "pixelRatio": 2, "touch": true, "mobile": true
                });
                let mut options =
                    json!({ "args": FLAGS, "mobileEmulation": { "deviceMetrics": metrics } });
                if let Some(browser) = browser {
                    options["binary"] = browser.into();
                }
                if preferences.is_object() {
                    options["prefs"] = preferences.clone();
                }
                wanted.set("browserName", "chrome")?;
                wanted.set("goog:chromeOptions", options)?;
                wanted
                    .set("goog:loggingPrefs", json!({ "browser": "ALL", "performance": "ALL" }))?;
            }
            Engine::Firefox => {
                let prefs = json!({
                    "ui.prefersReducedMotion": 1,
                    "network.captive-portal-service.enabled": false,
                    "network.connectivity-service.enabled": false,
                });
                let args = ["-headless", "-width", "390", "-height", "844"];
                let options = json!({ "binary": browser, "args": args, "prefs": prefs });
                wanted.set("browserName", "firefox")?;
                wanted.set("moz:firefoxOptions", options)?;
            }
            Engine::WebKit => {
                let options = json!({ "binary": browser, "args": ["--automation"] });
                wanted.set("browserName", "MiniBrowser")?;
                wanted.set("webkitgtk:browserOptions", options)?;
            }
        }
        Ok(wanted)
    }
}
