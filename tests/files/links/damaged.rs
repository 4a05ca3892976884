//! A damaged link is refused or opens to what was sent, never to something else.

use super::golden::rows;
use latheside_core::setup::{Setup, read_link};

/// A small generator of numbers, the same at each run: xorshift64 by G. Marsaglia, Journal of
/// Statistical Software 8 (14), 2003.
struct Dice(u64);

impl Dice {
    fn below(&mut self, most: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 % most.max(1) as u64).unwrap()
    }
}

const LETTERS: &[u8] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
const OTHERS: &[u8] = b" .#%23=+/\n&?\"";

fn damage(link: &str, dice: &mut Dice) -> String {
    let mut letters = link.as_bytes().to_vec();
    for _ in 0..=dice.below(3) {
        let at = dice.below(letters.len());
        let letter = match dice.below(64) {
            0 => OTHERS[dice.below(OTHERS.len())],
            _ => LETTERS[dice.below(LETTERS.len())],
        };
        match dice.below(6) {
            0 => letters.truncate(at),
            1 => letters.insert(at, letter),
            2 if at < letters.len() => drop(letters.remove(at)),
            3 => {
                let other = dice.below(letters.len());
                if at < letters.len() && other < letters.len() {
                    letters.swap(at, other);
                }
            }
            4 => letters.drain(..at / 8).for_each(drop),
            _ => {
                if let Some(slot) = letters.get_mut(at) {
                    *slot = letter;
                }
            }
        }
    }
    String::from_utf8(letters).unwrap()
}

#[test]
fn fault_12_none_of_a_hundred_thousand_damaged_links_is_taken_for_another() {
    none_is_taken_for_another(100_000);
}

#[test]
#[ignore = "takes minutes"]
fn fault_12_none_of_two_million_damaged_links_is_taken_for_another() {
    none_is_taken_for_another(2_000_000);
}

fn none_is_taken_for_another(many: usize) {
    let links: Vec<(String, Setup)> =
        rows().into_iter().map(|row| (row.link.clone(), read_link(&row.link).unwrap())).collect();
    let mut dice = Dice(0x1a7e_51de);
    let (mut same, mut refused) = (0, 0);
    for at in 0..many {
        let (link, setup) = &links[at % links.len()];
        let damaged = damage(link, &mut dice);
        if damaged == *link {
            continue;
        }
        match read_link(&damaged) {
            Ok(opened) => {
                assert_eq!(&opened, setup, "{damaged}");
                same += 1;
            }
            Err(_) => refused += 1,
        }
    }
    assert!(refused > many / 10 * 8 && same > 0, "{refused} refused, {same} none the worse");
}

#[test]
fn fault_12_every_letter_changed_and_every_end_cut_off() {
    for row in rows().iter().filter(|row| row.link.len() < 120) {
        let setup = read_link(&row.link).unwrap();
        for at in 0..row.link.len() {
            assert!(read_link(&row.link[..at]).is_err(), "{} cut at {at}", row.name);
            for letter in LETTERS {
                let mut changed = row.link.clone().into_bytes();
                changed[at] = *letter;
                let changed = String::from_utf8(changed).unwrap();
                match read_link(&changed) {
                    Ok(opened) => assert!(opened == setup && changed == row.link, "{changed}"),
                    Err(why) => assert!(!why.to_string().is_empty()),
                }
            }
        }
    }
}
