//! What became of spoilt procedures: how many were found out, and which nobody noticed.

use super::mutation::{SORTS, Sort, harmless, mutant};
use super::random::Random;
use super::runner::carried;
use super::{Passed, fault};
use latheside_core::shop::Shop;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::{self, Display, Formatter};

/// What became of spoilt procedures.
#[derive(Default)]
pub(crate) struct Spoilt {
    /// Tried, caught and harmless, by sort.
    by: BTreeMap<Sort, [u32; 3]>,
    /// Those that nobody noticed: sort, action, an example's seed.
    survivors: BTreeMap<(Sort, String), (u32, u64, String)>,
    /// Why others do no harm.
    harmless: BTreeMap<&'static str, u32>,
    /// Which rules found one out, how often.
    pub(crate) fired: BTreeMap<&'static str, u32>,
    /// Found out by the part alone.
    by_part: u32,
}

impl Spoilt {
    /// Spoils a run that passed, once by every sort that it has something for.
    pub(crate) fn take(&mut self, passed: &Passed, shop: &Shop, seed: u64) {
        let random = &mut Random::new(seed ^ 0x5eed);
        for sort in SORTS {
            let Some(mutant) = mutant(&passed.deeds, *sort, random) else { continue };
            let run = carried(&mutant.deeds, shop);
            let count = self.by.entry(*sort).or_default();
            let rules: BTreeSet<&str> = run.faults.iter().map(|fault| fault.rule.id()).collect();
            for id in rules {
                *self.fired.entry(id).or_default() += 1;
            }
            if fault(&passed.case, &passed.asked, passed.off, &run).is_some() {
                count[0] += 1;
                count[1] += 1;
                self.by_part += u32::from(run.faults.is_empty());
            } else if let Some(why) = harmless(&passed.deeds, &mutant, shop) {
                count[2] += 1;
                *self.harmless.entry(why).or_default() += 1;
            } else {
                count[0] += 1;
                let one = self
                    .survivors
                    .entry((*sort, format!("{} in {}", mutant.what, passed.case.kind)))
                    .or_insert_with(|| (0, seed, mutant.how(&passed.deeds)));
                one.0 += 1;
            }
        }
    }

    /// With another's counts.
    pub(crate) fn join(&mut self, other: Spoilt) {
        for (sort, count) in other.by {
            for (sum, one) in self.by.entry(sort).or_default().iter_mut().zip(count) {
                *sum += one;
            }
        }
        for (key, (count, seed, how)) in other.survivors {
            self.survivors.entry(key).or_insert((0, seed, how)).0 += count;
        }
        for (why, count) in other.harmless {
            *self.harmless.entry(why).or_default() += count;
        }
        for (id, count) in other.fired {
            *self.fired.entry(id).or_default() += count;
        }
        self.by_part += other.by_part;
    }

    pub(crate) fn tried(&self) -> u32 {
        self.by.values().map(|count| count[0]).sum()
    }

    /// The share that was found out.
    pub(crate) fn share(&self) -> f64 {
        f64::from(self.caught()) / f64::from(self.tried().max(1))
    }

    fn caught(&self) -> u32 {
        self.by.values().map(|count| count[1]).sum()
    }
}

impl Display for Spoilt {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        let (tried, caught) = (self.tried(), self.caught());
        let share = self.share() * 100.0;
        writeln!(
            f,
            "spoilt: {caught} of {tried} found out ({share:.2} %), {} by the part alone",
            self.by_part
        )?;
        for (sort, [tried, caught, harmless]) in &self.by {
            let name = format!("{sort:?}");
            writeln!(f, "  {name:14}{caught:7} of {tried:7}, {harmless} more do no harm")?;
        }
        writeln!(f, "that do no harm: {:?}", self.harmless)?;
        writeln!(f, "survivors, with an example's seed:")?;
        let mut survivors: Vec<_> = self.survivors.iter().collect();
        survivors.sort_by_key(|(_, (count, ..))| std::cmp::Reverse(*count));
        for ((sort, what), (count, seed, how)) in survivors {
            writeln!(f, "  {count:5} {sort:?}: {what} ({seed}): {how}")?;
        }
        Ok(())
    }
}
