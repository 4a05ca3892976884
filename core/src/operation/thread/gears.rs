//! The gears for a lead: every train that the drawer allows, and how the best one stands.

use super::wanted::Wanted;
use crate::chart::{banjo_measured, mounting};
use crate::exact::{Ratio, RatioError};
use crate::gearing::{self, Drawer, Found, GearingError, Mounting, Request, Train, search};
use crate::shop::Shop;
use crate::threads::{Hand, Lead, PI};
use alloc::string::{String, ToString};
use alloc::vec::Vec;

/// How many trains are listed.
const KEEP: usize = 40;

/// What a search came to, with what it was asked of.
#[derive(Clone, Debug)]
pub(super) struct Gears {
    pub(super) found: Found,
    pub(super) screw: Lead,
    pub(super) before: Ratio,
    pub(super) gearbox: Vec<(Ratio, Option<String>)>,
    pub(super) mounting: Mounting,
    /// Whether anything is known of what goes on the banjo.
    pub(super) measured: bool,
    pub(super) tumbler: Option<bool>,
    pub(super) screw_hand: Option<gearing::Hand>,
    hand: gearing::Hand,
    /// The train that was asked for, counted from 1.
    pub(super) asked: Option<u32>,
}

/// Why there are no trains.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoGears {
    /// The leadscrew isn't known.
    Leadscrew,
    /// There are no two gears to make a pair of.
    Drawer,
    /// Something that was entered stands against it.
    Because(String),
}

impl From<GearingError> for NoGears {
    fn from(why: GearingError) -> NoGears {
        NoGears::Because(why.to_string())
    }
}

impl From<RatioError> for NoGears {
    fn from(why: RatioError) -> NoGears {
        NoGears::Because(why.to_string())
    }
}

/// The leadscrew's lead.
pub(super) fn leadscrew(shop: &Shop) -> Option<Lead> {
    let lead = shop.leadscrew()?;
    Some(if lead.pi() { Lead::of_pi_mm(lead.value()) } else { Lead::of_mm(lead.value()) })
}

/// Lead over leadscrew as the search takes it: with [`PI`] for a π that doesn't cancel.
pub(super) fn target(lead: Lead, screw: Lead) -> Result<Ratio, RatioError> {
    let ratio = lead.factor().div(screw.factor())?;
    match (lead.is_exact(), screw.is_exact()) {
        (false, true) => ratio.mul(PI),
        (true, false) => ratio.div(PI),
        _ => Ok(ratio),
    }
}

impl Gears {
    /// Looks for every train.
    pub(super) fn search(wanted: &Wanted, shop: &Shop) -> Result<Gears, NoGears> {
        let screw = leadscrew(shop).ok_or(NoGears::Leadscrew)?;
        let lathe = shop.lathe();
        let drawer = Drawer::new(&lathe.counts("change_gears"))?;
        if drawer.gears() < 2 {
            return Err(NoGears::Drawer);
        }
        let gearbox = shop.gearbox();
        let ratios: Vec<Ratio> = gearbox.iter().map(|(ratio, _)| *ratio).collect();
        let mounting = mounting(shop);
        let found = search(
            &drawer,
            &Request {
                target: target(wanted.lead, screw)?,
                before_train: shop.before_train(),
                gearbox: &ratios,
                pairs_max: shop.pairs_max(),
                mounting,
                keep: KEEP,
            },
        )?;
        Ok(Gears {
            found,
            screw,
            before: shop.before_train(),
            gearbox,
            mounting,
            measured: banjo_measured(shop),
            tumbler: lathe.flag("tumbler"),
            screw_hand: lathe.choice("leadscrew_hand").map(|hand| match hand {
                "left" => gearing::Hand::Left,
                _ => gearing::Hand::Right,
            }),
            hand: match wanted.thread.hand {
                Hand::Left => gearing::Hand::Left,
                Hand::Right => gearing::Hand::Right,
            },
            asked: wanted.train,
        })
    }

    /// The hand of the thread wanted.
    pub(super) const fn hand(&self) -> gearing::Hand {
        self.hand
    }

    /// The place in the list of the train that is carried out: the one asked for, else the first.
    pub(super) fn chosen(&self) -> usize {
        let asked = self.asked.and_then(|asked| usize::try_from(asked).ok()?.checked_sub(1));
        asked.filter(|at| *at < self.found.best.len()).unwrap_or(0)
    }

    /// That train, whether or not it goes on.
    pub(super) fn train(&self) -> Option<&Train> {
        self.found.best.get(self.chosen())
    }

    /// That train, where it goes on.
    pub(super) fn best(&self) -> Option<&Train> {
        self.train().filter(|train| train.mountable)
    }

    /// The lead that a train cuts.
    pub(super) fn lead_cut(&self, train: &Train) -> Result<Lead, RatioError> {
        let factor = train.total.mul(self.screw.factor())?;
        Ok(if self.screw.is_exact() { Lead::of_mm(factor) } else { Lead::of_pi_mm(factor) })
    }

    /// Whether a train cuts this lead and no other; what has π in it never is.
    pub(super) fn exact(&self, train: &Train, wanted: Lead) -> bool {
        train.exact() && wanted.is_exact() && self.screw.is_exact()
    }

    /// The fewest idlers for the hand and the distance, where what it takes to know is known.
    pub(super) fn idlers(&self, train: &Train) -> Option<u32> {
        let pairs = train.pairs().len();
        gearing::idlers(pairs, self.hand, self.screw_hand, self.tumbler, train.reach())
    }

    /// Whether a train of one pair may need an idler to reach across, for all that is known.
    pub(super) fn may_not_reach(&self, train: &Train) -> bool {
        !self.measured && train.pairs().len() == 1 && train.idler.is_none()
    }

    /// Idlers as drawn: those that it needs, and one where it may need one.
    pub(super) fn drawn(&self, train: &Train) -> u32 {
        let needed = self.idlers(train).unwrap_or(train.reach());
        needed.max(u32::from(self.may_not_reach(train)))
    }

    /// What the gearbox must stand at: its ratio, and its lever's own word.
    pub(super) fn position(&self, train: &Train) -> (Ratio, Option<&str>) {
        self.gearbox
            .get(train.gearbox)
            .map_or((Ratio::ONE, None), |(ratio, how)| (*ratio, how.as_deref()))
    }

    /// Whether there is a gearbox to set.
    pub(super) fn has_gearbox(&self) -> bool {
        self.gearbox.len() > 1
    }
}
