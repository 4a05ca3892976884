//! The page.
#![allow(dead_code, unused_imports)]
mod drawings;
use leptos::prelude::*;

fn main() {
    let Some(body) = document().body() else { return };
    let place = document().get_element_by_id("shell");
    mount_to_body(|| view! { <main id="app"><h1>"Latheside"</h1></main> });
    if let Some(shell) = place {
        shell.remove();
    }
    body.set_attribute("data-ready", "").ok();
}
