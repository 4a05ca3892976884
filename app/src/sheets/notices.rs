//! The notices across the head of the sheet.

use super::key;
use crate::act::Act;
use crate::state::Notice;
use maud::{Markup, html};

/// The notices that stand.
pub(crate) fn notices(notices: &[Notice]) -> Markup {
    html! {
        @for (at, notice) in notices.iter().enumerate() {
            div class="notice" role="status" {
                p { (notice.words()) }
                @if *notice == Notice::Update {
                    (key(&Act::Update, "key brass", "Update"))
                    (key(&Act::Seen(at), "key", "Later"))
                } @else {
                    (key(&Act::Seen(at), "key", "Seen"))
                }
            }
        }
    }
}
