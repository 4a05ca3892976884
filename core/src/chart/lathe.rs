//! The lathe as a chart takes it: leadscrew, gears, gearbox and banjo.

use crate::exact::{Ratio, RatioError};
use crate::gearing::{self, Banjo, Drawer, GearingError, Mounting, Request, Train};
use crate::record::Value;
use crate::shop::Shop;
use crate::threads::{Lead, PI};
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// Everything that decides which lead a lathe cuts.
#[derive(Clone, Debug)]
pub struct Lathe {
    /// The gears owned.
    pub drawer: Drawer,
    /// The leadscrew's lead.
    pub screw: Lead,
    /// The fixed ratio from the spindle to the first driver.
    pub before_train: Ratio,
    /// The gearbox's ratios.
    pub gearbox: Vec<Ratio>,
    /// The words on the gearbox's levers, where there are any.
    pub levers: Vec<Option<String>>,
    /// What decides mounting.
    pub mounting: Mounting,
    /// How many pairs a train may have.
    pub pairs_max: u8,
    /// Whether there is a tumbler.
    pub tumbler: Option<bool>,
    /// The leadscrew's hand.
    pub screw_hand: Option<gearing::Hand>,
}

/// Why there is nothing to chart.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoLathe {
    /// The leadscrew isn't known.
    Leadscrew,
    /// There are no two gears to make a pair of.
    Gears,
    /// Something that was entered stands against it.
    Because(String),
}

impl From<GearingError> for NoLathe {
    fn from(why: GearingError) -> NoLathe {
        NoLathe::Because(why.to_string())
    }
}

impl From<RatioError> for NoLathe {
    fn from(why: RatioError) -> NoLathe {
        NoLathe::Because(why.to_string())
    }
}

impl Lathe {
    /// The lathe of a shop.
    ///
    /// # Errors
    ///
    /// [`NoLathe`] says what is missing. A drawer with fewer than two gears will do only where
    /// `any` says so: where gears are to be added.
    pub fn of(shop: &Shop, any: bool) -> Result<Lathe, NoLathe> {
        let lead = shop.leadscrew().ok_or(NoLathe::Leadscrew)?;
        let lathe = shop.lathe();
        let drawer = Drawer::new(&lathe.counts("change_gears"))?;
        if drawer.gears() < 2 && !any {
            return Err(NoLathe::Gears);
        }
        let (gearbox, levers) = shop.gearbox().into_iter().unzip();
        Ok(Lathe {
            drawer,
            screw: if lead.pi() { Lead::of_pi_mm(lead.value()) } else { Lead::of_mm(lead.value()) },
            before_train: shop.before_train(),
            gearbox,
            levers,
            mounting: mounting(shop),
            pairs_max: shop.pairs_max(),
            tumbler: lathe.flag("tumbler"),
            screw_hand: lathe.choice("leadscrew_hand").map(|hand| match hand {
                "left" => gearing::Hand::Left,
                _ => gearing::Hand::Right,
            }),
        })
    }

    /// Lead over leadscrew, with [`PI`] for a π that doesn't cancel.
    ///
    /// # Errors
    ///
    /// [`RatioError`].
    pub fn target(&self, lead: Lead) -> Result<Ratio, RatioError> {
        let ratio = lead.factor().div(self.screw.factor())?;
        match (lead.is_exact(), self.screw.is_exact()) {
            (false, true) => ratio.mul(PI),
            (true, false) => ratio.div(PI),
            _ => Ok(ratio),
        }
    }

    /// The ratios of drivers over driven that cut a lead, one for each position of the gearbox.
    ///
    /// # Errors
    ///
    /// [`RatioError`].
    pub fn ratios(&self, lead: Lead) -> Result<Vec<Ratio>, RatioError> {
        let wanted = self.target(lead)?.div(self.before_train)?;
        self.gearbox.iter().map(|position| wanted.div(*position)).collect()
    }

    /// What is asked of the search for a lead.
    ///
    /// # Errors
    ///
    /// [`RatioError`].
    pub fn request(&self, lead: Lead) -> Result<Request<'_>, RatioError> {
        Ok(Request {
            target: self.target(lead)?,
            before_train: self.before_train,
            gearbox: &self.gearbox,
            pairs_max: self.pairs_max,
            mounting: self.mounting,
            keep: 1,
        })
    }

    /// Whether a lead can be cut exactly at all: what has π in it can't.
    #[must_use]
    pub const fn may_be_exact(&self, lead: Lead) -> bool {
        lead.is_exact() && self.screw.is_exact()
    }

    /// The lead that a train cuts.
    ///
    /// # Errors
    ///
    /// [`RatioError`].
    pub fn cuts(&self, train: &Train) -> Result<Lead, RatioError> {
        let factor = train.total.mul(self.screw.factor())?;
        Ok(if self.screw.is_exact() { Lead::of_mm(factor) } else { Lead::of_pi_mm(factor) })
    }

    /// The fewest idlers for a right-hand thread, where what it takes to know is known.
    #[must_use]
    pub fn idlers(&self, train: &Train) -> Option<u32> {
        let right = gearing::Hand::Right;
        let pairs = train.pairs().len();
        gearing::idlers(pairs, right, self.screw_hand, self.tumbler, train.reach())
    }

    /// What the gearbox must stand at.
    #[must_use]
    pub fn position(&self, train: &Train) -> (Ratio, Option<&str>) {
        let ratio = self.gearbox.get(train.gearbox).copied().unwrap_or(Ratio::ONE);
        (ratio, self.levers.get(train.gearbox).and_then(Option::as_deref))
    }
}

/// Whether anything is known of what goes on: the banjo's measures, the studs' clearance, or what a
/// meshing pair may add up to. Where nothing is, a train that is exact may still not go on.
#[must_use]
pub fn banjo_measured(shop: &Shop) -> bool {
    let lathe = shop.lathe();
    matches!(mounting(shop), Mounting::Banjo(_))
        || lathe.count("stud_clearance_teeth").is_some()
        || !lathe.counts("centres_teeth").is_empty()
}

/// What decides mounting in a shop: the banjo where all of it is known, else the rule of thumb.
#[must_use]
pub fn mounting(shop: &Shop) -> Mounting {
    let lathe = shop.lathe();
    let pair = |list: &[Value]| match list {
        [Value::Quantity(from), Value::Quantity(to)] => Some((from.value(), to.value())),
        _ => None,
    };
    let banjo = lathe.record("banjo").and_then(|banjo| {
        Some(Banjo {
            module: banjo.ratio("module")?,
            centres: banjo.ratio("centres")?,
            slot: pair(banjo.list("slot"))?,
            boss_radius: banjo.ratio("boss_radius")?,
        })
    });
    let centres = lathe.counts("centres_teeth");
    banjo.map_or_else(
        || Mounting::Shop {
            stud_clearance_teeth: lathe.count("stud_clearance_teeth").unwrap_or(0),
            centres_teeth: match centres.as_slice() {
                [least, most] => Some((*least, *most)),
                _ => None,
            },
        },
        Mounting::Banjo,
    )
}
