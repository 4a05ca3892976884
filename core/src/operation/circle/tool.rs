//! What cuts: how wide it is, what holds it, and how much wider it cuts for that.

use crate::exact::Ratio;
use crate::operation::{Fact, Lacking, Why};
use crate::procedure::Shape;
use crate::quantity::{Quantity, show};
use crate::record::Record;
use crate::shop::Shop;
use alloc::format;
use alloc::string::String;

/// A cutter in its holder.
#[derive(Clone, Debug)]
pub(in crate::operation) struct Tool {
    /// Across what it cuts.
    pub(in crate::operation) width: Option<Quantity>,
    run_out: Option<Quantity>,
    held: bool,
    one_tooth: bool,
    /// Its shape, where it is a cutter of the shop.
    pub(super) shape: Option<Shape>,
    pub(super) name: Option<String>,
    /// Its own diameter, mm: an end cutter's, a disc's.
    pub(super) diameter: Option<Ratio>,
    /// Its included angle, degrees.
    pub(super) angle: Option<Ratio>,
    pub(super) teeth: Option<u32>,
    pub(super) holder: Option<String>,
}

/// A cutter that runs out.
const ONE_TOOTH: &str =
    "Off centre in its holder a cutter may cut with one tooth only: feed it as if it had no more.";

/// Cutters that cut as wide as they are thick.
const ROUND: [&str; 4] = ["end-mill", "drill", "reamer", "counterbore"];

impl Tool {
    /// The cutter and the holder as entered; the width entered goes before the shop's.
    pub(in crate::operation) fn of(
        width: Option<&Quantity>,
        entries: &Record,
        shop: &Shop,
    ) -> Tool {
        let owned = entries.text("cutter").and_then(|name| shop.cutter(name));
        let round = owned
            .filter(|cutter| cutter.choice("kind").is_some_and(|kind| ROUND.contains(&kind)))
            .and_then(|cutter| cutter.quantity("diameter"));
        let holder = entries.text("holder");
        let run_out = holder.and_then(|name| shop.holder(name)?.quantity("run_out").cloned());
        Tool {
            width: width.or_else(|| owned?.quantity("width")).or(round).cloned(),
            run_out,
            held: holder.is_some(),
            one_tooth: owned.and_then(|cutter| cutter.count("teeth")) == Some(1),
            shape: crate::operation::ready::shape(owned.and_then(|cutter| cutter.choice("kind"))),
            name: entries.text("cutter").map(String::from),
            diameter: owned.and_then(|cutter| cutter.ratio("diameter")),
            angle: owned.and_then(|cutter| cutter.ratio("angle")),
            teeth: owned.and_then(|cutter| cutter.count("teeth")),
            holder: holder.map(String::from),
        }
    }

    /// How wide it cuts, in mm: wider than it is by its run-out, being off centre by half of that
    /// to each side.
    pub(in crate::operation) fn cuts(&self) -> Option<Ratio> {
        let width = self.width.as_ref()?.value();
        self.run_out.as_ref().map_or(Some(width), |out| width.add(out.value()).ok())
    }

    fn runs_out(&self) -> bool {
        self.run_out.as_ref().is_some_and(|out| !out.value().is_zero())
    }

    pub(in crate::operation) fn caution(&self) -> Option<&'static str> {
        (self.runs_out() && !self.one_tooth).then_some(ONE_TOOTH)
    }

    pub(in crate::operation) fn lacking(&self) -> Option<Lacking> {
        let lacks = self.held && self.run_out.is_none();
        lacks.then_some(Lacking { key: "cut_width_mm", needs: "shop.holding" })
    }

    pub(in crate::operation) fn fact(&self) -> Option<Fact> {
        let (width, cuts) = (self.width.as_ref()?, self.cuts()?);
        let teeth = if self.one_tooth { "" } else { ", perhaps with one tooth" };
        let cuts = show::length_like(cuts, width.unit());
        self.runs_out().then(|| Fact::new("cuts", format!("up to {cuts} wide{teeth}")))
    }

    pub(in crate::operation) fn why(&self) -> Option<Why> {
        let (width, out, cuts) = (self.width.as_ref()?, self.run_out.as_ref()?, self.cuts()?);
        let cuts: String = show::length_like(cuts, width.unit());
        Some(Why::new(
            "cut = width + run-out: off centre by half the run-out, to each side",
            format!("{} + {} = {cuts}", width.text(), out.text()),
            "arithmetic",
        ))
    }
}
