//! A circle divided: every way, the best of them carried out place by place.

use super::arrangement::{Arrangement, WorkIn};
use super::kit;
use crate::dividing::{
    self, At, DividingError, Found, Head, Kit, Method, Place, Setting, Way, place, place_at,
};
use crate::exact::Ratio;
use crate::record::Record;
use crate::shop::Shop;
use alloc::vec::Vec;

/// A circle divided with what a shop has.
#[derive(Clone, Debug)]
pub(in crate::operation) struct Circle {
    /// Best first, never empty.
    pub(in crate::operation) ways: Vec<Way>,
    /// How many exact ways there are of each kind.
    pub(in crate::operation) found: Found,
    /// Whether every way was looked at.
    pub(in crate::operation) complete: bool,
    pub(in crate::operation) arrangement: Arrangement,
    /// Places on the work.
    pub(in crate::operation) into: u32,
    /// Which of the ways is carried out.
    pub(super) chosen: usize,
    /// The way that was asked for, counted from 1.
    pub(super) asked: Option<u32>,
    /// Angles of one's own in turns of the work, in the order asked for; none for even divisions.
    pub(super) angles: Vec<Ratio>,
    /// Those angles in the order of work, always forward, each place once.
    pub(super) order: Vec<usize>,
    /// The circles of each plate.
    pub(super) plates: Vec<Vec<u16>>,
}

/// Why there are no ways.
#[derive(Clone, Copy, Debug)]
pub(in crate::operation) enum Unmade {
    /// The shop has nothing to divide with, and which entry would bring it.
    NothingOwned(&'static str),
    /// It can't be done.
    Cannot(DividingError),
}

impl From<DividingError> for Unmade {
    fn from(why: DividingError) -> Unmade {
        Unmade::Cannot(why)
    }
}

impl Circle {
    /// Even divisions.
    pub(in crate::operation) fn even(
        into: u32,
        entries: &Record,
        shop: &Shop,
    ) -> Result<Circle, Unmade> {
        Circle::with(into, owned(shop)?, entries)
    }

    fn with(into: u32, kit: Kit, entries: &Record) -> Result<Circle, Unmade> {
        let ways = dividing::ways(into, &kit)?;
        let asked = entries.count("way");
        let chosen = chosen(asked, &ways.ways, entries);
        Ok(Circle {
            arrangement: Arrangement::of(entries, by_plates(ways.ways.get(chosen))),
            chosen,
            asked,
            ways: ways.ways,
            found: ways.found,
            complete: ways.complete,
            into,
            angles: Vec::new(),
            order: Vec::new(),
            plates: kit.head.map_or_else(Vec::new, |head| head.plates),
        })
    }

    /// The same divisions on a plate that has a circle of them; none without a worm.
    pub(in crate::operation) fn copied(&self, entries: &Record, shop: &Shop) -> Option<Circle> {
        let head = Head { gears: Vec::new(), ..kit::kit(shop).head? };
        let circle = u16::try_from(self.into).ok()?;
        let head = Head { plates: Vec::from([Vec::from([circle])]), pairs_max: 0, ..head };
        let kit = Kit { head: Some(head), ..Kit::default() };
        let copy = Circle::with(self.into, kit, entries).ok()?;
        Some(Circle { chosen: 0, asked: None, ..copy })
    }

    /// Angles of one's own, in degrees.
    pub(in crate::operation) fn angles(
        degrees: &[Ratio],
        entries: &Record,
        shop: &Shop,
    ) -> Result<Circle, Unmade> {
        let kit = owned(shop)?;
        let turns = degrees.iter().map(|angle| angle.div(Ratio::whole(360)));
        let turns: Vec<Ratio> = turns.collect::<Result<_, _>>().map_err(DividingError::from)?;
        let pattern = dividing::pattern(&turns, &kit)?;
        let (found, complete) = counted(&pattern.ways, &kit);
        let asked = entries.count("way");
        let chosen = chosen(asked, &pattern.ways, entries);
        Ok(Circle {
            arrangement: Arrangement::of(entries, by_plates(pattern.ways.get(chosen))),
            chosen,
            asked,
            ways: pattern.ways,
            found,
            complete,
            into: u32::try_from(turns.len()).unwrap_or(u32::MAX),
            order: forward(&turns),
            angles: turns,
            plates: kit.head.map_or_else(Vec::new, |head| head.plates),
        })
    }

    /// Where the work and the cutter are: as the circle has it, else as entered.
    pub(in crate::operation) fn arranged(circle: Option<&Circle>, entries: &Record) -> Arrangement {
        circle.map_or_else(|| Arrangement::of(entries, false), |circle| circle.arrangement)
    }

    /// Of a way that goes several times round, how many places a move passes, and after how many moves
    /// the neighbour of the first is made.
    pub(in crate::operation) fn laps(&self) -> Option<(u32, u32)> {
        let Setting::Compound { laps: laps @ 2.., .. } = self.best()?.setting else { return None };
        let neighbour = |moves: &u32| {
            let place = u64::from(*moves).saturating_mul(laps.into());
            place.checked_rem(self.into.into()) == Some(1)
        };
        Some((laps, (1..self.into).find(neighbour)?))
    }

    /// Whether the way chosen puts a place as near to another's as to its own.
    pub(super) fn confused(&self) -> bool {
        let Some((way, asked)) = self.best().zip(self.asked_apart()) else { return false };
        way.worst.mul(Ratio::whole(2)).is_ok_and(|both| both >= asked)
    }

    /// From one place to the nearest other as the way chosen comes to them, at least, in turns.
    pub(in crate::operation) fn apart(&self) -> Option<Ratio> {
        if self.best()?.exact {
            return self.asked_apart();
        }
        let at = |after| {
            let place = self.worked(after)?;
            let at = self.turns(&place)?.add(place.error).ok()?;
            at.sub(Ratio::new(at.floor(), 1).ok()?).ok()
        };
        let mut places: Vec<Ratio> = (0..self.made()).filter_map(at).collect();
        places.sort_unstable();
        let round = places.first().and_then(|first| first.add(Ratio::ONE).ok());
        let next = places.iter().copied().skip(1).chain(round);
        places.iter().zip(next).filter_map(|(one, other)| other.sub(*one).ok()).min()
    }

    /// From one place to the nearest other as asked for, in turns.
    fn asked_apart(&self) -> Option<Ratio> {
        if !self.irregular() {
            return Ratio::new(1, self.into.into()).ok();
        }
        let turns: Vec<Ratio> =
            self.order.iter().filter_map(|at| self.angles.get(*at).copied()).collect();
        let next = turns.iter().skip(1).chain(turns.first());
        let apart = turns.iter().zip(next).filter_map(|(one, other)| {
            let on = other.sub(*one).ok()?;
            if on.is_positive() { Some(on) } else { on.add(Ratio::ONE).ok() }
        });
        apart.min().filter(|apart| *apart < Ratio::ONE)
    }

    /// Which division of the work is made after so many moves.
    pub(in crate::operation) fn division(&self, moves: u32) -> Option<u32> {
        self.worked(moves).map(|place| place.division)
    }

    /// The most that two neighbours are off from each other, in turns, where a way that goes several
    /// times round makes them so many moves apart, or all the rest round.
    pub(super) fn neighbours_off(&self) -> Option<Ratio> {
        let (_, moves) = self.laps()?;
        let apart = moves.max(self.into.saturating_sub(moves));
        let each = self.best()?.closing.abs().div(self.into.into()).ok()?;
        each.mul(apart.into()).ok()
    }

    /// The way that is carried out.
    pub(in crate::operation) fn best(&self) -> Option<&Way> {
        self.ways.get(self.chosen)
    }

    /// The other ways, each with its number in the list, from 1.
    pub(super) fn rest(&self) -> impl Iterator<Item = (usize, &Way)> {
        let numbered = self.ways.iter().enumerate();
        let rest = numbered.filter(|(at, _)| *at != self.chosen);
        rest.map(|(at, way)| (at.saturating_add(1), way))
    }

    /// Whether the places are angles of one's own.
    pub(super) fn irregular(&self) -> bool {
        !self.angles.is_empty()
    }

    /// Whether the moves between the places differ.
    pub(super) fn uneven(&self) -> bool {
        let nearest = |way: &Way| {
            !way.exact
                && matches!(way.method(), Method::Direct | Method::DirectHalfTooth | Method::Plain)
        };
        self.irregular() || self.best().is_some_and(nearest)
    }

    /// How many places are made.
    pub(in crate::operation) fn made(&self) -> u32 {
        match self.irregular() {
            true => u32::try_from(self.order.len()).unwrap_or(u32::MAX),
            false => self.into,
        }
    }

    /// The place of the division, or angle, of that number as asked for.
    pub(super) fn place(&self, number: u32) -> Option<Place> {
        let way = self.best()?;
        if !self.irregular() {
            return place(way, number).ok();
        }
        let turns = self.angles.get(usize::try_from(number).ok()?)?;
        Some(Place { division: number, ..place_at(way, *turns).ok()? })
    }

    /// The place that is made after so many others.
    pub(super) fn worked(&self, after: u32) -> Option<Place> {
        let number = match self.irregular() {
            true => u32::try_from(*self.order.get(usize::try_from(after).ok()?)?).ok()?,
            false => after,
        };
        self.place(number)
    }

    /// The angle of a place on the work, in degrees.
    pub(super) fn degrees(&self, place: &Place) -> Option<Ratio> {
        self.turns(place)?.mul(Ratio::whole(360)).ok()
    }

    /// The angle of a place on the work, in turns.
    fn turns(&self, place: &Place) -> Option<Ratio> {
        match self.irregular() {
            true => self.angles.get(usize::try_from(place.division).ok()?).copied(),
            false => Ratio::new(place.division.into(), self.into.into()).ok(),
        }
    }

    /// The place once round.
    pub(super) fn closing(&self) -> Option<Place> {
        let way = self.best()?;
        match self.irregular() {
            true => place_at(way, Ratio::ONE).ok(),
            false => dividing::closing(way).ok(),
        }
    }

    /// The place twice round.
    pub(super) fn twice_round(&self) -> Option<Place> {
        let way = self.best()?;
        match self.irregular() {
            true => place_at(way, Ratio::whole(2)).ok(),
            false => place(way, way.divisions.checked_mul(2)?).ok(),
        }
    }

    /// The place that is made after so many others, a whole turn of the work later.
    pub(super) fn once_round(&self, after: u32) -> Option<Place> {
        let (way, first) = (self.best()?, self.worked(after)?);
        if !self.irregular() {
            return place(way, way.divisions.checked_add(first.division)?).ok();
        }
        place_at(way, self.turns(&first)?.add(Ratio::ONE).ok()?).ok()
    }

    /// How many whole turns and spaces further one place is than another, on the crank or the
    /// gear; for two pins nothing is said.
    pub(super) fn between(&self, from: Option<&Place>, to: &Place) -> Option<(i64, i64)> {
        let (size, to) = spaces(&to.at)?;
        let from = match from {
            Some(place) => spaces(&place.at)?.1,
            None => 0,
        };
        let mut on = to.saturating_sub(from);
        if on < 0 {
            // On a gear the count begins again at tooth 0.
            on = on.saturating_add(size);
        }
        Some((on.checked_div(size)?, on.checked_rem(size)?))
    }

    /// How many gears the best way is short of for its idlers.
    pub(in crate::operation) fn idlers_short(&self) -> u8 {
        match self.best().map(|way| way.setting) {
            Some(Setting::Differential { train, .. }) => train.idlers_lacking(),
            _ => 0,
        }
    }
}

/// Spaces in a turn, and spaces from nought.
fn spaces(at: &At) -> Option<(i64, i64)> {
    Some(match at {
        At::Tooth { tooth, positions } => ((*positions).into(), (*tooth).into()),
        At::HalfTooth { half_teeth, positions } => {
            (i64::from(*positions).saturating_mul(2), (*half_teeth).into())
        }
        At::Pin(pin) => {
            let size = i64::from(pin.circle.unwrap_or(1));
            (size, pin.turns.saturating_mul(size).saturating_add(pin.hole.into()))
        }
        At::Pins { .. } => return None,
    })
}

/// The place in the list of the way asked for, counted from 1; where there is none such the first, or, with
/// the work in the lathe spindle, the first that divides there: exact where the first is.
fn chosen(asked: Option<u32>, ways: &[Way], entries: &Record) -> usize {
    let at = asked.and_then(|asked| usize::try_from(asked).ok()?.checked_sub(1));
    if let Some(at) = at.filter(|at| *at < ways.len()) {
        return at;
    }
    let in_spindle = Arrangement::of(entries, true).work == WorkIn::LatheSpindle;
    let exact = ways.first().is_some_and(|way| way.exact);
    let suits = |way: &Way| !in_spindle || !by_plates(Some(way)) && way.exact == exact;
    ways.iter().position(suits).unwrap_or(0)
}

fn owned(shop: &Shop) -> Result<Kit, Unmade> {
    let kit = kit::kit(shop);
    if kit.direct.is_empty() && kit.head.is_none() {
        return Err(Unmade::NothingOwned(kit::wanted(shop)));
    }
    Ok(kit)
}

/// The angles in the order in which the work comes to them, going forward; the same place once.
fn forward(turns: &[Ratio]) -> Vec<usize> {
    let place = |at: &usize| match turns.get(*at) {
        Some(turn) if *turn < Ratio::ONE => *turn,
        _ => Ratio::ZERO,
    };
    let mut order: Vec<usize> = (0..turns.len()).collect();
    order.sort_by_key(place);
    order.dedup_by_key(|at| place(at));
    order
}

/// How many exact ways a pattern has of each kind.
fn counted(ways: &[Way], kit: &Kit) -> (Found, bool) {
    let mut found = Found::default();
    for way in ways.iter().filter(|way| way.exact) {
        let count = match way.method() {
            Method::Direct => &mut found.direct,
            Method::DirectHalfTooth => &mut found.half_tooth,
            Method::Plain => &mut found.plain,
            // Where two moves or gears make it, they make all the divisions that have it in them.
            Method::Compound | Method::Differential => {
                return match dividing::ways(way.divisions, kit) {
                    Ok(all) => (all.found, all.complete),
                    Err(_) => (found, false),
                };
            }
        };
        *count = count.saturating_add(1);
    }
    (found, true)
}

/// Whether the way is carried out on the plates of a head, which holds what it divides.
fn by_plates(way: Option<&Way>) -> bool {
    !matches!(
        way.map(|way| way.setting),
        None | Some(Setting::Direct { .. } | Setting::HalfTooth { .. })
    )
}
