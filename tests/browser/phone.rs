//! A phone in the hand: 390 by 844, touched, with a browser that knows nothing yet.

use crate::altered::Altered;
use crate::download::Download;
use crate::engine::{Engine, Programs};
use crate::opened::{Opened, Shelf, new_host};
use crate::quiet::HEAR;
use crate::{Outcome, axe};
use serde_json::{Value, json};
use std::cell::RefCell;
use std::fs;
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::time::{Duration, Instant};
use thirtyfour::common::print::PrintParameters;
use thirtyfour::{By, WebDriver, WebElement, WindowHandle};
use xtask::site::Site;

/// Keys of a keyboard, as WebDriver names them.
pub(crate) const BACKSPACE: &str = "\u{E003}";
pub(crate) const ENTER: &str = "\u{E007}";
pub(crate) const ESCAPE: &str = "\u{E00C}";
pub(crate) const ARROW_LEFT: &str = "\u{E012}";
pub(crate) const ARROW_RIGHT: &str = "\u{E014}";

/// How long a page may take over what it is asked for.
pub(crate) const PATIENCE: Duration = Duration::from_secs(15);

/// What the phone is looked at again after, while something is waited for.
pub(crate) const GLANCE: Duration = Duration::from_millis(40);

/// Spaces are spaces here, whether a line may break there or not.
const PLAINLY: &str = ".replaceAll('\\u00a0', ' ')";

/// Not at the top of its host: the page must not mind.
const FOLDER: &str = "/shared/lathe/";

/// Brings an element to the middle of the screen unless it can be touched where it is.
const REVEAL: &str = "((css) => {
  const element = document.querySelector(css);
  const { left, top, width, height } = element.getBoundingClientRect();
  const there = document.elementFromPoint(left + width / 2, top + height / 2);
  if (!there || !element.contains(there)) element.scrollIntoView({ block: 'center' });
})";

/// Resolves once an element has stood in one place for two pictures running: not every engine keeps
/// what is looked at in its place while answers arrive above it. A tab behind another draws none.
const STEADY: &str = "(async (css) => {
  const place = () => {
    const { left, top, width, height } = document.querySelector(css).getBoundingClientRect();
    return [left, top, width, height].join();
  };
  const picture = () => new Promise((done) => {
    requestAnimationFrame(() => setTimeout(done));
    setTimeout(done, 200);
  });
  for (let same = 0, before = place(); same < 2; ) {
    await picture();
    const now = place();
    same = now === before ? same + 1 : 0;
    before = now;
  }
})";

/// What stays in view covers some of the rest wherever the sheet is scrolled to: the rules of what
/// can be touched look at it laid in its place.
const STICKY: &str = "document.querySelectorAll('.block, .pad, .bench-keys')";

/// Where things are, from the environment.
#[derive(Clone)]
pub(crate) struct Settings {
    pub(crate) dist: PathBuf,
    pub(crate) shots: PathBuf,
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
            shots: workspace.join(set("LATHESIDE_SHOTS").unwrap_or_else(|| "target/shots".into())),
            axe: set("LATHESIDE_AXE").or_else(|| tools.is_file().then_some(tools)),
        })
    }
}

/// The browser, and the host that it visits.
pub(crate) struct Phone {
    pub(crate) site: Rc<Site>,
    pub(crate) settings: Settings,
    pub(crate) browser: WebDriver,
    /// Other people's, for as long as the journey lasts.
    pub(crate) strangers: Vec<Rc<Phone>>,
    /// Complaints that this journey provokes, by a part of their words.
    pub(crate) expected: Vec<&'static str>,
    opened: Opened,
    shelf: Shelf,
    /// What the host serves in the page's place, for as long as the journey lasts.
    altered: RefCell<Vec<Altered>>,
}

impl Phone {
    pub(crate) async fn new(
        settings: &Settings,
        programs: &Programs,
        shelf: &Shelf,
    ) -> Outcome<Phone> {
        let site = new_host(&settings.dist, FOLDER)?;
        site.hear_breaches()?;
        let opened = shelf.take(programs, None, &Value::Null).await?;
        Phone::visiting(Rc::new(site), settings, shelf, opened).await
    }

    /// Another person's phone, that visits the same host.
    pub(crate) async fn stranger(&mut self) -> Outcome<Rc<Phone>> {
        self.stranger_with(Value::Null).await
    }

    /// Another person's phone, its browser's settings changed.
    pub(crate) async fn stranger_with(&mut self, preferences: Value) -> Outcome<Rc<Phone>> {
        let programs = &self.opened.programs;
        // Without its menus a browser has no settings.
        let programs = if preferences.is_null() { programs.clone() } else { programs.whole() };
        let opened = self.shelf.take(&programs, self.opened.screen.as_ref(), &preferences).await?;
        let (site, settings) = (Rc::clone(&self.site), &self.settings);
        let other = Phone::visiting(site, settings, &self.shelf, opened).await?;
        let other = Rc::new(other);
        self.strangers.push(Rc::clone(&other));
        Ok(other)
    }

    async fn visiting(
        site: Rc<Site>,
        settings: &Settings,
        shelf: &Shelf,
        opened: Opened,
    ) -> Outcome<Phone> {
        let browser = opened.browser.clone();
        browser.set_script_timeout(4 * PATIENCE).await?;
        let phone = Phone {
            site,
            settings: settings.clone(),
            browser,
            strangers: Vec::new(),
            expected: Vec::new(),
            opened,
            shelf: shelf.clone(),
            altered: RefCell::default(),
        };
        if phone.engine() != Engine::Chromium {
            phone.resize(390, 844).await?;
        }
        Ok(phone)
    }

    /// The browser that this journey is made in.
    pub(crate) fn engine(&self) -> Engine {
        self.opened.programs.engine
    }

    /// Makes the sheet so many pixels wide and high, or as near as the browser's window goes.
    pub(crate) async fn resize(&self, width: u32, height: u32) -> Outcome {
        if self.engine() == Engine::Chromium {
            let size = json!({
                "width": width, "height": height, "deviceScaleFactor": 2, "mobile": true
            });
            self.devtools("Emulation.setDeviceMetricsOverride", size).await?;
            return Ok(());
        }
        // The window's own edges and bars are about the sheet.
        let edges = self.js("return [outerWidth - innerWidth, outerHeight - innerHeight]").await?;
        let edge = |at: usize| edges.get(at).and_then(Value::as_u64).unwrap_or_default();
        let (wide, high) = (u64::from(width) + edge(0), u64::from(height) + edge(1));
        let (wide, high) = (u32::try_from(wide)?, u32::try_from(high)?);
        Ok(self.browser.set_window_rect(0, 0, wide, high).await?)
    }

    /// Whether its browser, or another's that was taken out for the journey, is there no more.
    pub(crate) async fn have_ended(&self) -> bool {
        for phone in self.strangers.iter().map(Rc::as_ref).chain([self]) {
            if phone.browser.windows().await.is_err() {
                return true;
            }
        }
        false
    }

    /// Puts it away, and every other that was taken out for the journey.
    pub(crate) async fn close(self, well: bool) -> Outcome {
        let others = self.strangers.into_iter().filter_map(Rc::into_inner);
        let all: Vec<Opened> = others.map(|other| other.opened).chain([self.opened]).collect();
        for opened in all {
            self.shelf.put(opened, well).await?;
        }
        Ok(())
    }

    /// Goes to a place in the page: "" for its start, "#…" for a place in it.
    pub(crate) async fn visit(&self, place: &str) -> Outcome {
        self.browser.goto(format!("{}{place}", self.site.url())).await?;
        self.loaded().await
    }

    /// Hears from now on what nobody catches in this page, where the console can't be read.
    async fn loaded(&self) -> Outcome {
        if self.engine() != Engine::Chromium {
            self.js(HEAR).await?;
        }
        Ok(())
    }

    /// Goes there, and waits until the works are in: what they add is drawn, and a finger that is on
    /// its way finds what it meant.
    pub(crate) async fn open(&self, place: &str) -> Outcome {
        self.visit(place).await?;
        self.is_ready().await?;
        self.until("window.lathesideWorks").await
    }

    /// Loads the page anew and waits until it is another page than before, and runs.
    pub(crate) async fn reload(&self) -> Outcome {
        // By the page itself: Firefox's driver loads past the worker, as nobody with a phone does.
        self.js("window.before = true; setTimeout(() => location.reload())").await?;
        // An error page answers too: what counts is what the page says of itself.
        self.until("!window.before && window.lathesideWorks").await?;
        self.loaded().await
    }

    /// The page runs, and says so.
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
        let seen = format!("document.querySelector({})?.checkVisibility()", Value::from(css));
        let from = Instant::now();
        loop {
            self.until(&seen).await?;
            // Drawn again between the two looks, it is another.
            match self.browser.find(By::Css(css.to_owned())).await {
                Ok(element) => return Ok(element),
                Err(why) if from.elapsed() > PATIENCE => return Err(why.into()),
                Err(_) => tokio::time::sleep(GLANCE).await,
            }
        }
    }

    /// Touches an element as a person would: where it stands, if nothing covers it; one that is
    /// out of sight, or under what stays in view, is brought to the middle first. What moves away
    /// or is drawn again just then is reached for a second time.
    pub(crate) async fn tap(&self, css: &str) -> Outcome {
        let quoted = Value::from(css);
        let mut tries = 0;
        loop {
            let element = self.find(css).await?;
            self.js(&format!("{REVEAL}({quoted})")).await.ok();
            if self.engine() != Engine::Chromium {
                self.promised(&format!("{STEADY}({quoted})")).await.ok();
            }
            let Err(why) = element.click().await else { return Ok(()) };
            tries += 1;
            if tries == 5 {
                let why = why.to_string();
                let why = why.split("Stacktrace").next().unwrap_or_default().trim_end();
                return Err(format!("can't tap `{css}`: {why}").into());
            }
            tokio::time::sleep(GLANCE * tries).await;
        }
    }

    /// Waits until an element says this, among other things.
    pub(crate) async fn says(&self, css: &str, words: &str) -> Outcome {
        let (css, words) = (Value::from(css), Value::from(words));
        let said = format!("document.querySelector({css})?.innerText{PLAINLY}");
        self.until(&format!("{said}.includes({words})")).await
    }

    /// Takes a picture of what is to be seen.
    pub(crate) async fn shot(&self, name: &str) -> Outcome {
        fs::create_dir_all(&self.settings.shots)?;
        let name = match self.engine() {
            Engine::Chromium => format!("{name}.png"),
            other => format!("{}-{name}.png", other.name()),
        };
        Ok(self.browser.screenshot(&self.settings.shots.join(name)).await?)
    }

    /// The page breaks no rule of accessibility as it stands.
    pub(crate) async fn is_accessible(&self) -> Outcome {
        let file =
            self.settings.axe.as_deref().ok_or("the rules are missing: set LATHESIDE_AXE")?;
        if self.js("return typeof axe").await? != "object" {
            self.js(&fs::read_to_string(file)?).await?;
        }
        self.js(&format!("{STICKY}.forEach((e) => {{ e.style.position = 'static' }})")).await?;
        let answer = self.promised(axe::RUN).await;
        self.js(&format!("{STICKY}.forEach((e) => {{ e.style.position = '' }})")).await?;
        axe::check(&answer?)
    }

    /// Taps keys of the keypad, each named by what it types, and then "Done".
    pub(crate) async fn keys(&self, keys: &[&str]) -> Outcome {
        for key in keys {
            self.tap(&format!("[data-do=\"type {key}\"]")).await?;
        }
        Ok(())
    }

    /// Types on a real keyboard, into what has the focus.
    pub(crate) async fn keyboard(&self, words: &str) -> Outcome {
        let focused = self.browser.active_element().await?;
        Ok(focused.send_keys(words).await?)
    }

    /// Presses keys as a keyboard does, whatever has the focus.
    pub(crate) async fn press(&self, keys: &str) -> Outcome {
        Ok(self.browser.action_chain().send_keys(keys).perform().await?)
    }

    /// Puts many words into the keypad's field at once, as a paste does.
    pub(crate) async fn paste(&self, words: &str) -> Outcome {
        let words = Value::from(words);
        self.js(&format!(
            "const field = document.getElementById('keypad-field'); field.value = {words};
             field.dispatchEvent(new Event('input', {{ bubbles: true }}))"
        ))
        .await?;
        Ok(())
    }

    /// Opens a blank, types into its field over what stands there, and closes the keypad.
    pub(crate) async fn enter(&self, blank: &str, words: &str) -> Outcome {
        self.open_blank(blank).await?;
        self.keyboard(words).await?;
        self.tap("[data-do=done]").await?;
        self.until("document.querySelector('.pad').hidden").await
    }

    /// Opens the keypad for a blank.
    pub(crate) async fn open_blank(&self, blank: &str) -> Outcome {
        self.tap(blank).await?;
        self.until("document.activeElement?.id === 'keypad-field'").await
    }

    /// Opens what is folded away under a name.
    pub(crate) async fn unfold(&self, name: &str) -> Outcome {
        self.tap(&format!("details[data-fold=\"{name}\"]:not([open]) > summary")).await
    }

    /// What an element says at present.
    pub(crate) async fn text(&self, css: &str) -> Outcome<String> {
        let words =
            format!("return document.querySelector({})?.innerText{PLAINLY}", Value::from(css));
        Ok(self
            .js(&words)
            .await?
            .as_str()
            .ok_or_else(|| format!("there is no `{css}`"))?
            .to_owned())
    }

    /// What stands in a blank, without the sentence's own comma or full stop after it.
    pub(crate) async fn entered(&self, blank: &str) -> Outcome<String> {
        let words = self.text(blank).await?;
        Ok(words.trim().trim_end_matches([',', '.', ';', ':']).to_owned())
    }

    /// What each element of a selector says at present.
    pub(crate) async fn texts(&self, css: &str) -> Outcome<Vec<String>> {
        let words = format!(
            "return [...document.querySelectorAll({})].filter((e) => e.checkVisibility()).map((e) => e.innerText{PLAINLY}.trim())",
            Value::from(css)
        );
        let texts = self.js(&words).await?;
        let texts = texts.as_array().into_iter().flatten();
        Ok(texts.filter_map(Value::as_str).map(str::to_owned).collect())
    }

    /// The figures of the settings in there, once there are any.
    pub(crate) async fn figures(&self, within: &str) -> Outcome<Vec<String>> {
        let figures = format!("{within} .answer:not(.stale) .setting b");
        self.find(&figures).await?;
        self.texts(&figures).await
    }

    /// The part of the address after `#`.
    pub(crate) async fn fragment(&self) -> Outcome<String> {
        Ok(self.js("return location.hash").await?.as_str().unwrap_or_default().to_owned())
    }

    /// Goes to a place within the page that is open.
    pub(crate) async fn to(&self, place: &str) -> Outcome {
        self.js(&format!("location.hash = {}", Value::from(place))).await?;
        // The place is told in a later task, and drawn in one after that.
        self.promised("new Promise((done) => setTimeout(() => requestAnimationFrame(() => setTimeout(done)), 20))").await?;
        Ok(())
    }

    /// Waits until the bench hears again after a step.
    pub(crate) async fn rest(&self) {
        tokio::time::sleep(Duration::from_millis(430)).await;
    }

    /// Chooses a file in a field for files.
    pub(crate) async fn choose_file(&self, css: &str, file: &Path) -> Outcome {
        Ok(self.find(css).await?.send_keys(file.to_string_lossy().into_owned()).await?)
    }

    /// Has the browser put files there without asking.
    pub(crate) async fn downloads_go_to(&self, folder: &Download) -> Outcome {
        let how = json!({ "behavior": "allow", "downloadPath": folder.path });
        self.devtools("Browser.setDownloadBehavior", how).await?;
        Ok(())
    }

    /// Runs a script in each page that is loaded from now on, before the page's own. Where the
    /// browser can't be asked that, the host adds it, for all who visit it.
    pub(crate) async fn before_load(&self, script: &str) -> Outcome {
        if self.engine() != Engine::Chromium {
            self.host_serves(Altered::begun_with(&self.settings.dist, script)?);
            return Ok(());
        }
        self.devtools("Page.addScriptToEvaluateOnNewDocument", json!({ "source": script })).await?;
        Ok(())
    }

    /// Has the host serve another page from now on, for as long as the journey lasts.
    pub(crate) fn host_serves(&self, altered: Altered) {
        self.site.serve(&altered.folder);
        self.altered.borrow_mut().push(altered);
    }

    /// What comes out of the printer, on paper of the browser's own choice.
    pub(crate) async fn printed(&self) -> Outcome<Vec<u8>> {
        Ok(self.browser.print_page(PrintParameters::default()).await?)
    }

    /// Asks something of the browser itself.
    pub(crate) async fn devtools(&self, what: &str, how: Value) -> Outcome<Value> {
        Ok(self.browser.cdp().send_raw(what, how).await?)
    }

    /// Has the page's own processor time counted from now on.
    pub(crate) async fn count_time(&self) -> Outcome {
        self.devtools("Performance.setTimeDomain", json!({ "timeDomain": "threadTicks" })).await?;
        self.devtools("Performance.enable", json!({})).await?;
        Ok(())
    }

    /// The processor time that the page has taken, in milliseconds.
    pub(crate) async fn time_taken(&self) -> Outcome<f64> {
        let all = self.devtools("Performance.getMetrics", json!({})).await?;
        let all = all.get("metrics").and_then(Value::as_array).ok_or("no time was counted")?;
        let tasks =
            all.iter().find(|metric| metric.get("name").is_some_and(|n| n == "TaskDuration"));
        let seconds = tasks.and_then(|tasks| tasks.get("value")?.as_f64());
        Ok(seconds.ok_or("no time was counted")? * 1000.0)
    }

    /// Opens another tab beside this one and turns to it; gives both.
    pub(crate) async fn another_tab(&self) -> Outcome<(WindowHandle, WindowHandle)> {
        let first = self.browser.window().await?;
        let second = self.browser.new_tab().await?;
        self.browser.switch_to_window(second.clone()).await?;
        Ok((first, second))
    }

    /// Turns to a tab.
    pub(crate) async fn turn_to(&self, tab: &WindowHandle) -> Outcome {
        Ok(self.browser.switch_to_window(tab.clone()).await?)
    }
}
