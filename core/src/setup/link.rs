//! A setup in an address: `#s1.` and letters that any messenger carries.
//!
//! Version 1 is the setup's bytes squeezed, then a CRC-32 over the version and all of them, the
//! least byte first; the whole as base64url without padding.

use super::squeeze::{MOST, squeeze, unsqueeze};
use super::{Setup, file, wire};
use crate::record::{FileError, Record};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;
use data_encoding::BASE64URL_NOPAD;

const VERSION: u8 = 1;
/// The longest link that is read, in characters.
const LONGEST: usize = 4096;
/// The most spaces and line breaks at which a link is tried for its end.
const MOST_BREAKS: usize = 200;
/// What messengers put in to break a long word: soft hyphen, zero-width space and joiners, marks of
/// direction, byte order mark.
const UNSEEN: &[char] =
    &['\u{ad}', '\u{200b}', '\u{200c}', '\u{200d}', '\u{200e}', '\u{200f}', '\u{2060}', '\u{feff}'];
const CRC: crc::Crc<u32, crc::NoTable> = crc::Crc::<u32, crc::NoTable>::new(&crc::CRC_32_ISO_HDLC);

/// Why a link can't be opened.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum LinkError {
    /// Nothing in it looks like a setup.
    NotALink,
    /// Longer than any link made here.
    TooLong,
    /// Made by a newer Latheside.
    Newer,
    /// Letters are missing or changed.
    Damaged,
    /// Whole, but what it holds can't be.
    Impossible(FileError),
}

impl fmt::Display for LinkError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            LinkError::NotALink => f.write_str("this is no setup link: it holds no “#s1.” part"),
            LinkError::TooLong => write!(f, "this link is longer than {LONGEST} letters: ask for the file instead"),
            LinkError::Newer => f.write_str("this link was made by a newer Latheside: update, then open it again"),
            LinkError::Damaged => f.write_str(
                "this link is damaged: some letters are missing or changed. Ask for it again, or for the file",
            ),
            LinkError::Impossible(why) => write!(f, "this link holds something that can't be: {why}"),
        }
    }
}

impl core::error::Error for LinkError {}

/// The part of the address after `#`: the setup with as much of its shop as its operations use.
///
/// A very large setup's comes out longer than [`read_link`] takes: past 2,000 letters the file is the
/// better way.
#[must_use]
pub fn write_link(setup: &Setup) -> String {
    let bytes = wire::content(setup, &needed_shop(setup));
    // What is too large to squeeze is too long for a link either way.
    seal(if bytes.len() > MOST { bytes } else { squeeze(&bytes) })
}

/// The letters of those bytes behind their checksum.
fn seal(mut bytes: Vec<u8>) -> String {
    let sum = checksum(&bytes);
    bytes.extend(sum.to_le_bytes());
    format!("s{VERSION}.{}", BASE64URL_NOPAD.encode(&bytes))
}

/// The shop with only the sections that the operations are worked from.
fn needed_shop(setup: &Setup) -> Record {
    let mut shop = setup.shop.clone();
    for field in shop.spec().fields {
        let used = field.key == "name"
            || setup.operations.iter().any(|op| op.kind.from_shop.contains(&field.key));
        // A list of operations is what asks for a shop: a shop alone goes whole.
        if !used && !setup.operations.is_empty() {
            shop.set(field.key, None);
        }
    }
    shop
}

/// Opens a link: the whole address or its last part, whatever a messenger has added to it.
///
/// # Errors
///
/// A [`LinkError`] in plain words; nothing of a damaged link is used.
pub fn read_link(text: &str) -> Result<Setup, LinkError> {
    if text.len() > LONGEST.saturating_mul(4) {
        return Err(LinkError::TooLong);
    }
    let (letters, ends) = letters(body(&text.replace("%23", "#"))?);
    // Words may follow a link, and a link may be broken by spaces: its checksum tells.
    let ends = ends.into_iter().rev().filter(|end| *end <= LONGEST);
    let bytes = ends
        .filter_map(|end| opened(letters.get(..end)?))
        .next()
        .ok_or(if letters.len() > LONGEST { LinkError::TooLong } else { LinkError::Damaged })?;
    let content = unsqueeze(&bytes).ok_or(LinkError::Damaged)?;
    let node = wire::node(&content).ok_or(LinkError::Damaged)?;
    file::read_node(&node).map_err(LinkError::Impossible)
}

/// What stands behind the last `#s1.`, or behind `s1.` at the start.
fn body(text: &str) -> Result<&str, LinkError> {
    let bare = text.trim_start().trim_start_matches(['<', '(', '[', '"', '\'']);
    let parts = text.rsplit('#').chain([bare]);
    let version = |part: &str| -> Option<u8> {
        let (version, _) = part.trim_start().strip_prefix('s')?.split_once('.')?;
        let number = !version.is_empty() && version.bytes().all(|b| b.is_ascii_digit());
        number.then(|| version.parse().unwrap_or(u8::MAX))
    };
    let mut newer = false;
    for part in parts {
        match version(part) {
            Some(VERSION) => return Ok(part.split_once('.').map_or("", |(_, body)| body)),
            Some(version) => newer |= version > VERSION,
            None => {}
        }
    }
    Err(if newer { LinkError::Newer } else { LinkError::NotALink })
}

/// The letters up to the first that no link has, and the places where the link may end.
fn letters(body: &str) -> (String, Vec<usize>) {
    let mut letters = String::new();
    let mut ends = Vec::new();
    for c in body.chars() {
        if c.is_ascii_alphanumeric() || c == '-' || c == '_' {
            letters.push(c);
        } else if !(c.is_whitespace() || UNSEEN.contains(&c)) {
            break;
        } else if ends.last() != Some(&letters.len()) && ends.len() < MOST_BREAKS {
            ends.push(letters.len());
        }
    }
    ends.push(letters.len());
    (letters, ends)
}

/// The bytes within, where their checksum is right.
fn opened(letters: &str) -> Option<Vec<u8>> {
    let bytes = BASE64URL_NOPAD.decode(letters.as_bytes()).ok()?;
    let (content, sum) = bytes.split_last_chunk::<4>()?;
    (checksum(content) == u32::from_le_bytes(*sum)).then(|| content.to_vec())
}

fn checksum(content: &[u8]) -> u32 {
    let mut digest = CRC.digest();
    digest.update(&[VERSION]);
    digest.update(content);
    digest.finalize()
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;
    use proptest::prelude::*;

    fn bytes(longest: usize) -> impl Strategy<Value = Vec<u8>> {
        proptest::collection::vec(any::<u8>(), 0..longest)
    }

    /// What is opened can be sent on; whatever isn't is refused in few words.
    fn opened_or_refused(bytes: Vec<u8>) -> Result<(), TestCaseError> {
        match read_link(&seal(bytes)) {
            Ok(setup) => {
                let again = squeeze(&wire::content(&setup, &setup.shop));
                prop_assert_eq!(read_link(&seal(again)), Ok(setup));
            }
            Err(why) => prop_assert!(why.to_string().len() < 400, "{}", why),
        }
        Ok(())
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(64))]

        #[test]
        fn any_bytes_behind_a_right_checksum(bytes in bytes(300)) {
            opened_or_refused(bytes)?;
        }

        #[test]
        fn any_content_behind_a_right_checksum(bytes in bytes(300)) {
            opened_or_refused(squeeze(&bytes))?;
        }

        #[test]
        fn an_ordinary_setup_with_a_byte_changed(
            piece in 0..3_usize, at in any::<prop::sample::Index>(), to in any::<u8>(),
        ) {
            let mut bytes = super::super::primer::PRIMER[piece].to_vec();
            let at = at.index(bytes.len());
            bytes[at] = to;
            opened_or_refused(squeeze(&bytes))?;
        }
    }

    #[test]
    fn the_primer_is_of_setups() {
        for piece in super::super::primer::PRIMER {
            let node = wire::node(piece).unwrap();
            let setup = file::read_node(&node).unwrap();
            assert_eq!(wire::content(&setup, &setup.shop), *piece);
        }
    }
}
