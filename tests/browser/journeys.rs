//! The list of all journeys, and in which browsers each is made.

use crate::phone::Phone;
use crate::{
    Outcome, beat, bench, budget, chart, first, keeping, keyboard, look, paper, setup, sharing,
    shop, start, strip, survive, trees,
};
use std::future::Future;
use std::pin::Pin;

pub(crate) type Journey = for<'a> fn(&'a mut Phone) -> Pin<Box<dyn Future<Output = Outcome> + 'a>>;

/// The journeys' names and themselves.
macro_rules! journeys {
    ($($room:ident :: $name:ident),* $(,)?) => {
        &[$((concat!(stringify!($room), "::", stringify!($name)), |phone| Box::pin($room::$name(phone)))),*]
    };
}

/// Made in every browser.
pub(crate) const EVERYWHERE: &[(&str, Journey)] = journeys![
    start::the_shell_is_read_before_the_works_arrive,
    start::a_first_visit_fetches_each_file_once,
    start::fault_14_works_that_do_not_arrive_are_owned_up_to,
    start::fault_14_sentences_stand_where_the_answers_do_not_arrive,
    start::fault_14_a_death_offers_what_was_saved,
    keeping::fault_09_a_set_with_a_fault_is_not_kept,
    keeping::fault_07_two_tabs_keep_each_others_changes,
    keeping::fault_02_a_full_device_is_owned_up_to,
    keeping::fault_04_damage_is_set_aside_and_what_was_before_counts,
    keeping::fault_05_a_newer_pages_writing_is_left_alone,
    look::the_example_stands_there_at_once,
    look::whatever_is_touched_is_large_enough,
    look::fault_15_nothing_hangs_over_a_narrow_sheet,
    shop::gears_and_leadscrew_are_entered_by_the_keypad,
    shop::a_keyboard_does_as_well,
    shop::a_contradiction_is_said_at_once,
    shop::what_cannot_be_is_kept_as_typed_and_gets_its_sentence,
    shop::holders_come_and_go_and_a_shop_can_be_had_back,
    setup::every_kind_is_added_from_the_list,
    setup::a_thread_is_added_and_read,
    setup::a_circle_is_added_and_read,
    setup::a_cut_is_added_and_read,
    setup::what_is_lacking_is_asked_for_in_place,
    setup::an_unfinished_entry_strikes_the_last_answer_out,
    setup::operations_move_and_setups_come_back,
    chart::which_gears_are_never_needed,
    setup::an_order_that_leaves_nothing_to_hold_is_said,
    bench::steps_go_forward_and_back,
    bench::a_division_is_locked_before_it_is_cut,
    bench::what_was_said_stays_with_the_setup,
    bench::what_is_measured_decides_what_follows,
    bench::the_last_step_ends_the_work,
    sharing::a_link_opens_for_somebody_else,
    sharing::work_goes_on_on_another_device,
    sharing::a_damaged_link_says_so_and_changes_nothing,
    sharing::a_link_goes_by_the_clipboard_or_by_hand,
    sharing::a_bad_file_gets_its_sentence,
    sharing::a_shop_goes_alone_by_link,
    sharing::on_my_machine_stands_beside_theirs,
    sharing::a_setup_is_found_among_several,
    sharing::where_it_is_kept_is_told_before_the_shop,
    survive::fault_14_a_death_in_any_room_is_owned_up_to,
    survive::fault_14_answers_that_die_at_the_bench_are_worked_afresh,
    survive::fault_15_a_turned_phone_keeps_its_place,
    survive::fault_15_commas_and_minus_signs_are_numbers,
    survive::fault_15_half_an_hour_in_the_background,
    first::the_gears_for_m10_by_1_take_few_taps,
    start::a_breach_of_the_policy_is_heard,
    keeping::fault_10_the_page_opens_with_its_server_gone,
    keeping::fault_08_a_newer_page_in_the_middle_of_work_waits_for_a_tap,
    bench::the_place_is_kept_with_the_server_gone,
];

/// Made in Chromium alone, for these ask of a browser what not every other can be asked: to be slow,
/// to be touched by two fingers, to be turned to among many windows, to want less motion, to keep nothing, to save without a question,
/// to say what its console said, to print on a paper of one's choice.
pub(crate) const CHROMIUM: &[(&str, Journey)] = journeys![
    start::nothing_in_view_moves_when_the_answers_come,
    start::whatever_is_amiss_is_heard,
    keeping::fault_03_with_nothing_to_keep_in_it_still_works,
    look::every_room_can_be_read_on_blue,
    look::every_room_can_be_read_on_paper,
    look::every_room_can_be_read_in_the_sun,
    look::fault_15_nothing_hangs_over_with_letters_twice_the_size,
    chart::a_chart_is_read_and_kept_as_a_file,
    bench::fault_15_a_double_tap_is_one_step,
    bench::fault_15_a_screen_that_may_go_dark_is_owned_up_to,
    beat::it_sounds_when_asked_and_stops,
    beat::it_keeps_time,
    paper::a_setup_prints_on_a4_letter_and_a6,
    sharing::a_file_comes_back_to_the_byte,
    strip::a_strip_is_kept_as_a_file,
    strip::a_strip_is_printed_as_large_as_it_is,
    sharing::fault_11_all_evicted_everything_comes_back_from_one_file,
    sharing::what_is_too_long_for_a_link_goes_as_a_file,
    look::nothing_moves_by_itself,
    keyboard::a_keyboard_alone_does_the_whole_job,
    survive::fault_15_a_palm_is_no_step,
    trees::every_room_is_read_in_order,
];

/// Made in Chromium with its windows and menus, where the others take less: a screen that stays on, and
/// a page that dies, are nothing without them. The first use of all is tried in it too, and the page
/// with its server gone.
pub(crate) const WHOLE: &[(&str, Journey)] = journeys![
    look::the_example_stands_there_at_once,
    first::the_gears_for_m10_by_1_take_few_taps,
    keeping::fault_10_the_page_opens_with_its_server_gone,
    survive::fault_14_a_death_in_any_room_is_owned_up_to,
    bench::fault_15_a_screen_that_may_go_dark_is_owned_up_to,
    trees::every_room_is_read_in_order,
];

/// Made in Chromium after all others, one at a time: these measure how long something takes, and two
/// at once would measure each other.
pub(crate) const ALONE: &[(&str, Journey)] = journeys![
    start::nothing_holds_the_page_up,
    chart::long_work_is_watched_stopped_and_taken_up_again,
    bench::a_step_among_a_thousand_is_painted_soon,
    budget::a_keystrokes_answer_is_painted_soon,
    budget::a_long_run_takes_little_memory,
];
