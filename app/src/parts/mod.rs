//! Furniture of the rooms: blanks, the keypad, an answer's card, the sheet's head and foot.

mod blank;
mod card;
mod keypad;
mod menu;
mod notices;
mod picture;
mod sentence;
mod title_block;

pub(crate) use blank::Blank;
pub(crate) use card::{AnswerCard, lines};
pub(crate) use keypad::Keypad;
pub(crate) use menu::{Menu, MenuKey};
pub(crate) use notices::NoticeBar;
pub(crate) use picture::drawn;
pub(crate) use sentence::SentenceView;
pub(crate) use title_block::{TitleBlock, name_of};
