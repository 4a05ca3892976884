//! The drawer: which sizes of change gear are owned, and how many of each.

use super::GearingError;
use super::tables::sort;
use alloc::vec::Vec;

/// The most gears that a drawer may hold.
pub const GEARS_MOST: usize = 100;
/// The most teeth that a gear may have.
pub const TEETH_MOST: u32 = 999;

/// The change gears owned, smallest first.
///
/// ```
/// use latheside_core::gearing::Drawer;
/// let drawer = Drawer::new(&[40, 20, 20, 127]).unwrap();
/// assert_eq!(drawer.owned(20), 2);
/// assert_eq!(drawer.gears(), 4);
/// ```
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Drawer {
    teeth: Vec<u16>,
    owned: Vec<u8>,
}

impl Drawer {
    /// A drawer from the list of its gears in any order, a size as often as it is owned.
    /// An empty one is allowed; nothing can be searched for in it.
    ///
    /// # Errors
    ///
    /// [`GearingError::TooManyGears`], [`GearingError::NoTeeth`], [`GearingError::TooManyTeeth`].
    pub fn new(gears: &[u32]) -> Result<Drawer, GearingError> {
        if gears.len() > GEARS_MOST {
            return Err(GearingError::TooManyGears(gears.len()));
        }
        let mut sorted = Vec::with_capacity(gears.len());
        for &teeth in gears {
            match u16::try_from(teeth) {
                Ok(0) => return Err(GearingError::NoTeeth),
                Ok(_) if teeth <= TEETH_MOST => sorted.push(u64::from(teeth)),
                _ => return Err(GearingError::TooManyTeeth(teeth)),
            }
        }
        sort(&mut sorted);
        let mut drawer = Drawer::default();
        for teeth in sorted {
            let teeth = teeth as u16;
            match (drawer.teeth.last(), drawer.owned.last_mut()) {
                (Some(&last), Some(owned)) if last == teeth => *owned = owned.saturating_add(1),
                _ => {
                    drawer.teeth.push(teeth);
                    drawer.owned.push(1);
                }
            }
        }
        Ok(drawer)
    }

    /// How many gears there are, those of one size counted each.
    #[must_use]
    pub fn gears(&self) -> usize {
        self.owned.iter().map(|&n| usize::from(n)).sum()
    }

    /// How many of this size are owned.
    #[must_use]
    pub fn owned(&self, teeth: u16) -> u8 {
        let place = self.teeth.binary_search(&teeth).ok();
        place.and_then(|at| self.owned.get(at)).copied().unwrap_or(0)
    }

    /// Each size, smallest first, and how many of it are owned.
    pub fn sizes(&self) -> impl Iterator<Item = (u16, u8)> + '_ {
        self.teeth.iter().copied().zip(self.owned.iter().copied())
    }

    /// The sizes alone, smallest first: a gear's place here is its number in the search.
    pub(super) fn teeth(&self) -> &[u16] {
        &self.teeth
    }

    /// How many of the size in that place are owned.
    pub(super) fn owned_at(&self, place: u8) -> u8 {
        self.owned.get(usize::from(place)).copied().unwrap_or(0)
    }

    /// How many teeth the size in that place has.
    pub(super) fn teeth_at(&self, place: u8) -> u16 {
        self.teeth.get(usize::from(place)).copied().unwrap_or(1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::string::ToString;
    use alloc::vec;

    #[test]
    fn a_size_is_counted_as_often_as_it_is_owned() {
        let drawer = Drawer::new(&[60, 20, 20, 40, 20]).unwrap();
        assert_eq!(drawer.sizes().collect::<Vec<_>>(), vec![(20, 3), (40, 1), (60, 1)]);
        assert_eq!((drawer.owned(20), drawer.owned(21)), (3, 0));
        assert_eq!(Drawer::new(&[]).unwrap().gears(), 0);
    }

    #[test]
    fn what_is_no_gear_is_refused_with_its_own_number() {
        assert_eq!(Drawer::new(&[20, 0]), Err(GearingError::NoTeeth));
        assert_eq!(Drawer::new(&[999]).unwrap().gears(), 1);
        for teeth in [1000, 65_536 + 20, u32::MAX] {
            let why = Drawer::new(&[20, teeth]).unwrap_err();
            assert!(why.to_string().contains(&teeth.to_string()), "{why}");
        }
        let why = Drawer::new(&vec![20; 300]).unwrap_err();
        assert_eq!(why.to_string(), "300 gears are more than the 100 that a drawer may hold");
        assert!(Drawer::new(&vec![20; 100]).is_ok());
    }
}
