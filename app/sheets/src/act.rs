//! Everything that a tap can do, as written beside the thing to tap.
//!
//! The sheets are drawn as plain HTML; what can be touched carries its act in `data-do`, and one
//! listener hands it on.

use std::fmt;

/// What a tap does.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Act {
    /// Opens the keypad for a blank: its form and its key.
    Blank(String, String),
    /// Types a key's characters.
    Type(String),
    /// Takes the last character off.
    Rub,
    /// Enters a choice or a suggestion and closes the keypad.
    Choose(String),
    /// Closes the keypad.
    Done,
    /// Goes on to the next blank of the sentence.
    Next,
    /// Moves an operation up.
    Up(usize),
    /// Moves an operation down.
    Down(usize),
    /// Puts an operation in once more.
    Twice(usize),
    /// Takes an operation out.
    Out(usize),
    /// Puts the operations into another order: their present places with spaces between.
    Arrange(String),
    /// Adds an operation of a kind.
    Add(String),
    /// Shares the setup in view, or the shop.
    Share,
    /// The same with the place on the bench.
    HandOn,
    /// Saves the setup in view as a file.
    Export,
    /// Duplicates the setup in view.
    Duplicate,
    /// Deletes the setup in view.
    Delete,
    /// Brings back what was deleted or taken out last.
    BringBack,
    /// Works the setup for the person's own shop, or for the one it came with.
    Own(bool),
    /// Begins a setup.
    NewSetup,
    /// Opens the link pasted.
    OpenLink,
    /// Saves the setup of the link in view; takes a shop that came alone as one's own.
    SaveLink,
    /// One more in a list of the shop.
    OneMore(String),
    /// Takes one out of a list of the shop.
    TakeOut(String, usize),
    /// Chooses a ground.
    Ground(String),
    /// Starts the shop from nothing.
    EmptyShop,
    /// Brings the last shop back.
    LastShop,
    /// The present step is done.
    Forward,
    /// Back to the step before.
    Back,
    /// The present step is not done yet.
    NotYet,
    /// The work once more from the start.
    Again,
    /// Breaks the run off and begins another.
    Over,
    /// On to the next step with the present one not done.
    Skip,
    /// The present step is done once more.
    Repeat,
    /// Keeps what was typed as a note on the present step.
    Note,
    /// Keeps it as what went wrong there.
    Wrong,
    /// Takes an entry out of the run's record.
    Unsay(usize),
    /// Takes a notice down.
    Seen(usize),
    /// Lets the newer page take over.
    Update,
    /// Saves everything as one file.
    Backup,
    /// Asks the device to keep what is saved.
    Persist,
    /// Takes up the browser's offer to install the page.
    Install,
    /// Saves what was set aside as a file.
    SaveAside,
    /// Puts away what was said.
    PutAway,
    /// Prints what is in view.
    Print,
    /// Saves an operation's scale at full size as a file.
    Strip(usize),
    /// Saves an operation's rows as a file.
    Rows(usize),
}

impl fmt::Display for Act {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Act::Blank(form, key) => write!(f, "blank {form} {key}"),
            Act::Type(text) => write!(f, "type {text}"),
            Act::Choose(text) => write!(f, "choose {text}"),
            Act::Up(at) => write!(f, "up {at}"),
            Act::Down(at) => write!(f, "down {at}"),
            Act::Twice(at) => write!(f, "twice {at}"),
            Act::Out(at) => write!(f, "out {at}"),
            Act::Arrange(places) => write!(f, "arrange {places}"),
            Act::Add(kind) => write!(f, "add {kind}"),
            Act::Own(own) => write!(f, "own {}", u8::from(*own)),
            Act::OneMore(path) => write!(f, "one-more {path}"),
            Act::TakeOut(path, at) => write!(f, "take-out {path} {at}"),
            Act::Ground(word) => write!(f, "ground {word}"),
            Act::Seen(at) => write!(f, "seen {at}"),
            Act::Strip(at) => write!(f, "strip {at}"),
            Act::Rows(at) => write!(f, "rows {at}"),
            Act::Unsay(at) => write!(f, "unsay {at}"),
            plain => f.write_str(plain.word()),
        }
    }
}

/// The acts that are a word alone.
const WORDS: &[(&str, Act)] = &[
    ("rub", Act::Rub),
    ("done", Act::Done),
    ("next", Act::Next),
    ("share", Act::Share),
    ("hand-on", Act::HandOn),
    ("export", Act::Export),
    ("duplicate", Act::Duplicate),
    ("delete", Act::Delete),
    ("bring-back", Act::BringBack),
    ("new-setup", Act::NewSetup),
    ("open-link", Act::OpenLink),
    ("save-link", Act::SaveLink),
    ("empty-shop", Act::EmptyShop),
    ("last-shop", Act::LastShop),
    ("forward", Act::Forward),
    ("back", Act::Back),
    ("not-yet", Act::NotYet),
    ("again", Act::Again),
    ("over", Act::Over),
    ("skip", Act::Skip),
    ("repeat", Act::Repeat),
    ("note", Act::Note),
    ("wrong", Act::Wrong),
    ("update", Act::Update),
    ("backup", Act::Backup),
    ("persist", Act::Persist),
    ("install", Act::Install),
    ("save-aside", Act::SaveAside),
    ("put-away", Act::PutAway),
    ("print", Act::Print),
];

impl Act {
    fn word(&self) -> &'static str {
        WORDS.iter().find(|(_, act)| act == self).map_or("", |(word, _)| word)
    }

    /// The act that a `data-do` names.
    pub fn parse(text: &str) -> Option<Act> {
        if let Some((_, act)) = WORDS.iter().find(|(word, _)| *word == text) {
            return Some(act.clone());
        }
        let (word, rest) = text.split_once(' ')?;
        let number = || rest.parse::<usize>().ok();
        Some(match word {
            "blank" => {
                let (form, key) = rest.rsplit_once(' ')?;
                Act::Blank(form.to_owned(), key.to_owned())
            }
            "type" => Act::Type(rest.to_owned()),
            "choose" => Act::Choose(rest.to_owned()),
            "up" => Act::Up(number()?),
            "down" => Act::Down(number()?),
            "twice" => Act::Twice(number()?),
            "out" => Act::Out(number()?),
            "arrange" => Act::Arrange(rest.to_owned()),
            "add" => Act::Add(rest.to_owned()),
            "own" => Act::Own(rest == "1"),
            "one-more" => Act::OneMore(rest.to_owned()),
            "take-out" => {
                let (path, at) = rest.rsplit_once(' ')?;
                Act::TakeOut(path.to_owned(), at.parse().ok()?)
            }
            "ground" => Act::Ground(rest.to_owned()),
            "seen" => Act::Seen(number()?),
            "strip" => Act::Strip(number()?),
            "rows" => Act::Rows(number()?),
            "unsay" => Act::Unsay(number()?),
            _ => return None,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_act_prints_and_parses_to_itself() {
        let mut acts: Vec<Act> = WORDS.iter().map(|(_, act)| act.clone()).collect();
        acts.extend([
            Act::Blank("lathe.dials.cross".into(), "division".into()),
            Act::Blank("shop".into(), "name".into()),
            Act::Type(" tpi".into()),
            Act::Choose("10 mm collet".into()),
            Act::Choose(String::new()),
            Act::Up(3),
            Act::Down(0),
            Act::Twice(999),
            Act::Out(1),
            Act::Arrange("2 0 1".into()),
            Act::Add("part-off".into()),
            Act::Own(true),
            Act::Own(false),
            Act::OneMore("lathe.chasing_dials".into()),
            Act::TakeOut("holding".into(), 2),
            Act::Ground("sun".into()),
            Act::Seen(0),
            Act::Strip(2),
            Act::Rows(0),
            Act::Unsay(12),
        ]);
        for act in acts {
            assert_eq!(Act::parse(&act.to_string()), Some(act));
        }
        assert_eq!(Act::parse("up x"), None);
        assert_eq!(Act::parse(""), None);
    }
}
