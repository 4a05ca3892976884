//! What the cutter allows: what doesn't cut so, what doesn't enter.

use crate::operation::Unmade;
use crate::operation::passes::Way;
use crate::quantity::{Quantity, show};
use crate::record::Record;
use alloc::format;

/// Why that cutter doesn't cut so; nothing where it does, or where its form doesn't say what it is.
pub(super) fn cutter(way: Way, form: &Record, hole: &Quantity) -> Option<Unmade> {
    let kind = form.choice("kind")?;
    let named = || form.text("name").map(show::unmarked).unwrap_or_default();
    let (fits, wanted) = match way {
        Way::Turn | Way::Face => (kind == "turning-tool", "a turning tool"),
        Way::Bore => (kind == "boring-bar", "a boring bar"),
    };
    if !fits {
        return Some(Unmade {
            why: format!("this is cut with {wanted}, and the {} is none", named()),
            needs: "operation.cutter",
        });
    }
    let bar = form.quantity("diameter").filter(|_| way == Way::Bore)?;
    (bar.value() >= hole.value()).then(|| Unmade {
        why: format!(
            "the bar of {} doesn't enter a hole of {}: a thinner bar does, or drill the hole larger first",
            bar.text(),
            hole.text()
        ),
        needs: "operation.cutter",
    })
}
