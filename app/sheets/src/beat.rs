//! The hand-feed's beat: a handwheel that turns as the hand should, and the keys of its sound.
//!
//! While it sounds `data-on` is filled in and `#beat-hand` turned.

use latheside_core::operation::Beat;
use maud::{Markup, html};

/// The beat, silent until it is asked for.
pub(super) fn beat(beat: &Beat) -> Markup {
    let tenths = (beat.milliseconds + 50) / 100;
    let turn = match beat.to_a_turn {
        0 | 1 => "A turn".to_owned(),
        2 => "Half a turn".to_owned(),
        4 => "A quarter turn".to_owned(),
        parts => format!("1/{parts} turn"),
    };
    html! {
        section class="beat" id="beat" aria-label="Beat" data-ms=(beat.milliseconds) data-turn=(beat.to_a_turn) {
            (wheel(beat.to_a_turn))
            p class="beat-words" {
                (turn) " of " (beat.of) ", each "
                b id="beat-every" { (tenths / 10) "." (tenths % 10) " s" }
                @if let Some(beats) = beat.beats {
                    br;
                    "The whole pass: " b { (beats) } " beats, " (lasting(beats, beat.milliseconds))
                    br;
                    b id="beat-count" data-beats=(beats) {}
                }
            }
            button type="button" class="key beat-key" data-work="beat" {
                span class="beat-start" { "Start the beat" }
                span class="beat-stop" { "Stop the beat" }
                span class="beat-go-on" { "Sound held up: go on" }
            }
            div class="beat-pace" {
                button type="button" class="key" data-work="slower" { "Slower" }
                button type="button" class="key" data-work="faster" { "Faster" }
            }
        }
    }
}

/// So many beats, in minutes and seconds.
fn lasting(beats: u32, milliseconds: u32) -> String {
    let seconds = (u64::from(beats) * u64::from(milliseconds) + 500) / 1000;
    match (seconds / 60, seconds % 60) {
        (0, seconds) => format!("{seconds} s"),
        (minutes, 0) => format!("{minutes} min"),
        (minutes, seconds) => format!("{minutes} min {seconds} s"),
    }
}

/// A handwheel from the front, marked where each beat brings the handle.
fn wheel(to_a_turn: u32) -> Markup {
    let marks = to_a_turn.clamp(1, 16);
    html! {
        svg class="beat-wheel" viewBox="0 0 100 100" aria-hidden="true" {
            circle class="rim" cx="50" cy="50" r="44" {}
            @for mark in 0..marks {
                path class="mark" d="M50 6V14" transform={ "rotate(" (mark * 360 / marks) " 50 50)" } {}
            }
            g id="beat-hand" {
                path class="spoke" d="M50 50V22" {}
                circle class="handle" cx="50" cy="22" r="9" {}
            }
            circle class="hub" cx="50" cy="50" r="6" {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quarter_turn_and_its_keys() {
        let html = beat(&Beat {
            to_a_turn: 4,
            milliseconds: 2268,
            of: "the cross slide",
            beats: Some(33),
        });
        let html = html.into_string();
        for part in [
            "A quarter turn of the cross slide, each <b id=\"beat-every\">2.3 s</b>",
            "data-ms=\"2268\" data-turn=\"4\"",
            "The whole pass: <b>33</b> beats, 1 min 15 s",
            "data-work=\"beat\"",
            "data-work=\"slower\"",
            "data-work=\"faster\"",
            "rotate(270 50 50)",
        ] {
            assert!(html.contains(part), "{part} in {html}");
        }
        assert!(!html.contains("data-on"), "silent until it is asked for");
    }
}
