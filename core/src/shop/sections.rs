//! The shop's room: its forms as sentences, a section each.

use crate::record::Templates;

/// One section of the shop.
#[derive(Debug)]
pub struct Section {
    /// What it is called.
    pub title: &'static str,
    /// The path of its form, or of its list of forms.
    pub path: &'static str,
    /// Its sentence.
    pub sentences: Templates,
    /// What one more of a list is called; empty for a form that stands once.
    pub one_more: &'static str,
}

const fn once(title: &'static str, path: &'static str, sentences: Templates) -> Section {
    Section { title, path, sentences, one_more: "" }
}

const DIAL: Templates = &[(
    "",
    "One line is {division} of {reads}, {divisions} lines a turn[, {backlash} of backlash][, growing {grows}][; the slide goes {travel}].",
)];

/// A dial along the bed: what a line is of needs no saying.
const ALONG: Templates = &[(
    "",
    "One line is {division}[ of {reads}], {divisions} lines a turn[, {backlash} of backlash][, growing {grows}][; the slide goes {travel}].",
)];

/// The sections in the order in which they are asked for.
#[rustfmt::skip]
pub static SECTIONS: &[Section] = &[
    once("Leadscrew", "lathe", &[("", "The leadscrew is {leadscrew}, {leadscrew_hand}. The chuck is {nose}; the spindle runs backwards: {reverse}; hand crank: {hand_crank}.")]),
    once("Change gears", "lathe", &[("", "In the drawer: {change_gears}. Up to {pairs_max} pairs go on; tumbler reverse: {tumbler}. A stud clears its neighbours by {stud_clearance_teeth} teeth[; a meshing pair adds up to {centres_teeth}][; before the train {before_train}].")]),
    once("Banjo, measured", "lathe.banjo", &[("", "Gears of module {module}; {centres} from spindle to leadscrew; the stud stands {slot} from the leadscrew; bosses of {boss_radius} radius.")]),
    once("Gearbox", "lathe", &[("", "Between the last gear and the leadscrew: {gearbox}.")]),
    Section {
        title: "Chasing dials",
        path: "lathe.chasing_dials",
        sentences: &[("", "A wheel of {wheel_teeth} teeth and a face of {marks} marks.")],
        one_more: "a chasing dial",
    },
    once("Spindle speeds", "lathe", &[("", "{spindle_speeds} rpm. At a thread's end I let go within {reaction_seconds} s. The motor gives {motor_watts} W.")]),
    once("Power feeds", "lathe", &[("", "By power the carriage goes {feeds} a turn[; by change gears it goes {feed_ratio} of what a thread's lead would be].")]),
    once("Cross slide dial", "lathe.dials.cross", DIAL),
    once("Compound slide dial", "lathe.dials.compound", DIAL),
    once("Carriage dial", "lathe.dials.carriage", ALONG),
    once("Tailstock dial", "lathe.dials.tailstock", ALONG),
    once("Dividing on the spindle", "dividing", &[("", "Plates and gears with a detent: {direct}; any change gear: {any_change_gear}; a half-tooth detent: {half_tooth}.")]),
    once("Dividing head", "dividing.head", &[("", "{worm_ratio} turns of the crank for one of the work. Plates: {plates}. Gears: {gears}; up to {pairs_max} pairs.")]),
    Section {
        title: "Holding",
        path: "holding",
        sentences: &[("", "{name}, a {kind}, grips {from} to {to}[, runs out {run_out}][, never faster than {rpm_max} rpm].")],
        one_more: "a holder",
    },
    Section {
        title: "Cutters",
        path: "cutters",
        sentences: &[("", "{name}, {kind}, {material}[, Ø {diameter}][, {teeth} teeth][, {width} wide][, {angle}].")],
        one_more: "a cutter",
    },
    once("Drills", "", &[("", "{drills}.")]),
    once("Measuring wires", "", &[("", "{wires}.")]),
    Section {
        title: "Indicators",
        path: "indicators",
        sentences: &[("", "One line is {division}, over a travel of {travel}.")],
        one_more: "an indicator",
    },
];
