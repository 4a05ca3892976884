//! What circles on one more plate would do: which of them make the most divisions possible.

use crate::dividing::{DividingError, Head, Kit, compound, differential, plain, ways};
use crate::gearing::more::{Added, Marks, More, Progress, SETS_MOST, sets};
use alloc::vec::Vec;

/// The search for the best circles under way.
///
/// A way of dividing uses one circle (plain and differential indexing) or two of one plate
/// (compound), never three: so for each number it is enough to know which single circles serve it
/// and which twos, and every set of three is judged by what is in it.
#[derive(Clone, Debug)]
pub struct Circles {
    head: Head,
    /// The numbers wanted that aren't possible yet, with their places among those wanted.
    wants: Vec<(usize, u32)>,
    served: Vec<bool>,
    sizes: Vec<u16>,
    add: u8,
    /// Which number, and which circle for it.
    at: (usize, usize),
    alone: Vec<Marks>,
    counts: Vec<u32>,
    all: Vec<Marks>,
    twos: Marks,
    complete: bool,
}

impl Circles {
    /// A search: so many circles on one more plate, of sizes to choose from, for these numbers of
    /// divisions.
    ///
    /// # Errors
    ///
    /// What [`ways`] refuses; [`DividingError::NothingOwned`] without a head;
    /// [`DividingError::TooManyCircles`] where there are more sets of circles than are tried, or none or more than
    /// three are to be added.
    pub fn new(kit: &Kit, wants: &[u32], sizes: &[u16], add: u8) -> Result<Circles, DividingError> {
        kit.check()?;
        let head = kit.head.clone().ok_or(DividingError::NothingOwned)?;
        let sizes = crate::dividing::sizes(sizes.iter().copied().filter(|holes| *holes > 1));
        let count = sets::count(sizes.len() as u32, add);
        if !(1..=3).contains(&add) || count > SETS_MOST {
            return Err(DividingError::TooManyCircles { circles: sizes.len() });
        }
        let mut complete = true;
        let mut served = Vec::new();
        let mut open = Vec::new();
        for (place, &into) in wants.iter().enumerate() {
            let possible = match ways(into, kit) {
                Ok(found) => {
                    complete &= found.complete;
                    found.found.all() > 0
                }
                Err(DividingError::NoWay { .. }) => false,
                Err(why) => return Err(why),
            };
            served.push(possible);
            if !possible {
                open.push((place, into));
            }
        }
        Ok(Circles {
            head,
            wants: open,
            served,
            twos: Marks::new(sets::count(sizes.len() as u32, 2)),
            sizes,
            add,
            at: (0, 0),
            alone: Vec::new(),
            counts: alloc::vec![0; count as usize],
            all: Vec::new(),
            complete,
        })
    }

    /// Tries so many more circles for a number, each with all the others.
    pub fn step(&mut self, count: usize) -> Progress {
        for _ in 0..count {
            let (want, circle) = self.at;
            let Some(&(_, into)) = self.wants.get(want) else { break };
            let Some(&holes) = self.sizes.get(circle) else {
                self.next();
                continue;
            };
            if circle == 0 {
                self.alone.push(Marks::new(self.sizes.len() as u32));
            }
            self.one(into, circle, holes);
            self.at.1 = circle.saturating_add(1);
            if self.at.1 >= self.sizes.len() {
                self.next();
            }
        }
        let each = self.sizes.len().max(1) as u64;
        let done = (self.at.0 as u64).saturating_mul(each).saturating_add(self.at.1 as u64);
        Progress { done, of: (self.wants.len() as u64).saturating_mul(each) }
    }

    /// One circle, alone and with each that is no larger.
    fn one(&mut self, into: u32, circle: usize, holes: u16) {
        let alone = Head { plates: Vec::from([Vec::from([holes])]), ..self.head.clone() };
        let gears = || {
            let (two, complete) = differential::two_pairs(into, &alone);
            (!two.is_empty(), complete)
        };
        let serves = !plain::exact(into, &alone).is_empty()
            || !differential::one_pair(into, &alone).is_empty()
            || {
                let (two, complete) = gears();
                self.complete &= complete;
                two
            };
        if serves {
            if let Some(marks) = self.alone.last_mut() {
                marks.put(circle as u32);
            }
            return;
        }
        if self.add < 2 {
            return;
        }
        for (place, &other) in self.sizes.iter().enumerate().take(circle) {
            let plate = Vec::from([other, holes]);
            let both = Head { plates: Vec::from([plate]), gears: Vec::new(), ..self.head.clone() };
            if !compound::exact(into, &both).is_empty() {
                self.twos.put(sets::number(&[place as u16, circle as u16]));
            }
        }
    }

    /// A number is done with: counts what serves it.
    fn next(&mut self) {
        let sizes = self.sizes.len() as u16;
        let count = |gears| sets::count(sizes.into(), gears);
        let mut twos = core::mem::replace(&mut self.twos, Marks::new(count(2)));
        let one = self.alone.last().cloned().unwrap_or_default();
        let all = match self.add {
            1 => one,
            _ => {
                twos.inherit(&one, sizes, 2);
                let mut threes = Marks::new(if self.add > 2 { count(3) } else { 0 });
                if self.add > 2 {
                    threes.inherit(&twos, sizes, 3);
                }
                if self.add > 2 { threes } else { twos }
            }
        };
        all.each(|set| {
            if let Some(count) = self.counts.get_mut(set) {
                *count = count.saturating_add(1);
            }
        });
        self.all.push(all);
        self.at = (self.at.0.saturating_add(1), 0);
    }

    /// What came of it, at most so many of the best sets listed. Here "gears" are circles.
    #[must_use]
    pub fn found(&self, listed: usize) -> More {
        let most = self.counts.iter().copied().max().unwrap_or(0);
        let mut best = Vec::new();
        let mut set = 0_u32;
        sets::each(self.sizes.len() as u16, self.add, |places| {
            let number = set;
            set = set.saturating_add(1);
            if best.len() >= listed || self.counts.get(number as usize) != Some(&most) {
                return;
            }
            let served = |marks: &[Marks], set: u32| {
                let with = self.wants.iter().zip(marks).filter(|(_, marks)| marks.has(set));
                with.map(|((place, _), _)| *place).collect::<Vec<usize>>()
            };
            let holes = |place: &u16| self.sizes.get(usize::from(*place)).copied().unwrap_or(0);
            best.push(Added {
                gears: places.iter().map(holes).collect(),
                gained: served(&self.all, number),
                alone: places.iter().map(|place| served(&self.alone, (*place).into())).collect(),
            });
        });
        More {
            best,
            gained: most,
            of: self.served.len() as u32,
            before: self.served.iter().filter(|served| **served).count() as u32,
            served: self.served.clone(),
            tried: self.counts.len() as u64,
            ties: self.counts.iter().filter(|count| **count == most).count() as u64,
            complete: self.complete && self.at.0 >= self.wants.len(),
        }
    }
}
