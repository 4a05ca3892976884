//! Records that survive a flat battery: each in two slots written in turn, the newest whole one
//! counts.
//!
//! A slot holds `1 <sequence> <CRC-32 in hex> <content>`: the version of this envelope, a number
//! that grows with every write, a sum over version, number and content.

/// Somewhere to keep strings: the browser's storage, or a map in the tests.
pub trait Keeper {
    /// The string under a key.
    fn get(&self, key: &str) -> Option<String>;
    /// Keeps a string under a key; false where it can't.
    fn set(&self, key: &str, value: &str) -> bool;
    /// Forgets a key.
    fn remove(&self, key: &str);
    /// Every key.
    fn keys(&self) -> Vec<String>;
}

const VERSION: u32 = 1;
const PREFIX: &str = "latheside.";
const ASIDE: &str = "latheside.aside.";
const CRC: crc::Crc<u32, crc::NoTable> = crc::Crc::<u32, crc::NoTable>::new(&crc::CRC_32_ISO_HDLC);

/// Why a record was not kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotKept {
    /// The storage is full or forbidden.
    Refused,
    /// A newer Latheside has written here; an older one must not.
    Newer,
}

/// What a slot turned out to hold.
enum Slot {
    Empty,
    Whole { sequence: u64, content: String },
    Newer,
    Damaged(String),
}

fn read_slot(keeper: &impl Keeper, key: &str) -> Slot {
    let Some(text) = keeper.get(key) else { return Slot::Empty };
    let mut parts = text.splitn(4, ' ');
    let version = parts.next().and_then(|version| version.parse::<u32>().ok());
    if version.is_some_and(|version| version > VERSION) {
        return Slot::Newer;
    }
    let whole = (|| {
        let sequence: u64 = parts.next()?.parse().ok()?;
        let sum = parts.next()?;
        let content = parts.next()?;
        (version == Some(VERSION) && sum == checksum(sequence, content))
            .then(|| Slot::Whole { sequence, content: content.to_owned() })
    })();
    whole.unwrap_or(Slot::Damaged(text))
}

/// The sum as it is written: eight hexadecimal digits.
fn checksum(sequence: u64, content: &str) -> String {
    let mut digest = CRC.digest();
    digest.update(format!("{VERSION} {sequence} ").as_bytes());
    digest.update(content.as_bytes());
    format!("{:08x}", digest.finalize())
}

fn slot_key(record: &str, slot: char) -> String {
    format!("{PREFIX}{record}.{slot}")
}

/// What was found under a record's name.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Kept {
    /// The newest whole content.
    pub content: Option<String>,
    /// Whether a damaged slot was set aside on the way.
    pub set_aside: bool,
    /// Whether a newer Latheside has written here.
    pub newer: bool,
}

/// Reads a record; a damaged slot is moved aside, never thrown away.
pub fn read(keeper: &impl Keeper, record: &str) -> Kept {
    let mut kept = Kept::default();
    let mut best: Option<(u64, String)> = None;
    for slot in ['a', 'b'] {
        let key = slot_key(record, slot);
        match read_slot(keeper, &key) {
            Slot::Empty => {}
            Slot::Newer => kept.newer = true,
            Slot::Whole { sequence, content } => {
                if best.as_ref().is_none_or(|(newest, _)| sequence > *newest) {
                    best = Some((sequence, content));
                }
            }
            Slot::Damaged(text) => {
                kept.set_aside = true;
                set_aside(keeper, &key, &text);
            }
        }
    }
    kept.content = best.map(|(_, content)| content);
    kept
}

/// Keeps a text that can't be used under a name of its own; it stays where it was if that fails.
pub fn set_aside(keeper: &impl Keeper, key: &str, text: &str) {
    let name = key.strip_prefix(PREFIX).unwrap_or(key);
    let aside = format!("{ASIDE}{name}.{:08x}", CRC.checksum(text.as_bytes()));
    if keeper.set(&aside, text) && keeper.get(&aside).as_deref() == Some(text) {
        keeper.remove(key);
    }
}

/// Everything that was ever set aside: its name and what it held.
pub fn aside(keeper: &impl Keeper) -> Vec<(String, String)> {
    let keys = in_order(keeper.keys().into_iter().filter(|key| key.starts_with(ASIDE)));
    keys.into_iter().filter_map(|key| keeper.get(&key).map(|text| (key, text))).collect()
}

/// Writes a record into its older slot and reads it back.
///
/// # Errors
///
/// [`NotKept`]; the newer slot still holds what was kept before.
pub fn write(keeper: &impl Keeper, record: &str, content: &str) -> Result<(), NotKept> {
    let mut newest: Option<(u64, char)> = None;
    let mut free = None;
    for slot in ['a', 'b'] {
        match read_slot(keeper, &slot_key(record, slot)) {
            Slot::Newer => return Err(NotKept::Newer),
            Slot::Empty => free = free.or(Some(slot)),
            Slot::Damaged(text) => {
                set_aside(keeper, &slot_key(record, slot), &text);
                free = Some(slot);
            }
            Slot::Whole { sequence, .. } => {
                if newest.is_none_or(|(best, _)| sequence > best) {
                    newest = Some((sequence, slot));
                }
            }
        }
    }
    let (sequence, last) = newest.unwrap_or((0, 'b'));
    let slot = free.unwrap_or(if last == 'a' { 'b' } else { 'a' });
    let sequence = sequence.saturating_add(1);
    let text = format!("{VERSION} {sequence} {} {content}", checksum(sequence, content));
    let key = slot_key(record, slot);
    if keeper.set(&key, &text) && keeper.get(&key).as_deref() == Some(text.as_str()) {
        Ok(())
    } else {
        Err(NotKept::Refused)
    }
}

/// Forgets a record.
pub fn forget(keeper: &impl Keeper, record: &str) {
    keeper.remove(&slot_key(record, 'a'));
    keeper.remove(&slot_key(record, 'b'));
}

/// The names of the records that begin so.
pub fn names(keeper: &impl Keeper, beginning: &str) -> Vec<String> {
    in_order(keeper.keys().into_iter().filter_map(|key| {
        let name = key.strip_prefix(PREFIX)?;
        let name = name.strip_suffix(".a").or_else(|| name.strip_suffix(".b"))?;
        (name.starts_with(beginning) && !key.starts_with(ASIDE)).then(|| name.to_owned())
    }))
}

/// Names in order, each once. Put in one by one: there are few, and a sort of their own for them
/// weighs more than all of them.
fn in_order(names: impl Iterator<Item = String>) -> Vec<String> {
    let mut ordered: Vec<String> = Vec::new();
    for name in names {
        if let Err(at) = ordered.binary_search(&name) {
            ordered.insert(at, name);
        }
    }
    ordered
}

/// The record that a key of the storage belongs to.
pub fn record_of(key: &str) -> Option<&str> {
    let name = key.strip_prefix(PREFIX)?;
    name.strip_suffix(".a").or_else(|| name.strip_suffix(".b"))
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use std::cell::{Cell, RefCell};
    use std::collections::BTreeMap;

    /// Storage in memory that can be told to fail.
    #[derive(Default)]
    pub(crate) struct Memory {
        pub(crate) map: RefCell<BTreeMap<String, String>>,
        /// How many more writes succeed; none for no limit.
        pub(crate) writes_left: Cell<Option<u32>>,
        /// Whether the failing write leaves half of itself behind.
        pub(crate) tears: Cell<bool>,
        /// How many more calls of any sort are carried out before the device dies; none for no limit.
        pub(crate) calls_left: Cell<Option<u32>>,
    }

    impl Memory {
        /// Whether the device is dead by now.
        fn dead(&self) -> bool {
            match self.calls_left.get() {
                None => false,
                Some(0) => true,
                Some(left) => {
                    self.calls_left.set(Some(left - 1));
                    false
                }
            }
        }
    }

    impl Keeper for Memory {
        fn get(&self, key: &str) -> Option<String> {
            if self.dead() {
                return None;
            }
            self.map.borrow().get(key).cloned()
        }
        fn set(&self, key: &str, value: &str) -> bool {
            if self.dead() {
                return false;
            }
            if let Some(left) = self.writes_left.get() {
                if left == 0 {
                    if self.tears.get() {
                        let half: String = value.chars().take(value.len() / 2).collect();
                        self.map.borrow_mut().insert(key.into(), half);
                    }
                    return false;
                }
                self.writes_left.set(Some(left - 1));
            }
            self.map.borrow_mut().insert(key.into(), value.into());
            true
        }
        fn remove(&self, key: &str) {
            if self.dead() {
                return;
            }
            self.map.borrow_mut().remove(key);
        }
        fn keys(&self) -> Vec<String> {
            self.map.borrow().keys().cloned().collect()
        }
    }

    #[test]
    fn the_newest_whole_slot_counts() {
        let memory = Memory::default();
        for n in 0..7 {
            write(&memory, "shop", &format!("content {n}")).unwrap();
            assert_eq!(read(&memory, "shop").content, Some(format!("content {n}")));
        }
        assert_eq!(memory.keys().len(), 2);
        assert_eq!(names(&memory, "sh"), ["shop"]);
        forget(&memory, "shop");
        assert_eq!(read(&memory, "shop"), Kept::default());
    }

    #[test]
    fn fault_01_a_write_cut_short_leaves_the_one_before() {
        let memory = Memory::default();
        write(&memory, "shop", "before").unwrap();
        for tears in [false, true] {
            memory.tears.set(tears);
            memory.writes_left.set(Some(0));
            assert_eq!(write(&memory, "shop", "after"), Err(NotKept::Refused));
            memory.writes_left.set(None);
            assert_eq!(read(&memory, "shop").content.as_deref(), Some("before"));
        }
    }

    /// Dead after any number of calls, a record holds what was last kept, or what was being kept;
    /// and what was damaged before is still there, in its slot or set aside.
    #[test]
    fn fault_01_killed_at_any_storage_call_nothing_kept_is_lost() {
        for calls in 0..60 {
            let memory = Memory::default();
            write(&memory, "shop", "0").unwrap();
            write(&memory, "run.x", "step 0").unwrap();
            memory.set("latheside.run.x.b", "1 9 damaged");
            memory.calls_left.set(Some(calls));
            let mut kept = ["0".to_owned(), "step 0".to_owned()];
            let mut under_way = kept.clone();
            for n in 1..5 {
                for (at, name, content) in
                    [(0, "shop", format!("{n}")), (1, "run.x", format!("step {n}"))]
                {
                    if memory.calls_left.get() == Some(0) {
                        continue;
                    }
                    under_way[at].clone_from(&content);
                    if write(&memory, name, &content).is_ok() {
                        kept[at] = content;
                    }
                }
            }
            memory.calls_left.set(None);
            for (at, name) in [(0, "shop"), (1, "run.x")] {
                let found = read(&memory, name).content.unwrap();
                assert!(found == kept[at] || found == under_way[at], "{calls}: {found}");
            }
            let everything: Vec<String> = memory.map.borrow().values().cloned().collect();
            assert!(everything.iter().any(|text| text == "1 9 damaged"), "{calls}");
        }
    }

    #[test]
    fn fault_02_full_at_any_write_each_record_holds_what_was_kept_last() {
        for writes in 0..14 {
            for tears in [false, true] {
                let memory = Memory::default();
                memory.tears.set(tears);
                memory.writes_left.set(Some(writes));
                let mut kept = [None, None];
                for n in 0..6 {
                    for (at, name) in [(0, "shop"), (1, "setup.k3x9")] {
                        match write(&memory, name, &format!("{name} {n}")) {
                            Ok(()) => kept[at] = Some(format!("{name} {n}")),
                            Err(why) => assert_eq!(why, NotKept::Refused),
                        }
                    }
                }
                for (at, name) in [(0, "shop"), (1, "setup.k3x9")] {
                    assert_eq!(read(&memory, name).content, kept[at], "{writes} {tears} {name}");
                }
                // Once there is room again, it is kept again.
                memory.writes_left.set(None);
                write(&memory, "shop", "again").unwrap();
                assert_eq!(read(&memory, "shop").content.as_deref(), Some("again"));
            }
        }
    }

    #[test]
    fn fault_03_forbidden_storage_is_owned_up_to_and_breaks_nothing() {
        let memory = Memory::default();
        memory.calls_left.set(Some(0));
        assert_eq!(write(&memory, "shop", "1"), Err(NotKept::Refused));
        assert_eq!(read(&memory, "shop"), Kept::default());
        assert!(aside(&memory).is_empty());
        forget(&memory, "shop");
        set_aside(&memory, "latheside.shop.a", "damaged");
    }

    /// Two tabs over one storage: each keeps the other's records, and of one record the later
    /// writing counts, the earlier being in its other slot still.
    #[test]
    fn fault_07_two_tabs_write_in_turn() {
        let memory = Memory::default();
        for n in 0..9 {
            write(&memory, "shop", &format!("first tab {n}")).unwrap();
            write(&memory, "setup.a", &format!("first tab {n}")).unwrap();
            write(&memory, "shop", &format!("second tab {n}")).unwrap();
            write(&memory, "setup.b", &format!("second tab {n}")).unwrap();
            assert_eq!(read(&memory, "shop").content, Some(format!("second tab {n}")));
            assert_eq!(read(&memory, "setup.a").content, Some(format!("first tab {n}")));
            assert_eq!(read(&memory, "setup.b").content, Some(format!("second tab {n}")));
            let held: Vec<String> = memory.map.borrow().values().cloned().collect();
            assert!(held.iter().any(|text| text.ends_with(&format!("first tab {n}"))));
        }
    }

    #[test]
    fn fault_04_every_flip_and_truncation_of_a_slot_falls_back_and_loses_nothing() {
        let whole = {
            let memory = Memory::default();
            write(&memory, "shop", "older").unwrap();
            write(&memory, "shop", "newer Ø 32 mm").unwrap();
            memory.map.into_inner()
        };
        let text = whole.get("latheside.shop.b").unwrap().clone();
        let mut damaged: Vec<String> =
            (0..text.len()).filter_map(|end| text.get(..end).map(str::to_owned)).collect();
        for at in 0..text.len() {
            for bit in 0..7 {
                let mut bytes = text.clone().into_bytes();
                bytes[at] ^= 1 << bit;
                damaged.extend(String::from_utf8(bytes));
            }
        }
        for bad in damaged {
            let memory = Memory::default();
            *memory.map.borrow_mut() = whole.clone();
            memory.map.borrow_mut().insert("latheside.shop.b".into(), bad.clone());
            let kept = read(&memory, "shop");
            assert_eq!(kept.content.as_deref(), Some("older"), "{bad}");
            if kept.newer {
                // A flip may make a later version of it: then nothing is touched.
                assert_eq!(memory.get("latheside.shop.b"), Some(bad));
            } else {
                assert_eq!(aside(&memory).len(), 1, "{bad}");
                assert_eq!(aside(&memory)[0].1, bad);
            }
        }
    }

    #[test]
    fn fault_05_a_newer_version_is_left_alone() {
        let memory = Memory::default();
        memory.set("latheside.shop.a", "2 9 00000000 something new");
        assert!(read(&memory, "shop").newer);
        assert_eq!(write(&memory, "shop", "old"), Err(NotKept::Newer));
        assert_eq!(memory.get("latheside.shop.a").as_deref(), Some("2 9 00000000 something new"));
        assert_eq!(memory.keys().len(), 1);
    }
}
