//! What a page complains of, and whom it asks: nothing, and nobody but its own host.

use crate::Outcome;
use crate::engine::Engine;
use crate::phone::Phone;
use serde_json::Value;

/// Collects what nobody caught, and what the page made up for, in browsers whose console can't be
/// read from outside.
pub(crate) const HEAR: &str = "
  if (!window.amiss) {
    window.amiss = [];
    addEventListener('error', (event) => window.amiss.push(String(event.error ?? event.message)));
    addEventListener('unhandledrejection', (event) => window.amiss.push(String(event.reason)));
    addEventListener('latheside-works-over', (event) => window.amiss.push(`started afresh: ${event.why}`));
  }
";

impl Phone {
    /// This journey provokes complaints with these words.
    pub(crate) fn expect(&mut self, words: &'static str) {
        self.expected.push(words);
    }

    /// Nothing was complained of, no rule of the page's policy was broken, and nobody else was
    /// asked for anything, on any of the phones.
    pub(crate) async fn is_quiet(&self) -> Outcome {
        let mut wrong: Vec<String> = self.site.breaches();
        for phone in self.strangers.iter().map(std::rc::Rc::as_ref).chain([self]) {
            wrong.extend(match self.engine() {
                Engine::Chromium => phone.console().await?,
                Engine::Firefox | Engine::WebKit => phone.uncaught().await?,
            });
        }
        let expected = |words: &String| self.expected.iter().any(|part| words.contains(part));
        wrong.retain(|words| !expected(words));
        if wrong.is_empty() { Ok(()) } else { Err(wrong.join("\n").into()) }
    }

    /// What the console says, and who was asked over the network.
    async fn console(&self) -> Outcome<Vec<String>> {
        let mut wrong = Vec::new();
        for entry in self.browser.browser_log().await? {
            if matches!(entry.level.as_str(), "SEVERE" | "WARNING") {
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
        Ok(wrong)
    }

    /// What nobody caught in the page as it stands, and whether it still runs.
    async fn uncaught(&self) -> Outcome<Vec<String>> {
        let said = self
            .js("const panel = document.getElementById('trouble');
                 const dead = panel && !panel.hidden ? ['the page has ended: ' + panel.innerText] : [];
                 return [...(window.amiss ?? []), ...dead]")
            .await?;
        let said = said.as_array().into_iter().flatten();
        Ok(said.map(|words| format!("the page complained: {words}")).collect())
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
