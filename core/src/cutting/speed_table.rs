//! Surface speeds as the books print them.

use super::sources::*;
use super::{CutterMaterial, Process, Stock};

/// The unit that the book prints.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PrintedUnit {
    /// Feet per minute.
    FeetPerMinute,
    /// Metres per minute.
    MetresPerMinute,
}

/// One printed range; a single printed figure has both ends the same.
#[derive(Clone, Copy, Debug)]
pub struct SpeedRow {
    /// What is cut.
    pub stock: Stock,
    /// How.
    pub process: Process,
    /// With what.
    pub cutter: CutterMaterial,
    /// The slow end.
    pub low: u16,
    /// The fast end.
    pub high: u16,
    /// Of both ends.
    pub unit: PrintedUnit,
    /// Who says so.
    pub source: &'static str,
}

const fn row(
    stock: Stock,
    process: Process,
    cutter: CutterMaterial,
    (low, high): (u16, u16),
    unit: PrintedUnit,
    source: &'static str,
) -> SpeedRow {
    assert!(low > 0 && low <= high, "a range runs from slow to fast");
    SpeedRow { stock, process, cutter, low, high, unit, source }
}

use CutterMaterial::{BrazedCarbide, Carbide, Hss};
use PrintedUnit::{FeetPerMinute as Ft, MetresPerMinute as M};
use Process::{Drill, Finish, Mill, Ream, Tap, Thread, Turn};
use Stock::{
    Acetal, AlloySteel as Alloy, Aluminium, Brass, Bronze, Copper, FreeCuttingSteel as Free,
    GreyIron as Iron, MediumCarbonSteel as Medium, MildSteel as Mild, Nylon,
    StainlessSteel as Stainless, ToolSteel as Tool,
};

/// Every row. Where several answer, the first is the one used: a gentle range that suits an older
/// machine stands before a production figure; the others stand beside it, never averaged.
#[rustfmt::skip]
pub const SPEEDS: &[SpeedRow] = &[
    // Turning, high-speed steel.
    row(Free,      Turn, Hss, ( 80,  120), Ft, COLLEGE), // 120-150 Bhn
    row(Mild,      Turn, Hss, ( 70,   90), Ft, COLLEGE), // 150-170 Bhn
    row(Medium,    Turn, Hss, ( 60,   80), Ft, COLLEGE), // 170-190 Bhn
    row(Alloy,     Turn, Hss, ( 50,   70), Ft, COLLEGE), // 175-225 Bhn
    row(Tool,      Turn, Hss, ( 35,   40), Ft, ARMY_TURNING), // high-carbon steel
    row(Tool,      Turn, Hss, ( 70,   80), Ft, COLLEGE), // water hardening, 150-250 Bhn
    row(Stainless, Turn, Hss, ( 40,   50), Ft, COLLEGE), // austenitic, annealed
    row(Stainless, Turn, Hss, ( 20,   40), Ft, AIR_FORCE), // 302-316, rough
    row(Stainless, Finish, Hss, (50,  80), Ft, AIR_FORCE), // 302-316, finish
    row(Iron,      Turn, Hss, ( 60,   80), Ft, COLLEGE), // 190-220 Bhn
    row(Aluminium, Turn, Hss, (150,  300), Ft, COLLEGE), // wrought, cold drawn
    row(Brass,     Turn, Hss, (150,  300), Ft, COLLEGE),
    row(Bronze,    Turn, Hss, ( 30,  100), Ft, COLLEGE), // bearing bronze
    row(Copper,    Turn, Hss, (100,  250), Ft, LAB_SHEET),
    row(Copper,    Turn, Hss, ( 60,   80), Ft, ARMY_TURNING),
    row(Acetal,    Turn, Hss, (600, 1000), Ft, COLLEGE), // plastics
    row(Nylon,     Turn, Hss, (600, 1000), Ft, COLLEGE), // plastics
    row(Nylon,     Turn, Hss, (126,  300), M,  CARVILL_PLASTICS), // 2.1 to 5.0 m/s
    row(Free,      Turn, Hss, (140,  160), Ft, HANDBOOK), // 1212, 1215, 12L14
    row(Mild,      Turn, Hss, (110,  120), Ft, HANDBOOK), // 1018, 100-175 HB
    row(Medium,    Turn, Hss, ( 85,  100), Ft, HANDBOOK), // 1045, 125-225 HB
    row(Mild,      Turn, Hss, ( 45,   65), Ft, JONES), // machine steel
    row(Iron,      Turn, Hss, ( 40,   50), Ft, JONES),
    row(Tool,      Turn, Hss, ( 25,   35), Ft, JONES), // annealed
    row(Brass,     Turn, Hss, (150,  200), Ft, JONES), // soft yellow
    row(Bronze,    Turn, Hss, ( 35,   80), Ft, JONES), // hard
    row(Mild,      Turn, Hss, ( 80,  100), Ft, ARMY_TURNING),
    row(Medium,    Turn, Hss, ( 60,   80), Ft, ARMY_TURNING),
    row(Stainless, Turn, Hss, ( 40,   50), Ft, ARMY_TURNING),
    row(Aluminium, Turn, Hss, (200,  300), Ft, ARMY_TURNING),
    row(Brass,     Turn, Hss, (100,  200), Ft, ARMY_TURNING),
    row(Iron,      Turn, Hss, ( 50,   80), Ft, ARMY_TURNING),

    // Screw-cutting with a single point, high-speed steel.
    row(Free,      Thread, Hss, (35, 40), Ft, ARMY_TURNING), // low-carbon
    row(Mild,      Thread, Hss, (35, 40), Ft, ARMY_TURNING), // low-carbon
    row(Medium,    Thread, Hss, (25, 30), Ft, ARMY_TURNING),
    row(Alloy,     Thread, Hss, (25, 30), Ft, ARMY_TURNING), // as medium-carbon
    row(Tool,      Thread, Hss, (15, 20), Ft, ARMY_TURNING), // high-carbon
    row(Stainless, Thread, Hss, (15, 20), Ft, ARMY_TURNING),
    row(Iron,      Thread, Hss, (20, 25), Ft, ARMY_TURNING),
    row(Aluminium, Thread, Hss, (50, 60), Ft, ARMY_TURNING),
    row(Brass,     Thread, Hss, (40, 50), Ft, ARMY_TURNING),
    row(Bronze,    Thread, Hss, (20, 25), Ft, ARMY_TURNING), // high-tensile
    row(Copper,    Thread, Hss, (20, 25), Ft, ARMY_TURNING),

    // Turning, carbide: rough and fine.
    row(Free,      Turn,   BrazedCarbide, ( 75,  75), M, CARVILL_CARBIDE), // low-medium carbon
    row(Free,      Finish, BrazedCarbide, (120, 210), M, CARVILL_CARBIDE),
    row(Mild,      Turn,   BrazedCarbide, ( 75,  75), M, CARVILL_CARBIDE),
    row(Mild,      Finish, BrazedCarbide, (120, 210), M, CARVILL_CARBIDE),
    row(Medium,    Turn,   BrazedCarbide, ( 60,  60), M, CARVILL_CARBIDE), // medium-high carbon
    row(Medium,    Finish, BrazedCarbide, ( 90, 180), M, CARVILL_CARBIDE),
    row(Alloy,     Turn,   BrazedCarbide, ( 30,  30), M, CARVILL_CARBIDE), // nickel-chrome
    row(Alloy,     Finish, BrazedCarbide, ( 75, 120), M, CARVILL_CARBIDE),
    row(Iron,      Turn,   BrazedCarbide, ( 45,  60), M, CARVILL_CARBIDE), // 200 Brinell
    row(Iron,      Finish, BrazedCarbide, ( 90, 120), M, CARVILL_CARBIDE),
    row(Copper,    Turn,   BrazedCarbide, (150, 240), M, CARVILL_CARBIDE),
    row(Copper,    Finish, BrazedCarbide, (240, 360), M, CARVILL_CARBIDE),
    row(Brass,     Turn,   BrazedCarbide, (120, 240), M, CARVILL_CARBIDE),
    row(Brass,     Finish, BrazedCarbide, (240, 360), M, CARVILL_CARBIDE),
    row(Bronze,    Turn,   BrazedCarbide, (120, 180), M, CARVILL_CARBIDE),
    row(Bronze,    Finish, BrazedCarbide, (240, 300), M, CARVILL_CARBIDE),
    row(Aluminium, Turn,   BrazedCarbide, ( 90, 150), M, CARVILL_CARBIDE),
    row(Aluminium, Finish, BrazedCarbide, (180, 225), M, CARVILL_CARBIDE),
    row(Acetal,    Turn,   BrazedCarbide, (120, 180), M, CARVILL_CARBIDE), // plastics
    row(Acetal,    Finish, BrazedCarbide, (240, 300), M, CARVILL_CARBIDE),
    row(Nylon,     Turn,   BrazedCarbide, (120, 180), M, CARVILL_CARBIDE),
    row(Nylon,     Finish, BrazedCarbide, (240, 300), M, CARVILL_CARBIDE),
    row(Stainless, Turn,   BrazedCarbide, (150, 200), Ft, AIR_FORCE), // 302-316
    row(Stainless, Finish, BrazedCarbide, (150, 300), Ft, AIR_FORCE),

    // Drilling, high-speed steel.
    row(Free,      Drill, Hss, ( 80, 110), Ft, NAVY_DRILLS), // low-carbon
    row(Mild,      Drill, Hss, ( 80, 110), Ft, NAVY_DRILLS), // low-carbon
    row(Medium,    Drill, Hss, ( 70,  80), Ft, NAVY_DRILLS),
    row(Alloy,     Drill, Hss, ( 50,  70), Ft, NAVY_DRILLS),
    row(Tool,      Drill, Hss, ( 50,  60), Ft, DRILL_GUIDE), // 1.2 % carbon
    row(Stainless, Drill, Hss, ( 30,  40), Ft, NAVY_DRILLS),
    row(Iron,      Drill, Hss, ( 70, 150), Ft, NAVY_DRILLS),
    row(Aluminium, Drill, Hss, (200, 300), Ft, NAVY_DRILLS),
    row(Brass,     Drill, Hss, (200, 300), Ft, NAVY_DRILLS),
    row(Bronze,    Drill, Hss, ( 70, 150), Ft, DRILL_GUIDE), // high-tensile
    row(Bronze,    Drill, Hss, (200, 300), Ft, NAVY_DRILLS),
    row(Copper,    Drill, Hss, ( 70,  70), Ft, LAB_SHEET),
    row(Acetal,    Drill, Hss, (100, 300), Ft, DRILL_GUIDE), // plastics
    row(Nylon,     Drill, Hss, (100, 300), Ft, DRILL_GUIDE), // plastics
    row(Nylon,     Drill, Hss, (120, 300), M,  CARVILL_PLASTICS), // 2.0 to 5.0 m/s
    row(Free,      Drill, Hss, (120, 130), Ft, HANDBOOK),
    row(Mild,      Drill, Hss, ( 90, 100), Ft, HANDBOOK),
    row(Medium,    Drill, Hss, ( 75,  90), Ft, HANDBOOK),

    // Reaming, high-speed steel.
    row(Free,      Ream, Hss, ( 80,  85), Ft, HANDBOOK),
    row(Mild,      Ream, Hss, ( 60,  65), Ft, HANDBOOK),
    row(Medium,    Ream, Hss, ( 50,  60), Ft, HANDBOOK),

    row(Brass,     Ream, Hss, ( 10,  20), M,  REAMING), // faster it chatters and cuts oversize

    // Milling, high-speed steel.
    row(Free,      Mill, Hss, ( 80, 120), Ft, COLLEGE), // 120-150 Bhn
    row(Mild,      Mill, Hss, ( 70,  90), Ft, COLLEGE), // 150-170 Bhn
    row(Medium,    Mill, Hss, ( 60,  80), Ft, COLLEGE), // 170-190 Bhn
    row(Alloy,     Mill, Hss, ( 50,  70), Ft, COLLEGE), // 175-225 Bhn
    row(Tool,      Mill, Hss, ( 40,  70), Ft, LAB_SHEET),
    row(Tool,      Mill, Hss, ( 70,  80), Ft, COLLEGE), // water hardening
    row(Stainless, Mill, Hss, ( 40,  50), Ft, COLLEGE), // austenitic, annealed
    row(Iron,      Mill, Hss, ( 60,  80), Ft, COLLEGE), // 190-220 Bhn
    row(Aluminium, Mill, Hss, (150, 300), Ft, COLLEGE),
    row(Brass,     Mill, Hss, (150, 300), Ft, COLLEGE),
    row(Bronze,    Mill, Hss, ( 30, 100), Ft, COLLEGE),
    row(Copper,    Mill, Hss, (100, 200), Ft, LAB_SHEET),
    row(Acetal,    Mill, Hss, (600, 1000), Ft, COLLEGE), // plastics
    row(Nylon,     Mill, Hss, (600, 1000), Ft, COLLEGE), // plastics
    row(Mild,      Mill, Hss, ( 28,  28), M,  CARVILL_MILLING), // low-carbon steel
    row(Alloy,     Mill, Hss, ( 10,  10), M,  CARVILL_MILLING),
    row(Iron,      Mill, Hss, ( 20,  20), M,  CARVILL_MILLING),
    row(Bronze,    Mill, Hss, ( 35,  35), M,  CARVILL_MILLING),
    row(Brass,     Mill, Hss, ( 45,  45), M,  CARVILL_MILLING), // hard
    row(Copper,    Mill, Hss, ( 60,  60), M,  CARVILL_MILLING),
    row(Aluminium, Mill, Hss, (100, 100), M,  CARVILL_MILLING),
    row(Mild,      Mill, Hss, ( 60,  70), Ft, NAVY_MILLING), // rough to finish
    row(Tool,      Mill, Hss, ( 40,  50), Ft, NAVY_MILLING), // annealed
    row(Brass,     Mill, Hss, (110, 150), Ft, NAVY_MILLING),
    row(Free,      Mill, Hss, (130, 140), Ft, HANDBOOK),
    row(Mild,      Mill, Hss, (110, 110), Ft, HANDBOOK),
    row(Medium,    Mill, Hss, ( 85, 100), Ft, HANDBOOK),
    row(Mild,      Mill, Hss, ( 70, 120), Ft, LAB_SHEET),
    row(Aluminium, Mill, Hss, (250, 500), Ft, LAB_SHEET),
    row(Brass,     Mill, Hss, (150, 450), Ft, LAB_SHEET),

    // Milling, carbide: brazed and indexable, steel grades P40 to P10, others K20.
    row(Free,      Mill, BrazedCarbide, (100, 150), M, CARVILL_MILLING), // mild steel
    row(Mild,      Mill, BrazedCarbide, (100, 150), M, CARVILL_MILLING),
    row(Medium,    Mill, BrazedCarbide, ( 75, 120), M, CARVILL_MILLING), // 0.7 % carbon
    row(Stainless, Mill, BrazedCarbide, (100, 100), M, CARVILL_MILLING),
    row(Iron,      Mill, BrazedCarbide, (110, 150), M, CARVILL_MILLING),
    row(Aluminium, Mill, BrazedCarbide, (600, 600), M, CARVILL_MILLING),
    row(Free,      Mill, Carbide,       (130, 200), M, CARVILL_MILLING), // mild steel
    row(Mild,      Mill, Carbide,       (130, 200), M, CARVILL_MILLING),
    row(Medium,    Mill, Carbide,       ( 75, 150), M, CARVILL_MILLING), // 0.7 % carbon
    row(Stainless, Mill, Carbide,       (115, 125), M, CARVILL_MILLING),
    row(Iron,      Mill, Carbide,       (110, 150), M, CARVILL_MILLING),
    row(Aluminium, Mill, Carbide,       (600, 600), M, CARVILL_MILLING),

    // Tapping under power, high-speed steel.
    row(Free,      Tap, Hss, (40, 80), Ft, TAP_GUIDE_2), // free machining
    row(Mild,      Tap, Hss, (30, 50), Ft, TAP_GUIDE),
    row(Medium,    Tap, Hss, (20, 40), Ft, TAP_GUIDE),
    row(Alloy,     Tap, Hss, (15, 25), Ft, TAP_GUIDE),
    row(Tool,      Tap, Hss, (15, 25), Ft, TAP_GUIDE),
    row(Stainless, Tap, Hss, (10, 20), Ft, TAP_GUIDE),
    row(Stainless, Tap, Hss, ( 5, 35), Ft, TAP_GUIDE_2),
    row(Iron,      Tap, Hss, (30, 60), Ft, TAP_GUIDE),
    row(Aluminium, Tap, Hss, (50, 70), Ft, TAP_GUIDE), // alloys
    row(Brass,     Tap, Hss, (60, 100), Ft, TAP_GUIDE),
    row(Bronze,    Tap, Hss, (30, 40), Ft, TAP_GUIDE),
    row(Bronze,    Tap, Hss, (50, 100), Ft, TAP_GUIDE_2),
    row(Copper,    Tap, Hss, (30, 60), Ft, TAP_GUIDE_2),
    row(Copper,    Tap, Hss, (60, 80), Ft, TAP_GUIDE),
    row(Acetal,    Tap, Hss, (50, 70), Ft, TAP_GUIDE), // plastics
    row(Nylon,     Tap, Hss, (50, 70), Ft, TAP_GUIDE), // plastics
];
