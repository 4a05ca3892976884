//! What came of all runs, as tables.

use super::setups::{KINDS, LACKS};
use std::collections::BTreeMap;
use std::fmt::{self, Display, Formatter, Write as _};

/// Made, unmade, refused.
pub(crate) type Count = [u32; 3];

/// Counts of runs, and of what they met.
#[derive(Clone, Debug, Default)]
pub(crate) struct Tally {
    pub(crate) runs: u32,
    by: BTreeMap<(&'static str, String, &'static str), Count>,
    needs: BTreeMap<(&'static str, String), u32>,
    /// Rules with how many accepted runs they came up in, by id.
    pub(crate) met: BTreeMap<&'static str, u32>,
}

impl Tally {
    pub(crate) fn add(
        &mut self,
        kind: &'static str,
        arrangement: &str,
        lack: &'static str,
        which: usize,
    ) {
        self.runs += 1;
        self.by.entry((kind, arrangement.to_owned(), lack)).or_default()[which] += 1;
    }

    pub(crate) fn unmade(&mut self, kind: &'static str, needs: &str) {
        *self.needs.entry((kind, needs.to_owned())).or_default() += 1;
    }

    pub(crate) fn met(&mut self, id: &'static str) {
        *self.met.entry(id).or_default() += 1;
    }

    /// With another's counts.
    pub(crate) fn join(&mut self, other: Tally) {
        self.runs += other.runs;
        for (key, count) in other.by {
            for (sum, one) in self.by.entry(key).or_default().iter_mut().zip(count) {
                *sum += one;
            }
        }
        for (key, count) in other.needs {
            *self.needs.entry(key).or_default() += count;
        }
        for (id, count) in other.met {
            *self.met.entry(id).or_default() += count;
        }
    }

    fn kind(&self, kind: &str) -> Count {
        self.sum(|(one, ..)| *one == kind)
    }

    fn sum(&self, of: impl Fn(&(&'static str, String, &'static str)) -> bool) -> Count {
        let mut all = [0; 3];
        for (_, count) in self.by.iter().filter(|(key, _)| of(key)) {
            for (sum, one) in all.iter_mut().zip(count) {
                *sum += one;
            }
        }
        all
    }
}

impl Display for Tally {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        let all = self.sum(|_| true);
        writeln!(f, "{} runs: {} made, {} unmade, {} refused", self.runs, all[0], all[1], all[2])?;
        writeln!(f, "\nkind × arrangement: made / unmade / refused")?;
        let mut arrangements: Vec<(&str, &str)> =
            self.by.keys().map(|(kind, arrangement, _)| (*kind, arrangement.as_str())).collect();
        arrangements.dedup();
        arrangements.sort_unstable();
        arrangements.dedup();
        for (kind, arrangement) in arrangements {
            let [made, unmade, refused] = self.sum(|(k, a, _)| *k == kind && a == arrangement);
            writeln!(f, "  {kind:16}{arrangement:46}{made:7}{unmade:7}{refused:7}")?;
        }
        writeln!(f, "\nlack × kind: made / unmade / refused")?;
        let mut head = format!("  {:20}", "");
        for kind in KINDS {
            write!(head, "{kind:>16}")?;
        }
        writeln!(f, "{head}")?;
        for lack in LACKS {
            write!(f, "  {lack:20}")?;
            for kind in KINDS {
                let [made, unmade, refused] = self.sum(|(k, _, l)| k == kind && l == lack);
                write!(f, "{:>16}", format!("{made}/{unmade}/{refused}"))?;
            }
            writeln!(f)?;
        }
        writeln!(f, "\nshare of unmade, and what it needs")?;
        for kind in KINDS {
            let [made, unmade, refused] = self.kind(kind);
            let all = made + unmade + refused;
            let share = f64::from(unmade) * 100.0 / f64::from(all.max(1));
            write!(f, "  {kind:16}{share:5.1} %")?;
            for ((one, needs), count) in &self.needs {
                if one == kind {
                    write!(f, "  {needs} {count}")?;
                }
            }
            writeln!(f)?;
        }
        Ok(())
    }
}
