//! What belongs to one piece of work alone: the entries that take what was measured on it, and
//! what may have moved while nobody stood by.

use super::Operation;

impl Operation {
    /// Empties the blanks that were filled by measuring one piece, for the next; whether any was.
    pub fn forget_measured(&mut self) -> bool {
        let mut any = false;
        for key in self.kind.measured {
            any |= self.entries.get(key).is_some();
            self.entries.set(key, None);
        }
        any
    }

    /// What to look at before going on after a while away.
    #[must_use]
    pub fn on_return(&self) -> &'static str {
        self.works().map_or("", |works| works.on_return)
    }
}

#[cfg(test)]
mod tests {
    use super::super::{KINDS, WORKS};
    use super::*;
    use alloc::vec::Vec;

    #[test]
    fn every_measuring_entry_is_one_that_its_kind_has() {
        let mut any = 0;
        for kind in KINDS {
            for key in kind.measured {
                assert!(kind.spec.field(key).is_some(), "{}.{key}", kind.name);
                any += 1;
            }
            assert!(Operation::new(kind).on_return().starts_with("Look before"));
        }
        assert!(any > 4, "threads, sizes, fits and tapers are measured");
    }

    #[test]
    fn every_kind_has_its_works() {
        let works: Vec<&str> = WORKS.iter().map(|works| works.kind.name).collect();
        let kinds: Vec<&str> = KINDS.iter().map(|kind| kind.name).collect();
        assert_eq!(works, kinds, "the two lists go alike");
    }
}
