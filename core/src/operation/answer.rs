//! What an operation's answer is made of, whatever the operation.

use super::Found;
use crate::cutting;
use alloc::boxed::Box;
use alloc::string::String;
use alloc::vec::Vec;

/// What one operation comes to in one shop.
#[derive(Clone, Debug, Default)]
pub struct Answer {
    /// What was worked out; none where nothing can be said.
    pub found: Option<Found>,
    /// Why nothing can be said, in the trade's words.
    pub refused: Option<String>,
    /// What could not be worked out, and the entry that it waits for.
    pub lacking: Vec<Lacking>,
    /// What to look out for; each defers to the machine's maker and the rules of the place.
    pub cautions: Vec<&'static str>,
    /// Where the figures come from.
    pub why: Vec<Why>,
}

impl Answer {
    /// An answer that nothing can be said, and why.
    #[must_use]
    pub fn refused(why: impl Into<String>) -> Answer {
        Answer { refused: Some(why.into()), ..Answer::default() }
    }
}

/// A key that is missing from an answer, and the entry that would bring it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lacking {
    /// The answer's key.
    pub key: &'static str,
    /// The path of the entry: `shop.lathe.leadscrew`, or `operation.length`.
    pub needs: &'static str,
}

/// A formula, this job's numbers in it, and who says so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Why {
    /// The formula in the trade's symbols.
    pub formula: String,
    /// The same with the numbers put in.
    pub values: String,
    /// The published source, or that it is arithmetic or common practice.
    pub source: String,
}

impl Why {
    /// A formula with its numbers and its source.
    #[must_use]
    pub fn new(
        formula: impl Into<String>,
        values: impl Into<String>,
        source: impl Into<String>,
    ) -> Why {
        Why { formula: formula.into(), values: values.into(), source: source.into() }
    }
}

/// How a setting stands, told in words and a mark as well as by colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// As good as it can be.
    Good,
    /// Usable, with something to know.
    Note,
    /// Look out.
    Mind,
}

/// A run of text, figures set larger than words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Span {
    /// A figure.
    Figure(String),
    /// Words beside it.
    Word(String),
}

/// A line of figures and words: `40` drives `63`.
pub type Line = Vec<Span>;

/// Splits `"*40* drives *63*"` into figures (between stars) and words.
#[must_use]
pub fn line(marked: &str) -> Line {
    marked
        .split('*')
        .enumerate()
        .filter(|(_, text)| !text.is_empty())
        .map(|(at, text)| {
            let text = String::from(text);
            if at & 1 == 1 { Span::Figure(text) } else { Span::Word(text) }
        })
        .collect()
}

/// A small setting under the large one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fact {
    /// What it is.
    pub label: String,
    /// What it comes to.
    pub value: String,
    /// Whether it is seldom wanted: such facts are folded away where there are many.
    pub seldom: bool,
}

impl Fact {
    /// A labelled setting.
    #[must_use]
    pub fn new(label: impl Into<String>, value: impl Into<String>) -> Fact {
        Fact { label: label.into(), value: value.into(), seldom: false }
    }

    /// One that is seldom wanted.
    #[must_use]
    pub fn seldom(label: impl Into<String>, value: impl Into<String>) -> Fact {
        Fact { seldom: true, ..Fact::new(label, value) }
    }
}

/// So many facts of a card are in sight at the most.
pub const FACTS_IN_SIGHT: usize = 6;

/// Another way, one line of a list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Other {
    /// The setting.
    pub line: String,
    /// How it stands.
    pub note: String,
    /// Whether it can be set up on this machine; those that can't are shown only when asked for.
    pub usable: bool,
}

/// An answer as a screen, a card or a reader's voice takes it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Card {
    /// The setting itself, the largest thing.
    pub lines: Vec<Line>,
    /// How it stands.
    pub verdict: Option<(Tone, String)>,
    /// Smaller settings.
    pub facts: Vec<Fact>,
    /// What to draw.
    pub picture: Option<Picture>,
    /// What the other ways are called: "other trains".
    pub others_title: &'static str,
    /// The other ways, best first.
    pub others: Vec<Other>,
    /// Rows, where the answer is a table.
    pub table: Option<Table>,
}

/// Rows of settings, each under its name.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Table {
    /// What stands in each column: the name, the setting.
    pub heads: [&'static str; 2],
    /// The rows, in order.
    pub rows: Vec<TableRow>,
    /// Which of them belong together: what they are, and where the next begin. None where the rows
    /// are one list.
    pub groups: Vec<(String, usize)>,
    /// The same in fewer rows, for paper; none where there is no shorter form.
    pub in_short: Vec<TableRow>,
}

/// One row of a table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TableRow {
    /// What it is of.
    pub name: String,
    /// The setting; empty where there is none.
    pub setting: String,
    /// How it stands, told in a few words.
    pub note: String,
    /// The same as a mark; none where nothing is judged.
    pub tone: Option<Tone>,
}

impl Card {
    /// The facts that are in sight, and those that are folded away: the first that are wanted, then
    /// of the seldom ones as many as there is room for, each part in the card's own order.
    #[must_use]
    pub fn in_sight(&self) -> (Vec<&Fact>, Vec<&Fact>) {
        let wanted = self.facts.iter().filter(|fact| !fact.seldom).count().min(FACTS_IN_SIGHT);
        let (mut wanted, mut seldom) = (wanted, FACTS_IN_SIGHT.saturating_sub(wanted));
        self.facts.iter().partition(|fact| {
            let room = if fact.seldom { &mut seldom } else { &mut wanted };
            let seen = *room > 0;
            *room = room.saturating_sub(1);
            seen
        })
    }
}

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

/// What Bench shows at one time.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Step {
    /// What is being done: "division 7 of 24".
    pub title: String,
    /// What to do, in the order in which it is safe, a sentence a line; figures between stars.
    pub say: Vec<String>,
    /// What the figure is: "forward to hole".
    pub label: String,
    /// The figure, read from two metres.
    pub figure: String,
    /// A caution that belongs to this step.
    pub caution: Option<&'static str>,
    /// What the button says once it is done.
    pub done: &'static str,
    /// Whether something is cut in it, so that on return the question is "is this one cut?"
    pub cuts: bool,
    /// The entry that takes what is measured in it; the steps after it follow from that.
    pub measures: Option<&'static str>,
    /// What to draw.
    pub picture: Option<Picture>,
    /// The feed as a hand's beat, which may be sounded.
    pub beat: Option<Beat>,
}

/// A hand's beat: a share of a turn of a handwheel, each so many seconds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beat {
    /// How many of them make a turn of the handwheel.
    pub to_a_turn: u32,
    /// How long each takes, milliseconds: never less than a hand can follow.
    pub milliseconds: u32,
    /// What is turned: "the cross slide".
    pub of: &'static str,
    /// How many make the whole of a pass, where its length is known.
    pub beats: Option<u32>,
}

impl Beat {
    /// The beat that a feed comes to, on a slide of that name; `length_mm` is how far it feeds.
    #[must_use]
    pub fn new(beat: &cutting::Beat, of: &'static str, length_mm: Option<f64>) -> Beat {
        let each = beat.feed_mm_per_min * beat.seconds / 60.0;
        // Saturates, and is never negative; a day of it is no pass.
        let beats = length_mm.map(|length| libm::ceil(length / each - 1e-6) as u32);
        Beat {
            to_a_turn: u32::try_from(beat.turn.denom()).unwrap_or(1),
            // Saturates, and is never negative.
            milliseconds: libm::round(beat.seconds * 1000.0) as u32,
            of,
            beats: beats.filter(|beats| (1..=99_999).contains(beats)),
        }
    }
}

/// The steps of one operation: made one at a time, for a circle may have thousands of divisions.
#[derive(Clone, Copy, Debug)]
pub struct Steps<'a> {
    pub(super) found: &'a Found,
    pub(super) len: usize,
}

impl Steps<'_> {
    /// How many there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.len
    }

    /// Whether there is nothing to do.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len == 0
    }

    /// The step at that place.
    #[must_use]
    pub fn get(&self, at: usize) -> Option<Step> {
        if at < self.len { self.found.step(at) } else { None }
    }

    /// How to come back to the step at that place once it was left, figures between stars; none
    /// where there is nothing to it.
    #[must_use]
    pub fn back(&self, at: usize) -> Option<String> {
        if at < self.len { self.found.back(at) } else { None }
    }
}
