//! Where what is entered is kept, told before it is typed in.

use super::{fold, key};
use crate::act::Act;
use maud::{Markup, html};

/// How safe what is entered is, and what makes it safer: whether the device has said that it keeps it,
/// and whether the browser offers to install the page. The offer comes late, into a fold: what is
/// below it stays where it is.
pub fn keeping(kept: bool, can_install: bool, open: bool) -> Markup {
    let how = html! {
        @if can_install {
            div class="foot-keys" { (key(&Act::Install, "key", "Install on this device")) }
        }
        p class="small" {
            "On an iPhone or iPad: Share, then Add to Home Screen. An installed page keeps its own things: open it there first, and type in there."
        }
    };
    html! {
        div class="keeping" {
            p class="small" {
                "What you enter stays on this device and goes nowhere else. "
                @match kept {
                    true => "The device was asked to keep this, and does.",
                    false => {
                        "The device hasn't been asked to keep it: when it runs short, or after weeks unused, it may clear it. Before you type your shop in, ask it, or install the page."
                    }
                }
            }
            @if !kept {
                div class="foot-keys" { (key(&Act::Persist, "key", "Ask the device to keep this")) }
                (fold("install", open, "Install it on this device", &how))
            }
        }
    }
}
