//! The books that the speeds and feeds come from.

/// Speeds by stock and Brinell hardness for high-speed steel; carbide is said to take double.
pub(super) const COLLEGE: &str =
    "Recommended Cutting Speeds using High-Speed Steel Tools, technical college machine-shop sheet";
/// Turning, milling, drilling and reaming of plain carbon and alloy steels.
pub(super) const HANDBOOK: &str = "Machinery's Handbook, Recommended Cutting Speeds in Feet per Minute, Plain Carbon and Alloy Steels";
/// Drill speeds and feeds.
pub(super) const NAVY_DRILLS: &str = "NAVEDTRA 14345, Machinery Repairman, drill press operations";
/// Milling speeds, remembered.
pub(super) const NAVY_MILLING: &str =
    "NAVEDTRA 14345, Machinery Repairman, surface cutting speeds for milling; from memory";
/// Straight turning and threading, remembered.
pub(super) const ARMY_TURNING: &str =
    "TC 9-524 (1996) Table 7-2, straight turning and threading; from memory";
/// Turning of stainless steels.
pub(super) const AIR_FORCE: &str =
    "T.O. 1-1A-9 / TM 43-0106 Table 2-8, turning of stainless steels";
/// Early practice.
pub(super) const JONES: &str = "Jones, Turning and Boring (1914), p. 72-75";
/// Carbide turning.
pub(super) const CARVILL_CARBIDE: &str =
    "Carvill, Mechanical Engineer's Data Handbook (1993) p. 191, sintered carbide tools";
/// Milling, high-speed steel and carbide.
pub(super) const CARVILL_MILLING: &str =
    "Carvill, Mechanical Engineer's Data Handbook (1993) p. 187, milling cutting speeds";
/// Thermoplastics.
pub(super) const CARVILL_PLASTICS: &str =
    "Carvill, Mechanical Engineer's Data Handbook (1993) p. 194, machining of thermoplastics";
/// A sheet with drill, lathe and mill columns.
pub(super) const LAB_SHEET: &str =
    "Machine Tool Speeds and Feeds, laboratory data sheet (drill, lathe and mill columns)";
/// Drills by material.
pub(super) const DRILL_GUIDE: &str = "Metal Drilling Reference Guide, speeds for high-speed drills";
/// Taps by material.
pub(super) const TAP_GUIDE: &str =
    "tap merchant's guide table, machine tapping with high-speed steel taps";
/// Taps by material, another.
pub(super) const TAP_GUIDE_2: &str =
    "thread-tool merchant's table, recommended peripheral speeds of taps";
/// Reaming in the lathe.
pub(super) const WAR_DEPT: &str = "TM 1-420, Lathes (War Department, 1940)";
/// Grooving and parting.
pub(super) const OPEN_TEXT: &str = "Machining 1, open textbook (CC BY), ch. 10.6 grooving";
/// Countersinking.
pub(super) const VOCABULARY: &str =
    "machine-shop vocabulary list: countersinking and counterboring at a quarter of drilling";
/// Feeds of lathe tools.
pub(super) const QUICK_REFERENCE: &str =
    "Machine Tool Fundamentals Quick Reference, training course handout";
/// Chip loads of solid end mills.
pub(super) const CUTTER_GUIDE: &str =
    "cutter maker's user guide (2022), starting feed per tooth of solid end mills as a share of D";
/// Chip loads in millimetres by diameter.
pub(super) const CHIP_CHART: &str =
    "chip load chart, mm per tooth by cutter diameter (typical starting values)";
/// What everybody does and nobody printed.
pub(super) const PRACTICE: &str = "common practice, no source";
/// Specific cutting forces.
pub(super) const CUTTING_TABLES: &str =
    "Tabellenbuch Zerspantechnik, 5th ed. (2022) p. 215, kc1.1 and mc";
/// Specific cutting forces, an older table, remembered.
pub(super) const OLDER_FORCES: &str =
    "Kienzle values kc1.1 and mc as older German textbooks print them; from memory";
/// Reaming of copper alloys, remembered.
pub(super) const REAMING: &str =
    "German practice tables, reaming with high-speed steel; from memory";
/// Chip loads of thin saws, remembered.
pub(super) const SAWS: &str =
    "a starting figure for thin slitting saws, from memory: no published table is at hand";
/// Chip loads of engraving points, remembered.
pub(super) const POINTS: &str = "a starting figure for engraving points, by the width of the point, from memory: no published table is at hand";
