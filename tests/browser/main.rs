//! Journeys through the built page, in a phone's browser.
//!
//! `cargo xtask test` makes them all. One by one, once the page is built:
//! `LATHESIDE_DIST=dist cargo test -p latheside-tests --features browser --test browser -- NAME`.
#![allow(clippy::print_stdout)] // printing is what a list of journeys does

mod altered;
mod axe;
mod beat;
mod bench;
mod chart;
mod driver;
mod keeping;
mod look;
mod paper;
mod pdf;
mod phone;
mod setup;
mod sharing;
mod sheet;
mod shop;
mod start;
mod strip;

use driver::Driver;
use phone::{Phone, Settings};
use std::future::Future;
use std::pin::Pin;
use std::process::ExitCode;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

/// What a journey comes to: nothing, or what was wrong.
type Outcome<T = ()> = Result<T, Box<dyn std::error::Error>>;

/// A condition of a journey, and what was wrong where it doesn't hold.
fn ensure(holds: bool, otherwise: impl Into<String>) -> Outcome {
    if holds { Ok(()) } else { Err(otherwise.into().into()) }
}

type Journey = for<'a> fn(&'a mut Phone) -> Pin<Box<dyn Future<Output = Outcome> + 'a>>;

/// The journeys' names and themselves.
macro_rules! journeys {
    ($($room:ident :: $name:ident),* $(,)?) => {
        &[$((concat!(stringify!($room), "::", stringify!($name)), |phone| Box::pin($room::$name(phone)))),*]
    };
}

const JOURNEYS: &[(&str, Journey)] = journeys![
    start::the_shell_is_read_before_the_works_arrive,
    start::a_first_visit_fetches_each_file_once,
    start::nothing_in_view_moves_when_the_answers_come,
    start::works_that_do_not_arrive_are_owned_up_to,
    start::sentences_stand_where_the_answers_do_not_arrive,
    start::a_death_in_the_works_offers_what_was_saved,
    start::nothing_holds_the_page_up,
    start::whatever_is_amiss_is_heard,
    keeping::fault_10_the_page_opens_with_its_server_gone,
    keeping::fault_09_a_set_with_a_fault_is_not_kept,
    keeping::fault_08_a_newer_page_in_the_middle_of_work_waits_for_a_tap,
    keeping::fault_07_two_tabs_keep_each_others_changes,
    keeping::fault_03_with_nothing_to_keep_in_it_still_works,
    keeping::fault_02_a_full_device_is_owned_up_to,
    keeping::fault_04_damage_is_set_aside_and_what_was_before_counts,
    keeping::fault_05_a_newer_pages_writing_is_left_alone,
    look::the_example_stands_there_at_once,
    look::every_room_can_be_read_on_blue,
    look::every_room_can_be_read_on_paper,
    look::every_room_can_be_read_in_the_sun,
    look::whatever_is_touched_is_large_enough,
    look::nothing_hangs_over_a_narrow_sheet,
    look::nothing_hangs_over_with_letters_twice_the_size,
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
    chart::a_chart_is_read_and_kept_as_a_file,
    chart::which_gears_are_never_needed,
    chart::long_work_is_watched_stopped_and_taken_up_again,
    setup::an_order_that_leaves_nothing_to_hold_is_said,
    bench::steps_go_forward_and_back,
    bench::a_double_tap_is_one_step,
    bench::a_division_is_locked_before_it_is_cut,
    bench::the_place_is_kept_with_the_server_gone,
    bench::what_was_said_stays_with_the_setup,
    bench::what_is_measured_decides_what_follows,
    bench::the_last_step_ends_the_work,
    bench::a_screen_that_may_go_dark_is_owned_up_to,
    beat::it_sounds_when_asked_and_stops,
    beat::it_keeps_time,
    bench::a_step_among_a_thousand_is_painted_soon,
    paper::a_setup_prints_on_a4_letter_and_a6,
    sharing::a_link_opens_for_somebody_else,
    sharing::work_goes_on_on_another_device,
    sharing::a_damaged_link_says_so_and_changes_nothing,
    sharing::a_link_goes_by_the_clipboard_or_by_hand,
    sharing::a_file_comes_back_to_the_byte,
    sharing::a_bad_file_gets_its_sentence,
    strip::a_strip_is_kept_as_a_file,
    strip::a_strip_is_printed_as_large_as_it_is,
    sharing::fault_11_all_evicted_everything_comes_back_from_one_file,
    sharing::a_shop_goes_alone_by_link,
    sharing::what_is_too_long_for_a_link_goes_as_a_file,
    sharing::on_my_machine_stands_beside_theirs,
    sharing::a_setup_is_found_among_several,
    sharing::where_it_is_kept_is_told_before_the_shop,
];

/// No journey is this long: whatever it waits for will not come.
const LONGEST: Duration = Duration::from_secs(120);

fn main() -> ExitCode {
    let Some(settings) = Settings::from_environment() else {
        println!("skipped: the journeys need LATHESIDE_DIST, the folder of the built page");
        println!("\ntest result: ok. 0 passed; 0 failed; {} ignored", JOURNEYS.len());
        return ExitCode::SUCCESS;
    };
    match make(&settings) {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::FAILURE,
        Err(why) => {
            eprintln!("the journeys could not begin: {why}");
            ExitCode::FAILURE
        }
    }
}

/// Makes every journey that is asked for, each with a browser of its own, as many at once as there
/// are processors; whether all went well.
fn make(settings: &Settings) -> Outcome<bool> {
    let start = Instant::now();
    let asked: Vec<String> =
        std::env::args().skip(1).filter(|word| !word.starts_with('-')).collect();
    let chosen = |name: &str| asked.is_empty() || asked.iter().any(|word| name.contains(word));
    let driver = Driver::start(&settings.driver)?;
    let all =
        if std::env::args().any(|word| word == sheet::ASKED) { sheet::CHAPTERS } else { JOURNEYS };
    let journeys: Vec<_> = all.iter().filter(|(name, _)| chosen(name)).collect();
    let next = AtomicUsize::new(0);
    let failures = Mutex::new(Vec::new());
    let hands = std::thread::available_parallelism().map_or(1, usize::from).min(journeys.len());
    std::thread::scope(|scope| {
        for _ in 0..hands {
            scope.spawn(|| {
                while let Some((name, journey)) = journeys.get(next.fetch_add(1, Ordering::SeqCst))
                {
                    let from = Instant::now();
                    let outcome = alone(name, *journey, settings, &driver);
                    let word = if outcome.is_ok() { "ok" } else { "FAILED" };
                    println!("test {name} ... {word} ({:.1} s)", from.elapsed().as_secs_f64());
                    if let Err(why) = outcome {
                        failures.lock().unwrap_or_else(PoisonError::into_inner).push((*name, why));
                    }
                }
            });
        }
    });
    let failures = failures.into_inner().unwrap_or_else(PoisonError::into_inner);
    for (name, why) in &failures {
        println!("\n---- {name} ----\n{why}");
    }
    let word = if failures.is_empty() { "ok" } else { "FAILED" };
    println!(
        "\ntest result: {word}. {} passed; {} failed; 0 ignored; 0 measured; {} filtered out; \
         finished in {:.2}s",
        journeys.len() - failures.len(),
        failures.len(),
        all.len() - journeys.len(),
        start.elapsed().as_secs_f64(),
    );
    Ok(failures.is_empty())
}

/// One journey on this thread, and in words what was wrong.
fn alone(name: &str, journey: Journey, settings: &Settings, driver: &Driver) -> Result<(), String> {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build();
    let runtime = runtime.map_err(|why| why.to_string())?;
    runtime.block_on(made(name, journey, settings, driver)).map_err(|why| why.to_string())
}

async fn made(name: &str, journey: Journey, settings: &Settings, driver: &Driver) -> Outcome {
    let mut phone = Phone::new(settings, driver).await?;
    let mut outcome = match tokio::time::timeout(LONGEST, journey(&mut phone)).await {
        Ok(outcome) => outcome,
        Err(_) => Err(format!("not over after {} s", LONGEST.as_secs()).into()),
    };
    if outcome.is_ok() {
        outcome = phone.is_quiet().await;
    } else {
        let picture = format!("failed-{}", name.replace("::", "-"));
        phone.shot(&picture).await.ok();
        // What the page said may tell more than what the journey saw.
        if let (Err(why), Err(said)) = (&outcome, phone.is_quiet().await) {
            outcome = Err(format!("{why}\n{said}").into());
        }
    }
    phone.close().await?;
    outcome
}
