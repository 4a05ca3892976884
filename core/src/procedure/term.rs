//! The trade's words that an action may use: parts of the machine, ways to go, faces, shapes.

use serde::{Deserialize, Serialize};

/// A closed list of words: each with its key in a file and how it is said.
macro_rules! terms {
    ($($(#[$meta:meta])* $name:ident { $($variant:ident = $key:tt, $words:tt;)* })*) => {$(
        $(#[$meta])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
        #[expect(missing_docs, reason = "each is the word of that name")]
        pub enum $name {
            $(#[serde(rename = $key)] $variant,)*
        }

        impl $name {
            /// All of them, in the order in which they are listed.
            pub const ALL: &'static [$name] = &[$($name::$variant,)*];

            /// Its key in a file.
            #[must_use]
            pub const fn key(self) -> &'static str {
                match self { $($name::$variant => $key,)* }
            }

            /// How it is said.
            #[must_use]
            pub const fn words(self) -> &'static str {
                match self { $($name::$variant => $words,)* }
            }
        }
    )*};
}

terms! {
    /// What slides, with a handwheel or a lever of its own.
    Slide {
        Carriage = "carriage", "the carriage";
        Cross = "cross", "the cross slide";
        Compound = "compound", "the compound";
        Vertical = "vertical", "the vertical slide";
        Quill = "quill", "the tailstock quill";
    }

    /// A way to go. The cross slide goes in, away from the person, and out, toward them; the compound
    /// in, away from its handle, and out; a crank or a spindle forward and back.
    Toward {
        In = "in", "in";
        Out = "out", "out";
        Headstock = "headstock", "toward the headstock";
        Tailstock = "tailstock", "toward the tailstock";
        Up = "up", "up";
        Down = "down", "down";
    }

    /// Which way a crank, a plate or a spindle is turned by hand. Forward at the lathe spindle is the
    /// way in which it cuts: the top of the work comes toward the person.
    Turning {
        Forward = "forward", "forward";
        Back = "back", "back";
    }

    /// What can be locked or clamped.
    Lockable {
        LatheSpindle = "lathe-spindle", "the lathe spindle";
        Head = "head", "the head's spindle";
        Carriage = "carriage", "the carriage";
        Cross = "cross", "the cross slide";
        Compound = "compound", "the compound";
        Vertical = "vertical", "the vertical slide";
        Quill = "quill", "the tailstock quill";
        Tailstock = "tailstock", "the tailstock";
    }

    /// A spindle that turns under power.
    Spindle {
        Lathe = "lathe", "the lathe spindle";
        Cutter = "cutter", "the cutter's spindle";
    }

    /// What a spindle does.
    Running {
        Stopped = "stopped", "stopped";
        Forward = "forward", "forward";
        Reverse = "reverse", "in reverse";
    }

    /// What is turned by hand.
    Turned {
        LatheSpindle = "lathe-spindle", "the lathe spindle";
        HeadSpindle = "head-spindle", "the head's spindle";
        Leadscrew = "leadscrew", "the leadscrew";
        CutterSpindle = "cutter-spindle", "the cutter's spindle";
    }

    /// By what it is turned.
    TurnedBy {
        Chuck = "chuck", "by the chuck";
        HandCrank = "hand-crank", "by the hand crank";
        Handwheel = "handwheel", "by its handwheel";
        Gear = "gear", "by its gear";
        Wrench = "tap-wrench", "by the tap wrench";
        DieHolder = "die-holder", "by the die holder";
    }

    /// In or out: a pin, a key, half-nuts, a feed.
    InOut {
        In = "in", "in";
        Out = "out", "out";
    }

    /// A guard.
    OpenShut {
        Open = "open", "open";
        Shut = "shut", "shut";
    }

    /// On or off: a lock, the supply.
    OnOff {
        On = "on", "on";
        Off = "off", "off";
    }

    /// The tumbler reverse.
    Tumbler {
        Forward = "forward", "forward";
        Reverse = "reverse", "in reverse";
        Neutral = "neutral", "in neutral";
    }

    /// Where work is held.
    WorkAt {
        LatheSpindle = "lathe-spindle", "the lathe spindle";
        Head = "head", "the head";
        CrossSlide = "cross-slide", "the cross slide";
        Centres = "centres", "the centres";
        Bench = "bench", "the bench vice";
    }

    /// What kind of holder grips.
    HolderKind {
        Chuck = "chuck", "chuck";
        Collet = "collet", "collet";
        Faceplate = "faceplate", "faceplate";
        Centres = "centres", "centres";
        Mandrel = "mandrel", "mandrel";
        SplitBush = "split-bush", "split bush";
        Vice = "vice", "vice";
        Steady = "steady", "steady";
    }

    /// Where a cutter is held.
    CutterAt {
        LatheSpindle = "lathe-spindle", "the lathe spindle";
        DrivenSpindle = "driven-spindle", "the driven spindle on the slide";
        ToolPost = "tool-post", "the tool post";
        Tailstock = "tailstock", "the tailstock";
        Hand = "hand", "the hand";
    }

    /// The shape of a cutter.
    Shape {
        TurningTool = "turning-tool", "turning tool";
        BoringBar = "boring-bar", "boring bar";
        PartingBlade = "parting-blade", "parting blade";
        ThreadingTool = "threading-tool", "threading tool";
        FormTool = "form-tool", "form tool";
        Scriber = "scriber", "pointed tool";
        EndMill = "end-mill", "end mill";
        Engraver = "engraver", "engraving cutter";
        Disc = "disc", "disc cutter";
        CentreDrill = "centre-drill", "centre drill";
        Drill = "drill", "drill";
        Reamer = "reamer", "reamer";
        Counterbore = "counterbore", "counterbore";
        Countersink = "countersink", "countersink";
        Tap = "tap", "tap";
        Die = "die", "die";
        Knurl = "knurl", "knurl";
    }

    /// How the axis of a turning cutter, a head or a compound lies: along the bed, across it, upright.
    Axis {
        Along = "along", "along the bed";
        Across = "across", "across the bed";
        Upright = "upright", "upright";
    }

    /// Where a gear sits.
    GearOn {
        LatheSpindle = "lathe-spindle", "the lathe spindle";
        HeadSpindle = "head-spindle", "the head's spindle";
        PlateShaft = "plate-shaft", "the shaft that turns the plate";
        Spindle = "first-driver", "the first driver's shaft";
        Stud = "stud", "the stud";
        SecondStud = "second-stud", "the second stud";
        Leadscrew = "leadscrew", "the leadscrew";
        IdlerStud = "idler-stud", "the idler's stud";
    }

    /// A fitting that is put on or taken off whole.
    Fitting {
        Compound = "compound", "the compound";
        TailCentre = "tailstock-centre", "the tailstock centre";
        BallCentres = "ball-centres", "ball centres, in place of plain ones";
        Tailstock = "tailstock", "the tailstock";
        Steady = "steady", "the fixed steady";
        FollowRest = "follow-rest", "the travelling steady";
        VerticalSlide = "vertical-slide", "the vertical slide";
        Indicator = "indicator", "an indicator";
        CarriageStop = "carriage-stop", "a stop for the carriage";
        ChangeTrain = "change-train", "the change gears";
        BedBoard = "bed-board", "the board over the ways";
        Detent = "detent", "the detent";
        Brake = "brake", "a clamp on the spindle";
    }

    /// What is swung, squared or set to height.
    Adjustable {
        Compound = "compound", "the compound";
        Head = "head", "the head";
        Tool = "tool", "the tool";
        Cutter = "cutter", "the cutter";
        Tailstock = "tailstock", "the tailstock";
    }

    /// What a slide is brought up to.
    Face {
        Rim = "rim", "the rim";
        End = "end", "the end face";
        Bore = "bore", "the bore's wall";
        NearEdge = "near-edge", "the near edge";
        FarEdge = "far-edge", "the far edge";
        Shoulder = "shoulder", "the shoulder";
        ThreadFlank = "thread-flank", "the thread's groove";
        Centre = "centre", "the mark in the middle of its end";
        Barrel = "barrel", "the tailstock's barrel";
    }

    /// What is between cutter and work at a touch.
    Between {
        Metal = "metal", "the tool just touches";
        Paper = "paper", "a slip of paper just drags";
        RunningCutter = "running-cutter", "the running cutter just marks it";
        TurningWork = "turning-work", "the tool just marks the turning work";
    }

    /// What a length or a depth is read on.
    Gauge {
        Dial = "dial", "its dial";
        Indicator = "indicator", "an indicator against it";
        Rule = "rule", "a rule";
        Stop = "stop", "a stop";
    }

    /// What makes a feed.
    FeedBy {
        Hand = "hand", "by hand";
        Power = "power", "by power";
        Leadscrew = "leadscrew", "by the leadscrew";
        TapWrench = "tap-wrench", "by the tap wrench";
    }

    /// Where a feed or a turning ends, where no length says so.
    Until {
        Middle = "middle", "to the middle";
        Clear = "clear", "until it runs clear";
        Through = "through", "until it is through";
        Stop = "stop", "up to the stop";
        Mark = "mark", "up to the mark on the work";
        Groove = "groove", "into the groove";
        Shoulder = "shoulder", "up to the shoulder";
        Full = "full-width", "until the whole width is cut";
    }

    /// What is measured.
    Measured {
        Diameter = "diameter", "the diameter";
        Bore = "bore", "the bore";
        Length = "length", "the length";
        Depth = "depth", "the depth";
        AcrossFlats = "across-flats", "across the flats";
        OverWires = "over-wires", "over the wires";
        Chord = "chord", "straight across, from the first cut to this one";
        NextChord = "next-chord", "straight across, from each cut to the next";
        Width = "width", "the width";
        Pitch = "pitch", "the pitch";
        RunOut = "run-out", "the run-out";
        Shake = "shake", "the nut's end shake";
        SmallEnd = "small-end", "the small end's diameter";
        LeftStanding = "left-standing", "what is left standing";
        TaperError = "taper-error", "the difference on the indicator";
    }

    /// By what it is measured.
    Instrument {
        Caliper = "caliper", "a caliper";
        Micrometer = "micrometer", "a micrometer";
        DepthGauge = "depth-gauge", "a depth gauge";
        Rule = "rule", "a rule";
        Indicator = "indicator", "an indicator";
        PitchGauge = "pitch-gauge", "a pitch gauge";
        Nut = "nut", "the nut";
        Mate = "mate", "its mate";
        Wires = "wires", "wires";
        Plug = "plug", "a plug gauge";
    }

    /// What is cleaned, oiled or freed of its burr.
    Tended {
        Work = "work", "the work";
        Edges = "edges", "every fresh edge";
        Slides = "slides", "the slides";
        Swarf = "swarf", "the swarf";
        Cutter = "cutter", "the cutter";
        Thread = "thread", "the thread";
        Hole = "hole", "the hole";
        Nose = "nose", "the spindle's nose";
        Centre = "centre", "the centre";
    }

    /// What to wait for.
    WaitFor {
        Cool = "cool", "until it is at the room's warmth";
        Stopped = "stopped", "until it has run down";
        Cured = "cured", "until it has cured";
    }
}

impl Toward {
    /// The other way.
    #[must_use]
    pub const fn opposite(self) -> Toward {
        match self {
            Toward::In => Toward::Out,
            Toward::Out => Toward::In,
            Toward::Headstock => Toward::Tailstock,
            Toward::Tailstock => Toward::Headstock,
            Toward::Up => Toward::Down,
            Toward::Down => Toward::Up,
        }
    }
}
