//! A row as it may be asked for: by its pitch, over a length, or between two ends.

use super::{MOST_PLACES, Row, SpacingError};
use crate::exact::Ratio;

/// What is said of a row; lengths in mm. Whatever is said twice has to agree.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Asked {
    /// How many places.
    pub places: Option<u32>,
    /// From one to the next.
    pub pitch: Option<Ratio>,
    /// From the first to the last.
    pub overall: Option<Ratio>,
    /// No further from one to the next than this: as few places as keep to it.
    pub apart: Option<Ratio>,
    /// The work from end to end.
    pub length: Option<Ratio>,
    /// From its end to the first.
    pub first: Option<Ratio>,
    /// From the last to the other end; as far as the first, where the ends decide and it isn't said.
    pub last: Option<Ratio>,
}

impl Asked {
    /// The row that comes of it.
    ///
    /// # Errors
    ///
    /// [`SpacingError`]: too little is said, or what is said doesn't agree.
    pub fn row(&self) -> Result<Row, SpacingError> {
        let overall = self.overall()?;
        let (places, pitch) = match (self.pitch, overall) {
            (Some(pitch), Some(overall)) => (self.places_at(pitch, overall)?, pitch),
            (Some(pitch), None) => (self.places.ok_or(SpacingError::NoCount)?, pitch),
            (None, Some(overall)) => {
                let places = match (self.places, self.apart) {
                    (Some(places), _) => places,
                    (None, Some(apart)) => count(enough(overall, apart)?)?,
                    (None, None) => return Err(SpacingError::NoCount),
                };
                (places, overall.div(count(places.into())?.saturating_sub(1).into())?)
            }
            (None, None) => return Err(SpacingError::NoLength),
        };
        let places = count(places.into())?;
        let overall = pitch.mul(places.saturating_sub(1).into())?;
        if let Some(apart) = self.apart.filter(|apart| pitch > *apart) {
            return Err(SpacingError::TooFar { pitch, apart, enough: enough(overall, apart)? });
        }
        let last = match (self.length, self.first) {
            (Some(length), Some(first)) => {
                let left = length.sub(first)?.sub(overall)?;
                if left.is_negative() {
                    return Err(SpacingError::PastEnd { by: left.abs(), length });
                }
                Some(left)
            }
            _ => self.last,
        };
        Ok(Row { places, pitch, overall, first: self.first, last })
    }

    /// From the first to the last, as far as it is said without counting.
    fn overall(&self) -> Result<Option<Ratio>, SpacingError> {
        let decides = self.pitch.is_none() && self.overall.is_none();
        let last = self.last.or(self.first.filter(|_| decides));
        let left = match (self.length, self.first, last) {
            (Some(length), Some(first), Some(last)) => {
                let ends = first.add(last)?;
                let left = length.sub(ends)?;
                if !left.is_positive() {
                    return Err(SpacingError::NoRoom { length, ends });
                }
                Some(left)
            }
            _ => None,
        };
        match (self.overall, left) {
            (Some(overall), Some(left)) if overall != left => {
                Err(SpacingError::EndsDisagree { left, overall })
            }
            (overall, left) => Ok(overall.or(left)),
        }
    }

    /// How many places a pitch makes of a length; as many as were asked for, or none.
    fn places_at(&self, pitch: Ratio, overall: Ratio) -> Result<u32, SpacingError> {
        if let Some(places) = self.places {
            let come_to = pitch.mul(places.saturating_sub(1).into())?;
            return match come_to == overall {
                true => Ok(places),
                false => Err(SpacingError::Disagree { places, pitch, come_to, overall }),
            };
        }
        let spaces = overall.div(pitch)?;
        match spaces.is_whole() {
            true => count(spaces.floor().saturating_add(1)),
            false => Err(SpacingError::NotWhole { overall, pitch, spaces: spaces.floor() }),
        }
    }
}

/// The fewest places that stand no further apart than this.
fn enough(overall: Ratio, apart: Ratio) -> Result<i128, SpacingError> {
    let spaces = overall.div(apart)?;
    let whole = spaces.floor().saturating_add(i128::from(!spaces.is_whole()));
    Ok(whole.saturating_add(1))
}

/// A number of places within what is worked out.
fn count(places: i128) -> Result<u32, SpacingError> {
    let fits = u32::try_from(places).ok().filter(|n| (2..=MOST_PLACES).contains(n));
    fits.ok_or(SpacingError::Count { places })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Unit;
    use alloc::string::ToString;
    use proptest::prelude::*;

    fn mm(n: i64) -> Option<Ratio> {
        Some(Ratio::whole(n))
    }

    #[test]
    fn the_same_row_asked_for_in_every_way() {
        // By hand: 8 places, 7 spaces of 32 mm are 224 mm; 250 mm leaves 13 mm at each end.
        let bar = Asked { length: mm(250), first: mm(13), ..Asked::default() };
        for asked in [
            Asked { places: Some(8), pitch: mm(32), ..bar },
            Asked { places: Some(8), overall: mm(224), ..bar },
            Asked { pitch: mm(32), overall: mm(224), ..bar },
            Asked { places: Some(8), ..bar },
            Asked { places: Some(8), last: mm(13), ..bar },
            Asked { apart: mm(32), ..bar },
            Asked { apart: mm(37), ..bar },
            Asked { pitch: mm(32), last: mm(13), ..bar },
            Asked {
                places: Some(8),
                pitch: mm(32),
                overall: mm(224),
                apart: mm(40),
                last: mm(13),
                ..bar
            },
        ] {
            let row = asked.row().unwrap();
            assert_eq!(
                (row.places, row.pitch, row.overall),
                (8, Ratio::whole(32), Ratio::whole(224)),
                "{asked:?}"
            );
            assert_eq!((row.first, row.last), (mm(13), mm(13)), "{asked:?}");
        }
    }

    #[test]
    fn like_fence_posts_the_spaces_come_out_equal() {
        let between = |length, first, apart| Asked {
            length: mm(length),
            first: mm(first),
            apart: mm(apart),
            ..Asked::default()
        };
        // By hand: 200 mm over 30 mm is 6 2/3 spaces, so 7 of 28 4/7 mm.
        let row = between(220, 10, 30).row().unwrap();
        assert_eq!((row.places, row.pitch), (8, Ratio::of(200, 7)));
        assert_eq!(row.at(7), Ok(Ratio::whole(200)), "the last is exact");
        // A length that comes out even takes no space more than it needs.
        assert_eq!(between(220, 10, 40).row().unwrap().places, 6);
    }

    #[test]
    fn what_does_not_agree_is_told_with_its_figures() {
        let none = Asked::default();
        let two = Ratio::whole(2);
        for (asked, words) in [
            (none, "how far apart they stand"),
            (Asked { pitch: mm(5), ..none }, "say how many"),
            (Asked { overall: mm(5), ..none }, "say how many"),
            (Asked { places: Some(1), pitch: mm(5), ..none }, "2 at the least"),
            (Asked { places: Some(1000), pitch: mm(5), ..none }, "999 at the most"),
            (Asked { overall: mm(10_000), apart: mm(1), ..none }, "that makes 10001 of them"),
            (
                Asked { overall: mm(200), pitch: mm(32), ..none },
                "6 of them are 192 mm, 7 are 224 mm",
            ),
            (
                Asked { places: Some(8), overall: mm(200), pitch: mm(32), ..none },
                "8 of them 32 mm apart are 224 mm from first to last, not 200 mm",
            ),
            (
                Asked { places: Some(5), overall: mm(200), apart: mm(40), ..none },
                "they would stand 50 mm apart, over 40 mm: 6 of them keep to it",
            ),
            (
                Asked { places: Some(8), length: mm(20), first: mm(10), ..none },
                "the ends take 20 mm of 20 mm",
            ),
            (
                Asked { places: Some(8), pitch: mm(32), length: mm(200), first: mm(10), ..none },
                "the last would stand 34 mm beyond the end of 200 mm",
            ),
            (
                Asked {
                    overall: mm(150),
                    places: Some(4),
                    length: mm(200),
                    first: mm(20),
                    last: mm(20),
                    ..none
                },
                "the ends leave 160 mm between the first and the last, not 150 mm",
            ),
        ] {
            let why = asked.row().unwrap_err().to_string();
            assert!(why.contains(words), "{asked:?}: {why}");
        }
        let inch = Asked { overall: Some(Ratio::of(127, 5)), pitch: Some(two), ..none };
        let why = inch.row().unwrap_err();
        assert!(why.say(Unit::Inch).starts_with("1 in isn't a whole number of"), "{why:?}");
    }

    proptest! {
        /// The plain way: add exact spaces up one by one, and see that the ends meet.
        #[test]
        fn the_row_fills_its_length_exactly(
            length in 1_i64..100_000, first in 0_i64..1000, last in 0_i64..1000, apart in 1_i64..5000, below in 1_i64..64,
        ) {
            let of = |n| Some(Ratio::of(n, below));
            let asked = Asked {
                length: of(length), first: of(first), last: of(last), apart: of(apart), ..Asked::default()
            };
            match asked.row() {
                Ok(row) => {
                    let mut at = Ratio::of(first, below);
                    for place in 0..row.places {
                        prop_assert_eq!(at, row.first.unwrap().add(row.at(place).unwrap()).unwrap());
                        at = at.add(row.pitch).unwrap();
                    }
                    let end = at.sub(row.pitch).unwrap().add(row.last.unwrap()).unwrap();
                    prop_assert_eq!(end, Ratio::of(length, below));
                    prop_assert!(row.pitch <= Ratio::of(apart, below));
                    // One place fewer would stand too far apart.
                    let fewer = row.overall.div(row.places.saturating_sub(2).into());
                    prop_assert!(fewer.is_err() || fewer.unwrap() > Ratio::of(apart, below));
                }
                Err(SpacingError::NoRoom { .. }) => prop_assert!(first + last >= length),
                Err(SpacingError::Count { places }) => {
                    prop_assert!(places > i128::from(MOST_PLACES));
                    prop_assert_eq!(places, i128::from((length - first - last + apart - 1) / apart + 1));
                }
                Err(other) => prop_assert!(false, "{:?}", other),
            }
        }

        #[test]
        fn nothing_panics(
            places: Option<u32>, pitch: Option<i64>, overall: Option<i64>, apart: Option<i64>,
            length: Option<i64>, first: Option<i64>, last: Option<i64>, below in 1_i64..,
        ) {
            let of = |n: Option<i64>| n.map(|n| Ratio::of(n, below));
            let asked = Asked {
                places, pitch: of(pitch), overall: of(overall), apart: of(apart), length: of(length),
                first: of(first), last: of(last),
            };
            if let Err(why) = asked.row() {
                prop_assert!(!why.say(Unit::Inch).is_empty());
            }
        }
    }
}
