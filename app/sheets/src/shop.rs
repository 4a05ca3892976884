//! What is owned, as sentences with blanks.

use super::sentence::{FormView, form};
use super::{key, menu};
use crate::act::Act;
use latheside_core::record::{Record, Sentence, sentence};
use latheside_core::shop::{SECTIONS, SHOP, Section, Shop, contradictions};
use maud::{Markup, html};

/// The head of the shop's sheet: its name, to be typed over.
pub fn shop_head(name: &str) -> Markup {
    html! {
        header class="head" {
            h1 id="title" class="hidden" tabindex="-1" { "Shop" }
            input class="name" type="text" data-field="shop-name" aria-label="name of the shop"
                placeholder="Name this shop" maxlength="90" value=(name);
            (menu("this shop: more", &[
                (Act::Share, "Share the shop"),
                (Act::EmptyShop, "Start from nothing"),
                (Act::LastShop, "Bring the last one back"),
            ]))
        }
        p class="small" { "What you own. Leave out what you don't: an operation that needs it will ask." }
    }
}

/// A shop told in sentences, nothing in it to touch.
pub fn told(record: &Record) -> Markup {
    html! {
        @for section in SECTIONS {
            @let forms: Vec<String> = told_forms(section, record);
            @if !forms.is_empty() {
                section class="section" {
                    h2 { (section.title) }
                    @for form in forms { p { (form) } }
                }
            }
        }
    }
}

fn told_forms(section: &Section, record: &Record) -> Vec<String> {
    let plain = |form: &Record| sentence(form, section.sentences).plain();
    let said = |form: &&Record| keys(section).iter().any(|key| form.get(key).is_some());
    let mut forms: Vec<String> = Vec::new();
    if section.one_more.is_empty() {
        forms.extend(record.at(section.path).filter(said).map(plain));
    } else {
        let (parent, list) = section.path.rsplit_once('.').unwrap_or(("", section.path));
        if let Some(parent) = record.at(parent) {
            forms.extend(parent.records(list).map(plain));
        }
    }
    forms
}

/// A ground to choose.
pub struct Ground {
    /// Its word in storage.
    pub word: &'static str,
    /// What it is called.
    pub label: &'static str,
    /// Whether it is the one chosen.
    pub chosen: bool,
}

/// Half-typed entries of a form of the shop.
type Drafts<'a> = &'a dyn Fn(&str) -> Vec<(String, String, String)>;

/// The shop's sections.
pub fn shop(
    record: &Record,
    drafts: Drafts<'_>,
    editing: Option<&(String, &str)>,
    grounds: &[Ground],
) -> Markup {
    let wrong = contradictions(&Shop::new(record.clone()));
    html! {
        div class="sections" {
            @for section in SECTIONS {
                section class="section" {
                    h2 { (section.title) }
                    @if section.one_more.is_empty() {
                        (once(section, record, drafts, editing))
                    } @else {
                        (list(section, record, drafts, editing))
                    }
                    @for (at, why) in &wrong {
                        @if belongs(at, section) { p class="complaint" role="alert" { (why) } }
                    }
                }
            }
        }
        section class="section" {
            h2 { "Colours of the page" }
            div class="grounds" {
                @for ground in grounds {
                    button type="button" class="key" aria-pressed=(ground.chosen)
                        data-do=(Act::Ground(ground.word.to_owned())) { (ground.label) }
                }
            }
        }
    }
}

fn filled(
    path: &str,
    words: &Sentence,
    drafts: Drafts<'_>,
    editing: Option<&(String, &str)>,
) -> Markup {
    form(&FormView {
        form: path,
        sentence: words,
        drafts: &drafts(path),
        editing: editing.filter(|(form, _)| form == path).map(|(_, key)| *key),
    })
}

fn once(
    section: &Section,
    record: &Record,
    drafts: Drafts<'_>,
    editing: Option<&(String, &str)>,
) -> Markup {
    let keys = keys(section);
    let mut words = sentence(&form_at(record, section.path), section.sentences);
    // A form that several sections share offers in each only what that section speaks of.
    words.more.retain(|(key, _)| keys.contains(key));
    let of_section = |path: &str| {
        let mut found = drafts(path);
        found.retain(|(key, ..)| keys.contains(&key.as_str()));
        found
    };
    filled(section.path, &words, &of_section, editing)
}

fn list(
    section: &Section,
    record: &Record,
    drafts: Drafts<'_>,
    editing: Option<&(String, &str)>,
) -> Markup {
    let (parent, list) = section.path.rsplit_once('.').unwrap_or(("", section.path));
    let holder = record.at(parent);
    let forms: Vec<&Record> = holder.map(|form| form.records(list).collect()).unwrap_or_default();
    html! {
        @for (at, item) in forms.iter().enumerate() {
            div class="item" {
                div class="item-body" {
                    (filled(&format!("{}.{at}", section.path), &sentence(item, section.sentences), drafts, editing))
                }
                (key(&Act::TakeOut(section.path.to_owned(), at), "key", "Take out"))
            }
        }
        (key(&Act::OneMore(section.path.to_owned()), "key", &format!("Add {}", section.one_more)))
    }
}

fn keys(section: &Section) -> Vec<&'static str> {
    let blanks = |template: &'static str| {
        template.split('{').skip(1).filter_map(|tail| tail.split_once('}').map(|(key, _)| key))
    };
    section.sentences.iter().flat_map(|(_, template)| blanks(template)).collect()
}

/// Whether a complaint about a path belongs under a section.
fn belongs(at: &str, section: &Section) -> bool {
    let within = if section.path.is_empty() { Some(at) } else { at.strip_prefix(section.path) };
    match within {
        Some("") => true,
        Some(rest) => keys(section).contains(&rest.trim_start_matches('.')),
        None => false,
    }
}

/// The form at a path, empty where there is none yet.
fn form_at(record: &Record, path: &str) -> Record {
    record.at(path).cloned().unwrap_or_else(|| {
        let mut blank = Record::empty(&SHOP);
        blank.change(path, |form| form.clone()).unwrap_or(blank)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_section_asks_for_keys_that_its_form_has() {
        for section in SECTIONS {
            let path = if section.one_more.is_empty() {
                section.path.to_owned()
            } else {
                format!("{}.0", section.path)
            };
            let mut blank = Record::empty(&SHOP);
            let spec = blank.change(&path, |form| form.spec()).unwrap();
            for key in keys(section) {
                assert!(spec.field(key).is_some(), "{}: {key}", section.title);
            }
        }
    }

    #[test]
    fn every_complaint_has_a_section_to_stand_under() {
        for at in [
            "lathe.chasing_dials",
            "lathe.centres_teeth",
            "lathe.banjo.slot",
            "lathe.banjo",
            "lathe.spindle_speeds",
            "dividing.head.plates",
            "dividing.head.worm_ratio",
            "holding",
        ] {
            let sections = SECTIONS.iter().filter(|section| belongs(at, section)).count();
            assert_eq!(sections, 1, "{at}");
        }
    }
}
