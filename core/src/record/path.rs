//! Forms within forms, by path: `lathe.dials.cross`, `holding.0`.

use super::{Record, Shape, Value};
use alloc::string::ToString;
use alloc::vec::Vec;

impl Record {
    /// The form at a path; the empty path is the form itself.
    #[must_use]
    pub fn at(&self, path: &str) -> Option<&Record> {
        let mut here = self;
        let mut steps = path.split('.').filter(|step| !step.is_empty()).peekable();
        while let Some(key) = steps.next() {
            here = match here.get(key)? {
                Value::Record(inner) => inner,
                Value::List(items) => match items.get(steps.next()?.parse::<usize>().ok()?)? {
                    Value::Record(inner) => inner,
                    _ => return None,
                },
                _ => return None,
            };
        }
        Some(here)
    }

    /// Changes the form at a path, making it where it is not there yet and taking it away where
    /// nothing is left in it; none where the path leads nowhere.
    pub fn change<R>(&mut self, path: &str, edit: impl FnOnce(&mut Record) -> R) -> Option<R> {
        let steps: Vec<&str> = path.split('.').filter(|step| !step.is_empty()).collect();
        self.change_at(&steps, edit)
    }

    fn change_at<R>(&mut self, steps: &[&str], edit: impl FnOnce(&mut Record) -> R) -> Option<R> {
        let Some((key, rest)) = steps.split_first() else { return Some(edit(self)) };
        match &self.spec().field(key)?.shape {
            Shape::Record(spec) => {
                let mut inner = match self.get(key) {
                    Some(Value::Record(inner)) => inner.clone(),
                    _ => Record::empty(spec),
                };
                let result = inner.change_at(rest, edit);
                let kept = !inner.is_empty();
                self.set(key, kept.then_some(Value::Record(inner)));
                result
            }
            Shape::List(Shape::Record(spec), longest, _) => {
                let (at, rest) = rest.split_first()?;
                let at: usize = at.parse().ok()?;
                let mut items = self.list(key).to_vec();
                if at > items.len() || at >= *longest {
                    return None;
                }
                if at == items.len() {
                    items.push(Value::Record(Record::empty(spec)));
                }
                let result = match items.get_mut(at)? {
                    Value::Record(inner) => inner.change_at(rest, edit),
                    _ => None,
                };
                self.set(key, Some(Value::List(items)));
                result
            }
            _ => None,
        }
    }

    /// Takes the form at that place out of a list.
    pub fn remove(&mut self, key: &str, at: usize) {
        let mut items = self.list(key).to_vec();
        if at < items.len() {
            items.remove(at);
        }
        self.set(key, (!items.is_empty()).then_some(Value::List(items)));
    }

    /// Whether nothing stands in it.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.values.iter().all(Option::is_none)
    }

    /// The path of an entry within a form at a path.
    #[must_use]
    pub fn path(parent: &str, key: &str) -> alloc::string::String {
        if parent.is_empty() { key.to_string() } else { alloc::format!("{parent}.{key}") }
    }
}
