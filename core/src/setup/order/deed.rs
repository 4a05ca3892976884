//! What each kind of operation declares: what it makes that must not be hurt, what it takes off.

use crate::exact::Ratio;
use crate::operation::Operation;
use crate::threads;

/// What an operation does to the part, as far as its entries say.
#[derive(Debug)]
pub(super) struct Deed<'a> {
    pub(super) at: usize,
    pub(super) operation: &'a Operation,
    /// What it leaves that must not be hurt.
    pub(super) makes: Option<Made>,
    /// What it takes off.
    pub(super) removes: Option<Removes>,
}

/// What is left standing on the part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Made {
    /// An outside thread of that diameter, mm.
    Thread(Option<Ratio>),
    /// A thread in a hole of that diameter.
    Tapped(Option<Ratio>),
    /// Lines on a rim or a face: its diameter, and how deep they are.
    Lines { diameter: Option<Ratio>, depth: Option<Ratio>, face: bool },
    /// Flats, slots or holes about a circle.
    Shaped,
    /// A turned or bored diameter.
    Size(Ratio),
    /// A taper.
    Taper { tailstock: bool },
}

/// What is taken off.
#[derive(Clone, Copy, Debug)]
pub(super) enum Removes {
    /// The outside, from the first diameter to the second, mm.
    Outside(Ratio, Ratio),
    /// The inside, out to that diameter.
    Inside(Ratio),
    /// The end, by so much.
    End(Option<Ratio>),
    /// The whole part from its bar.
    Off,
    /// A hard press on the outside: a knurl.
    Pressed,
}

fn major(entries: &crate::record::Record) -> Option<Ratio> {
    let own = entries.ratio("diameter");
    own.or_else(|| threads::parse(entries.text("designation")?).ok()?.diameter)
}

/// What each kind declares of itself.
pub(super) fn deed(at: usize, operation: &Operation) -> Deed<'_> {
    let entries = &operation.entries;
    let (from, to) = (entries.ratio("from"), entries.ratio("to"));
    let mut deed = Deed { at, operation, makes: None, removes: None };
    match operation.kind.name {
        "thread" if entries.choice("side") == Some("inside") => {
            deed.makes = Some(Made::Tapped(major(entries)));
        }
        "thread" => deed.makes = Some(Made::Thread(major(entries))),
        "hole" if entries.choice("purpose").is_none_or(|purpose| purpose == "tap") => {
            let named = entries.text("designation").and_then(|name| threads::parse(name).ok());
            deed.makes = Some(Made::Tapped(named.and_then(|thread| thread.diameter)));
        }
        "graduate" => {
            deed.makes = Some(Made::Lines {
                diameter: entries.ratio("diameter"),
                depth: entries.ratio("depth"),
                face: entries.choice("lines_on") == Some("face"),
            });
        }
        "divide" => {
            deed.makes = Some(match entries.choice("marks") {
                Some("lines") => Made::Lines {
                    diameter: entries.ratio("diameter"),
                    depth: entries.ratio("depth"),
                    face: false,
                },
                _ => Made::Shaped,
            });
        }
        "taper" => {
            let tailstock = entries.get("between_centres").is_some();
            deed.makes = Some(Made::Taper { tailstock });
        }
        "size" => match (entries.choice("process"), from, to) {
            (Some("face"), from, to) => {
                let off = from.zip(to).and_then(|(from, to)| from.sub(to).ok());
                deed.removes = Some(Removes::End(off));
            }
            (process, Some(from), Some(to)) if process == Some("bore") || to > from => {
                deed.removes = Some(Removes::Inside(to));
                deed.makes = Some(Made::Size(to));
            }
            (_, Some(from), Some(to)) => {
                deed.removes = Some(Removes::Outside(from, to));
                deed.makes = Some(Made::Size(to));
            }
            _ => {}
        },
        "cut" => {
            let (diameter, depth) = (entries.ratio("diameter"), entries.ratio("depth"));
            let after = diameter.zip(depth).and_then(|(diameter, depth)| {
                Some((diameter, diameter.sub(depth.mul(Ratio::whole(2)).ok()?).ok()?))
            });
            deed.removes = match (entries.choice("process"), after) {
                (Some("turn" | "finish"), Some((from, to))) => Some(Removes::Outside(from, to)),
                (Some("face"), _) => Some(Removes::End(depth)),
                (Some("part"), _) => Some(Removes::Off),
                (Some("knurl"), _) => Some(Removes::Pressed),
                _ => None,
            };
        }
        "part-off" => deed.removes = Some(Removes::Off),
        _ => {}
    }
    deed
}

/// How an operation is called where another is told of it.
pub(super) fn called(deed: &Deed) -> &'static str {
    match (deed.operation.kind.name, deed.operation.entries.choice("purpose")) {
        ("thread", _) => "screw-cutting",
        ("divide", _) => "dividing",
        ("graduate", _) => "graduating",
        ("hole", None | Some("tap")) => "tapping",
        ("hole", _) => "the hole",
        ("taper", _) => "the taper",
        ("fit", _) => "the fit",
        ("size", _) => "turning",
        ("make-plate", _) => "the plate",
        _ => "the cut",
    }
}

/// Whether an operation works on the part at all.
pub(super) fn works(deed: &Deed) -> bool {
    let name = deed.operation.kind.name;
    !matches!(name, "hold" | "chart" | "more-gears" | "which-thread" | "read-dial")
}
