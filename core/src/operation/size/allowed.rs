//! What the cutter and the holder allow: what doesn't cut so, what doesn't enter, what turns too fast.

use crate::operation::Unmade;
use crate::operation::passes::Way;
use crate::quantity::{Quantity, show};
use crate::record::Record;
use crate::shop::Shop;
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

/// What turns the work, and how fast it may turn.
#[derive(Clone, Copy, Debug)]
pub(super) struct Holder<'a> {
    /// Its name: the one entered, else the only one owned.
    one: Option<&'a str>,
    /// Whether it is entered, and none of that name is owned where some are.
    missing: bool,
    /// Of those that it may be, the one that bears most, and how much; none where one of them says no limit.
    bears: Option<(&'a str, u32)>,
}

impl<'a> Holder<'a> {
    /// Where several are owned and none is said, a speed that none of them bears is still a speed for none.
    pub(super) fn of(entries: &'a Record, shop: &'a Shop) -> Holder<'a> {
        let said = entries.text("held_in");
        let could = || {
            shop.record().records("holding").filter(|holder| match said {
                Some(said) => holder.text("name") == Some(said),
                None => !matches!(holder.choice("kind"), Some("vice" | "steady")),
            })
        };
        let limit = |holder: &'a Record| Some((holder.text("name")?, holder.count("rpm_max")?));
        let limited = could().all(|holder| limit(holder).is_some());
        let only = could().next().filter(|_| could().nth(1).is_none());
        Holder {
            one: said.or_else(|| only?.text("name")),
            missing: said.is_some()
                && could().next().is_none()
                && shop.record().records("holding").next().is_some(),
            bears: could().filter_map(limit).max_by_key(|(_, most)| *most).filter(|_| limited),
        }
    }

    pub(super) const fn name(&self) -> Option<&'a str> {
        self.one
    }

    /// The fastest that it may turn, rpm.
    pub(super) fn most(&self) -> Option<u32> {
        self.bears.map(|(_, most)| most)
    }

    /// Why it doesn't do: it isn't owned, or no speed of this machine is slow enough for it.
    pub(super) fn unfit(&self, shop: &Shop) -> Option<Unmade> {
        if let (true, Some(name)) = (self.missing, self.one) {
            return Some(Unmade {
                why: format!("no holder called {} is entered", show::unmarked(name)),
                needs: "shop.holding",
            });
        }
        let (name, most) = self.bears?;
        let slowest = shop.speeds().first()?.rpm;
        (slowest > most).then(|| Unmade {
            why: format!(
                "{slowest} rpm, the slowest here, is more than the {most} rpm that {} bears",
                show::unmarked(name)
            ),
            needs: "shop.lathe.spindle_speeds",
        })
    }
}
