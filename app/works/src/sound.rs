//! The beat of the hand: heard by way of Web Audio, and seen by the same clock.
//!
//! Each frame sets out the beats of the next 0.2 s on the audio's own clock and draws the picture
//! by it. It ends when the page is hidden or the step goes: nobody is hurried by what isn't seen.

use crate::pulse::Pulse;
use crate::watch::{now, soon};
use std::cell::{Cell, RefCell};
use web_sys::{AudioContext, AudioContextState, AudioParam, Element};

/// So far ahead beats are set out, seconds.
const AHEAD: f64 = 0.2;
/// How long one sounds, and is lit, seconds.
const LONG: f64 = 0.07;
/// A beat, and the one that makes a whole turn, Hz.
const PITCH: (f32, f32) = (1100.0, 1650.0);

thread_local! {
    static SOUNDING: RefCell<Option<Sounding>> = const { RefCell::new(None) };
    /// Whether a frame is waited for.
    static FRAMES: Cell<bool> = const { Cell::new(false) };
}

struct Sounding {
    /// None where the browser has no sound: then it is seen alone, by the page's clock.
    audio: Option<(AudioContext, AudioParam, AudioParam)>,
    pulse: Pulse,
    /// Of the step that it was begun for.
    asked: u32,
    to_a_turn: u32,
}

fn element(id: &str) -> Option<Element> {
    web_sys::window()?.document()?.get_element_by_id(id)
}

fn say(element: &Element, words: &str) {
    if element.text_content().as_deref() != Some(words) {
        element.set_text_content(Some(words));
    }
}

fn number(element: &Element, name: &str) -> Option<u32> {
    element.get_attribute(name)?.parse().ok()
}

/// Begins to sound the beat of the step in view, or stops; a beat that the device has held up goes
/// on. Only ever within a tap: browsers let nothing be heard otherwise.
pub(crate) fn beat() {
    let held = SOUNDING.with_borrow(|sounding| match sounding {
        Some(sounding) if sounding.held() => sounding.audio.as_ref().map(|audio| audio.0.clone()),
        _ => None,
    });
    if let Some(context) = held {
        _ = context.resume();
    } else if SOUNDING.with_borrow(Option::is_some) {
        hush();
    } else if let Some(begun) = begin() {
        SOUNDING.set(Some(begun));
        if !FRAMES.replace(true) {
            frame();
        }
    }
}

/// A quicker beat, or a slower one.
pub(crate) fn pace(faster: bool) {
    SOUNDING.with_borrow_mut(|sounding| {
        if let Some(sounding) = sounding {
            sounding.pulse.pace(faster);
        }
    });
}

fn begin() -> Option<Sounding> {
    let beat = element("beat")?;
    let asked = number(&beat, "data-ms")?;
    let to_a_turn = number(&beat, "data-turn")?.max(1);
    let audio = audio();
    let mut sounding = Sounding { audio, pulse: Pulse::new(0.0, asked), asked, to_a_turn };
    sounding.pulse = Pulse::new(sounding.now() + 0.1, asked);
    Some(sounding)
}

/// One tone that goes on all the time, let through at each beat.
fn audio() -> Option<(AudioContext, AudioParam, AudioParam)> {
    let context = AudioContext::new().ok()?;
    let (tone, gate) = (context.create_oscillator().ok()?, context.create_gain().ok()?);
    gate.gain().set_value(0.0);
    tone.connect_with_audio_node(&gate).ok()?;
    gate.connect_with_audio_node(&context.destination()).ok()?;
    tone.start().ok()?;
    _ = context.resume();
    Some((context, gate.gain(), tone.frequency()))
}

/// Ends the beat, if one sounds.
pub(crate) fn hush() {
    if let Some(Sounding { audio: Some((context, ..)), .. }) = SOUNDING.take() {
        _ = context.close();
    }
    if let Some(beat) = element("beat") {
        beat.remove_attribute("data-on").ok();
    }
}

fn frame() {
    let going = SOUNDING.with_borrow_mut(|sounding| {
        sounding.as_mut().is_some_and(|sounding| sounding.draw().is_some())
    });
    FRAMES.set(going);
    if going {
        soon(frame);
    } else {
        hush();
    }
}

impl Sounding {
    fn now(&self) -> f64 {
        match &self.audio {
            Some((context, ..)) => context.current_time(),
            None => now() / 1000.0,
        }
    }

    /// A call came in, or the browser waits for a tap.
    fn held(&self) -> bool {
        let audio = self.audio.as_ref();
        audio.is_some_and(|(context, ..)| context.state() != AudioContextState::Running)
    }

    /// Sets out what falls soon and shows what falls now; none once it is over.
    fn draw(&mut self) -> Option<()> {
        let beat = element("beat").filter(|beat| number(beat, "data-ms") == Some(self.asked))?;
        let now = self.now();
        while let Some((at, number)) = self.pulse.due(now, now + AHEAD) {
            if let Some((_, gate, pitch)) = &self.audio {
                let whole = number % self.to_a_turn == 0;
                pitch.set_value_at_time(if whole { PITCH.1 } else { PITCH.0 }, at).ok()?;
                gate.set_value_at_time(0.8, at).ok()?;
                gate.linear_ramp_to_value_at_time(0.0, at + LONG).ok()?;
            }
        }
        let gone = self.pulse.gone(now);
        let every = self.pulse.every();
        let lit = gone.fract() * f64::from(every) < 2000.0 * LONG;
        let state = match (self.held(), lit) {
            (true, _) => "held",
            (_, true) => "lit",
            _ => "on",
        };
        beat.set_attribute("data-on", state).ok()?;
        let degrees = (gone * 360.0 / f64::from(self.to_a_turn)) as u32 % 360;
        let turned = format!("rotate({degrees} 50 50)");
        element("beat-hand")?.set_attribute("transform", &turned).ok()?;
        let tenths = (every + 50) / 100;
        say(&element("beat-every")?, &format!("{}.{} s", tenths / 10, tenths % 10));
        if let Some(count) = element("beat-count") {
            let beats = number(&count, "data-beats")?;
            say(&count, &format!("{} of {beats}", gone as u32));
            // The pass is over: the silence says so.
            return (gone < f64::from(beats) + 0.5).then_some(());
        }
        Some(())
    }
}
