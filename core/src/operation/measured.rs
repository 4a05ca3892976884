//! What belongs to one piece of work alone: the entries that take what was measured on it, and
//! what may have moved while nobody stood by.

use super::Operation;

/// The entries of a kind that take what a step measures.
const MEASURED: &[(&str, &[&str])] = &[
    ("size", &["measured"]),
    ("fit", &["hole_measures", "shaft_measures"]),
    ("thread", &["over_wires", "shake_now"]),
    ("taper", &["proved", "checked"]),
];

impl Operation {
    /// Empties the blanks that were filled by measuring one piece, for the next; whether any was.
    pub fn forget_measured(&mut self) -> bool {
        let mut any = false;
        for (_, keys) in MEASURED.iter().filter(|(kind, _)| *kind == self.kind.name) {
            for key in *keys {
                any |= self.entries.get(key).is_some();
                self.entries.set(key, None);
            }
        }
        any
    }

    /// What to look at before going on after a while away. Common practice, no source.
    #[must_use]
    pub fn on_return(&self) -> &'static str {
        match self.kind.name {
            "thread" => {
                "Look before going on: gears still in mesh and the guard shut, half-nuts open, the cross dial where this step has it. The mark on the dial is the same one as before."
            }
            "divide" | "graduate" | "make-plate" => {
                "Look before going on: the pin in the hole that this step names, the arms not knocked, the spindle locked. Count from the last mark that you can see."
            }
            "size" | "cut" | "fit" => {
                "Look before going on: the dial where this step has it, the tool not bumped, the carriage clear, the speed as it was. Work that has cooled measures less."
            }
            "taper" => {
                "Look before going on: the compound or the tailstock as it was set, its screws tight, the dial where this step has it."
            }
            "hole" => {
                "Look before going on: the depth on the tailstock, chips out of the hole, the tap or drill whole."
            }
            "part-off" => {
                "Look before going on: the blade square and clear of the groove, the dial where this step has it, nothing slack."
            }
            _ => "Look before going on: what holds the work, and what may have been moved.",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::KINDS;
    use super::*;

    #[test]
    fn every_measuring_entry_is_one_that_its_kind_has() {
        for (name, keys) in MEASURED {
            let kind = KINDS.iter().find(|kind| kind.name == *name).unwrap();
            for key in *keys {
                assert!(kind.spec.field(key).is_some(), "{name}.{key}");
            }
        }
        for kind in KINDS {
            assert!(Operation::new(kind).on_return().starts_with("Look before"));
        }
    }
}
