//! The page kept for working with no network: whole, and replaced only by a tap.

use crate::Outcome;
use crate::altered::{Altered, file};
use crate::phone::Phone;
use std::net::TcpStream;
use std::time::Duration;
use xtask::site::Fault;

pub(crate) async fn the_page_opens_with_its_server_gone(phone: &mut Phone) -> Outcome {
    phone.open("").await?;
    phone.is_kept().await?;
    // The browser may look for a newer worker, and says so when nobody answers.
    phone.expect("ERR_CONNECTION_REFUSED");
    phone.site.stop();
    if TcpStream::connect(phone.site.address()).is_ok() {
        return Err("the server is still there".into());
    }
    phone.reload().await?;
    phone.visit("index.html?from=a+bookmark").await?;
    phone.is_ready().await?;
    phone.visit("about:blank").await.ok();
    phone.open("").await?;
    phone.shot("offline").await
}

pub(crate) async fn a_set_with_a_fault_is_not_kept(phone: &mut Phone) -> Outcome {
    let icon = file(&phone.dist, "apple-touch.png")?;
    let faults = [Fault::Missing, Fault::Halved, Fault::Corrupt];
    for fault in faults {
        // Not of the first load: the page itself runs all the same.
        phone.site.fault(&icon, Some(fault));
        phone.open("").await?;
        phone.promised("navigator.serviceWorker.register('sw.js').then(() => 0, () => 0)").await?;
        let state = settled(phone).await?;
        if state != "gone" {
            return Err(format!("{fault:?}: the worker is {state}").into());
        }
        let caches = phone.promised("caches.keys()").await?;
        if caches.as_array().is_none_or(|names| !names.is_empty()) {
            return Err(format!("{fault:?}: something was kept: {caches}").into());
        }
    }
    phone.site.fault(&icon, Some(Fault::Slow(Duration::from_secs(2))));
    phone.reload().await?;
    phone.is_kept().await
}

pub(crate) async fn a_newer_page_waits_for_a_tap(phone: &mut Phone) -> Outcome {
    phone.open("").await?;
    phone.is_kept().await?;
    phone.promised("caches.open('another page of this host')").await?;
    let newer = Altered::of(&phone.dist, "index.html", |page| {
        page.replacen("<html ", "<html data-newer ", 1)
    })?;
    phone.site.serve(&newer.folder);
    phone
        .promised("navigator.serviceWorker.ready.then((registration) => registration.update())")
        .await?;
    phone.until("document.documentElement.hasAttribute('data-update')").await?;
    for _ in 0..2 {
        if phone.js(&format!("return {NEWER}")).await? == true {
            return Err("the newer page came by itself".into());
        }
        phone.reload().await?;
    }
    phone.until("document.documentElement.hasAttribute('data-update')").await?;
    phone.js("dispatchEvent(new CustomEvent('latheside-update-now'))").await?;
    phone.until(NEWER).await?;
    phone.is_ready().await?;
    let names = phone.promised("caches.keys()").await?;
    let names: Vec<&str> =
        names.as_array().into_iter().flatten().filter_map(|n| n.as_str()).collect();
    let ours = names.iter().filter(|name| name.starts_with("latheside ")).count();
    if ours != 1 || !names.contains(&"another page of this host") {
        return Err(format!("kept: {names:?}").into());
    }
    Ok(())
}

/// What became of the worker, once that is settled: "kept", or "gone".
async fn settled(phone: &Phone) -> Outcome<String> {
    let state = "navigator.serviceWorker.getRegistration().then((registration) =>
        !registration ? 'gone' : registration.active?.state === 'activated' ? 'kept' : 'under way')";
    for _ in 0..100 {
        let state = phone.promised(state).await?;
        if state != "under way" {
            return Ok(state.as_str().unwrap_or_default().to_owned());
        }
        tokio::time::sleep(Duration::from_millis(100)).await;
    }
    Err("the worker is never done with".into())
}

/// Whether the page on the screen is the newer one.
const NEWER: &str = "document.documentElement.hasAttribute('data-newer')";
