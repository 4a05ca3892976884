//! The one list of operations: what each asks for, its sentence, and its answer in a shop.

mod answer;
mod chart;
mod circle;
mod cut;
mod deed;
mod divide;
mod feeding;
mod fit;
mod graduate;
mod hold;
mod hole;
mod long;
mod make_plate;
mod measured;
mod more_gears;
mod part_off;
mod passes;
mod picture;
mod read_dial;
mod ready;
mod size;
mod space;
mod spindle;
mod step;
mod taper;
mod thread;
mod which_thread;
mod works;

pub use answer::{
    Answer, Card, FACTS_IN_SIGHT, Fact, Lacking, Line, Other, Span, Table, TableRow, Tone, Unmade,
    Why, line,
};
pub use picture::{Bar, Chip, LeadPoint, Mark, Picture, Seat, Seated, Section, Zone};
pub use step::{Beat, Step, Steps};

pub use long::{Long, Progress};

pub(crate) use deed::{Deed, Made, Removes};

pub(crate) use crate::shop::CUTTER_MATERIALS;

use crate::record::{Choice, Entry, Node, Record, Sentence, Spec, Templates, choice, sentence};
use crate::shop::Shop;
use alloc::boxed::Box;
use alloc::string::String;
use alloc::vec::Vec;
use works::{Way, Works};

/// A kind of operation.
pub struct Kind {
    /// Its word in the file.
    pub name: &'static str,
    /// Its number in a link: given once, never changed.
    pub wire: u8,
    /// What it is called in the list to choose from.
    pub title: &'static str,
    /// What it asks for.
    pub spec: &'static Spec,
    /// Its sentences.
    pub sentences: Templates,
    /// Pairs of keys of which entering the first takes away the second.
    pub instead: &'static [(&'static str, &'static str)],
    /// The sections of the shop that its answer is worked from: a link carries them along.
    pub from_shop: &'static [&'static str],
    /// The entries that take what a step measures: of one piece of work, not of the next.
    pub measured: &'static [&'static str],
}

impl core::fmt::Debug for Kind {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.name)
    }
}

impl PartialEq for Kind {
    fn eq(&self, other: &Kind) -> bool {
        self.name == other.name
    }
}

/// Every kind of operation, in the order in which they are offered.
pub static KINDS: &[&Kind] = &[
    &thread::KIND,
    &divide::KIND,
    &graduate::KIND,
    &make_plate::KIND,
    &size::KIND,
    &cut::KIND,
    &hole::KIND,
    &space::KIND,
    &taper::KIND,
    &fit::KIND,
    &part_off::KIND,
    &hold::KIND,
    &read_dial::KIND,
    &chart::KIND,
    &more_gears::KIND,
    &which_thread::KIND,
];

static WORKS: &[&Works] = &[
    &thread::WORKS,
    &divide::WORKS,
    &graduate::WORKS,
    &make_plate::WORKS,
    &size::WORKS,
    &cut::WORKS,
    &hole::WORKS,
    &space::WORKS,
    &taper::WORKS,
    &fit::WORKS,
    &part_off::WORKS,
    &hold::WORKS,
    &read_dial::WORKS,
    &chart::WORKS,
    &more_gears::WORKS,
    &which_thread::WORKS,
];

/// The kind of that name.
#[must_use]
pub fn kind(name: &str) -> Option<&'static Kind> {
    KINDS.iter().find(|kind| kind.name == name).copied()
}

/// One operation: its kind and what was entered.
#[derive(Clone, Debug, PartialEq)]
pub struct Operation {
    /// Its kind.
    pub kind: &'static Kind,
    /// What was entered.
    pub entries: Record,
}

impl Operation {
    /// An operation with its blanks empty.
    #[must_use]
    pub fn new(kind: &'static Kind) -> Operation {
        Operation { kind, entries: Record::empty(kind.spec) }
    }

    /// Reads what was typed into a blank and keeps it; an empty blank takes away what was there.
    ///
    /// # Errors
    ///
    /// A sentence for the person who typed it; the operation is left as it was.
    pub fn enter(&mut self, key: &str, entry: Entry<'_>) -> Result<(), String> {
        self.entries.enter(key, entry)?;
        if self.entries.get(key).is_some() {
            for (new, old) in self.kind.instead {
                if *new == key {
                    self.entries.set(old, None);
                }
            }
        }
        Ok(())
    }

    /// The operation as a sentence with blanks.
    #[must_use]
    pub fn sentence(&self) -> Sentence {
        sentence(&self.entries, self.kind.sentences)
    }

    fn works(&self) -> Option<&'static Works> {
        WORKS.iter().find(|works| works.kind == self.kind).copied()
    }

    /// What could stand in a blank, given what is typed so far.
    #[must_use]
    pub fn suggest(&self, key: &str, text: &str, shop: &Shop) -> Vec<String> {
        self.works()
            .map(|works| (works.suggest)(&self.entries, key, text, shop))
            .unwrap_or_default()
    }

    /// Works it out in a shop.
    #[must_use]
    pub fn answer(&self, shop: &Shop) -> Answer {
        match self.works() {
            Some(works) => works.answer(&self.entries, shop).asking(shop).cautioned(),
            None => Answer::refused("no way of working this out is known"),
        }
    }

    /// Works it out, and carries its steps out on the modelled lathe before anybody does: where a fault shows
    /// itself the figures stay and the steps don't.
    #[must_use]
    pub fn proved(&self, shop: &Shop) -> Answer {
        self.answer(shop).proved(shop)
    }

    /// Whether it is worked out a little at a time.
    #[must_use]
    pub fn takes_long(&self) -> bool {
        self.works().is_some_and(|works| matches!(works.way, Way::Long(_)))
    }

    /// Begins working it out a little at a time; none where it is answered at once.
    ///
    /// # Errors
    ///
    /// The answer, where there is nothing to work on.
    #[must_use]
    pub fn begin(&self, shop: &Shop) -> Option<Result<Box<dyn Long>, Answer>> {
        match self.works()?.way {
            Way::AtOnce(_) => None,
            Way::Long(begin) => Some(begin(&self.entries, shop)),
        }
    }
}

/// Where the work is.
pub(crate) const WORK_IN: &[Choice] = &[
    choice("lathe-spindle", 0, "the lathe spindle"),
    choice("head-on-cross-slide", 1, "a head on the cross slide"),
];

/// Where the cutter is.
pub(crate) const CUTTER_IN: &[Choice] = &[
    choice("lathe-spindle", 0, "the lathe spindle"),
    choice("driven-spindle-on-slide", 1, "a driven spindle on the slide"),
    choice("dragged-by-slide", 2, "the tool post, dragged"),
];

/// What is cut.
pub(crate) const STOCKS: &[Choice] = &[
    choice("free-cutting-steel", 0, "free-cutting steel"),
    choice("mild-steel", 1, "mild steel"),
    choice("medium-carbon-steel", 2, "medium-carbon steel"),
    choice("alloy-steel", 3, "alloy steel"),
    choice("tool-steel", 4, "silver steel"),
    choice("stainless-steel", 5, "stainless steel"),
    choice("grey-iron", 6, "grey iron"),
    choice("aluminium", 7, "aluminium"),
    choice("brass", 8, "brass"),
    choice("bronze", 9, "bronze"),
    choice("copper", 10, "copper"),
    choice("acetal", 11, "acetal"),
    choice("nylon", 12, "nylon"),
];

/// What every kind's result can do.
pub trait Worked {
    /// The answer's own keys, as the file has them.
    fn json(&self) -> Vec<(String, Node)>;
    /// Its rows as comma-separated values, where it is a table.
    fn csv(&self) -> Option<String> {
        None
    }
    /// The answer for a screen.
    fn card(&self) -> Card;
    /// How many steps Bench walks through.
    fn steps(&self) -> usize;
    /// One of them.
    fn step(&self, at: usize) -> Option<Step>;
    /// How to come back to one of them that was left, figures between stars; none where there is
    /// nothing to it.
    fn back(&self, _at: usize) -> Option<String> {
        None
    }
}

/// Declares [`Found`]: one form a kind, each handing on to its own module.
macro_rules! found {
    ($($variant:ident($type:ty)),* $(,)?) => {
        /// What an operation came to; one form a kind.
        #[derive(Clone, Debug)]
        #[expect(missing_docs, reason = "each is the kind of that name")]
        pub enum Found {
            $($variant(Box<$type>),)*
        }

        impl Found {
            /// The answer's own keys, as the file has them.
            #[must_use]
            pub fn json(&self) -> Vec<(String, Node)> {
                match self { $(Found::$variant(worked) => worked.json(),)* }
            }

            /// The answer for a screen.
            #[must_use]
            pub fn card(&self) -> Card {
                match self { $(Found::$variant(worked) => worked.card(),)* }
            }

            /// What Bench walks through.
            #[must_use]
            pub fn steps(&self) -> Steps<'_> {
                let len = match self { $(Found::$variant(worked) => worked.steps(),)* };
                Steps { found: self, len }
            }

            /// Its rows as comma-separated values (RFC 4180), where it is a table.
            #[must_use]
            pub fn csv(&self) -> Option<String> {
                match self { $(Found::$variant(worked) => worked.csv(),)* }
            }

            fn step(&self, at: usize) -> Option<Step> {
                match self { $(Found::$variant(worked) => worked.step(at),)* }
            }

            fn back(&self, at: usize) -> Option<String> {
                match self { $(Found::$variant(worked) => worked.back(at),)* }
            }
        }
    };
}

found! {
    Chart(chart::ChartFound),
    MoreGears(more_gears::MoreGears),
    Cut(cut::Cut),
    Divide(divide::Divide),
    Graduate(graduate::Graduate),
    Hold(hold::Hold),
    MakePlate(make_plate::MakePlate),
    Size(size::Size),
    Space(space::Spaced),
    Fit(fit::Fitted),
    Taper(taper::Tapered),
    PartOff(part_off::Parting),
    Hole(hole::Hole),
    ReadDial(read_dial::ReadDial),
    Thread(thread::Thread),
    WhichThread(which_thread::WhichThread),
}

/// The names under a section of the shop.
pub(crate) fn names_in(shop: &Shop, section: &str) -> Vec<String> {
    shop.record().records(section).filter_map(|form| form.text("name").map(String::from)).collect()
}

#[cfg(test)]
mod tests {
    use super::{Operation, kind};
    use crate::record::Entry;

    #[test]
    fn an_empty_blank_says_what_it_is_taken_for() {
        let mut chart = Operation::new(kind("chart").unwrap());
        assert_eq!(chart.sentence().plain(), "Chart of this lathe for threads.");
        chart.enter("of", Entry { text: "feeds", unit: None }).unwrap();
        assert_eq!(chart.sentence().plain(), "Chart of this lathe for feeds.");
        let mut thread = Operation::new(kind("thread").unwrap());
        thread.enter("designation", Entry { text: "M6", unit: None }).unwrap();
        assert_eq!(thread.sentence().plain(), "Screw-cut M6, outside, … long.");
    }
}
