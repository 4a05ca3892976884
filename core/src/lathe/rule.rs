//! The rules that the modelled lathe judges, each with the id under which it is published or told.

/// A closed list of rules, each with its id.
macro_rules! rules {
    ($($name:ident = $id:literal,)*) => {
        /// What a procedure may break: `IDX-003` is a rule of the trade, `UNKNOWN-…` something that nobody
        /// set or looked at, `LEFT-…` how the machine is left, `LOOK-FALSE` a statement that isn't so; the
        /// rest is what the machine or the part doesn't allow.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[expect(missing_docs, reason = "each is the rule of that id")]
        pub enum Rule { $($name,)* }

        impl Rule {
            /// All of them.
            pub const ALL: &'static [Rule] = &[$(Rule::$name,)*];

            /// The id under which it is told.
            #[must_use]
            pub const fn id(self) -> &'static str {
                match self { $(Rule::$name => $id,)* }
            }
        }
    };
}

rules! {
    Gen006 = "GEN-006", Gen007 = "GEN-007", Gen008 = "GEN-008", Gen009 = "GEN-009",
    Gen010 = "GEN-010", Gen011 = "GEN-011", Gen012 = "GEN-012", Gen013 = "GEN-013",
    Gen017 = "GEN-017", Gen018 = "GEN-018", Gen019 = "GEN-019", Gen020 = "GEN-020",
    Gen036 = "GEN-036", Gen047 = "GEN-047", Gen048 = "GEN-048", Gen049 = "GEN-049",
    Gen050 = "GEN-050", Gen051 = "GEN-051",
    Mea001 = "MEA-001", Mea002 = "MEA-002", Mea003 = "MEA-003", Mea007 = "MEA-007",
    Mea011 = "MEA-011",
    Tur006 = "TUR-006", Tur003 = "TUR-003", Tur011 = "TUR-011", Tur012 = "TUR-012",
    Tur014 = "TUR-014", Tur017 = "TUR-017", Tur018 = "TUR-018",
    Bor001 = "BOR-001", Bor002 = "BOR-002", Bor003 = "BOR-003", Bor006 = "BOR-006",
    Bor008 = "BOR-008", Bor010 = "BOR-010", Bor011 = "BOR-011",
    Fac003 = "FAC-003", Fac004 = "FAC-004", Fac005 = "FAC-005", Fac006 = "FAC-006",
    Fac008 = "FAC-008",
    Hol001 = "HOL-001", Hol002 = "HOL-002", Hol003 = "HOL-003", Hol004 = "HOL-004",
    Hol006 = "HOL-006", Hol007 = "HOL-007", Hol012 = "HOL-012", Hol013 = "HOL-013",
    Hol016 = "HOL-016",
    Div001 = "DIV-001", Div002 = "DIV-002", Div003 = "DIV-003", Div004 = "DIV-004",
    Div005 = "DIV-005", Div006 = "DIV-006", Div009 = "DIV-009", Div010 = "DIV-010",
    Div013 = "DIV-013", Div014 = "DIV-014", Div015 = "DIV-015", Div016 = "DIV-016",
    Div023 = "DIV-023", Div025 = "DIV-025", Div026 = "DIV-026", Div028 = "DIV-028",
    Div029 = "DIV-029", Div030 = "DIV-030", Div031 = "DIV-031", Div032 = "DIV-032",
    Gra003 = "GRA-003", Gra007 = "GRA-007", Gra008 = "GRA-008", Gra010 = "GRA-010",
    Gra013 = "GRA-013", Gra014 = "GRA-014", Gra018 = "GRA-018", Gra019 = "GRA-019",
    Idx002 = "IDX-002", Idx003 = "IDX-003", Idx005 = "IDX-005", Idx007 = "IDX-007",
    Idx008 = "IDX-008", Idx009 = "IDX-009", Idx010 = "IDX-010", Idx011 = "IDX-011",
    Idx018 = "IDX-018", Idx019 = "IDX-019", Idx021 = "IDX-021", Idx022 = "IDX-022",
    Idx023 = "IDX-023",
    Mil001 = "MIL-001", Mil002 = "MIL-002", Mil006 = "MIL-006", Mil008 = "MIL-008",
    Mil009 = "MIL-009", Mil011 = "MIL-011", Mil013 = "MIL-013", Mil014 = "MIL-014",
    Mil015 = "MIL-015", Mil016 = "MIL-016", Mil019 = "MIL-019", Mil020 = "MIL-020",
    Mil021 = "MIL-021", Mil025 = "MIL-025", Mil034 = "MIL-034",
    Thr002 = "THR-002", Thr003 = "THR-003", Thr004 = "THR-004", Thr007 = "THR-007",
    Thr009 = "THR-009", Thr014 = "THR-014", Thr015 = "THR-015", Thr017 = "THR-017",
    Thr018 = "THR-018", Thr020 = "THR-020", Thr021 = "THR-021", Thr023 = "THR-023",
    Thr026 = "THR-026", Thr027 = "THR-027", Thr028 = "THR-028", Thr030 = "THR-030",
    Thr032 = "THR-032", Thr033 = "THR-033", Thr035 = "THR-035", Thr036 = "THR-036",
    Thr037 = "THR-037", Thr040 = "THR-040", Thr042 = "THR-042", Thr043 = "THR-043",
    Thr045 = "THR-045", Thr046 = "THR-046", Thr051 = "THR-051", Thr054 = "THR-054",
    Thr056 = "THR-056", Thr059 = "THR-059", Thr060 = "THR-060",
    Chg003 = "CHG-003", Chg007 = "CHG-007", Chg012 = "CHG-012", Chg013 = "CHG-013",
    PartLead = "PART-LEAD", PartFlank = "PART-FLANK", PartShoulder = "PART-INTO-SHOULDER",
    UnknownTrain = "UNKNOWN-TRAIN",
    Chg001 = "CHG-001", Chg008 = "CHG-008", Chg009 = "CHG-009", Chg014 = "CHG-014",
    Dri001 = "DRI-001", Dri002 = "DRI-002", Dri003 = "DRI-003", Dri004 = "DRI-004",
    Dri005 = "DRI-005", Dri007 = "DRI-007", Dri008 = "DRI-008", Dri009 = "DRI-009",
    Dri010 = "DRI-010", Dri012 = "DRI-012", Dri013 = "DRI-013", Dri017 = "DRI-017",
    Rea001 = "REA-001", Rea003 = "REA-003", Rea006 = "REA-006", Rea009 = "REA-009",
    Rea011 = "REA-011", Rea012 = "REA-012", Rea015 = "REA-015", Rea018 = "REA-018",
    Tph003 = "TPH-003", Tph004 = "TPH-004", Tph006 = "TPH-006", Tph007 = "TPH-007",
    Tph009 = "TPH-009", Tph010 = "TPH-010", Tph011 = "TPH-011", Tph012 = "TPH-012",
    Die004 = "DIE-004", Die005 = "DIE-005", Die006 = "DIE-006", Die007 = "DIE-007",
    Par003 = "PAR-003", Par004 = "PAR-004", Par008 = "PAR-008", Par011 = "PAR-011",
    Par012 = "PAR-012", Par013 = "PAR-013", Par015 = "PAR-015", Par016 = "PAR-016",
    Par019 = "PAR-019", Par021 = "PAR-021",
    Knu003 = "KNU-003", Knu006 = "KNU-006", Knu008 = "KNU-008", Knu009 = "KNU-009",
    Knu014 = "KNU-014",
    Cen006 = "CEN-006",
    Gen040 = "GEN-040",
    Tap006 = "TAP-006", Tap008 = "TAP-008", Tap011 = "TAP-011", Tap012 = "TAP-012",
    Tap013 = "TAP-013", Tap015 = "TAP-015", Tap016 = "TAP-016", Tap020 = "TAP-020",
    LookFalse = "LOOK-FALSE",
    RunGuard = "RUN-GUARD", RunLock = "RUN-LOCK", RunInWork = "RUN-TOOL-IN-WORK",
    RunIsolated = "RUN-ISOLATED", MountLive = "MOUNT-LIVE",
    FeedStopped = "FEED-STOPPED", MoveLocked = "MOVE-LOCKED", MoveTravel = "MOVE-TRAVEL",
    MoveWay = "MOVE-WAY", MoveMissing = "MOVE-MISSING", FeedEngaged = "FEED-ENGAGED",
    PinsBothOut = "PINS-BOTH-OUT", PinHeld = "PIN-HOLDS", PinHome = "PIN-NOT-HOME", PinCircle = "PIN-CIRCLE",
    PlateCircle = "PLATE-CIRCLE", DetentHeld = "DETENT-HOLDS", HolderRange = "HOLDER-RANGE",
    HolderMissing = "HOLDER-MISSING", HolderKey = "HOLDER-KEY", FeedReverse = "FEED-REVERSE",
    Cen004 = "CEN-004", SpeedMissing = "SPEED-MISSING",
    PartDisc = "PART-DISC-FED-ALONG-ITS-AXIS", PartSideways = "PART-DRILL-FED-SIDEWAYS",
    PartOff = "PART-OFF-CENTRE", PartNothing = "PART-NOTHING-CUT", PartFit = "PART-TOO-WIDE",
    PartThick = "PART-PAPER-THICKER", PartLost = "PART-ANGLE-LOST", PartWrong = "PART-CUT-WRONG",
    PartHolder = "PART-INTO-HOLDER",
    UnknownSupply = "UNKNOWN-SUPPLY", UnknownGuard = "UNKNOWN-GUARD", UnknownKey = "UNKNOWN-KEY",
    UnknownNuts = "UNKNOWN-HALF-NUTS", UnknownFeed = "UNKNOWN-FEED", UnknownLock = "UNKNOWN-LOCK",
    UnknownSpeed = "UNKNOWN-SPEED", UnknownSpindle = "UNKNOWN-SPINDLE",
    UnknownCompound = "UNKNOWN-COMPOUND", UnknownHeight = "UNKNOWN-HEIGHT",
    UnknownWork = "UNKNOWN-WORK", UnknownCutter = "UNKNOWN-CUTTER", UnknownTouch = "UNKNOWN-TOUCH",
    UnknownZero = "UNKNOWN-ZERO", UnknownDial = "UNKNOWN-DIAL", UnknownSize = "UNKNOWN-SIZE",
    UnknownPlace = "UNKNOWN-PLACE", UnknownTailstock = "UNKNOWN-TAILSTOCK",
    UnknownHead = "UNKNOWN-HEAD", UnknownPin = "UNKNOWN-PIN", UnknownWorm = "UNKNOWN-WORM",
 UnknownCreep = "UNKNOWN-CREEP",

    LeftSpindle = "LEFT-SPINDLE", LeftNuts = "LEFT-HALF-NUTS", LeftFeed = "LEFT-FEED",
    LeftCutter = "LEFT-CUTTER", LeftLock = "LEFT-LOCK", LeftDetent = "LEFT-DETENT",
    LeftBoard = "LEFT-BOARD", LeftKey = "LEFT-KEY", LeftTailstock = "LEFT-TAILSTOCK",
    LeftCompound = "LEFT-COMPOUND", LeftGuard = "LEFT-GUARD",
}
