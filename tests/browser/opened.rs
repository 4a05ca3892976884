//! A browser that runs, and those that wait for the next journey.

use crate::Outcome;
use crate::driver::{Driver, Screen};
use crate::engine::{Engine, Programs};
use serde_json::Value;
use std::cell::RefCell;
use std::collections::HashSet;
use std::path::Path;
use std::rc::Rc;
use std::sync::{LazyLock, Mutex, PoisonError};
use thirtyfour::WebDriver;
use xtask::site::Site;

/// A browser, and what runs beside it.
pub(crate) struct Opened {
    pub(crate) browser: WebDriver,
    pub(crate) screen: Option<Rc<Screen>>,
    pub(crate) programs: Programs,
    // Ends after its browser.
    _driver: Driver,
}

/// Firefox takes longer to begin than most journeys take. One that is through with a journey waits
/// here for the next: each has a host of its own, and what a browser keeps, it keeps host by host.
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
        let waits = |one: &Opened| one.programs.engine == programs.engine && preferences.is_null();
        let at = self.0.borrow().iter().position(waits);
        if let Some(at) = at {
            return Ok(self.0.borrow_mut().remove(at));
        }
        let screen = match screen {
            Some(screen) => Some(Rc::clone(screen)),
            None if programs.engine == Engine::WebKit => Some(Rc::new(Screen::start()?)),
            None => None,
        };
        let driver = Driver::start(programs, screen.as_deref())?;
        let browser = WebDriver::new(&driver.url, programs.wanted(preferences)?).await?;
        Ok(Opened { browser, screen, programs: programs.clone(), _driver: driver })
    }

    /// Puts one away: for the next journey where that saves time and this one went well.
    pub(crate) async fn put(&self, opened: Opened, well: bool) -> Outcome {
        let again = well && opened.programs.engine == Engine::Firefox;
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
    /// One window, with nothing in it.
    async fn emptied(&self) -> Outcome {
        let windows = self.browser.windows().await?;
        let [first, others @ ..] = windows.as_slice() else { return Err("no window".into()) };
        for other in others {
            self.browser.switch_to_window(other.clone()).await?;
            self.browser.close_window().await?;
        }
        self.browser.switch_to_window(first.clone()).await?;
        Ok(self.browser.goto("about:blank").await?)
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
