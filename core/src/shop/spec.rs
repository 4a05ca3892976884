use crate::quantity::Measure;
use crate::record::{Bound, Choice, Shape, Spec};
use crate::record::{LEAD, LENGTH, LENGTH_OR_NONE, NAME, RATIO, TEETH, choice, field};

/// The whole shop.
pub const SHOP: Spec = Spec {
    name: "the shop",
    fields: &[
        field("name", 1, "name", NAME),
        field("lathe", 2, "lathe", Shape::Record(&LATHE)),
        field("dividing", 3, "dividing", Shape::Record(&DIVIDING)),
        field("holding", 4, "holding", Shape::List(&Shape::Record(&HOLDING), 100, "holders")),
        field(
            "indicators",
            5,
            "indicators",
            Shape::List(&Shape::Record(&INDICATOR), 20, "indicators"),
        ),
        field("drills", 6, "drills", Shape::List(&LENGTH, 300, "drills")),
        field("cutters", 7, "cutters", Shape::List(&Shape::Record(&CUTTER), 100, "cutters")),
        field("wires", 8, "measuring wires", Shape::List(&LENGTH, 100, "wires")),
    ],
};

const HAND: &[Choice] = &[choice("right", 0, "right-hand"), choice("left", 1, "left-hand")];
const NOSE: &[Choice] = &[choice("screwed", 0, "screwed on"), choice("locked", 1, "locked on")];

/// The lathe itself.
pub const LATHE: Spec = Spec {
    name: "the lathe",
    fields: &[
        field("leadscrew", 1, "leadscrew", LEAD),
        field("leadscrew_hand", 2, "leadscrew hand", Shape::Choice(HAND)),
        field("change_gears", 3, "change gears", Shape::List(&TEETH, 100, "gears")),
        field("before_train", 4, "ratio before the train", RATIO),
        field("tumbler", 5, "tumbler reverse", Shape::Flag),
        field(
            "gearbox",
            6,
            "gearbox ratios",
            Shape::List(&Shape::Named(&RATIO, "ratio"), 100, "gearbox ratios"),
        ),
        field("pairs_max", 7, "pairs at most", Shape::Count(1, 3)),
        field("stud_clearance_teeth", 8, "stud clearance, teeth", Shape::Count(0, 999)),
        field("centres_teeth", 9, "sum of a meshing pair", Shape::Pair(&Shape::Count(2, 1998))),
        field("banjo", 10, "banjo", Shape::Record(&BANJO)),
        field(
            "chasing_dials",
            11,
            "chasing dials",
            Shape::List(&Shape::Record(&CHASING_DIAL), 20, "chasing dials"),
        ),
        field(
            "spindle_speeds",
            12,
            "spindle speeds",
            Shape::List(&Shape::Named(&Shape::Count(1, 100_000), "rpm"), 100, "speeds"),
        ),
        field("nose", 13, "chuck", Shape::Choice(NOSE)),
        field("reverse", 14, "spindle reverse", Shape::Flag),
        field("hand_crank", 15, "hand crank", Shape::Flag),
        field("dials", 16, "dials", Shape::Record(&DIALS)),
        field("reaction_seconds", 17, "seconds to let go of a thread", RATIO),
        field(
            "feeds",
            18,
            "power feeds",
            Shape::List(&Shape::Named(&LENGTH, "feed"), 100, "feeds"),
        ),
        field("feed_ratio", 19, "part", RATIO),
        field("motor_watts", 20, "power of the motor", Shape::Count(1, 100_000)),
    ],
};

/// A banjo that swings about the leadscrew, its stud anywhere in the slot.
pub const BANJO: Spec = Spec {
    name: "the banjo",
    fields: &[
        field("module", 1, "gears' module", LENGTH),
        field("centres", 2, "spindle to leadscrew", LENGTH),
        field("slot", 3, "stud from the leadscrew", Shape::Pair(&LENGTH_OR_NONE)),
        field("boss_radius", 4, "radius of the boss", LENGTH_OR_NONE),
    ],
};

/// A chasing dial.
pub const CHASING_DIAL: Spec = Spec {
    name: "a chasing dial",
    fields: &[
        field("wheel_teeth", 1, "teeth of its wheel", TEETH),
        field("marks", 2, "marks", Shape::Count(1, 99)),
    ],
};

/// The slides' dials.
pub const DIALS: Spec = Spec {
    name: "the dials",
    fields: &[
        field("cross", 1, "cross slide", Shape::Record(&DIAL)),
        field("compound", 2, "compound slide", Shape::Record(&DIAL)),
        field("carriage", 3, "carriage", Shape::Record(&DIAL)),
        field("tailstock", 4, "tailstock", Shape::Record(&DIAL)),
    ],
};

const READS: &[Choice] = &[choice("radius", 0, "radius"), choice("diameter", 1, "diameter")];
const GROWS: &[Choice] = &[
    choice("inwards", 0, "inwards"),
    choice("outwards", 1, "outwards"),
    choice("towards-headstock", 2, "towards the headstock"),
    choice("towards-tailstock", 3, "towards the tailstock"),
];

/// One dial.
pub const DIAL: Spec = Spec {
    name: "a dial",
    fields: &[
        field("division", 1, "one line", LENGTH),
        field("divisions", 2, "lines in a turn", Shape::Count(1, 9999)),
        field("reads", 3, "reads", Shape::Choice(READS)),
        field("backlash", 4, "backlash", LENGTH_OR_NONE),
        field("grows", 5, "grows", Shape::Choice(GROWS)),
        field("travel", 6, "travel of its slide", LENGTH),
    ],
};

/// What there is to divide with.
pub const DIVIDING: Spec = Spec {
    name: "dividing",
    fields: &[
        field("direct", 1, "on the spindle", Shape::List(&TEETH, 100, "plates and gears")),
        field("any_change_gear", 2, "any change gear on the spindle", Shape::Flag),
        field("half_tooth", 3, "half-tooth detent", Shape::Flag),
        field("head", 4, "dividing head", Shape::Record(&HEAD)),
    ],
};

/// A worm dividing head.
pub const HEAD: Spec = Spec {
    name: "the dividing head",
    fields: &[
        field("worm_ratio", 1, "turns of the crank for one of the work", Shape::Count(1, 999)),
        field(
            "plates",
            2,
            "plates",
            Shape::List(&Shape::List(&TEETH, 30, "circles"), 20, "plates"),
        ),
        field("gears", 3, "gears", Shape::List(&TEETH, 100, "gears")),
        field("pairs_max", 4, "pairs at most", Shape::Count(1, 2)),
        field("stud_clearance_teeth", 5, "stud clearance, teeth", Shape::Count(0, 999)),
        field("centres_teeth", 6, "sum of a meshing pair", Shape::Pair(&Shape::Count(2, 1998))),
    ],
};

const HOLDER_KINDS: &[Choice] = &[
    choice("chuck", 0, "chuck"),
    choice("collet", 1, "collet"),
    choice("faceplate", 2, "faceplate"),
    choice("centres", 3, "centres"),
    choice("mandrel", 4, "mandrel"),
    choice("split-bush", 5, "split bush"),
    choice("vice", 6, "vice"),
    choice("steady", 7, "steady"),
];

/// Something that grips.
pub const HOLDING: Spec = Spec {
    name: "a holder",
    fields: &[
        field("name", 1, "name", NAME),
        field("kind", 2, "kind", Shape::Choice(HOLDER_KINDS)),
        field("from", 3, "grips from", LENGTH_OR_NONE),
        field("to", 4, "grips to", LENGTH),
        field("run_out", 5, "run-out", LENGTH_OR_NONE),
        field("rpm_max", 6, "never faster than, rpm", Shape::Count(1, 100_000)),
    ],
};

/// A dial indicator.
pub const INDICATOR: Spec = Spec {
    name: "an indicator",
    fields: &[field("division", 1, "one line", LENGTH), field("travel", 2, "travel", LENGTH)],
};

const CUTTER_KINDS: &[Choice] = &[
    choice("end-mill", 0, "end mill"),
    choice("turning-tool", 1, "turning tool"),
    choice("boring-bar", 2, "boring bar"),
    choice("parting-blade", 3, "parting blade"),
    choice("slitting-saw", 4, "slitting saw"),
    choice("engraver", 5, "engraving point"),
    choice("drill", 6, "drill"),
    choice("reamer", 7, "reamer"),
    choice("counterbore", 8, "counterbore"),
    choice("countersink", 9, "countersink"),
    choice("tap", 10, "tap"),
    choice("die", 11, "die"),
    choice("knurl", 12, "knurl"),
    choice("form-tool", 13, "form tool"),
];

/// What cutters are made of.
pub(crate) const CUTTER_MATERIALS: &[Choice] = &[
    choice("hss", 0, "high-speed steel"),
    choice("brazed-carbide", 1, "brazed carbide"),
    choice("carbide", 2, "indexable carbide"),
];

/// A cutter.
pub const CUTTER: Spec = Spec {
    name: "a cutter",
    fields: &[
        field("name", 1, "name", NAME),
        field("kind", 2, "kind", Shape::Choice(CUTTER_KINDS)),
        field("diameter", 3, "diameter", LENGTH),
        field("teeth", 4, "teeth", Shape::Count(1, 99)),
        field("material", 5, "made of", Shape::Choice(CUTTER_MATERIALS)),
        field("width", 6, "width", LENGTH),
        field("angle", 7, "angle", Shape::Quantity(Measure::Angle, Bound::Positive)),
    ],
};
