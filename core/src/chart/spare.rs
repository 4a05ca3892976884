//! Gears that are never needed: without them nothing that is wanted is cut any worse.

use super::lathe::{Lathe, NoLathe};
use crate::exact::Ratio;
use crate::gearing::more::Progress;
use crate::gearing::{Drawer, Tables};
use crate::threads::Lead;
use alloc::string::ToString;
use alloc::vec::Vec;

/// Which gears could be spared.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Spared {
    /// The sizes of which one could be spared, whichever of them alone, smallest first.
    pub each: Vec<u16>,
    /// Gears that could all be spared at once, in the order in which they were tried, those that
    /// the best trains use least first. None of the rest could go as well; that no other choice would be
    /// larger isn't promised.
    pub together: Vec<u16>,
}

/// The search for them under way.
#[derive(Clone, Debug)]
pub struct Spare {
    lathe: Lathe,
    tables: Tables,
    leads: Vec<Lead>,
    /// The size of the error of each lead's best train; none where nothing goes on.
    least: Vec<Option<Ratio>>,
    /// How often the best trains use each size.
    used: Vec<u32>,
    sizes: Vec<u16>,
    /// How many sizes have been tried by themselves.
    tried: usize,
    /// Of those that could go, how many are past.
    past: usize,
    /// Those that are left in, one entry a gear.
    kept: Vec<u32>,
    found: Spared,
}

impl Spare {
    /// A search, nothing of it done yet.
    ///
    /// # Errors
    ///
    /// As [`Tables::new`].
    pub fn new(lathe: Lathe, leads: &[Lead]) -> Result<Spare, NoLathe> {
        let tables = Tables::new(&lathe.drawer, lathe.pairs_max)?;
        let sizes: Vec<u16> = lathe.drawer.sizes().map(|(teeth, _)| teeth).collect();
        let kept = lathe.drawer.sizes();
        let kept = kept.flat_map(|(teeth, owned)| (0..owned).map(move |_| u32::from(teeth)));
        Ok(Spare {
            kept: kept.collect(),
            tables,
            leads: leads.to_vec(),
            least: Vec::new(),
            used: alloc::vec![0; sizes.len()],
            sizes,
            tried: 0,
            past: 0,
            found: Spared::default(),
            lathe,
        })
    }

    /// Works so many more leads, or gears: each gear takes as long as all leads.
    ///
    /// # Errors
    ///
    /// As [`Tables::best_mountable`].
    pub fn step(&mut self, count: usize) -> Result<Progress, NoLathe> {
        for _ in 0..count {
            if self.least.len() < self.leads.len() {
                self.measure()?;
            } else if let Some(&teeth) = self.sizes.get(self.tried) {
                self.tried = self.tried.saturating_add(1);
                let all = self.lathe.drawer.sizes();
                let all = all.flat_map(|(teeth, owned)| (0..owned).map(move |_| u32::from(teeth)));
                let all: Vec<u32> = all.collect();
                if self.as_good(&without(&all, teeth))? {
                    self.found.each.push(teeth);
                }
            } else if let Some((place, teeth)) = self.next() {
                let fewer = without(&self.kept, teeth);
                if self.as_good(&fewer)? {
                    self.found.together.push(teeth);
                    self.kept = fewer;
                } else {
                    self.past = place.saturating_add(1);
                }
            }
        }
        // Of each size several may go.
        let gears = self.lathe.drawer.gears();
        let of = self.leads.len().saturating_add(self.sizes.len()).saturating_add(gears);
        let done = match self.next() {
            None if self.tried >= self.sizes.len() && self.least.len() >= self.leads.len() => of,
            _ => {
                let so_far = self.least.len().saturating_add(self.tried);
                so_far.saturating_add(self.found.together.len()).min(of.saturating_sub(1))
            }
        };
        Ok(Progress { done: done as u64, of: of as u64 })
    }

    /// What was found, so far.
    #[must_use]
    pub fn found(&self) -> &Spared {
        &self.found
    }

    /// The next size to take away beside those that are gone, the least used first, and its place
    /// in that order.
    fn next(&self) -> Option<(usize, u16)> {
        let mut order: Vec<u64> = Vec::new();
        for (teeth, used) in self.sizes.iter().zip(&self.used) {
            if self.found.each.contains(teeth) {
                order.push((u64::from(*used) << 16) | u64::from(*teeth));
            }
        }
        crate::gearing::sort(&mut order);
        let order = order.into_iter().map(|key| (key & 0xffff) as u16);
        order.enumerate().skip(self.past).find(|(_, teeth)| self.kept.contains(&u32::from(*teeth)))
    }

    /// How far off the next lead is with everything.
    fn measure(&mut self) -> Result<(), NoLathe> {
        let Some(&lead) = self.leads.get(self.least.len()) else { return Ok(()) };
        let (train, _) = self.tables.best_mountable(&request(&self.lathe, lead)?)?;
        for pair in train.iter().flat_map(|train| train.pairs()) {
            for teeth in [pair.driver, pair.driven] {
                if let Ok(place) = self.sizes.binary_search(&teeth)
                    && let Some(used) = self.used.get_mut(place)
                {
                    *used = used.saturating_add(1);
                }
            }
        }
        self.least.push(train.map(|train| train.error.abs()));
        Ok(())
    }

    /// Whether these gears do as well as all of them.
    fn as_good(&self, gears: &[u32]) -> Result<bool, NoLathe> {
        let drawer = Drawer::new(gears)?;
        if drawer.gears() < 2 {
            return Ok(self.least.iter().all(Option::is_none));
        }
        let tables = Tables::new(&drawer, self.lathe.pairs_max)?;
        for (lead, least) in self.leads.iter().zip(&self.least) {
            let Some(least) = least else { continue };
            let (train, _) = tables.best_mountable(&request(&self.lathe, *lead)?)?;
            if train.is_none_or(|train| train.error.abs() > *least) {
                return Ok(false);
            }
        }
        Ok(true)
    }
}

fn request(lathe: &Lathe, lead: Lead) -> Result<crate::gearing::Request<'_>, NoLathe> {
    lathe.request(lead).map_err(|why| NoLathe::Because(why.to_string()))
}

/// One gear of that size fewer.
fn without(gears: &[u32], teeth: u16) -> Vec<u32> {
    let mut gone = false;
    let keep = |gear: &u32| {
        let this = !gone && *gear == u32::from(teeth);
        gone |= this;
        !this
    };
    gears.iter().copied().filter(keep).collect()
}
