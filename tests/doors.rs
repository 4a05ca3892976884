//! Whatever comes in from outside, as bytes, by each of its doors: an entry, a thread's name, a file, a
//! link, a whole piece of work.
//!
//! A door panics where something falls, is read otherwise the second time, or is told in words that nobody
//! can use. The fuzzers in `fuzz` call each with bytes of their own finding; the tests at the foot call
//! them with what the fuzzers have kept, and with bytes at random.

use latheside_core::operation::{Operation, kind};
use latheside_core::quantity::{Measure, Quantity, Unit, show};
use latheside_core::record::Entry;
use latheside_core::setup::{
    Setup, read_file, read_link, read_node, write_file, write_link, write_node,
};
use latheside_core::threads;

use crate::forms::{Dice, any_setup, spoilt_setup};
use crate::sound::{answered, in_time};

/// A door by its name, which is its fuzzer's and that of the folder of what the fuzzer has kept.
pub type Door = (&'static str, fn(&[u8]));

/// All of them.
pub const DOORS: [Door; 5] =
    [("entry", entry), ("thread", thread), ("file", file), ("link", link), ("work", work)];

const MEASURES: [Measure; 4] = [Measure::Length, Measure::Lead, Measure::Angle, Measure::Ratio];

/// What is told is told in few words.
fn few_words(said: &str, most: usize) {
    assert!(!said.trim().is_empty(), "nothing is said");
    assert!(said.chars().count() < most, "{} letters: {said}", said.chars().count());
}

/// Something typed into a blank, of whatever measure, with and without a unit to take it in.
///
/// # Panics
///
/// Where it isn't read or refused as it should be.
pub fn entry(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    for measure in MEASURES {
        let bare = measure.units().iter().copied().map(Some);
        for bare in bare.chain([None]) {
            match in_time("an entry", || Quantity::parse(&text, measure, bare)) {
                Ok(read) => understood(&read, measure),
                Err(why) => few_words(&why.to_string(), 160),
            }
        }
    }
}

/// A quantity is kept as written, and every way to show it shows a figure.
fn understood(read: &Quantity, measure: Measure) {
    let again = Quantity::parse(read.text(), measure, None).unwrap_or_else(|why| panic!("{why}"));
    let same = (again.value(), again.pi(), again.unit()) == (read.value(), read.pi(), read.unit());
    assert!(same && !again.assumed(), "{read:?} is read as {again:?}");
    assert!(read.to_f64().is_finite() && read.to_f64().abs() < 4e6, "{read:?}");
    let mut shown = vec![
        show::mm(read.value()),
        show::inches(read.value()),
        show::angle(read.value()),
        show::exact_mm(read.value(), read.pi()),
        show::float_trimmed(read.to_f64(), 4),
        show::arc(read.to_f64()),
    ];
    shown.extend(show::in_the_other_system(read));
    for unit in [Unit::Mm, Unit::Inch, Unit::Thou, Unit::Tpi] {
        shown.push(show::length_like(read.value(), unit));
        shown.push(show::float_like(read.to_f64(), unit));
        shown.push(show::small_like(read.to_f64(), unit));
    }
    for figure in shown {
        few_words(&figure, 120);
        assert!(figure.contains(|c: char| c.is_ascii_digit()), "{read:?} is shown as {figure}");
    }
}

/// A thread's name: read, said again, suggested from, and worked out without a machine.
///
/// # Panics
///
/// Where it isn't read or refused as it should be.
pub fn thread(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    match in_time("a thread's name", || threads::parse(&text)) {
        Ok(read) => {
            let said = read.to_string();
            few_words(&said, 90);
            let again = threads::parse(&said).unwrap_or_else(|why| panic!("{said}: {why}"));
            // Its own words are the ones that it is known by: said once more, they stay.
            assert_eq!(again.to_string(), said, "{text}");
            assert_eq!(again.lead(), read.lead(), "{text} is said as {said}");
        }
        Err(why) => few_words(&why.to_string(), 400),
    }
    for one in in_time("suggestions", || threads::suggest(&text)) {
        let name = one.to_string();
        assert!(threads::parse(&name).is_ok(), "{name} is suggested, and isn't read");
    }
    let Some(kind) = kind("thread") else { panic!("no threads are cut any more") };
    let mut operation = Operation::new(kind);
    let entered = operation.enter("designation", Entry { text: &text, unit: None });
    match entered {
        Ok(()) => answered(&Setup { operations: vec![operation], ..Setup::default() }),
        Err(why) => few_words(&why, 400),
    }
}

/// A file: read, and then written and read again; or refused in one short line.
///
/// # Panics
///
/// Where it isn't.
pub fn file(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    match in_time("a file", || read_file(&text)) {
        Ok(setup) => {
            let written = write_file(&setup);
            assert_eq!(read_file(&written).as_ref(), Ok(&setup), "{written}");
            assert_eq!(read_node(&write_node(&setup)), Ok(setup));
        }
        Err(why) => few_words(&why.to_string(), 700),
    }
}

/// A link: as the text that somebody pastes, and as the bytes behind a checksum that is right.
///
/// # Panics
///
/// Where it isn't opened or refused as it should be.
pub fn link(bytes: &[u8]) {
    opened(&String::from_utf8_lossy(bytes));
    opened(&sealed(bytes));
}

fn opened(text: &str) {
    match in_time("a link", || read_link(text)) {
        Ok(setup) => {
            // Sent on, it carries what is worked from: all of it the first time, and so ever after.
            let sent = write_link(&setup);
            if let Ok(again) = read_link(&sent) {
                assert_eq!(write_link(&again), sent);
                assert_eq!(again.operations, setup.operations);
            }
        }
        Err(why) => few_words(&why.to_string(), 700),
    }
}

/// Bytes as a link of version 1 carries them: their checksum behind them, over the version and all of
/// them, in base64url without padding.
#[must_use]
pub fn sealed(content: &[u8]) -> String {
    const CRC: crc::Crc<u32> = crc::Crc::<u32>::new(&crc::CRC_32_ISO_HDLC);
    let mut digest = CRC.digest();
    digest.update(&[1]);
    digest.update(content);
    let all = [content, &digest.finalize().to_le_bytes()].concat();
    format!("s1.{}", data_encoding::BASE64URL_NOPAD.encode(&all))
}

/// A whole piece of work: any operations in any shop, each answered.
///
/// # Panics
///
/// Where an answer can't be read, or takes far too long.
pub fn work(bytes: &[u8]) {
    if let Some(setup) = setup_of(bytes) {
        answered(&setup);
    }
}

/// The most operations that bytes are taken to hold: a thousand of them only take longer than one.
const OPERATIONS: usize = 4;

/// The setup that bytes stand for: a file as it is, where they begin as one; else they are the dice for
/// an ordinary setup that is spoilt, or for any setup at all.
fn setup_of(bytes: &[u8]) -> Option<Setup> {
    let (first, rest) = bytes.split_first()?;
    if *first == b'{' {
        let mut setup = read_file(&String::from_utf8_lossy(bytes)).ok()?;
        setup.operations.truncate(OPERATIONS);
        return Some(setup);
    }
    let dice = &mut Dice::of(rest);
    let any = if first % 2 == 0 { spoilt_setup(dice) } else { any_setup(dice, OPERATIONS) };
    // A form filled in as its shape allows is a file that is read.
    Some(read_node(&any).unwrap_or_else(|why| panic!("{why}: {any:?}")))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::forms;
    use latheside_core::operation::KINDS;
    use latheside_core::record::{Shape, Spec};
    use latheside_core::shop::{SHOP, Shop};
    use proptest::prelude::*;
    use proptest::sample::Index;
    use std::collections::BTreeSet;
    use std::path::Path;

    fn at(name: &str) -> std::path::PathBuf {
        Path::new(env!("CARGO_MANIFEST_DIR")).join("fuzz").join(name)
    }

    /// What a fuzzer has kept: the inputs that together go everywhere that it has been.
    fn kept(door: &str) -> Vec<Vec<u8>> {
        let folder = at("kept").join(door);
        let mut files: Vec<_> = folder
            .read_dir()
            .unwrap_or_else(|why| panic!("{}: {why}", folder.display()))
            .map(|file| file.unwrap().path())
            .collect();
        files.sort();
        assert!(!files.is_empty(), "nothing is kept for {door}");
        files.iter().map(|file| std::fs::read(file).unwrap()).collect()
    }

    #[test]
    fn what_the_fuzzers_kept_comes_in_by_every_door() {
        for (name, door) in DOORS {
            kept(name).iter().for_each(|bytes| door(bytes));
        }
    }

    #[test]
    fn what_is_kept_goes_far() {
        let read = |door, read: fn(&str) -> bool| {
            let all = kept(door);
            let read = all.iter().filter(|bytes| read(&String::from_utf8_lossy(bytes))).count();
            assert!(read > 0 && read < all.len(), "{door}: {read} of {} are read", all.len());
        };
        read("thread", |text| threads::parse(text).is_ok());
        read("file", |text| read_file(text).is_ok());
        for measure in MEASURES {
            let bare = measure.units().first().copied();
            let reads = |bytes: &Vec<u8>| {
                Quantity::parse(&String::from_utf8_lossy(bytes), measure, bare).is_ok()
            };
            assert!(kept("entry").iter().any(reads), "no {measure:?} among the entries");
        }
        let sealed_ones = kept("link").iter().filter(|b| read_link(&sealed(b)).is_ok()).count();
        assert!(sealed_ones > 0, "no content of a link among the links");
        // Each kind is answered at least once.
        let mut answered = BTreeSet::new();
        for setup in kept("work").iter().filter_map(|bytes| setup_of(bytes)) {
            let shop = Shop::new(setup.shop.clone());
            for operation in &setup.operations {
                let name = operation.kind.name;
                if !answered.contains(name) && operation.answer(&shop).found.is_some() {
                    answered.insert(name);
                }
            }
        }
        for kind in KINDS {
            assert!(answered.contains(kind.name), "no {} is answered", kind.name);
        }
    }

    #[test]
    fn a_fuzzers_own_seal_is_the_links_seal() {
        let setup = read_file(forms::ORDINARY[0]).unwrap();
        let link = write_link(&setup);
        let letters = link.strip_prefix("s1.").unwrap();
        let bytes = data_encoding::BASE64URL_NOPAD.decode(letters.as_bytes()).unwrap();
        assert_eq!(sealed(&bytes[..bytes.len() - 4]), link);
    }

    #[test]
    fn bytes_as_dice_make_more_than_one_setup() {
        let made: BTreeSet<String> = (0..60_u8)
            .filter_map(|seed| {
                let mut next = seed;
                let dice: Vec<u8> = std::iter::repeat_with(|| {
                    next = next.wrapping_mul(109).wrapping_add(89);
                    next
                })
                .take(600)
                .collect();
                setup_of(&[&[seed], dice.as_slice()].concat()).map(|setup| write_file(&setup))
            })
            .collect();
        assert!(made.len() > 40, "{}", made.len());
    }

    fn keys(spec: &'static Spec, all: &mut BTreeSet<&'static str>) {
        fn of(shape: &'static Shape, all: &mut BTreeSet<&'static str>) {
            match shape {
                Shape::Choice(choices) => all.extend(choices.iter().map(|choice| choice.id)),
                Shape::List(inner, ..) | Shape::Pair(inner) => of(inner, all),
                Shape::Named(inner, key) => {
                    all.insert(key);
                    of(inner, all);
                }
                Shape::Record(spec) => keys(spec, all),
                Shape::Quantity(..) | Shape::Count(..) | Shape::Text(_) | Shape::Flag => {}
            }
        }
        for field in spec.fields {
            all.insert(field.key);
            of(&field.shape, all);
        }
    }

    /// The words of a file that its fuzzer tries, one a line as `"\"key\""`.
    #[test]
    fn a_files_dictionary_has_every_word_of_a_file() {
        let written = std::fs::read_to_string(at("words/file.dict")).unwrap();
        let lines: BTreeSet<&str> = written.lines().collect();
        let mut all = BTreeSet::new();
        keys(&SHOP, &mut all);
        for kind in KINDS {
            all.insert(kind.name);
            keys(kind.spec, &mut all);
        }
        let line = |word: &&str| format!("\"\\\"{word}\\\"\"");
        let missing: Vec<String> =
            all.iter().map(line).filter(|line| !lines.contains(line.as_str())).collect();
        assert!(missing.is_empty(), "add to tests/fuzz/words/file.dict:\n{}", missing.join("\n"));
    }

    /// Bytes at random, and what the fuzzers kept with some of its bytes changed.
    fn bytes() -> impl Strategy<Value = Vec<u8>> {
        let kept: Vec<Vec<u8>> = DOORS.iter().flat_map(|(name, _)| kept(name)).collect();
        let changes = prop::collection::vec((any::<Index>(), any::<u8>(), 0..4_u8), 0..6);
        let changed = (prop::sample::select(kept), changes).prop_map(|(mut bytes, changes)| {
            for (at, byte, how) in changes {
                if bytes.is_empty() {
                    bytes.push(byte);
                }
                let at = at.index(bytes.len());
                match how {
                    0 => bytes.truncate(at),
                    1 => drop(bytes.remove(at)),
                    2 => bytes.insert(at, byte),
                    _ => bytes[at] = byte,
                }
            }
            bytes
        });
        prop_oneof![1 => prop::collection::vec(any::<u8>(), 0..2000), 3 => changed]
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(200))]

        #[test]
        fn any_bytes_come_in_by_any_door(bytes in bytes(), door in 0..DOORS.len()) {
            DOORS[door].1(&bytes);
        }
    }
}
