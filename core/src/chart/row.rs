//! One thread of the chart: its train, how far off that is, and what that does to it.

use crate::exact::{Ratio, RatioError};
use crate::gearing::Train;
use crate::threads::{Designation, Lead, Profile, Side, lead_error, limits_engaged};

/// What an error of lead is judged by.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Judged {
    /// The nut's length in mm over which it counts; each thread's diameter where it isn't given.
    pub engaged: Option<Ratio>,
    /// How much of a lead may be off, as a part of it, where the thread has no class.
    pub otherwise: Option<Ratio>,
}

/// One thread and how this lathe cuts it.
#[derive(Clone, Copy, Debug)]
pub struct Row {
    /// The thread.
    pub thread: Designation,
    /// Its lead.
    pub lead: Lead,
    /// The best train that goes on; none where nothing does.
    pub train: Option<Train>,
    /// How it stands.
    pub standing: Standing,
    /// What the error of lead, over the nut's length, takes of the pitch diameter's tolerance in
    /// the screw's usual class; none without a train, or where the thread has no class.
    pub share: Option<f64>,
}

/// How a thread stands on this lathe.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// Its lead is cut exactly.
    Exact,
    /// Not exactly, but the error doesn't use up the tolerance of its usual class, or what it is
    /// allowed where it has none.
    Within,
    /// Not exactly, and nothing says what that does.
    Untold,
    /// The error is more than that.
    Beyond,
    /// No train for it goes on.
    None,
}

impl Standing {
    /// Whether it can't be cut: nothing goes on, or what does is too far off.
    #[must_use]
    pub const fn cannot(self) -> bool {
        matches!(self, Standing::Beyond | Standing::None)
    }
}

impl Row {
    /// How a thread stands with this train, over a nut of that length, or of its own diameter.
    pub(super) fn new(
        thread: Designation,
        lead: Lead,
        train: Option<Train>,
        exact: bool,
        judged: Judged,
    ) -> Row {
        let share = train.and_then(|train| share(&thread, train.error.to_f64(), judged.engaged));
        let near = train.zip(judged.otherwise).map(|(train, most)| train.error.abs() <= most);
        let standing = match (&train, exact, share) {
            (None, ..) => Standing::None,
            (_, true, _) => Standing::Exact,
            (_, _, Some(share)) if share <= 1.0 => Standing::Within,
            (_, _, Some(_)) => Standing::Beyond,
            (_, _, None) => match near {
                Some(true) => Standing::Within,
                Some(false) => Standing::Beyond,
                None => Standing::Untold,
            },
        };
        Row { thread, lead, train, standing, share }
    }

    /// The error's size as a part of the lead; none without a train.
    #[must_use]
    pub fn error(&self) -> Option<f64> {
        self.train.map(|train| train.error.abs().to_f64())
    }
}

/// The nut's length that an error is judged over: what is entered, else as long as the thread is
/// thick (common practice, no source).
fn over(thread: &Designation, engaged: Option<Ratio>) -> Option<f64> {
    engaged.or(thread.diameter).map(Ratio::to_f64)
}

/// What an error of lead, a part of it, takes of the tolerance of the screw's usual class.
pub(super) fn share(thread: &Designation, error: f64, engaged: Option<Ratio>) -> Option<f64> {
    let tolerance = limits_engaged(thread, Side::Outside, engaged).ok()?.pitch_tolerance;
    let profile = Profile::of(thread).ok()??;
    lead_error(&profile, error * 1e6, over(thread, engaged)?, Some(tolerance)).share
}

/// How large a part of the lead may be off before the tolerance of the usual class is used up; a
/// little less, so that nothing beyond it passes. None where the thread has no class.
///
/// # Errors
///
/// [`RatioError`].
pub(super) fn allowed(
    thread: &Designation,
    engaged: Option<Ratio>,
) -> Result<Option<Ratio>, RatioError> {
    // The share grows with the error, in proportion.
    let Some(share) = share(thread, 1.0, engaged).filter(|share| *share > 0.0) else {
        return Ok(None);
    };
    const PARTS: f64 = 1e12;
    // Saturates, and is no more than a part of the whole.
    let parts = libm::floor(PARTS / share) as i64;
    Ratio::new(parts.into(), PARTS as i128).map(Some)
}
