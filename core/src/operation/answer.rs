//! What an operation's answer is made of, whatever the operation.

use super::{Found, Picture};
pub use crate::procedure::{Line, Span};
use crate::shop::Shop;
use alloc::boxed::Box;
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

/// What one operation comes to in one shop.
#[derive(Clone, Debug, Default)]
pub struct Answer {
    /// What was worked out; none where nothing can be said.
    pub found: Option<Found>,
    /// Why nothing can be said, in the trade's words.
    pub refused: Option<String>,
    /// Why the figures stand but no steps do.
    pub unmade: Option<Box<Unmade>>,
    /// What could not be worked out, and the entry that it waits for.
    pub lacking: Vec<Lacking>,
    /// What to look out for; each defers to the machine's maker and the rules of the place.
    pub cautions: Vec<&'static str>,
    /// Where the figures come from.
    pub why: Vec<Why>,
}

impl Answer {
    /// An answer that nothing can be said, and why.
    #[must_use]
    pub fn refused(why: impl Into<String>) -> Answer {
        Answer { refused: Some(why.into()), ..Answer::default() }
    }
}

impl Answer {
    /// A dial of which only radius or diameter isn't said is asked for that alone.
    pub(super) fn asking(mut self, shop: &Shop) -> Answer {
        for lacking in &mut self.lacking {
            lacking.needs = shop.unsaid(lacking.needs);
        }
        if let Some(unmade) = &mut self.unmade {
            unmade.needs = shop.unsaid(unmade.needs);
        }
        self
    }

    /// With the cautions that follow from its steps' actions.
    pub(super) fn cautioned(mut self) -> Answer {
        if let Some(found) = self.found.as_ref().filter(|_| self.unmade.is_none()) {
            let steps = found.steps();
            if steps.in_actions() {
                let own = core::mem::take(&mut self.cautions);
                self.cautions = steps.cautions();
                self.cautions.extend(own);
            }
        }
        self
    }

    /// Its steps carried out on the modelled lathe: where a fault shows itself they are withheld.
    #[must_use]
    pub fn proved(mut self, shop: &Shop) -> Answer {
        let made = self.found.as_ref().filter(|_| self.unmade.is_none());
        if let Some(fault) = made.and_then(|found| found.steps().fault(shop)) {
            self.unmade = Some(Box::new(Unmade {
                why: format!(
                    "carried out on a modelled lathe, step {} fails by rule {}: the figures stand, the steps are withheld",
                    fault.step,
                    fault.rule.id()
                ),
                needs: "operation",
            }));
        }
        self
    }

    /// How many steps there are to walk through; none where it can't be made.
    #[must_use]
    pub fn steps(&self) -> usize {
        let made = self.found.as_ref().filter(|_| self.unmade.is_none());
        made.map_or(0, |found| found.steps().len())
    }
}

/// Why something can't be made with what is owned, though its figures stand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unmade {
    /// Why, in the trade's words.
    pub why: String,
    /// The path of the entry that would change it: `shop.lathe.dials.cross`, `operation.cutter_in`.
    pub needs: &'static str,
}

/// A key that is missing from an answer, and the entry that would bring it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lacking {
    /// The answer's key.
    pub key: &'static str,
    /// The path of the entry: `shop.lathe.leadscrew`, or `operation.length`.
    pub needs: &'static str,
}

/// A formula, this job's numbers in it, and who says so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Why {
    /// The formula in the trade's symbols.
    pub formula: String,
    /// The same with the numbers put in.
    pub values: String,
    /// The published source, or that it is arithmetic or common practice.
    pub source: String,
}

impl Why {
    /// A formula with its numbers and its source.
    #[must_use]
    pub fn new(
        formula: impl Into<String>,
        values: impl Into<String>,
        source: impl Into<String>,
    ) -> Why {
        Why { formula: formula.into(), values: values.into(), source: source.into() }
    }
}

/// How a setting stands, told in words and a mark as well as by colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// As good as it can be.
    Good,
    /// Usable, with something to know.
    Note,
    /// Look out.
    Mind,
}

/// Splits `"*40* drives *63*"` into figures (between stars) and words.
#[must_use]
pub fn line(marked: &str) -> Line {
    marked
        .split('*')
        .enumerate()
        .filter(|(_, text)| !text.is_empty())
        .map(|(at, text)| {
            let text = String::from(text);
            if at & 1 == 1 { Span::Figure(text) } else { Span::Word(text) }
        })
        .collect()
}

/// A small setting under the large one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fact {
    /// What it is.
    pub label: String,
    /// What it comes to.
    pub value: String,
    /// Whether it is seldom wanted: such facts are folded away where there are many.
    pub seldom: bool,
}

impl Fact {
    /// A labelled setting.
    #[must_use]
    pub fn new(label: impl Into<String>, value: impl Into<String>) -> Fact {
        Fact { label: label.into(), value: value.into(), seldom: false }
    }

    /// One that is seldom wanted.
    #[must_use]
    pub fn seldom(label: impl Into<String>, value: impl Into<String>) -> Fact {
        Fact { seldom: true, ..Fact::new(label, value) }
    }
}

/// So many facts of a card are in sight at the most.
pub const FACTS_IN_SIGHT: usize = 6;

/// Another way, one line of a list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Other {
    /// The setting.
    pub line: String,
    /// How it stands.
    pub note: String,
    /// Whether it can be set up on this machine; those that can't are shown only when asked for.
    pub usable: bool,
}

/// An answer as a screen, a card or a reader's voice takes it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Card {
    /// The setting itself, the largest thing.
    pub lines: Vec<Line>,
    /// How it stands.
    pub verdict: Option<(Tone, String)>,
    /// Smaller settings.
    pub facts: Vec<Fact>,
    /// What to draw.
    pub picture: Option<Picture>,
    /// What the other ways are called: "other trains".
    pub others_title: &'static str,
    /// The other ways, best first.
    pub others: Vec<Other>,
    /// Rows, where the answer is a table.
    pub table: Option<Table>,
}

/// Rows of settings, each under its name.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Table {
    /// What stands in each column: the name, the setting.
    pub heads: [&'static str; 2],
    /// The rows, in order.
    pub rows: Vec<TableRow>,
    /// Which of them belong together: what they are, and where the next begin. None where the rows
    /// are one list.
    pub groups: Vec<(String, usize)>,
    /// The same in fewer rows, for paper; none where there is no shorter form.
    pub in_short: Vec<TableRow>,
}

/// One row of a table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TableRow {
    /// What it is of.
    pub name: String,
    /// The setting; empty where there is none.
    pub setting: String,
    /// How it stands, told in a few words.
    pub note: String,
    /// The same as a mark; none where nothing is judged.
    pub tone: Option<Tone>,
}

impl Card {
    /// The facts that are in sight, and those that are folded away: the first that are wanted, then
    /// of the seldom ones as many as there is room for, each part in the card's own order.
    #[must_use]
    pub fn in_sight(&self) -> (Vec<&Fact>, Vec<&Fact>) {
        let wanted = self.facts.iter().filter(|fact| !fact.seldom).count().min(FACTS_IN_SIGHT);
        let (mut wanted, mut seldom) = (wanted, FACTS_IN_SIGHT.saturating_sub(wanted));
        self.facts.iter().partition(|fact| {
            let room = if fact.seldom { &mut seldom } else { &mut wanted };
            let seen = *room > 0;
            *room = room.saturating_sub(1);
            seen
        })
    }
}
