//! What is set up for the contact sheet: every kind of operation, filled in, and its extremes.

/// A setup to be looked at: a name for its pictures, the operations, and the shop that they are for.
pub(super) struct Work {
    pub(super) name: &'static str,
    pub(super) operations: &'static str,
    pub(super) shop: &'static str,
}

/// In the shop that the page comes with.
const fn here(name: &'static str, operations: &'static str) -> Work {
    Work { name, operations, shop: "{}" }
}

/// In a shop with more in it.
const fn there(name: &'static str, operations: &'static str) -> Work {
    Work { name, operations, shop: MORE }
}

impl Work {
    /// The setup's file.
    pub(super) fn file(&self) -> String {
        setup(self.name, "", self.shop, self.operations)
    }
}

pub(super) fn setup(name: &str, note: &str, shop: &str, operations: &str) -> String {
    let name = name.replace('-', " ");
    format!(
        r#"{{"format": "latheside-setup", "version": 1, "name": "{name}", "note": "{note}", "shop": {shop}, "operations": [{operations}]}}"#
    )
}

/// A shop with inch dials, gears by the dozen, a gearbox and a head with gears.
const MORE: &str = r#"{"name": "Long-bed lathe in the back room",
  "lathe": {"leadscrew": "8 tpi", "leadscrew_hand": "right", "tumbler": true, "pairs_max": 2, "stud_clearance_teeth": 18,
    "change_gears": [20, 24, 28, 30, 32, 36, 40, 40, 44, 45, 48, 50, 52, 55, 56, 60, 63, 65, 70, 72, 75, 80, 90, 100, 120, 127],
    "gearbox": [{"ratio": "1/2", "how": "lever B"}, {"ratio": "1/1", "how": "lever C"}, {"ratio": "2/1", "how": "lever D"}],
    "feeds": [{"feed": "2 thou", "how": "lever B"}, {"feed": "4 thou", "how": "lever C"}],
    "spindle_speeds": [60, 100, 150, 280, 450, 800, 1200], "nose": "locked", "reverse": true,
    "chasing_dials": [{"wheel_teeth": 16, "marks": 8}],
    "dials": {"cross": {"division": "1 thou", "divisions": 100, "reads": "diameter", "backlash": "5 thou", "grows": "inwards"},
      "compound": {"division": "1 thou", "divisions": 125, "reads": "radius"},
      "carriage": {"division": "10 thou", "divisions": 80, "reads": "radius", "grows": "towards-headstock"},
      "tailstock": {"division": "1 thou", "divisions": 100, "reads": "radius"}}},
  "dividing": {"direct": [60], "any_change_gear": true, "half_tooth": true,
    "head": {"worm_ratio": 40, "plates": [[15, 16, 17, 18, 19, 20], [21, 23, 27, 29, 31, 33], [37, 39, 41, 43, 47, 49]],
      "gears": [24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100], "pairs_max": 2}},
  "holding": [{"name": "four-jaw", "kind": "chuck", "from": "1/4 in", "to": "6 in", "rpm_max": 1500},
    {"name": "between centres", "kind": "centres", "from": "1/8 in", "to": "3 in", "run_out": "0.5 thou"}],
  "indicators": [{"division": "1 thou", "travel": "1 in"}],
  "drills": ["2.5 mm", "3.3 mm", "4.2 mm", "5 mm", "6.6 mm", "6.8 mm", "8.5 mm", "10.2 mm", "1/2 in"],
  "cutters": [{"name": "3 mm slot drill", "kind": "end-mill", "diameter": "3 mm", "teeth": 2, "material": "hss"},
    {"name": "6 mm end mill", "kind": "end-mill", "diameter": "6 mm", "teeth": 4, "material": "hss"},
    {"name": "11 mm counterbore", "kind": "counterbore", "diameter": "11 mm", "teeth": 3, "material": "hss"},
    {"name": "countersink", "kind": "countersink", "diameter": "16 mm", "angle": "90 deg", "teeth": 3, "material": "hss"},
    {"name": "engraving point", "kind": "engraver", "diameter": "3 mm", "teeth": 1, "angle": "60 deg", "material": "carbide"},
    {"name": "parting blade", "kind": "parting-blade", "width": "2 mm", "material": "hss"}]}"#;

/// Each kind once, as it is most often asked for.
#[rustfmt::skip]
pub(super) const KINDS: &[Work] = &[
    here("thread", r#"{"kind": "thread", "designation": "M12", "side": "outside", "class": "6g", "length": "25 mm", "engaged": "12 mm", "ending": "groove", "groove": "3 mm"}"#),
    here("divide", r#"{"kind": "divide", "into": 50, "diameter": "40 mm"}"#),
    here("graduate", r#"{"kind": "graduate", "lead": "10 tpi", "least_count": "2.5 thou", "reads": "radius", "diameter": "32 mm", "line_width": "0.3 mm"}"#),
    there("make-plate", r#"{"kind": "make-plate", "holes": 53, "diameter": "120 mm"}"#),
    here("size", r#"{"kind": "size", "process": "turn", "from": "12 mm", "to": "9.9 mm", "length": "25 mm", "stock": "mild-steel"}"#),
    here("cut", r#"{"kind": "cut", "process": "mill", "stock": "mild-steel", "cutter": "3 mm slot drill", "depth": "0.2 mm", "length": "60 mm"}"#),
    there("hole", r#"{"kind": "hole", "purpose": "tap", "designation": "M6", "depth": "12 mm", "diameter": "25 mm", "stock": "mild-steel"}"#),
    here("taper", r#"{"kind": "taper", "named": "MT2", "length": "60 mm", "between_centres": "200 mm", "travel": "50 mm"}"#),
    here("fit", r#"{"kind": "fit", "basic": "25 mm", "code": "H7/g6", "making": "shaft"}"#),
    here("part-off", r#"{"kind": "part-off", "stock": "mild-steel", "diameter": "20 mm", "blade_width": "2 mm", "length": "18 mm"}"#),
    here("hold", r#"{"kind": "hold", "in": "10 mm collet", "on": "the finished thread", "diameter": "9.9 mm", "stick_out": "22 mm", "true_to": "the turned diameter"}"#),
    here("read-dial", r#"{"kind": "read-dial", "amount": "1/4 in"}"#),
    here("chart", r#"{"kind": "chart"}"#),
    here("more-gears", r#"{"kind": "more-gears", "want": ["8 tpi", "19 tpi", "0.75 mm", "M10", "module 1", "26 tpi"], "add": 1, "from": [20, 127]}"#),
    here("space", r#"{"kind": "space", "places": 5, "pitch": "20 mm", "drill": "5 mm"}"#),
    here("which-thread", r#"{"kind": "which-thread", "diameter": "9.8 mm", "spaces": 10, "over": "12.6 mm"}"#),
];

/// Their other faces, and what is as large, as small or as many as it gets.
#[rustfmt::skip]
pub(super) const MORE_OF_THEM: &[Work] = &[
    here("thread-inside", r#"{"kind": "thread", "designation": "M16 x 1.5", "side": "inside", "length": "20 mm", "ending": "runs-out"}"#),
    here("thread-to-the-nut", r#"{"kind": "thread", "lead": "0.75 mm", "length": "12 mm", "to": "nut-in-hand", "diameter": "10 mm"}"#),
    there("thread-127-teeth", r#"{"kind": "thread", "designation": "M10", "side": "outside", "length": "1 3/8 in", "ending": "shoulder"}"#),
    there("thread-worm", r#"{"kind": "thread", "lead": "2.5 pi mm", "hand": "left", "starts": 4, "diameter": "30 mm", "length": "40 mm"}"#),
    here("thread-0.2-mm", r#"{"kind": "thread", "lead": "0.2 mm", "diameter": "5 mm", "length": "4 mm"}"#),
    there("divide-127", r#"{"kind": "divide", "into": 127, "diameter": "60 mm"}"#),
    here("divide-400", r#"{"kind": "divide", "into": 400, "diameter": "150 mm", "work_in": "head-on-cross-slide", "cutter_in": "lathe-spindle"}"#),
    here("divide-angles", r#"{"kind": "divide", "angles": ["0 deg", "17 deg 30 min", "52 deg 20 min", "180 deg"], "diameter": "30 mm"}"#),
    here("divide-flats", r#"{"kind": "divide", "into": 6, "diameter": "20 mm", "marks": "flats", "across": "17 mm", "cutter": "3 mm slot drill"}"#),
    here("graduate-400", r#"{"kind": "graduate", "lead": "4 mm", "least_count": "0.01 mm", "diameter": "150 mm", "line_width": "0.2 mm", "stamp": "11 mm"}"#),
    here("graduate-vernier", r#"{"kind": "graduate", "lead": "5 mm", "least_count": "0.1 mm", "diameter": "60 mm", "vernier": "0.01 mm"}"#),
    here("size-bored", r#"{"kind": "size", "process": "bore", "from": "18 mm", "to": "3/4 in", "length": "30 mm", "stock": "grey-iron"}"#),
    here("size-faced", r#"{"kind": "size", "process": "face", "from": "42 mm", "to": "40 mm", "diameter": "25 mm", "stock": "brass"}"#),
    here("cut-turned", r#"{"kind": "cut", "process": "turn", "stock": "mild-steel", "diameter": "25 mm", "depth": "1 mm", "material": "hss"}"#),
    there("hole-counterbored", r#"{"kind": "hole", "purpose": "counterbore", "designation": "M6", "thickness": "16 mm", "below": "0.5 mm"}"#),
    there("hole-countersunk", r#"{"kind": "hole", "purpose": "countersink", "designation": "M5", "thickness": "8 mm"}"#),
    here("taper-angle", r#"{"kind": "taper", "angle": "12 deg 30 min", "large": "30 mm", "length": "25 mm", "travel": "10 mm"}"#),
    here("fit-pressed", r#"{"kind": "fit", "basic": "16 mm", "code": "presses in"}"#),
    here("read-dial-turns", r#"{"kind": "read-dial", "from": "compound", "turns": 3, "lines": 25}"#),
    there("chart-divisions", r#"{"kind": "chart", "of": "divisions"}"#),
    there("chart-feeds", r#"{"kind": "chart", "of": "feeds"}"#),
    here("chart-gears", r#"{"kind": "chart", "of": "gears"}"#),
];

/// A long name and a long note.
pub(super) fn long() -> String {
    let name = "Clamp screw, handwheel collar and a bush of phosphor bronze for the tailstock of the larger lathe";
    let name: String = name.chars().take(90).collect();
    let note =
        "The second one is the better: set with the indicator, and look at the nut before the cut.";
    setup(
        &name,
        note,
        &MORE.replace(
            "Long-bed lathe in the back room",
            "The long-bed lathe in the back room, with the gearbox and both heads",
        ),
        r#"{"kind": "hold", "in": "the largest of the four-jaw chucks, its jaws turned about", "on": "the turned diameter next to the finished thread", "true_to": "the bore of the bush at its far end, and its outside"},
           {"kind": "divide", "into": 9999, "diameter": "300 mm"},
           {"kind": "thread", "designation": "Tr 100x12(P4)-7e", "hand": "left", "length": "1 15/16 in"}"#,
    )
}

/// A part from the bar to the bench's every sort of step.
pub(super) const PART: &str = r#"
  {"kind": "size", "process": "turn", "from": "12 mm", "to": "9.9 mm", "length": "25 mm", "stock": "mild-steel"},
  {"kind": "thread", "designation": "M10", "side": "outside", "length": "20 mm"},
  {"kind": "divide", "into": 12, "diameter": "32 mm"},
  {"kind": "cut", "process": "mill", "stock": "mild-steel", "cutter": "3 mm slot drill", "depth": "0.2 mm", "length": "60 mm"}"#;
