//! The title block along the foot: the way between the rooms, and how each stands.

use maud::{Markup, html};

/// How one room stands.
pub struct Standing {
    /// Where its cell leads.
    pub to: String,
    /// How it stands.
    pub state: String,
    /// Whether one is there.
    pub here: bool,
}

/// The three rooms.
pub fn title_block(shop: &Standing, setups: &Standing, bench: &Standing) -> Markup {
    html! {
        @for (room, standing) in [("Shop", shop), ("Setups", setups), ("Bench", bench)] {
            a href=(standing.to) aria-current=[standing.here.then_some("page")] {
                span class="block-room" { (room) }
                span class="block-state" { (standing.state) }
            }
        }
    }
}

/// A setup's name, or a word where it has none.
pub fn name_of(name: &str) -> &str {
    if name.trim().is_empty() { "Unnamed setup" } else { name }
}
