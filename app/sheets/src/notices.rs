//! The notices across the head of the sheet.

use super::key;
use crate::act::Act;
use maud::{Markup, html};

/// A sentence across the head of the sheet.
pub struct Notice {
    /// What it says.
    pub words: &'static str,
    /// Whether a newer page waits for a tap.
    pub update: bool,
}

/// The notices that stand.
pub fn notices(notices: &[Notice]) -> Markup {
    html! {
        @for (at, notice) in notices.iter().enumerate() {
            div class="notice" role="status" {
                p { (notice.words) }
                @if notice.update {
                    (key(&Act::Update, "key brass", "Update"))
                    (key(&Act::Seen(at), "key", "Later"))
                } @else {
                    (key(&Act::Seen(at), "key", "Seen"))
                }
            }
        }
    }
}
