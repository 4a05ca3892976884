//! What an entry of the shop is called, by its path.

use super::SHOP;
use crate::record::{Shape, Spec};
use alloc::borrow::ToOwned;
use alloc::format;
use alloc::string::String;

/// Words for the entry at a path of the shop, to stand behind "the" or "say": `"lathe.dials.cross.reads"`
/// is "whether the cross slide's dial reads radius or diameter". The path itself where it leads nowhere.
#[must_use]
pub fn entry_words(path: &str) -> String {
    let mut spec: &Spec = &SHOP;
    let mut dial: Option<&str> = None;
    let mut words = String::new();
    let mut parts = path.split('.').peekable();
    while let Some(part) = parts.next() {
        if part.bytes().all(|b| b.is_ascii_digit()) {
            continue;
        }
        let Some(field) = spec.field(part) else { return path.to_owned() };
        let of_dial =
            core::mem::replace(&mut dial, (spec.name == "the dials").then_some(field.label));
        words = match (of_dial, spec.name, part) {
            (Some(slide), _, "reads") => {
                format!("whether the {slide}'s dial reads radius or diameter")
            }
            (Some(slide), _, "travel") => format!("the travel of the {slide}"),
            (Some(slide), ..) => format!("the {} of the {slide}'s dial", field.label),
            (_, "the dials", _) => format!("the {}'s dial", field.label),
            (_, "the dividing head", _) => format!("the dividing head's {}", field.label),
            (_, "the banjo", _) => format!("the banjo's {}", field.label),
            (.., "direct") => "what divides on the spindle".to_owned(),
            (.., "dividing") => "what there is to divide with".to_owned(),
            (.., "holding") => "what holds the work".to_owned(),
            (.., "leadscrew_hand") => "the leadscrew's hand".to_owned(),
            (.., "tumbler") => "whether there is a tumbler reverse".to_owned(),
            (.., "reverse") => "whether the spindle runs backwards".to_owned(),
            _ => format!("the {}", field.label),
        };
        match &field.shape {
            Shape::Record(inner) | Shape::List(Shape::Record(inner), ..) => spec = inner,
            _ if parts.peek().is_some() => return path.to_owned(),
            _ => {}
        }
    }
    words
}

#[cfg(test)]
mod tests {
    use super::entry_words;

    #[test]
    fn an_entry_is_called_by_plain_words() {
        for (path, words) in [
            ("lathe.leadscrew_hand", "the leadscrew's hand"),
            ("lathe.dials.cross.reads", "whether the cross slide's dial reads radius or diameter"),
            ("lathe.dials.cross", "the cross slide's dial"),
            ("lathe.dials.compound.backlash", "the backlash of the compound slide's dial"),
            ("lathe.dials.carriage.travel", "the travel of the carriage"),
            (
                "dividing.head.worm_ratio",
                "the dividing head's turns of the crank for one of the work",
            ),
            ("lathe.change_gears", "the change gears"),
            ("cutters.0.width", "the width"),
            ("indicators", "the indicators"),
        ] {
            assert_eq!(entry_words(path), words, "{path}");
        }
    }
}
