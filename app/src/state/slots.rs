//! Records that survive a flat battery: each in two slots written in turn, the newest whole one
//! counts.
//!
//! A slot holds `1 <sequence> <CRC-32 in hex> <content>`: the version of this envelope, a number
//! that grows with every write, a sum over version, number and content.

/// Somewhere to keep strings: the browser's storage, or a map in the tests.
pub(crate) trait Keeper {
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
pub(crate) enum NotKept {
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
pub(crate) struct Kept {
    /// The newest whole content.
    pub(crate) content: Option<String>,
    /// Whether a damaged slot was set aside on the way.
    pub(crate) set_aside: bool,
    /// Whether a newer Latheside has written here.
    pub(crate) newer: bool,
}

/// Reads a record; a damaged slot is moved aside, never thrown away.
pub(crate) fn read(keeper: &impl Keeper, record: &str) -> Kept {
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
pub(crate) fn set_aside(keeper: &impl Keeper, key: &str, text: &str) {
    let name = key.strip_prefix(PREFIX).unwrap_or(key);
    let aside = format!("{ASIDE}{name}.{:08x}", CRC.checksum(text.as_bytes()));
    if keeper.set(&aside, text) && keeper.get(&aside).as_deref() == Some(text) {
        keeper.remove(key);
    }
}

/// Everything that was ever set aside: its name and what it held.
pub(crate) fn aside(keeper: &impl Keeper) -> Vec<(String, String)> {
    let mut keys: Vec<String> =
        keeper.keys().into_iter().filter(|key| key.starts_with(ASIDE)).collect();
    keys.sort();
    keys.into_iter().filter_map(|key| keeper.get(&key).map(|text| (key, text))).collect()
}

/// Writes a record into its older slot and reads it back.
///
/// # Errors
///
/// [`NotKept`]; the newer slot still holds what was kept before.
pub(crate) fn write(keeper: &impl Keeper, record: &str, content: &str) -> Result<(), NotKept> {
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
pub(crate) fn forget(keeper: &impl Keeper, record: &str) {
    keeper.remove(&slot_key(record, 'a'));
    keeper.remove(&slot_key(record, 'b'));
}

/// The names of the records that begin so.
pub(crate) fn names(keeper: &impl Keeper, beginning: &str) -> Vec<String> {
    let mut names: Vec<String> = keeper
        .keys()
        .into_iter()
        .filter_map(|key| {
            let name = key.strip_prefix(PREFIX)?;
            let name = name.strip_suffix(".a").or_else(|| name.strip_suffix(".b"))?;
            (name.starts_with(beginning) && !key.starts_with(ASIDE)).then(|| name.to_owned())
        })
        .collect();
    names.sort();
    names.dedup();
    names
}

/// The record that a key of the storage belongs to.
pub(crate) fn record_of(key: &str) -> Option<&str> {
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
    }

    impl Keeper for Memory {
        fn get(&self, key: &str) -> Option<String> {
            self.map.borrow().get(key).cloned()
        }
        fn set(&self, key: &str, value: &str) -> bool {
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
