//! The complete search: the best trains for a lead, and how many selections reach it.

use super::rank::{Entry, Tally};
use super::run::Run;
use super::{Drawer, Found, GearingError, Mounting, Reached, Tables, Train};
use crate::exact::Ratio;
use alloc::vec::Vec;

/// The most ratios that a gearbox may have.
pub const GEARBOX_MOST: usize = 100;

/// What is wanted of the drawer.
#[derive(Clone, Copy, Debug)]
pub struct Request<'a> {
    /// The lead wanted over the leadscrew's lead.
    pub target: Ratio,
    /// The fixed ratio from the spindle to the first driver.
    pub before_train: Ratio,
    /// The ratios from the last driven gear to the leadscrew, one for each position. Two
    /// positions with the same ratio are two positions: each counts and each is listed.
    pub gearbox: &'a [Ratio],
    /// How many pairs a train may have: one, two or three.
    pub pairs_max: u8,
    /// What decides whether a train goes on.
    pub mounting: Mounting,
    /// How many of the best to keep.
    pub keep: usize,
}

/// Every train from this drawer for this wish: [`Tables::new`], then [`Tables::search`].
///
/// ```
/// use latheside_core::exact::Ratio;
/// use latheside_core::gearing::{Drawer, Mounting, Request, search};
/// // 3 mm from a screw of 8 to the inch: 120/127, and 63/80 for 100/127 comes near.
/// let drawer = Drawer::new(&[30, 36, 40, 45, 50, 63, 80, 120]).unwrap();
/// let found = search(&drawer, &Request {
///     target: Ratio::of(120, 127),
///     before_train: Ratio::ONE,
///     gearbox: &[Ratio::ONE],
///     pairs_max: 2,
///     mounting: Mounting::Shop { stud_clearance_teeth: 15, centres_teeth: None },
///     keep: 40,
/// }).unwrap();
/// let best = &found.best[0];
/// assert_eq!(best.total, Ratio::of(189, 200));
/// assert_eq!(best.error, Ratio::of(1, 8000));
/// assert!(best.mountable && !best.exact());
/// ```
///
/// # Errors
///
/// As [`Tables::new`] and [`Tables::search`].
pub fn search(drawer: &Drawer, request: &Request<'_>) -> Result<Found, GearingError> {
    Tables::new(drawer, request.pairs_max)?.search(request)
}

impl Tables {
    /// The best trains, and how many selections come as near as can be.
    ///
    /// A selection is some gears as drivers and as many as driven gears, whatever their
    /// order; none is used more often than it is owned. Complete, unless
    /// [`Found::complete`] says otherwise.
    ///
    /// # Errors
    ///
    /// [`GearingError::Pairs`] for more pairs than the tables were made for, or none; an empty or too
    /// long gearbox; a ratio or a measure that isn't more than nothing; a limit the wrong way
    /// round; [`GearingError::Exact`] where a number is too large to keep exactly.
    pub fn search(&self, request: &Request<'_>) -> Result<Found, GearingError> {
        let mut run = Run::new(self, request, request.keep.max(1), true)?;
        run.overall();
        run.only_mountable();
        run.found(request)
    }

    /// The best train that can be mounted, and nothing else: what a chart asks for, row by row.
    ///
    /// The flag beside it is [`Found::complete`].
    ///
    /// # Errors
    ///
    /// As [`Tables::search`].
    pub fn best_mountable(
        &self,
        request: &Request<'_>,
    ) -> Result<(Option<Train>, bool), GearingError> {
        let mut run = Run::new(self, request, 1, false)?;
        run.only_mountable();
        let first = run.mountable.entries.first().copied();
        let train = first.map(|entry| run.train(request, &entry)).transpose()?;
        Ok((train, run.complete))
    }

    /// The best train that can be mounted and all that are as good: that miss by as much, on
    /// either side, with as few pairs. At most so many, the most room first.
    ///
    /// # Errors
    ///
    /// As [`Tables::search`].
    pub fn as_good(&self, request: &Request<'_>, most: usize) -> Result<Vec<Train>, GearingError> {
        let mut run = Run::new(self, request, most.max(1), false)?;
        run.only_mountable();
        let best = run.mountable.entries.first().copied();
        let same = |entry: &&Entry| {
            best.is_some_and(|best| entry.miss == best.miss && entry.count == best.count)
        };
        run.mountable.entries.iter().filter(same).map(|entry| run.train(request, entry)).collect()
    }
}

impl Run<'_> {
    /// What was found, in the words of the answer.
    fn found(&self, request: &Request<'_>) -> Result<Found, GearingError> {
        let reached = |tally: Tally, best: Option<&Entry>| match best {
            Some(best) => {
                let least_error = best.miss.signed(best.over)?;
                Ok::<_, GearingError>(Some(Reached { count: tally.count, least_error }))
            }
            None => Ok(None),
        };
        let nearest = self.all.entries.first();
        // Two gears make a pair, so there is always one.
        let all = reached(self.all_tally, nearest)?
            .ok_or(GearingError::TooFewGears(self.tables.drawer.gears()))?;
        let mountable = reached(self.tally, self.mountable.entries.first())?;
        let unmountable = self.all.entries.iter().filter(|entry| !entry.fits);
        let mut entries: Vec<&Entry> =
            self.mountable.entries.iter().chain(unmountable).take(request.keep).collect();
        if let (Some(nearest), true) = (nearest, request.keep > 1)
            && !nearest.fits
            && entries.iter().all(|entry| entry.fits)
            && let Some(last) = entries.last_mut()
        {
            *last = nearest;
        }
        let best = entries.into_iter().map(|entry| self.train(request, entry));
        Ok(Found { best: best.collect::<Result<_, _>>()?, all, mountable, complete: self.complete })
    }

    pub(super) fn train(
        &self,
        request: &Request<'_>,
        entry: &Entry,
    ) -> Result<Train, GearingError> {
        let error = entry.miss.signed(entry.over)?;
        let gearbox = usize::from(entry.gearbox);
        let total = error.add(Ratio::ONE)?.mul(request.target)?;
        let [first, ..] = entry.pairs;
        let single = entry.count == 1;
        Ok(Train {
            pairs: entry.pairs,
            count: entry.count,
            gearbox,
            total,
            error,
            mountable: entry.fits,
            clearance: self.rule.clearance(entry.count, entry.slack),
            idler: if single { self.rule.idler(first, &self.tables.drawer) } else { None },
        })
    }
}
