//! What a cut asks of the motor, and how far what sticks out gives under it.

use super::Cut;
use crate::cutting::{self, Process, SpecificForce, Stock, bar_gives_mm, specific_force};
use crate::operation::{Fact, Why};
use crate::quantity::{Quantity, show};
use crate::record::Record;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// Of the motor's power so much reaches the cut: common practice, no source.
const REACHES: f64 = 0.7;
/// More than this shows on the work, mm: common practice, no source.
const MOST_MM: f64 = 0.05;
/// A milling cutter is as stiff as a bar of so much of its diameter: common practice, no source.
const CORE: f64 = 0.8;
/// What a boring bar of steel, or a bar of work, may stick out, in diameters: common practice, no
/// source.
const DIAMETERS_OUT: f64 = 4.0;

/// The load of a cut.
#[derive(Clone, Debug)]
pub(super) struct Load {
    /// On the edge, N.
    pub(super) force_n: f64,
    /// At the cut, W.
    pub(super) power_w: f64,
    motor_w: Option<f64>,
    /// How far the end gives, mm, where it is known what sticks out, and how far.
    pub(super) gives_mm: Option<f64>,
    /// How many diameters stick out.
    diameters_out: Option<f64>,
    /// What gives: the work, the bar, the cutter.
    what: &'static str,
    /// In numbers.
    values: String,
    /// The table of the stock's force.
    source: &'static str,
}

/// What a chip so thick asks for, in numbers.
fn of_the_table(table: SpecificForce, thick: f64, k: f64) -> String {
    format!(
        "kc {} (kc1.1 {}, mc {}, chip {} mm)",
        show::float(k, 0),
        show::float(table.kc11, 0),
        show::float(table.exponent, 2),
        show::float_trimmed(thick, 4),
    )
}

impl Load {
    /// None where the depth isn't known, or no book has the stock's force.
    pub(super) fn of(
        cut: &Cut,
        entries: &Record,
        own_diameter: Option<&Quantity>,
        motor_watts: Option<u32>,
    ) -> Option<Load> {
        let at = cut.at.as_ref()?;
        let depth = cut.depth.as_ref()?.to_f64();
        let table = specific_force(cut.stock)?;
        let diameter = cut.diameter.as_ref()?.to_f64();
        let speed = at.surface_m_per_min;
        let (force_n, power_w, values) = match cut.process {
            Process::Turn | Process::Finish | Process::Bore | Process::Face => {
                // What the edge really takes, also where a hand can't go so slowly.
                let feed = cut.chip_mm?;
                let force = cutting::cutting_force_n(cut.stock, depth, feed)?;
                let k = table.turning(feed);
                let parts = [depth, feed].map(|part| show::float_trimmed(part, 3));
                let values = format!("{} × {}", of_the_table(table, feed, k), parts.join(" × "));
                (force, cutting::power_w(force, speed), values)
            }
            Process::Mill => {
                // A slot is as wide as the cutter; no pass is deeper than advised.
                let width = cut.width.as_ref().map_or(diameter, Quantity::to_f64);
                let deep = depth / f64::from(cut.passes.unwrap_or(1).max(1));
                let feed = cut.feed_mm_per_min?;
                // A saw goes in by its depth; what lies across its axis is as wide as an end mill cuts.
                let across = if cut.saws { deep } else { width };
                let chip = cutting::milled_chip_mm(cut.chip_mm?, across, diameter)?;
                let k = table.milling(chip);
                // mm³ a minute at k N/mm²: N·mm a minute.
                let power = k * deep * width * feed / 60_000.0;
                let parts = [deep, width, feed].map(|part| show::float_trimmed(part, 3));
                let values = format!(
                    "{} × {} / {} m/min",
                    of_the_table(table, chip, k),
                    parts.join(" × "),
                    show::float(speed, 1)
                );
                (power * 60.0 / speed, power, values)
            }
            _ => return None,
        };
        if !(force_n.is_finite() && power_w.is_finite()) {
            return None;
        }
        let (what, thick, made_of) = match cut.process {
            Process::Mill => ("cutter", Some(diameter * CORE), Stock::AlloySteel),
            Process::Bore => ("bar", own_diameter.map(Quantity::to_f64), Stock::AlloySteel),
            _ => ("work", Some(diameter), cut.stock),
        };
        let out = entries.quantity("stick_out").map(Quantity::to_f64);
        let bar = out.zip(thick);
        Some(Load {
            force_n,
            power_w,
            motor_w: motor_watts.map(f64::from),
            gives_mm: bar
                .and_then(|(out, thick)| bar_gives_mm(force_n, out, thick, made_of))
                .filter(|gives| gives.is_finite()),
            diameters_out: bar
                .filter(|_| cut.process != Process::Mill)
                .map(|(out, thick)| out / thick),
            what,
            values,
            source: table.source,
        })
    }

    /// Why it can't be taken so, if it can't.
    pub(super) fn trouble(&self) -> Option<String> {
        if let Some(motor) = self.motor_w.filter(|motor| self.power_w > motor * REACHES) {
            let (asks, has) = (show::float(self.power_w, 0), show::float(motor * REACHES, 0));
            return Some(format!("asks {asks} W where about {has} reach the cut: a shallower one"));
        }
        if let Some(gives) = self.gives_mm.filter(|gives| *gives > MOST_MM) {
            let gives = show::float(gives, 2);
            return Some(format!(
                "the {} gives {gives} mm: shallower, shorter or held up",
                self.what
            ));
        }
        let out = self.diameters_out.filter(|out| *out > DIAMETERS_OUT)?;
        let out = show::float(out, 1);
        Some(format!("the {} sticks out {out} diameters: shorter, or held up", self.what))
    }

    pub(super) fn facts(&self) -> Vec<Fact> {
        let mut facts = Vec::new();
        let watts = show::float_trimmed(self.power_w, u32::from(self.power_w < 10.0));
        let force = show::float_trimmed(self.force_n, u32::from(self.force_n < 10.0));
        facts.push(Fact::new("asks for", format!("{watts} W, {force} N on the edge")));
        if let Some(gives) = self.gives_mm {
            let out = self.diameters_out.map_or_else(String::new, |out| {
                format!(", {} diameters out", show::float_trimmed(out, 1))
            });
            let gives = show::float(gives, 3);
            facts.push(Fact::new(format!("the {} gives", self.what), format!("{gives} mm{out}")));
        }
        facts
    }

    pub(super) fn why(&self) -> Vec<Why> {
        let mut whys = Vec::from([Why::new(
            "force = kc · depth · feed, kc = kc1.1 / h^mc for a chip h thick, milled × 1.2 and without rake; power = force · speed",
            format!(
                "{} = {} N, {} W",
                self.values,
                show::float(self.force_n, 1),
                show::float(self.power_w, 1)
            ),
            self.source,
        )]);
        whys.extend(self.gives_mm.map(|gives| {
            Why::new(
                "it gives 64 · F · L³ / (3 · π · E · d⁴)",
                format!("{} mm", show::float(gives, 3)),
                "a bar held at one end: mechanics; E from memory; more than 0.05 mm shows, a cutter counts as 0.8 of its diameter: common practice, no source",
            )
        }));
        whys
    }
}
