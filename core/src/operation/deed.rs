//! What an operation does to the part, as far as its entries say: what it makes that must not be
//! hurt, what it takes off, whether it grips.

use super::Operation;
use crate::exact::Ratio;

/// What is done to the part.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Deed {
    /// How it is called where another operation is told of it; none of one that leaves the part
    /// alone.
    pub(crate) called: Option<&'static str>,
    /// Whether it grips the part, instead of working on it.
    pub(crate) grips: bool,
    /// What it leaves that must not be hurt.
    pub(crate) makes: Option<Made>,
    /// What it takes off.
    pub(crate) removes: Option<Removes>,
}

/// What is left standing on the part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Made {
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
pub(crate) enum Removes {
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

impl Deed {
    /// Nothing is done to the part: a chart, a reading.
    pub(crate) const NONE: Deed = Deed { called: None, grips: false, makes: None, removes: None };
    /// It is gripped.
    pub(super) const GRIPS: Deed = Deed { grips: true, ..Deed::NONE };

    /// Something is done that is called so.
    pub(super) const fn of(called: &'static str) -> Deed {
        Deed { called: Some(called), ..Deed::NONE }
    }

    /// The same, and this is left.
    pub(super) const fn making(self, made: Made) -> Deed {
        Deed { makes: Some(made), ..self }
    }

    /// The same, and this is taken off.
    pub(super) const fn removing(self, removes: Removes) -> Deed {
        Deed { removes: Some(removes), ..self }
    }

    /// How it is called where another is told of it.
    pub(crate) fn called(&self) -> &'static str {
        self.called.unwrap_or("the cut")
    }
}

impl Operation {
    /// What it does to the part.
    pub(crate) fn deed(&self) -> Deed {
        self.works().map_or(Deed::NONE, |works| (works.deed)(&self.entries))
    }
}
