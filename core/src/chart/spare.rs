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

/// One gear taken away, and how far that has been judged.
#[derive(Clone, Debug)]
struct Trial {
    teeth: u16,
    /// Its place in the order, where it goes beside others.
    beside: Option<usize>,
    /// What is left.
    gears: Vec<u32>,
    /// The same ready for searching; none where there are too few gears for any train.
    tables: Option<Tables>,
    /// The next lead.
    at: usize,
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
    /// What is being tried.
    trial: Option<Trial>,
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
            trial: None,
            found: Spared::default(),
            lathe,
        })
    }

    /// Works so many more leads, of the whole drawer or of one that lacks a gear.
    ///
    /// # Errors
    ///
    /// As [`Tables::best_mountable`].
    pub fn step(&mut self, leads: usize) -> Result<Progress, NoLathe> {
        for _ in 0..leads {
            if self.least.len() < self.leads.len() {
                self.measure()?;
                continue;
            }
            let Some(mut trial) = self.trial.take() else {
                match self.next_trial()? {
                    Some(trial) => self.trial = Some(trial),
                    None => break,
                }
                continue;
            };
            match self.go_on(&mut trial)? {
                None => self.trial = Some(trial),
                Some(good) => self.judge(trial, good),
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

    /// The sizes owned, how many of each, and how often the best trains use one.
    pub fn used(&self) -> impl Iterator<Item = (u16, u8, u32)> + '_ {
        self.lathe
            .drawer
            .sizes()
            .zip(&self.used)
            .map(|((teeth, owned), used)| (teeth, owned, *used))
    }

    /// How many sizes have been tried by themselves.
    #[must_use]
    pub fn tried(&self) -> usize {
        self.tried
    }

    /// How many different leads are judged by.
    #[must_use]
    pub fn leads(&self) -> usize {
        self.leads.len()
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

    /// The next gear to do without: each size by itself first, then one beside those that are gone.
    fn next_trial(&self) -> Result<Option<Trial>, NoLathe> {
        let (teeth, beside) = match self.sizes.get(self.tried) {
            Some(teeth) => (*teeth, None),
            None => match self.next() {
                Some((place, teeth)) => (teeth, Some(place)),
                None => return Ok(None),
            },
        };
        let gears = match beside {
            Some(_) => without(&self.kept, teeth),
            None => {
                let all = self.lathe.drawer.sizes();
                let all = all.flat_map(|(teeth, owned)| (0..owned).map(move |_| u32::from(teeth)));
                without(&all.collect::<Vec<u32>>(), teeth)
            }
        };
        let drawer = Drawer::new(&gears)?;
        let tables = match drawer.gears() {
            0 | 1 => None,
            _ => Some(Tables::new(&drawer, self.lathe.pairs_max)?),
        };
        Ok(Some(Trial { teeth, beside, gears, tables, at: 0 }))
    }

    /// One lead more; says so once it is known whether the gears of a trial do as well as all of them.
    fn go_on(&self, trial: &mut Trial) -> Result<Option<bool>, NoLathe> {
        let Some(tables) = &trial.tables else {
            return Ok(Some(self.least.iter().all(Option::is_none)));
        };
        let (Some(&lead), Some(least)) = (self.leads.get(trial.at), self.least.get(trial.at))
        else {
            return Ok(Some(true));
        };
        trial.at = trial.at.saturating_add(1);
        let Some(least) = least else { return Ok(None) };
        let (train, _) = tables.best_mountable(&request(&self.lathe, lead)?)?;
        let good = train.is_some_and(|train| train.error.abs() <= *least);
        Ok(if good { None } else { Some(false) })
    }

    fn judge(&mut self, trial: Trial, good: bool) {
        match trial.beside {
            None => {
                self.tried = self.tried.saturating_add(1);
                if good {
                    self.found.each.push(trial.teeth);
                }
            }
            Some(_) if good => {
                self.found.together.push(trial.teeth);
                self.kept = trial.gears;
            }
            Some(place) => self.past = place.saturating_add(1),
        }
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
