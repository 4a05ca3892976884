//! A form as its sentence with blanks.

use crate::act::Act;
use latheside_core::record::{Piece, Sentence};
use maud::{Markup, html};

/// A form to be drawn: its sentence, and what is half typed in it.
pub struct FormView<'a> {
    /// The form's name in acts: an operation's place or a path of the shop.
    pub form: &'a str,
    /// Its sentence.
    pub sentence: &'a Sentence,
    /// Keys and texts that are not understood yet, each with what is wrong.
    pub drafts: &'a [(String, String, String)],
    /// The key that the keypad is open for.
    pub editing: Option<&'a str>,
}

impl FormView<'_> {
    /// What a blank is called.
    fn label<'a>(&self, key: &'a str) -> &'a str {
        let mut pieces = self.sentence.pieces.iter();
        pieces
            .find_map(|piece| match piece {
                Piece::Blank { key: other, label, .. } if *other == key => Some(*label),
                _ => None,
            })
            .or_else(|| {
                self.sentence.more.iter().find(|(other, _)| *other == key).map(|more| more.1)
            })
            .unwrap_or(key)
    }
}

/// The name of a blank's element.
pub fn element(form: &str, key: &str) -> String {
    let form = if form.is_empty() { "shop" } else { form };
    format!("blank-{}-{key}", form.replace('.', "-"))
}

/// The form's name as an act carries it.
pub(crate) fn form_word(form: &str) -> &str {
    if form.is_empty() { "shop" } else { form }
}

/// The sentence with its blanks, what is wrong under it, and what may be added.
pub fn form(view: &FormView) -> Markup {
    html! {
        p class="sentence" { (pieces(view)) }
        @for (key, _, why) in view.drafts {
            p class="complaint" id={ (element(view.form, key)) "-why" } role="alert" {
                (view.label(key)) ": " (why)
            }
        }
        @if !view.sentence.more.is_empty() {
            details class="more" data-fold={ "more-" (view.form) } {
                summary { "more to say" }
                div class="adds" {
                    @for (key, label) in &view.sentence.more {
                        @let act = Act::Blank(form_word(view.form).to_owned(), (*key).to_owned());
                        button type="button" class="add" id=(element(view.form, key)) data-do=(act) {
                            (label)
                        }
                    }
                }
            }
        }
    }
}

/// Words and blanks; a comma or a full stop stays with the blank before it, and the sign of a
/// diameter with the one after.
fn pieces(view: &FormView) -> Markup {
    let pieces = &view.sentence.pieces;
    let mut taken = 0;
    html! {
        @for (at, piece) in pieces.iter().enumerate() {
            @match piece {
                Piece::Words(words) => {
                    @let words = words.get(std::mem::take(&mut taken)..).unwrap_or("");
                    (if at + 1 < pieces.len() { words.strip_suffix(SIGN).unwrap_or(words) } else { words })
                }
                Piece::Blank { key, label, text, assumed, example } => {
                    @let mark = match pieces.get(at + 1) {
                        Some(Piece::Words(words)) if words.starts_with([',', '.', ';', ':']) => &words[..1],
                        _ => "",
                    };
                    @let before = match at.checked_sub(1).map(|before| &pieces[before]) {
                        Some(Piece::Words(words)) => words.as_str(),
                        _ => "",
                    };
                    ({ taken = mark.len(); html! {} })
                    (blank(view, key, label, text.as_deref(), *assumed, Beside {
                        next: before == " ",
                        across: before.ends_with(SIGN),
                        mark,
                        example,
                    }))
                }
            }
        }
    }
}

/// The sign of a diameter, before its blank.
const SIGN: &str = "Ø ";

/// What stands beside a blank and may not be parted from it.
#[derive(Default)]
pub(crate) struct Beside<'a> {
    /// Another blank, with nothing but a space between.
    next: bool,
    /// The sign of a diameter before it: its name says so, and the style draws it.
    across: bool,
    /// A comma or the like after it.
    mark: &'a str,
    /// What could stand in it while it is empty.
    example: &'a str,
}

/// One blank alone.
pub(crate) fn blank(
    view: &FormView,
    key: &str,
    label: &str,
    text: Option<&str>,
    assumed: bool,
    beside: Beside<'_>,
) -> Markup {
    let draft = view.drafts.iter().find(|(other, ..)| other == key);
    let shown = draft.map_or(text, |(_, typed, _)| Some(typed.as_str()));
    let shown = shown.filter(|text| !text.is_empty());
    let class = match (draft.is_some(), shown.is_some()) {
        (true, _) => "blank blank-unread",
        (false, false) => "blank blank-empty",
        (false, true) if assumed => "blank blank-assumed",
        (false, true) => "blank",
    };
    let short = shown.is_some_and(|text| text.chars().count() < 4);
    let open = view.editing == Some(key);
    let id = element(view.form, key);
    let spoken = match shown {
        Some(text) => format!("{label}: {text}"),
        None => format!("{label}: not entered"),
    };
    let act = Act::Blank(form_word(view.form).to_owned(), key.to_owned());
    html! {
        button type="button" id=(id) class={ (class) @if beside.next { " blank-next" } @if beside.across { " blank-across" } @if short { " blank-short" } }
            aria-label=(spoken) data-do=(act)
            aria-expanded=(open)
            aria-describedby=[draft.map(|_| format!("{id}-why"))]
        {
            @match shown {
                Some(text) => (text),
                None if beside.example.is_empty() => (label),
                None => { "___ (" (beside.example) ")" }
            }
            @if !beside.mark.is_empty() { i { (beside.mark) } }
        }
    }
}
