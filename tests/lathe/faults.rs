//! Setups that once gave a wrong or dangerous procedure: each now passes or says what it needs.

use super::asked::asked;
use super::judgement;
use super::runner::{Answered, Deed, answered, carried, deeds};
use super::stated;
use latheside_core::procedure::{Action, Lockable};
use latheside_core::shop::Shop;
use serde_json::Value;

fn setup(text: &str) -> Value {
    serde_json::from_str(text).unwrap()
}

/// The only operation passes: its actions and its shop.
fn passes(text: &str) -> (Vec<Deed>, Shop) {
    let setup = setup(text);
    let (answers, shop) = answered(&setup);
    let Answered::Made(steps, answer) = &answers[0] else { panic!("{:?}", answers[0]) };
    let deeds = deeds(steps);
    let run = carried(&deeds, &shop);
    assert_eq!(run.faults, [], "nothing forbidden");
    let asked = asked(&setup["operations"][0], &setup["shop"]);
    let off = stated(answer);
    let wrong = judgement::wrong(&asked, &run, &setup["shop"], off);
    assert_eq!(wrong, None);
    (deeds, shop)
}

fn unmade(text: &str, needs: &str) {
    let (answers, _) = answered(&setup(text));
    let Answered::Unmade(why, wants) = &answers[0] else { panic!("{:?}", answers[0]) };
    assert_eq!(wants, needs, "{why}");
}

/// The first fault once some actions are altered.
fn first(deeds: &[Deed], shop: &Shop, alter: impl Fn(&Action) -> Option<Action>) -> &'static str {
    let altered = |(step, action): &Deed| Some((step.clone(), alter(action)?));
    let deeds: Vec<Deed> = deeds.iter().filter_map(altered).collect();
    carried(&deeds, shop).faults.first().map_or("none", |fault| fault.rule.id())
}

#[test]
fn the_spindle_that_holds_the_work_is_the_one_that_is_locked() {
    let text = r#"{"format":"latheside-setup","version":1,"name":"t","note":"","shop":{"name":"x","lathe":{"spindle_speeds":[600]},"dividing":{"head":{"worm_ratio":40,"plates":[[15,16,17]]}}},
        "operations":[{"kind":"divide","into":20,"diameter":"40 mm","marks":"lines","depth":"0.2 mm","length":"4 mm"}]}"#;
    let (deeds, shop) = passes(text);
    let other = |action: &Action| {
        Some(match action {
            Action::Lock { what: Lockable::Head } => Action::Lock { what: Lockable::LatheSpindle },
            action => action.clone(),
        })
    };
    // The cutter's own spindle is locked then: it is found out at its first start.
    assert_eq!(first(&deeds, &shop, other), "RUN-LOCK");
}

#[test]
fn a_disc_is_never_fed_flat_side_on() {
    unmade(include_str!("faults/disc-in-the-spindle.json"), "operation.cutter_in");
}

#[test]
fn a_flat_is_no_wider_than_its_cutter() {
    unmade(include_str!("faults/flat-wider-than-the-cutter.json"), "operation.cutter");
}

#[test]
fn a_drill_is_fed_along_its_own_axis() {
    passes(include_str!("faults/holes-on-a-circle.json"));
}

#[test]
fn a_bar_far_out_is_not_used() {
    unmade(include_str!("faults/bar-far-out.json"), "shop.cutters");
}

#[test]
fn a_face_is_cut_by_a_compound_that_was_set_along_the_bed() {
    let (deeds, shop) = passes(include_str!("faults/face-by-the-compound.json"));
    let unset = |action: &Action| match action {
        Action::SquareUp { .. } => None,
        action => Some(action.clone()),
    };
    assert_eq!(first(&deeds, &shop, unset), "UNKNOWN-COMPOUND");
}

/// Shallow lines are touched with no paper between.
#[test]
fn nothing_thicker_than_a_line_is_deep_is_put_between() {
    passes(include_str!("faults/shallow-lines.json"));
}

/// No dial: what reads the slide is put on before it is read.
#[test]
fn an_indicator_is_put_on_before_it_is_read() {
    let (deeds, shop) = passes(include_str!("faults/no-dial.json"));
    let bare = |action: &Action| match action {
        Action::Mount(latheside_core::procedure::Item::Fitting {
            which: latheside_core::procedure::Fitting::Indicator,
        }) => None,
        action => Some(action.clone()),
    };
    assert_eq!(first(&deeds, &shop, bare), "MEA-007");
}

/// One cut and no more: a short length is tried and measured before all of it is cut.
#[test]
fn a_single_cut_is_tried_first() {
    passes(include_str!("faults/single-cut.json"));
}

/// A way with two pins comes home with its pins in other holes: the second lap of drilling is counted afresh.
#[test]
fn the_second_lap_of_holes_is_counted_from_where_the_pins_are() {
    passes(include_str!("faults/second-lap.json"));
}

/// A hole that goes through work of unknown thickness is drilled all the same.
#[test]
fn a_hole_goes_through_whatever_its_thickness() {
    passes(include_str!("faults/through.json"));
}

/// A slot so shallow that its cutter leaves a flat.
#[test]
fn a_slot_is_narrower_than_the_round() {
    unmade(include_str!("faults/shallow-slot.json"), "operation.cutter");
}
