//! A browser that runs, and those that wait for the next journey.

use crate::Outcome;
use crate::driver::{Driver, Screen};
use crate::engine::{Engine, Programs};
use serde_json::{Value, json};
use std::cell::RefCell;
use std::collections::HashSet;
use std::path::Path;
use std::rc::Rc;
use std::sync::{LazyLock, Mutex, PoisonError};
use std::time::Duration;
use thirtyfour::WebDriver;
use xtask::site::Site;

/// How long a browser may take to begin.
const PATIENCE: Duration = Duration::from_secs(30);

/// A browser, and what runs beside it.
pub(crate) struct Opened {
    pub(crate) browser: WebDriver,
    pub(crate) screen: Option<Rc<Screen>>,
    pub(crate) programs: Programs,
    /// Begun with no preferences of its own.
    plain: bool,
    // Ends after its browser.
    _driver: Driver,
}

/// A browser takes as long to begin as a journey takes. One that is through with a journey waits here
/// for the next: each has a host of its own, and what a browser keeps, it keeps host by host.
#[derive(Clone, Default)]
pub(crate) struct Shelf(Rc<RefCell<Vec<Opened>>>);

impl Shelf {
    /// A browser that has not been to this journey's host yet.
    pub(crate) async fn take(
        &self,
        programs: &Programs,
        screen: Option<&Rc<Screen>>,
        preferences: &Value,
    ) -> Outcome<Opened> {
        let plain = preferences.is_null();
        let waits = |one: &Opened| plain && one.programs == *programs;
        let at = self.0.borrow().iter().position(waits);
        if let Some(at) = at {
            return Ok(self.0.borrow_mut().remove(at));
        }
        let screen = match screen {
            Some(screen) => Some(Rc::clone(screen)),
            None if programs.engine == Engine::WebKit => Some(Rc::new(Screen::start()?)),
            None => None,
        };
        let mut tries = 1;
        loop {
            let driver = Driver::start(programs, screen.as_deref())?;
            let begun = WebDriver::new(&driver.url, programs.wanted(preferences)?);
            let why = match tokio::time::timeout(PATIENCE, begun).await {
                Ok(Ok(browser)) => {
                    let programs = programs.clone();
                    return Ok(Opened { browser, screen, programs, plain, _driver: driver });
                }
                Ok(Err(why)) => why.to_string(),
                Err(_) => format!("no answer after {} s", PATIENCE.as_secs()),
            };
            // No journey has begun yet: what a machine does to a browser that begins isn't the page's fault.
            if tries == 3 {
                return Err(format!("{} can't be begun: {why}", programs.engine.name()).into());
            }
            tries += 1;
        }
    }

    /// Puts one away: for the next journey where that saves time and this one went well.
    pub(crate) async fn put(&self, opened: Opened, well: bool) -> Outcome {
        // WebKit's driver gives no other window than the first: what was done to that stays done.
        let again = well && opened.plain && opened.programs.engine != Engine::WebKit;
        if again && opened.emptied().await.is_ok() {
            self.0.borrow_mut().push(opened);
            return Ok(());
        }
        Ok(opened.browser.quit().await?)
    }

    /// Ends them all.
    pub(crate) async fn clear(&self) -> Outcome {
        let all = self.0.take();
        for opened in all {
            opened.browser.quit().await?;
        }
        Ok(())
    }
}

impl Opened {
    /// One window, a new one: what a journey asked of the others goes with them.
    async fn emptied(&self) -> Outcome {
        let others = self.browser.windows().await?;
        let new = self.browser.new_tab().await?;
        for other in others {
            self.browser.switch_to_window(other).await?;
            self.browser.close_window().await?;
        }
        self.browser.switch_to_window(new).await?;
        if self.programs.engine == Engine::Chromium {
            let how = json!({ "behavior": "default" });
            self.browser.cdp().send_raw("Browser.setDownloadBehavior", how).await?;
            self.browser.browser_log().await?;
            self.browser.get_log("performance").await?;
        }
        Ok(())
    }
}

/// A host under `prefix` at a port that no journey has been to before.
pub(crate) fn new_host(dist: &Path, prefix: &str) -> Outcome<Site> {
    static KNOWN: LazyLock<Mutex<HashSet<u16>>> = LazyLock::new(Mutex::default);
    loop {
        let site = Site::here(dist, prefix)?;
        let mut known = KNOWN.lock().unwrap_or_else(PoisonError::into_inner);
        if known.insert(site.address().port()) {
            return Ok(site);
        }
    }
}
