//! What to draw beside an answer or a step: figures to scale, no lines yet.

use super::Tone;
use alloc::boxed::Box;
use alloc::string::String;
use alloc::vec::Vec;

/// What to draw, to scale, made from the answer.
#[derive(Clone, Debug, PartialEq)]
pub enum Picture {
    /// Gears in mesh, spindle end first, with so many idlers.
    Train {
        /// Driver and driven of each pair.
        pairs: Vec<(u16, u16)>,
        /// Idlers, of teeth that don't matter.
        idlers: u32,
    },
    /// A plate's circles with the pin in a hole.
    Plate {
        /// The circles of the plate, holes in each.
        circles: Vec<u16>,
        /// The circle used.
        circle: u16,
        /// Spaces that the sector arms take in.
        spaces: u16,
        /// The hole in which the pin stands.
        hole: u16,
    },
    /// A gear or plate on the spindle with a detent.
    Direct {
        /// Its teeth or holes.
        teeth: u16,
        /// Divisions.
        into: u32,
        /// The division at the detent, from 0.
        at: u32,
        /// Whether positions are half teeth.
        half: bool,
    },
    /// The machine's speeds with the published range.
    Speeds {
        /// Turns a minute of each.
        owned: Vec<u32>,
        /// Least and most that the work asks for.
        range: (f64, f64),
        /// The one chosen.
        chosen: u32,
    },
    /// The two zones of a fit, about the basic size.
    FitZones {
        /// The hole's.
        hole: Zone,
        /// The shaft's.
        shaft: Zone,
        /// The basic size, in words.
        basic: String,
    },
    /// A taper from the side, large end first; lengths in millimetres and in words.
    Taper {
        /// At the large end.
        large: (f64, String),
        /// At the small end.
        small: (f64, String),
        /// Between them.
        length: (f64, String),
        /// What the slide is swung to, in words.
        angle: String,
        /// How far an indicator is moved along the bed to check it, and what it shows, in words.
        indicator: Option<(f64, String)>,
    },
    /// Work and tool, with the depth, the feed and the chip.
    Chip(Chip),
    /// A screw in its hole, cut through.
    SeatedScrew(Seated),
    /// A chasing dial's face.
    ChasingDial {
        /// Marks, numbered from 1.
        marks: u16,
        /// Those at which the half-nuts may be closed.
        usable: Vec<u16>,
    },
    /// A thread cut through along its axis.
    ThreadSection(Box<Section>),
    /// The work's rim, its divisions done and to do.
    Rim {
        /// How many.
        into: u32,
        /// How many are done: the next is at the cutter, unless all are.
        at: u32,
        /// What is cut there.
        mark: Mark,
        /// The number of the first.
        first: u32,
        /// How many divisions on each is from the one made before it.
        laps: u32,
        /// Where they are in turns, in the order of work; empty where they are even.
        angles: Vec<f64>,
    },
    /// Gears between a head's spindle and its plate, spindle end first, with so many idlers.
    HeadTrain {
        /// Driver and driven of each pair.
        pairs: Vec<(u16, u16)>,
        /// Idlers, of teeth that don't matter.
        idlers: u32,
    },
    /// A bar with holes or lines in a row.
    Bar(Bar),
    /// How near each lead comes: what this lathe is good at.
    Leads(Vec<LeadPoint>),
    /// A graduated collar: unrolled on a screen, a strip of full size on paper.
    Collar {
        /// Lines round it, from 0.
        lines: u32,
        /// Every so many are long, and numbered; every so many middle.
        every: (u32, u32),
        /// What each number adds, in units of its last decimal place, and how many places.
        number: (u32, u8),
        /// Whether the numbers grow to the left, the handle's end upwards.
        leftwards: bool,
        /// At the lines, mm.
        diameter_mm: f64,
        /// A long line, mm.
        long_mm: f64,
        /// How wide a line is, mm.
        line_mm: f64,
    },
}

/// Holes or lines in a row along a bar, lengths in millimetres and in words.
#[derive(Clone, Debug, PartialEq)]
pub struct Bar {
    /// How many.
    pub places: u32,
    /// How many are done: the next is under the spindle, unless all are.
    pub made: u32,
    /// What is made there.
    pub mark: Mark,
    /// From one to the next.
    pub pitch_mm: f64,
    /// From the bar's end to the first, and from the last to its other end, where they are known.
    pub ends_mm: [Option<f64>; 2],
    /// How wide a hole is, where that is known.
    pub drill_mm: Option<f64>,
    /// From the middle of a hole to the nearer side, where that is known.
    pub side_mm: Option<f64>,
    /// Words for the pitch, for first to last, and for the first from the end; empty ones are left
    /// out.
    pub words: [String; 3],
}

/// One lead of a chart, and how far off it is cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeadPoint {
    /// The lead, mm.
    pub lead_mm: f64,
    /// How far off, as a part of the lead; 0 where it is exact, none where nothing goes on.
    pub off: Option<f64>,
    /// How it stands.
    pub tone: Option<Tone>,
}

/// A cut in progress, lengths in millimetres and in words.
#[derive(Clone, Debug, PartialEq)]
pub struct Chip {
    /// How deep: on the radius where the work turns.
    pub depth_mm: f64,
    /// The feed of a turn; where the cutter turns, how wide it cuts.
    pub across_mm: f64,
    /// Whether the cutter turns.
    pub milled: bool,
    /// In a bore.
    pub inside: bool,
    /// Words for the depth, the feed or the width, and the chip.
    pub words: [String; 3],
}

/// What is cut at each place of a circle.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Mark {
    /// A line or a slot.
    #[default]
    Line,
    /// Long, middle and short lines.
    Graduation,
    /// A hole.
    Hole,
    /// A flat.
    Flat,
}

/// One part's zone in a fit.
#[derive(Clone, Debug, PartialEq)]
pub struct Zone {
    /// `hole H7`.
    pub name: String,
    /// Lower and upper deviation, micrometres.
    pub deviation_um: (f64, f64),
    /// The least and the greatest size, in words.
    pub limits: [String; 2],
}

/// What a screw's head sits in, lengths in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Seat {
    /// On the surface, or no head at all.
    Plain,
    /// In a flat-bottomed recess of this diameter and depth.
    Counterbore(f64, f64),
    /// In a cone as wide as this at the surface, of this included angle in degrees.
    Countersink(f64, f64),
}

/// A screw through one part into another, lengths in millimetres; nothing where a part isn't there.
#[derive(Clone, Debug, PartialEq)]
pub struct Seated {
    /// The screw's diameter.
    pub thread: f64,
    /// Its head's diameter and height.
    pub head: (f64, f64),
    /// What the head sits in.
    pub seat: Seat,
    /// The hole that clears the screw.
    pub clearance: f64,
    /// How thick the part with that hole is.
    pub thickness: f64,
    /// How much of the screw is in the tapped part.
    pub engaged: f64,
    /// The hole under the thread.
    pub tap_drill: f64,
    /// How deep it is at full diameter.
    pub drilled: f64,
    /// Words for the head, the seat, the clearing hole, the tapped hole and its depth; empty ones
    /// are left out.
    pub words: [String; 5],
}

/// A thread's section, lengths in mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// Angle between the flanks, degrees.
    pub included_deg: f64,
    /// From crest to crest.
    pub pitch: f64,
    /// From the surface to the root.
    pub depth: f64,
    /// Width that is left between two grooves at the surface.
    pub crest: f64,
    /// Whether crests and roots are rounded.
    pub rounded: bool,
    /// Depths after each pass.
    pub passes: Vec<f64>,
    /// Whether the tool goes in along a flank.
    pub along_flank: bool,
    /// In a hole.
    pub inside: bool,
    /// Least and greatest depth by the limits of the root.
    pub limits: Option<(f64, f64)>,
    /// The pitch in words.
    pub pitch_words: String,
    /// The depth in words.
    pub depth_words: String,
    /// The passes in words.
    pub passes_words: String,
    /// The limits in words.
    pub limits_words: String,
}
