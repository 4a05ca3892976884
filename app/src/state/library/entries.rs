//! What stands or is half typed in a blank.

use super::{Library, one_file};
use crate::platform;
use crate::state::Target;
use latheside_core::quantity::{Quantity, Unit};
use latheside_core::record::{Entry, Field, Shape, Value};
use latheside_core::shop::Shop;
use latheside_kept::Draft;
use leptos::prelude::*;

impl Library {
    /// The field of a blank and what stands or is half typed in it.
    pub(crate) fn entry(self, target: &Target, key: &str) -> Option<(&'static Field, String)> {
        let form = target.form();
        let find = |drafts: &[Draft]| {
            let found = drafts.iter().find(|draft| draft.form == form && draft.key == key);
            found.map(|draft| draft.text.clone())
        };
        let draft = match target {
            Target::Operation { setup, .. } => {
                let setups = self.setups.read_untracked();
                setups.iter().find(|saved| saved.id == *setup).and_then(|saved| find(&saved.drafts))
            }
            Target::Shop(_) => find(&self.shop_drafts.read_untracked()),
        };
        let (field, text) = match target {
            Target::Operation { setup, at } => {
                let setups = self.setups.read_untracked();
                let saved = setups.iter().find(|saved| saved.id == *setup)?;
                let entries = &saved.setup.operations.get(*at)?.entries;
                (entries.spec().field(key)?, entries.get(key).map(Value::text))
            }
            Target::Shop(path) => {
                let mut shop = self.shop.get_untracked();
                // A form that isn't there yet is asked for all the same.
                shop.change(path, |form| {
                    Some((form.spec().field(key)?, form.get(key).map(Value::text)))
                })??
            }
        };
        Some((field, draft.or(text).unwrap_or_default()))
    }

    /// What is half typed in a form: the key, the text, and what is wrong with it.
    pub(crate) fn drafts(self, target: &Target) -> Vec<(String, String, String)> {
        let form = target.form();
        let of_form = |drafts: &[Draft]| -> Vec<Draft> {
            drafts.iter().filter(|draft| draft.form == form).cloned().collect()
        };
        let drafts = match target {
            Target::Operation { setup, .. } => {
                let setups = self.setups.read();
                let saved = setups.iter().find(|saved| saved.id == *setup);
                saved.map(|saved| of_form(&saved.drafts)).unwrap_or_default()
            }
            Target::Shop(_) => of_form(&self.shop_drafts.read()),
        };
        drafts
            .into_iter()
            .filter_map(|draft| {
                let (field, _) = self.entry(target, &draft.key)?;
                let why = self.read_as(target, &field.shape, &draft.text).err()?;
                Some((draft.key, draft.text, why))
            })
            .collect()
    }

    /// The quantity that stands in a blank.
    pub(crate) fn quantity(self, target: &Target, key: &str) -> Option<Quantity> {
        match target {
            Target::Operation { setup, at } => {
                let setups = self.setups.read();
                let saved = setups.iter().find(|saved| saved.id == *setup)?;
                saved.setup.operations.get(*at)?.entries.quantity(key).cloned()
            }
            Target::Shop(path) => self.shop.read().at(path)?.quantity(key).cloned(),
        }
    }

    /// What could stand in a blank of an operation, given what is typed so far.
    pub(crate) fn suggestions(self, target: &Target, key: &str, text: &str) -> Vec<String> {
        let Target::Operation { setup, at } = target else { return Vec::new() };
        let file = self.one(setup, *at);
        file.map(|file| platform::works::suggest(&file, key, text)).unwrap_or_default()
    }

    /// A setup file of one operation alone, with the shop that it is worked for.
    fn one(self, id: &str, at: usize) -> Option<String> {
        let setups = self.setups.read();
        let saved = setups.iter().find(|saved| saved.id == id)?;
        let operation = saved.setup.operations.get(at)?.clone();
        let shop = if saved.own { self.shop.get() } else { saved.setup.shop.clone() };
        Some(one_file(operation, shop))
    }

    /// The shop whose units a bare number is taken in.
    fn units_of(self, target: &Target) -> Shop {
        Shop::new(match target {
            Target::Operation { setup, .. } => {
                let setups = self.setups.read_untracked();
                match setups.iter().find(|saved| saved.id == *setup) {
                    Some(saved) if !saved.own => saved.setup.shop.clone(),
                    _ => self.shop.get_untracked(),
                }
            }
            Target::Shop(_) => self.shop.get_untracked(),
        })
    }

    fn read_as(self, target: &Target, shape: &Shape, text: &str) -> Result<(), String> {
        let unit = shape.measure().map(|measure| self.units_of(target).bare_unit(measure));
        shape.enter(Entry { text, unit }).map(|_| ())
    }

    /// Takes what was typed into a blank: kept as an entry where it is understood, as a draft where
    /// it isn't yet.
    pub(crate) fn enter(self, target: &Target, key: &str, text: &str) {
        let shop = self.units_of(target);
        let form = target.form();
        match target {
            Target::Operation { setup, at } => self.change(setup, |saved| {
                let Some(operation) = saved.setup.operations.get_mut(*at) else { return };
                let unit = unit_of(operation.entries.spec().field(key), &shop);
                let outcome = operation.enter(key, Entry { text, unit });
                note(&mut saved.drafts, &form, key, text, outcome.is_err());
            }),
            Target::Shop(path) => {
                let mut outcome = None;
                self.shop.update(|record| {
                    outcome = record.change(path, |form| {
                        let unit = unit_of(form.spec().field(key), &shop);
                        form.enter(key, Entry { text, unit })
                    });
                });
                let failed = outcome.is_none_or(|outcome| outcome.is_err());
                self.shop_drafts.update(|drafts| note(drafts, &form, key, text, failed));
                self.keep_shop();
            }
        }
    }
}

fn unit_of(field: Option<&Field>, shop: &Shop) -> Option<Unit> {
    field?.shape.measure().map(|measure| shop.bare_unit(measure))
}

/// Keeps or drops the draft of a blank.
fn note(drafts: &mut Vec<Draft>, form: &str, key: &str, text: &str, unread: bool) {
    drafts.retain(|draft| draft.form != form || draft.key != key);
    if unread {
        drafts.push(Draft { form: form.to_owned(), key: key.to_owned(), text: text.to_owned() });
    }
}
