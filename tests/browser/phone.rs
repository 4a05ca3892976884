//! A phone in the hand: 390 by 844, touched, with a browser that knows nothing yet.

use crate::driver::Driver;
use crate::{Outcome, axe};
use serde_json::{Value, json};
use std::fs;
use std::path::PathBuf;
use std::time::{Duration, Instant};
use thirtyfour::{
    By, CapabilitiesHelper, ChromiumLikeCapabilities, DesiredCapabilities, WebDriver, WebElement,
};
use xtask::site::Site;

/// How long a page may take over what it is asked for.
const PATIENCE: Duration = Duration::from_secs(15);

/// What the phone is looked at again after, while something is waited for.
const GLANCE: Duration = Duration::from_millis(40);

/// Not at the top of its host: the page must not mind.
const FOLDER: &str = "/shared/lathe/";

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

/// Where things are, from the environment.
pub(crate) struct Settings {
    pub(crate) dist: PathBuf,
    pub(crate) driver: PathBuf,
    browser: Option<PathBuf>,
    shots: PathBuf,
    axe: Option<PathBuf>,
}

impl Settings {
    /// `None` without a built page.
    pub(crate) fn from_environment() -> Option<Settings> {
        let set = |name: &str| std::env::var_os(name).map(PathBuf::from);
        // A test runs in its package's folder, and whoever names a folder is in the workspace's.
        let workspace = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("..");
        let tools = workspace.join("target/tools/node_modules/axe-core/axe.min.js");
        Some(Settings {
            dist: workspace.join(set("LATHESIDE_DIST")?),
            driver: set("CHROMEDRIVER").unwrap_or_else(|| "chromedriver".into()),
            browser: set("CHROME"),
            shots: workspace.join(set("LATHESIDE_SHOTS").unwrap_or_else(|| "target/shots".into())),
            axe: set("LATHESIDE_AXE").or_else(|| tools.is_file().then_some(tools)),
        })
    }
}

/// The browser, and the host that it visits.
pub(crate) struct Phone {
    pub(crate) site: Site,
    pub(crate) dist: PathBuf,
    browser: WebDriver,
    shots: PathBuf,
    axe: Option<PathBuf>,
    /// Complaints that this journey provokes, by a part of their words.
    expected: Vec<&'static str>,
}

impl Phone {
    pub(crate) async fn new(settings: &Settings, driver: &Driver) -> Outcome<Phone> {
        let site = Site::here(&settings.dist, FOLDER)?;
        let mut wanted = DesiredCapabilities::chrome();
        for flag in FLAGS {
            wanted.add_arg(flag)?;
        }
        if let Some(browser) = &settings.browser {
            wanted.set_binary(&browser.to_string_lossy())?;
        }
        let metrics =
            json!({ "width": 390, "height": 844, "pixelRatio": 2, "touch": true, "mobile": true });
        wanted.add_experimental_option("mobileEmulation", json!({ "deviceMetrics": metrics }))?;
        wanted.set("goog:loggingPrefs", json!({ "browser": "ALL", "performance": "ALL" }))?;
        let browser = WebDriver::new(&driver.url, wanted).await?;
        browser.set_script_timeout(PATIENCE).await?;
        Ok(Phone {
            site,
            dist: settings.dist.clone(),
            browser,
            shots: settings.shots.clone(),
            axe: settings.axe.clone(),
            expected: Vec::new(),
        })
    }

    pub(crate) async fn close(self) -> Outcome {
        Ok(self.browser.quit().await?)
    }

    /// Goes to a place in the page: "" for its start, "#…" for a place in it.
    pub(crate) async fn visit(&self, place: &str) -> Outcome {
        Ok(self.browser.goto(format!("{}{place}", self.site.url())).await?)
    }

    /// Goes there, and waits until the works run.
    pub(crate) async fn open(&self, place: &str) -> Outcome {
        self.visit(place).await?;
        self.is_ready().await
    }

    /// Loads the page anew and waits until it is another page than before, and runs.
    pub(crate) async fn reload(&self) -> Outcome {
        self.js("window.before = true").await?;
        self.browser.refresh().await?;
        // An error page answers too: what counts is what the page says of itself.
        self.until("!window.before && document.body.hasAttribute('data-ready')").await
    }

    /// The works run, and the page says so.
    pub(crate) async fn is_ready(&self) -> Outcome {
        self.until("document.body?.hasAttribute('data-ready')").await
    }

    /// The browser has kept the page and answers for it.
    pub(crate) async fn is_kept(&self) -> Outcome {
        self.until("navigator.serviceWorker.controller?.state === 'activated'").await
    }

    /// Runs statements in the page; `return` gives their value.
    pub(crate) async fn js(&self, words: &str) -> Outcome<Value> {
        Ok(self.browser.execute(words, Vec::new()).await?.json().clone())
    }

    /// The value of a promise in the page.
    pub(crate) async fn promised(&self, expression: &str) -> Outcome<Value> {
        let words = format!(
            "const done = arguments[arguments.length - 1];
             Promise.resolve({expression}).then((value) => done({{ value }}), (why) => done({{ why: String(why) }}));"
        );
        let answer = self.browser.execute_async(words, Vec::new()).await;
        let answer = answer.map_err(|why| format!("`{expression}` came to nothing: {why}"))?;
        let answer = answer.json();
        match answer.get("why").and_then(Value::as_str) {
            Some(why) => Err(format!("`{expression}` was refused: {why}").into()),
            None => Ok(answer.get("value").cloned().unwrap_or(Value::Null)),
        }
    }

    /// Waits until an expression of the page's holds.
    pub(crate) async fn until(&self, expression: &str) -> Outcome {
        let from = Instant::now();
        let words = format!("return Boolean({expression})");
        loop {
            // Between two pages there is nothing to ask.
            let held = self.js(&words).await;
            if let Ok(Value::Bool(true)) = held {
                return Ok(());
            }
            if from.elapsed() > PATIENCE {
                let why = held.err().map(|why| format!(" ({why})")).unwrap_or_default();
                return Err(format!("waited in vain for `{expression}`{why}").into());
            }
            tokio::time::sleep(GLANCE).await;
        }
    }

    /// The one element of this selector, once it is to be seen.
    pub(crate) async fn find(&self, css: &str) -> Outcome<WebElement> {
        let quoted = Value::from(css);
        self.until(&format!("document.querySelector({quoted})?.checkVisibility()")).await?;
        Ok(self.browser.find(By::Css(css.to_owned())).await?)
    }

    /// Touches an element as a person would: where it stands, if nothing covers it.
    pub(crate) async fn tap(&self, css: &str) -> Outcome {
        Ok(self
            .find(css)
            .await?
            .click()
            .await
            .map_err(|why| format!("can't tap `{css}`: {why}"))?)
    }

    /// Waits until an element says this, among other things.
    pub(crate) async fn says(&self, css: &str, words: &str) -> Outcome {
        let (css, words) = (Value::from(css), Value::from(words));
        self.until(&format!("document.querySelector({css})?.innerText.includes({words})")).await
    }

    /// Takes a picture of what is to be seen.
    pub(crate) async fn shot(&self, name: &str) -> Outcome {
        fs::create_dir_all(&self.shots)?;
        Ok(self.browser.screenshot(&self.shots.join(format!("{name}.png"))).await?)
    }

    /// The page breaks no rule of accessibility as it stands.
    pub(crate) async fn is_accessible(&self) -> Outcome {
        let file = self.axe.as_deref().ok_or("the rules are missing: set LATHESIDE_AXE")?;
        self.js(&fs::read_to_string(file)?).await?;
        axe::check(&self.promised(axe::RUN).await?)
    }

    /// This journey provokes complaints with these words.
    pub(crate) fn expect(&mut self, words: &'static str) {
        self.expected.push(words);
    }

    /// Nothing was complained of, and nobody else was asked for anything.
    pub(crate) async fn is_quiet(&self) -> Outcome {
        let expected = |words: &str| self.expected.iter().any(|part| words.contains(part));
        let mut wrong = Vec::new();
        for entry in self.browser.browser_log().await? {
            let bad = matches!(entry.level.as_str(), "SEVERE" | "WARNING");
            if bad && !expected(&entry.message) {
                wrong.push(format!("the page complained: {}", entry.message));
            }
        }
        let home = self.site.url();
        for entry in self.browser.get_log("performance").await? {
            let event: Value = serde_json::from_str(&entry.message)?;
            if let Some(url) = asked(&event).filter(|url| !url.starts_with(&home)) {
                wrong.push(format!("the page asked another origin: {url}"));
            }
        }
        if wrong.is_empty() { Ok(()) } else { Err(wrong.join("\n").into()) }
    }
}

/// What a network event asks for, if it goes over the network.
fn asked(event: &Value) -> Option<&str> {
    let message = event.get("message")?;
    if message.get("method")?.as_str()? != "Network.requestWillBeSent" {
        return None;
    }
    let url = message.pointer("/params/request/url")?.as_str()?;
    let own = ["data:", "blob:", "about:", "chrome:"];
    (!own.iter().any(|scheme| url.starts_with(scheme))).then_some(url)
}
