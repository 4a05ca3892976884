//! Which thread is asked for: by its name or its lead, on which side, of which hand.

use super::kind::NUT_IN_HAND;
use super::pace::GROOVE;
use crate::exact::Ratio;
use crate::quantity::{Quantity, show};
use crate::record::Record;
use crate::threads::{
    Class, Designation, Hand, INCH, Lead, Profile, Series, Side, named_class_engaged, parse,
};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::{String, ToString};

/// The thread that an operation's entries ask for.
#[derive(Clone, Debug)]
pub(super) struct Wanted {
    /// Its name, starts, hand and class, entries of their own taken in.
    pub(super) thread: Designation,
    /// How far the nut goes in one turn.
    pub(super) lead: Lead,
    /// On a screw or in a hole.
    pub(super) side: Side,
    /// What a title calls it: "M10 × 1.25", "a lead of 8 tpi".
    pub(super) name: String,
    /// Whether its lengths are told in inches.
    pub(super) inch: bool,
    /// Length of the thread.
    pub(super) length: Option<Quantity>,
    /// Length of the nut.
    pub(super) engaged: Option<Quantity>,
    /// How it ends, as in the file.
    pub(super) ending: Option<&'static str>,
    /// Width of the groove that it ends in, as entered.
    groove: Option<Ratio>,
    /// The tool's nose radius, mm; none for the form's own flat.
    pub(super) radius: Option<Ratio>,
    /// End shake wanted, mm.
    pub(super) shake: Option<Quantity>,
    /// What it measures over wires.
    pub(super) over_wires: Option<Quantity>,
    /// End shake measured with the nut on.
    pub(super) shake_now: Option<Quantity>,
    /// Whether a thread is there already and is to be picked up.
    pub(super) there: bool,
    /// Which of the trains listed is wanted, counted from 1.
    pub(super) train: Option<u32>,
    /// Whether it is cut until the nut in hand goes on.
    pub(super) to_nut: bool,
    /// A class that isn't one, as entered.
    pub(super) no_class: Option<String>,
}

impl Wanted {
    /// Reads the entries.
    ///
    /// Errors are sentences for the person who entered them.
    pub(super) fn read(entries: &Record) -> Result<Wanted, String> {
        let (mut thread, named, mut inch) = named(entries)?;
        let entered = entries.count("starts").and_then(|n| u16::try_from(n).ok());
        if let Some(starts) = entered {
            if thread.starts > 1 && thread.starts != starts {
                let said = thread.starts;
                return Err(format!("the name says {said} starts and the entry {starts}"));
            }
            // What is named by its lead keeps it, however many share it.
            if thread.series == Series::Plain && thread.starts != starts {
                thread.pitch = shared(thread.pitch, starts).map_err(|why| why.to_string())?;
            }
            thread.starts = starts;
        }
        match (entries.choice("hand"), thread.hand) {
            (Some("right"), Hand::Left) => {
                return Err("the name says left-hand and the entry right-hand".to_owned());
            }
            (Some("left"), _) => thread.hand = Hand::Left,
            _ => {}
        }
        let side =
            if entries.choice("side") == Some("inside") { Side::Inside } else { Side::Outside };
        if let Some(diameter) = entries.quantity("diameter") {
            thread.diameter = Some(diameter.value());
            if thread.series == Series::Plain {
                inch = diameter.unit().is_inch();
            }
        }
        if let Some(angle) = entries.quantity("angle") {
            set_angle(&mut thread, angle)?;
        }
        let to = entries.text("to").map(str::trim).filter(|to| !to.is_empty());
        let to_nut = to.is_some_and(|to| to.replace(' ', "-").eq_ignore_ascii_case(NUT_IN_HAND));
        let class = entries.text("class").map(str::trim).filter(|class| !class.is_empty());
        let class = class.or(to.filter(|_| !to_nut));
        let mut no_class = None;
        if let Some(name) = class {
            let engaged = entries.ratio("engaged");
            let read = named_class_engaged(&thread, side, name, engaged);
            match read.filter(|class| class.side().is_none_or(|of| of == side)) {
                Some(class) => thread.class = Some(class),
                None => no_class = Some(name.to_owned()),
            }
        }
        let groove = entries.ratio("groove");
        let lead = thread.lead().map_err(|why| why.to_string())?;
        let name = named.unwrap_or_else(|| thread.to_string());
        Ok(Wanted {
            thread,
            lead,
            side,
            name,
            inch,
            length: entries.quantity("length").cloned(),
            engaged: entries.quantity("engaged").cloned(),
            ending: entries.choice("ending").or(groove.map(|_| "groove")),
            groove,
            radius: entries.ratio("radius"),
            shake: entries.quantity("shake").cloned(),
            over_wires: entries.quantity("over_wires").cloned(),
            shake_now: entries.quantity("shake_now").cloned(),
            there: entries.choice("begun") == Some("thread"),
            train: entries.count("train"),
            to_nut,
            no_class,
        })
    }

    /// The class that its limits are of, where there is one: its own, if that is for this side.
    pub(super) fn own_class(&self) -> Option<Class> {
        self.thread.class.filter(|class| class.side().is_none_or(|side| side == self.side))
    }

    /// Whether the name has a class that is for the other side.
    pub(super) fn class_of_other_side(&self) -> bool {
        self.thread.class.is_some() && self.own_class().is_none()
    }

    /// Width of the groove that it ends in, mm: as entered, else three and a half pitches.
    pub(super) fn groove(&self) -> Ratio {
        let pitch = || self.thread.pitch.mm().and_then(|pitch| pitch.mul(GROOVE));
        self.groove.or_else(|| pitch().ok()).unwrap_or(Ratio::ZERO)
    }

    /// Whether that width was entered.
    pub(super) const fn groove_entered(&self) -> bool {
        self.groove.is_some()
    }

    /// A length of this thread in its own system.
    pub(super) fn length_text(&self, mm: Ratio) -> String {
        if self.inch { show::inches(mm) } else { show::mm(mm) }
    }

    /// Its lead as the trade says it: "1.5 mm", "20 tpi".
    pub(super) fn lead_text(&self) -> String {
        lead_text(self.lead, self.inch)
    }
}

/// A lead in one system or the other; one with π in it as the decimal that it comes near.
pub(super) fn lead_text(lead: Lead, inch: bool) -> String {
    if !lead.is_exact() {
        return format!("{} mm", show::float_trimmed(lead.to_f64(), 4));
    }
    let mm = lead.factor();
    match INCH.div(mm) {
        Ok(tpi) if inch && tpi.is_whole() && tpi > Ratio::ONE => {
            format!("{} tpi", show::fixed(tpi, 0))
        }
        _ if inch => show::inches(mm),
        _ => show::mm(mm),
    }
}

/// The angle between the flanks of a worm or a bare lead; any other has its own.
fn set_angle(thread: &mut Designation, angle: &Quantity) -> Result<(), String> {
    let degrees = angle.value();
    if degrees < Ratio::whole(10) || degrees > Ratio::whole(150) {
        return Err(format!("flanks stand at 10 to 150 degrees, not at {}", angle.text()));
    }
    if matches!(thread.series, Series::Plain | Series::Module | Series::DiametralPitch) {
        thread.angle = Some(degrees);
        return Ok(());
    }
    match Profile::of(thread) {
        Ok(Some(profile)) if profile.included_deg != degrees => Err(format!(
            "{thread} has flanks at {}°, and the entry says {}",
            show::trimmed(profile.included_deg, 1),
            angle.text()
        )),
        _ => Ok(()),
    }
}

fn shared(lead: Lead, starts: u16) -> Result<Lead, crate::exact::RatioError> {
    let each = lead.factor().div(Ratio::whole(i64::from(starts)))?;
    Ok(if lead.is_exact() { Lead::of_mm(each) } else { Lead::of_pi_mm(each) })
}

/// The thread named, what a lead is called, and whether it is of the inch system.
fn named(entries: &Record) -> Result<(Designation, Option<String>, bool), String> {
    let name = entries.text("designation").map(str::trim).filter(|name| !name.is_empty());
    if let Some(name) = name {
        let thread = parse(name).map_err(|why| why.to_string())?;
        let inch = match thread.series {
            Series::Metric | Series::Trapezoidal | Series::Ba | Series::Module => false,
            Series::Plain => !name.to_ascii_lowercase().contains("mm"),
            _ => true,
        };
        return Ok((thread, None, inch));
    }
    let Some(lead) = entries.quantity("lead") else {
        return Err("say which thread: a name like M10, 1/4 BSW or Tr 16 × 4, or a lead".to_owned());
    };
    let of = if lead.pi() { Lead::of_pi_mm(lead.value()) } else { Lead::of_mm(lead.value()) };
    let called = format!("a lead of {}", lead.text());
    Ok((Designation::of_lead(of), Some(called), lead.unit().is_inch()))
}
