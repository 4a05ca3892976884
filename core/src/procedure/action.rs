//! What a person does at the machine, one thing at a time: typed, never a sentence.
//!
//! An action names only parts, places, marks and readings that can be pointed at. What it is for (which
//! division, which size) is the answer's business: a machine that is told the meaning agrees with
//! anything.

use super::term::{
    Adjustable, Axis, Between, CutterAt, Face, FeedBy, Fitting, Gauge, GearOn, HolderKind, InOut,
    Instrument, Joining, Lockable, Measured, OnOff, OpenShut, Running, Screwed, Shape, Slide,
    Spindle, Tended, Toward, Tumbler, Turned, TurnedBy, Turning, Until, WaitFor, Winding, WorkAt,
};
use super::value::{Beat, Degrees, Length, Number, Reading};
use alloc::string::String;
use alloc::vec::Vec;
use serde::{Deserialize, Serialize};

/// One thing that is done. In a file an object whose `do` says which.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "do", rename_all = "kebab-case", rename_all_fields = "snake_case")]
pub enum Action {
    /// The supply is off at the isolator.
    Isolate,
    /// The supply is on again.
    Energise,
    /// The guard over what turns.
    Guard {
        /// Whether it is shut.
        is: OpenShut,
    },
    /// The chuck key, or any key, in or out of what turns.
    Key {
        /// Out before anything turns.
        is: InOut,
    },
    /// Something is put on.
    Mount(Item),
    /// Something is taken off.
    Remove(Item),
    /// A position of this machine, set at rest.
    Set(Setting),
    /// A spindle under power.
    Spindle {
        /// Which.
        of: Spindle,
        /// What it does from now on.
        is: Running,
    },
    /// Something is turned by hand.
    TurnByHand {
        /// What.
        what: Turned,
        /// By what.
        by: TurnedBy,
        /// Which way.
        way: Turning,
        /// How many turns of it; none where `teeth` says it.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        turns: Option<Number>,
        /// How many teeth pass the detent, of the gear or plate on that spindle.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        teeth: Option<Number>,
        /// How many teeth that gear or plate has.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        of: Option<u16>,
    },
    /// A lock or clamp is put on.
    Lock {
        /// Of what.
        what: Lockable,
    },
    /// A lock or clamp is taken off.
    Unlock {
        /// Of what.
        what: Lockable,
    },
    /// A tap or a die is turned into the work, or the work on to it: on by so much and a little back, over
    /// and over, until it has gone in as far as is said.
    TurnIn {
        /// What cuts the thread.
        what: Screwed,
        /// What is turned, and by what: the chuck, the hand crank, the wrench, the die holder.
        by: TurnedBy,
        /// How far it goes in along the axis.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        over: Option<Length>,
        /// Where it ends otherwise.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        until: Option<Until>,
        /// Turns on before each turning back.
        forward: Number,
        /// Turns back, so that the chip breaks.
        back: Number,
        /// Which slide is kept up to it by hand, without pushing.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        follows: Option<Slide>,
    },
    /// A tap or a die is turned back until it is out of the work.
    TurnOut {
        /// What cut the thread.
        what: Screwed,
        /// What is turned, and by what.
        by: TurnedBy,
    },
    /// The spindle or the leadscrew is turned by hand, the half-nuts closed on the leadscrew and the train in
    /// mesh, until the carriage has gone so far: what stands in its way is cut.
    DriveByHand {
        /// What is turned.
        what: Turned,
        /// By what.
        by: TurnedBy,
        /// Which way; the leadscrew goes forward as the spindle drives it forward.
        way: Turning,
        /// How far the carriage goes by it.
        over: Length,
        /// Where it ends, where that can be seen.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        until: Option<Until>,
    },
    /// A place on the work is marked out and punched.
    MarkOut {
        /// How far from its edge.
        from_edge: Length,
    },
    /// Two gears are brought into mesh, with working clearance.
    Mesh {
        /// The gear nearer the spindle.
        driver: Gear,
        /// The gear that it turns.
        driven: Gear,
    },
    /// Two gears are brought out of mesh.
    Part {
        /// The gear nearer the spindle.
        driver: Gear,
        /// The gear that it turned.
        driven: Gear,
    },
    /// The half-nuts on the leadscrew.
    HalfNuts {
        /// In is closed.
        is: InOut,
        /// At which mark of the chasing dial they are closed; any where none is given.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        at: Vec<u32>,
    },
    /// The power feed's lever.
    PowerFeed {
        /// In is engaged.
        is: InOut,
        /// Of which slide.
        slide: Slide,
    },
    /// The pin of the head's crank: into, or out of, the hole in front of it.
    CrankPin {
        /// In or out.
        is: InOut,
    },
    /// The pin that holds the head's plate from turning.
    StopPin {
        /// In or out.
        is: InOut,
    },
    /// The detent in the teeth of the gear or plate on the spindle that holds the work.
    Detent {
        /// In or out.
        is: InOut,
    },
    /// The head's worm, in mesh or thrown out.
    Worm {
        /// In is in mesh.
        is: InOut,
    },
    /// The head's crank against its plate, pin out.
    TurnCrank {
        /// Whole turns.
        turns: u32,
        /// Spaces from hole to hole beyond them.
        holes: u16,
        /// On the circle of so many holes; none where the turns are whole.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        circle: Option<u16>,
        /// Which way.
        way: Turning,
    },
    /// The head's plate and its crank together, the crank's pin in and the stop pin out.
    TurnPlate {
        /// Spaces from hole to hole.
        holes: u16,
        /// On the circle in which the stop pin runs.
        circle: u16,
        /// Which way.
        way: Turning,
    },
    /// The sector arms are set apart and locked.
    SetArms {
        /// Over the circle of so many holes.
        circle: u16,
        /// Spaces between them: one hole more stands between the arms.
        spaces: u16,
    },
    /// The sector arms are swung on to the pin.
    SwingArms,
    /// Something is swung to an angle.
    Swing {
        /// What.
        what: Adjustable,
        /// To what angle.
        to: Degrees,
        /// Counted from which line.
        from: Axis,
        /// Which way its handle, or its work end, goes from that line.
        handle: Toward,
    },
    /// Something is set square: its travel, or its axis, lies so.
    SquareUp {
        /// What.
        what: Adjustable,
        /// How it lies.
        to: Axis,
    },
    /// The tailstock is set over across the bed, from where it is in line.
    SetOver {
        /// By how much; nothing is back in line.
        by: Length,
        /// Which way: out is toward the person.
        toward: Toward,
    },
    /// Something swung or set over is put right by so much from where it is.
    Adjust {
        /// What.
        what: Adjustable,
        /// By what angle.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        angle: Option<Degrees>,
        /// By how much.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        by: Option<Length>,
        /// Which way it, or its handle, goes.
        toward: Toward,
    },
    /// Set to a height.
    SetHeight {
        /// What: a tool's point, a cutter's axis or a disc's plane, a head's axis.
        what: Adjustable,
        /// How far above the lathe's centre height; nothing is level with it.
        above: Length,
    },
    /// A slide is brought up to a face until the cutter touches it.
    Touch {
        /// The slide that moves.
        slide: Slide,
        /// Which way it comes.
        toward: Toward,
        /// Which face.
        face: Face,
        /// What tells the touch.
        between: Between,
        /// How thick what is between is.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        thick: Option<Length>,
    },
    /// A slide is wound up to where it is to begin, one way only, so that its screw's lost motion is out.
    Approach {
        /// Which.
        slide: Slide,
        /// Which way it comes.
        toward: Toward,
    },
    /// How much a slide's screw is slack: wound one way until an indicator against it moves, and back until it
    /// just moves again.
    FindSlack {
        /// Of which slide.
        slide: Slide,
        /// What it was when it was entered.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        should_be: Option<Length>,
    },
    /// A gauge is set to nought where the slide stands.
    Zero {
        /// Of which slide.
        slide: Slide,
        /// What is read.
        on: Gauge,
    },
    /// A slide is moved by hand to where a gauge reads so much, not cutting.
    Wind {
        /// Which.
        slide: Slide,
        /// To what reading of its dial, on the side of nought that `toward` names.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        to: Option<Reading>,
        /// So far from nought, where it isn't read on a dial.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        by: Option<Length>,
        /// On which side of nought it stands then.
        toward: Toward,
        /// From which side it comes to it: past it, back, and up from there where it stood beyond.
        from: Toward,
        /// What is read.
        on: Gauge,
    },
    /// The cut: one slide is fed.
    Feed {
        /// Which slide.
        slide: Slide,
        /// Which way.
        toward: Toward,
        /// How far from where it stands.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        over: Option<Length>,
        /// To what reading of its dial, on the side of nought that `toward` names.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        to: Option<Reading>,
        /// Where it ends otherwise.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        until: Option<Until>,
        /// What makes it.
        by: FeedBy,
        /// How far in a turn of the spindle.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        each_turn: Option<Length>,
        /// By hand: how quickly the handwheel is turned.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        beat: Option<Beat>,
    },
    /// A slide is drawn back until the cutter stands clear of the work.
    Clear {
        /// Which.
        slide: Slide,
        /// Which way.
        toward: Toward,
        /// How far at least; until it is clear where none is given.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        by: Option<Length>,
    },
    /// A look at something that must be so; where it isn't, nothing more is done.
    Look(Statement),
    /// Something is measured, the spindle at rest.
    Measure {
        /// What.
        what: Measured,
        /// By what.
        with: Instrument,
        /// What it should be; none where it is to be found out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        should_be: Option<Length>,
        /// Up to what it may be, where it should be between two sizes.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        up_to: Option<Length>,
        /// What it was found to be, where it was measured already.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        is: Option<Length>,
        /// The entry that takes what it is.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        fills: Option<String>,
    },
    /// A slide is wound one way, its lost motion out first, while an indicator rests on the work: the
    /// difference is read, the spindle at rest.
    Indicate {
        /// Which slide carries the indicator.
        slide: Slide,
        /// How far it is wound.
        over: Length,
        /// The same on its dial, from where the indicator was set to 0.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        reads: Option<Reading>,
        /// By how much the indicator should move.
        should_be: Length,
        /// By how much it moved, where it was tried already.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        is: Option<Length>,
        /// The entry that takes what it moved by.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        fills: Option<String>,
    },
    /// Two parts are put together.
    Join {
        /// How.
        how: Joining,
        /// By how much the outer one is made warmer than the other first, degrees Celsius.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        warmer: Option<Number>,
    },
    /// Something is tried on: a nut, a mate, a gauge.
    Try {
        /// What.
        with: Instrument,
    },
    /// Cleaned.
    Clean {
        /// What.
        what: Tended,
    },
    /// Oiled, or given the fluid for the cut.
    Oil {
        /// What.
        what: Tended,
    },
    /// Freed of its burr, or its edge broken.
    Deburr {
        /// What.
        what: Tended,
    },
    /// A mark made with chalk or a pen at what stands in front of the pin or detent: that is nought.
    Chalk {
        /// What is marked.
        what: Chalked,
    },
    /// Waiting.
    Wait {
        /// For what.
        until: WaitFor,
    },
}

/// What is marked as nought.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Chalked {
    /// The tooth, or the hole, in which the detent stands.
    Detent,
    /// The hole of its circle in which the crank's pin stands.
    CrankPin,
    /// The hole in which the plate's stop pin stands.
    StopPin,
    /// The place on the work in front of the cutter.
    Work,
    /// Three thin lines of blue or chalk along a cone, to see where it bears.
    Cone,
    /// The first driver's tooth that is in mesh, and the gap in which it stands.
    Mesh,
}

/// A gear at its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Gear {
    /// Its teeth; none for an idler of any size that meshes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub teeth: Option<u16>,
    /// Where it sits.
    pub on: GearOn,
}

/// What is put on or taken off. In a file `what` says which.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "what", rename_all = "kebab-case", rename_all_fields = "snake_case")]
#[expect(clippy::large_enum_variant, reason = "work has many sizes, and is said once")]
pub enum Item {
    /// The work.
    Work(Work),
    /// A tool or a cutter.
    Cutter(Cutter),
    /// A gear.
    Gear(Gear),
    /// A division plate.
    Plate {
        /// Where it goes: the head's plate shaft, or a spindle where it divides directly.
        on: GearOn,
        /// Its number among the plates owned, from 1.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        number: Option<u32>,
        /// The holes of its circles.
        circles: Vec<u16>,
    },
    /// The crank's pin, or the stop pin, is set to the radius of a circle.
    Pin {
        /// Which of the two.
        pin: Pin,
        /// Holes of the circle in which it runs.
        circle: u16,
    },
    /// The dividing head, on the cross slide.
    Head {
        /// How its axis lies.
        axis: Axis,
    },
    /// A holder by its name: a chuck or collet on a spindle.
    Holder {
        /// Its name.
        name: String,
        /// What kind it is.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        kind: Option<HolderKind>,
        /// Where it goes.
        on: WorkAt,
    },
    /// Anything else.
    Fitting {
        /// Which.
        which: Fitting,
    },
}

/// A pin of the head.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Pin {
    /// The crank's.
    Crank,
    /// The plate's stop pin.
    Stop,
}

/// Work as it is held.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Work {
    /// Where.
    pub at: WorkAt,
    /// The holder's name.
    #[serde(default, rename = "in", skip_serializing_if = "Option::is_none")]
    pub holder: Option<String>,
    /// What kind of holder it is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub holder_kind: Option<HolderKind>,
    /// By what it is gripped.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gripped_by: Option<String>,
    /// The diameter that is gripped.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gripped: Option<Length>,
    /// Over what length it is gripped, at least.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub grip: Option<Length>,
    /// How far it stands out of the holder.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub out: Option<Length>,
    /// Its outside diameter where it is to be cut.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub diameter: Option<Length>,
    /// The diameter of the hole in it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bore: Option<Length>,
    /// How deep that hole goes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bore_depth: Option<Length>,
    /// Its length, where it is to be faced.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub length: Option<Length>,
    /// What it is made of, by its key in a file.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stock: Option<String>,
    /// How wide the groove, or in a hole the recess, is in which a thread begins or ends.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub groove: Option<Length>,
    /// How far from the free end that groove begins.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub groove_at: Option<Length>,
    /// The groove's diameter.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub groove_diameter: Option<Length>,
    /// How far from the free end a shoulder, or the bottom of a hole, stands.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shoulder: Option<Length>,
    /// The diameter to which the end, or the mouth of the hole, is chamfered at 45 degrees.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub chamfer: Option<Length>,
    /// The lead of the thread that is on it already.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lead: Option<Length>,
    /// Which way that thread winds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub winding: Option<Winding>,
    /// How many parts lie on one another, clamped together as they are to sit; one where none is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub parts: Option<u32>,
}

impl Work {
    /// Work there, nothing else said of it.
    #[must_use]
    pub const fn at(at: WorkAt) -> Work {
        Work {
            at,
            holder: None,
            holder_kind: None,
            gripped_by: None,
            gripped: None,
            grip: None,
            out: None,
            diameter: None,
            bore: None,
            bore_depth: None,
            length: None,
            stock: None,
            groove: None,
            groove_at: None,
            groove_diameter: None,
            shoulder: None,
            chamfer: None,
            lead: None,
            winding: None,
            parts: None,
        }
    }
}

/// A tool or a cutter as it is held.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cutter {
    /// Its shape.
    pub shape: Shape,
    /// Where it is held.
    pub at: CutterAt,
    /// How the axis of one that turns lies.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub axis: Option<Axis>,
    /// Its name in the shop.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// Its diameter.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub diameter: Option<Length>,
    /// How wide it cuts: a disc's or a blade's thickness, a point's flat.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub width: Option<Length>,
    /// Its included angle.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub angle: Option<Degrees>,
    /// Its teeth.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub teeth: Option<u32>,
    /// How far it stands out of its holder, at most.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub out: Option<Length>,
    /// What holds it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub holder: Option<String>,
    /// What it is made of, by its key in a file.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub material: Option<String>,
    /// The thread that a tap or a die cuts, by name.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thread: Option<String>,
    /// The pitch of that thread.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pitch: Option<Length>,
}

impl Cutter {
    /// A cutter of that shape there, nothing else said of it.
    #[must_use]
    pub const fn new(shape: Shape, at: CutterAt) -> Cutter {
        Cutter {
            shape,
            at,
            axis: None,
            name: None,
            diameter: None,
            width: None,
            angle: None,
            teeth: None,
            out: None,
            holder: None,
            material: None,
            thread: None,
            pitch: None,
        }
    }
}

/// A position of the machine. In a file `what` says which.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "what", rename_all = "kebab-case", rename_all_fields = "snake_case")]
pub enum Setting {
    /// The lathe spindle's speed.
    Speed {
        /// Turns a minute.
        rpm: u32,
        /// The machine's own word for it.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        how: Option<String>,
    },
    /// The speed of the cutter's own spindle.
    CutterSpeed {
        /// Turns a minute.
        rpm: u32,
    },
    /// The feed in a turn of the spindle.
    Feed {
        /// How far in a turn.
        each_turn: Length,
        /// The machine's own word, where it is set by a lever.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        how: Option<String>,
    },
    /// The gearbox to the leadscrew.
    Gearbox {
        /// Turns of the leadscrew for one of what drives it.
        ratio: Number,
        /// The machine's own word.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        how: Option<String>,
    },
    /// The tumbler reverse.
    Tumbler {
        /// How it stands.
        is: Tumbler,
    },
    /// The back gear.
    BackGear {
        /// Whether it is in.
        is: InOut,
    },
    /// The lead, by the lathe's own plate and levers.
    Lead {
        /// How far the carriage goes in a turn of the spindle.
        each_turn: Length,
    },
    /// A split die by its screw: opened it cuts a rough thread, shut the size.
    Die {
        /// Opened or closed.
        is: OpenShut,
    },
}

/// Something that must be so when it is looked at. In a file `that` says what is looked at.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "that", rename_all = "kebab-case", rename_all_fields = "snake_case")]
#[expect(clippy::large_enum_variant, reason = "work has many sizes, and is said once")]
pub enum Statement {
    /// The supply at its isolator.
    Supply {
        /// On or off.
        is: OnOff,
    },
    /// The guard.
    Guard {
        /// Open or shut.
        is: OpenShut,
    },
    /// The chuck's key.
    Key {
        /// In or out.
        is: InOut,
    },
    /// A spindle.
    Spindle {
        /// Which.
        of: Spindle,
        /// What it does.
        is: Running,
    },
    /// A lock.
    Lock {
        /// Of what.
        what: Lockable,
        /// On or off.
        is: OnOff,
    },
    /// The half-nuts.
    HalfNuts {
        /// In is closed.
        is: InOut,
    },
    /// The power feed.
    PowerFeed {
        /// In is engaged.
        is: InOut,
    },
    /// The tumbler.
    Tumbler {
        /// How it stands.
        is: Tumbler,
    },
    /// The crank's pin.
    CrankPin {
        /// In or out.
        is: InOut,
        /// In which hole from the chalked one, the way in which the crank goes forward.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        hole: Option<u16>,
        /// Of which circle.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        circle: Option<u16>,
    },
    /// The plate's stop pin.
    StopPin {
        /// In or out.
        is: InOut,
        /// In which hole from the chalked one, the way in which the plate goes forward.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        hole: Option<u16>,
        /// Of which circle.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        circle: Option<u16>,
    },
    /// The detent.
    Detent {
        /// In or out.
        is: InOut,
        /// In which tooth from the chalked one, counted forward; a half is between two.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        tooth: Option<Number>,
        /// Teeth of the gear or plate.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        of: Option<u16>,
    },
    /// The head's worm.
    Worm {
        /// In is in mesh.
        is: InOut,
    },
    /// Which way the plate creeps while the crank is turned forward, geared to the head's spindle.
    PlateCreep {
        /// Forward is with the crank.
        way: Turning,
    },
    /// A dial.
    Dial {
        /// Of which slide.
        slide: Slide,
        /// How it stands, on the side of nought that `toward` names.
        reads: Reading,
        /// On which side of nought.
        toward: Toward,
    },
    /// The cutter, where it stands to what it has cut.
    Cutter {
        /// Where.
        is: CutterStands,
        /// How far off, along the rim, where it doesn't stand quite there.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        off: Option<Length>,
    },
    /// Whether the cutter is mounted as said: its shape, where, and how it lies.
    Tool(Cutter),
    /// The work as it is held.
    Work(Work),
    /// How the compound, the head or the tailstock lies.
    Lies {
        /// What.
        what: Adjustable,
        /// How.
        to: Axis,
    },
    /// That the tailstock is in line with the spindle.
    TailstockInLine,
    /// A height.
    Height {
        /// Of what.
        what: Adjustable,
        /// How far above the lathe's centre height.
        above: Length,
    },
    /// That a whole turn by hand, or the whole travel of a slide, meets nothing.
    Clears {
        /// What is moved by hand.
        what: Cleared,
    },
    /// That a slide's screw has no lost motion left on the side from which it came.
    Slack {
        /// Of which slide.
        slide: Slide,
        /// Which way it was wound last.
        toward: Toward,
    },
    /// That what was between at a touch is felt again, nothing else having moved.
    Touches {
        /// Which face.
        face: Face,
        /// What tells the touch.
        between: Between,
    },
    /// That the carriage creeps that way, its half-nuts closed, while the spindle is turned forward.
    CarriageCreep {
        /// Which way.
        toward: Toward,
    },
    /// That so many spaces of a thread, line to line along the work, come to so much.
    Spaces {
        /// How many.
        count: u32,
        /// What they come to.
        over: Length,
    },
    /// That a threading tool's flanks stand square to the work by the gauge.
    FlanksSquare,
    /// Which chasing dial is read, where several are owned.
    ChasingDial {
        /// Teeth of its wheel.
        wheel: u32,
    },
    /// That the hole is what the tap in hand wants: its size, deeper than the thread, its mouth sunk.
    TapHole,
    /// That a tap or a die stands square to the work's end.
    Square,
    /// That a knurl's pattern is single all round, not doubled.
    Pattern,
    /// That a saw or cutter runs true within so much.
    RunsTrue {
        /// The run-out at most.
        within: Length,
    },
}

/// Where a cutter stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CutterStands {
    /// Clear of the work.
    Clear,
    /// Over the first cut.
    OverFirst,
    /// Straight across the work from the first cut.
    OppositeFirst,
    /// In the groove that is cut already.
    InGroove,
    /// Beyond the end of the work, where a pass begins.
    BeyondEnd,
    /// In the groove at the shoulder, where a pass ends.
    InRunOut,
}

/// What is moved by hand to see that it meets nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Cleared {
    /// The work and its holder, a whole turn.
    Work,
    /// The cutter, a whole turn.
    Cutter,
    /// The tool, along the whole of the cut.
    Tool,
    /// The train of gears.
    Train,
    /// What lies behind the work, where a drill's point comes through.
    Behind,
}
