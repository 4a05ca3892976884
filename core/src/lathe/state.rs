//! How the machine stands: nothing is known until it is set or looked at.

use super::Lathe;
use super::slides::Sled;
use crate::exact::Ratio;
use crate::procedure::{
    Axis, Cutter, CutterAt, Face, Gear, Lockable, Running, Shape, Tumbler, Turning, Work, WorkAt,
};
use crate::shop::Shop;
use alloc::string::String;
use alloc::vec::Vec;

/// The lathe's parts.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Machine {
    pub(super) supply: Option<bool>,
    pub(super) guard_shut: Option<bool>,
    pub(super) key_in: Option<bool>,
    pub(super) lathe: Option<Running>,
    pub(super) cutter_spindle: Option<Running>,
    pub(super) rpm: Option<u32>,
    pub(super) cutter_rpm: Option<u32>,
    pub(super) each_turn: Option<f64>,
    pub(super) tumbler: Option<Tumbler>,
    pub(super) back_gear: Option<bool>,
    pub(super) nuts_in: Option<bool>,
    pub(super) feed_in: Option<bool>,
    /// On or off, in the order of [`Lockable::ALL`].
    pub(super) locks: [Option<bool>; 9],
    /// Which of them were put on here.
    pub(super) put_on: [bool; 9],
    pub(super) meshed: Vec<(Gear, Gear)>,
    pub(super) slides: [Sled; 5],
    pub(super) compound: Lie,
    pub(super) compound_on: bool,
    pub(super) vertical_on: bool,
    pub(super) tail_centre: bool,
    pub(super) steady: bool,
    pub(super) indicator: bool,
    pub(super) stop: bool,
    pub(super) board: bool,
    pub(super) in_line: Option<bool>,
    pub(super) tool_height: Option<f64>,
    pub(super) head: Head,
    pub(super) detent_in: Option<bool>,
    pub(super) cutter: Option<Cutter>,
    pub(super) clear: Option<bool>,
    pub(super) work: Option<Work>,
    pub(super) rpm_max: Option<u32>,
    /// The cutter against the work's axis at its free end, along x, y, z.
    pub(super) at: [Place; 3],
    /// Which way is out of the work along its axis.
    pub(super) outward: f64,
    /// How far the work is turned, in turns.
    pub(super) angle: Ratio,
    pub(super) angle_lost: bool,
    /// How far it was turned when its first mark was cut.
    pub(super) first_cut: Option<Ratio>,
    /// Which way the lathe spindle was turned by hand to a place last.
    pub(super) hand_way: Option<Turning>,
    /// Which way the first place that was cut was come to.
    pub(super) approach: Option<Turning>,
    /// How far the detent stands from the chalked tooth, in turns.
    pub(super) detent_at: Ratio,
    /// The cutter was moved in its holder, or its height changed, since the first cut.
    pub(super) disturbed: bool,
    /// The lathe spindle was turned by teeth that pass the detent.
    pub(super) by_teeth: bool,
    pub(super) chalked: bool,
    pub(super) turned_through: bool,
    pub(super) tool_tried: bool,
    pub(super) saw_true: bool,
    pub(super) measured: bool,
    /// The last cut along the work was made before anything was measured.
    pub(super) unmeasured: bool,
    /// Something was cut since it was cleaned or freed of its burr.
    pub(super) dirty: bool,
    pub(super) burr: bool,
    pub(super) milled: bool,
    /// A pass by power went to the middle and the tool stands there.
    pub(super) at_middle: bool,
    /// The bar stands against the wall at the end of a pass.
    pub(super) at_wall: bool,
    /// A depth was set and nothing was cut at it yet.
    pub(super) depth_set: bool,
    /// Along which direction the last feed went.
    pub(super) fed: Option<usize>,
    pub(super) nose_clean: bool,
    pub(super) compound_touched: bool,
    pub(super) in_work: bool,
    pub(super) cone: super::taper::Taper,
    pub(super) thick: f64,
    pub(super) record: super::drilling::Record,
    pub(super) threading: super::threading::Threading,
    pub(super) shop: Kit,
}

/// How the compound lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Lie {
    /// Nobody looked.
    Unknown,
    /// Square.
    Lies(Axis),
    /// Off the axis by so many degrees.
    Off(Axis, f64),
}

/// Where the cutter stands along one direction.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Place {
    pub(super) at: f64,
    /// By a touch, or a height that was set.
    pub(super) known: bool,
    /// Only that it is clear of the work is known: somewhere beyond the end.
    pub(super) rough: bool,
    /// The face by which it is known.
    pub(super) face: Option<Face>,
}

/// The dividing head.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Head {
    pub(super) on: bool,
    pub(super) axis: Option<Axis>,
    pub(super) tilted: bool,
    pub(super) height: Option<f64>,
    pub(super) worm: Option<bool>,
    pub(super) crank_in: Option<bool>,
    pub(super) stop_in: Option<bool>,
    pub(super) crank_circle: Option<u16>,
    pub(super) stop_circle: Option<u16>,
    pub(super) plate: Option<Vec<u16>>,
    pub(super) arms: Option<(u16, u16)>,
    pub(super) swung: bool,
    pub(super) moved: bool,
    pub(super) creep: Option<Turning>,
    pub(super) way: Option<Turning>,
    /// Turns of the crank back since it last came forward.
    pub(super) back: Ratio,
    /// Where the crank stands in its plate and the plate in the stop pin, in turns.
    pub(super) crank: Ratio,
    pub(super) plate_at: Ratio,
    pub(super) direct: bool,
    /// Whether a gear or plate sits on its spindle, for a detent.
    pub(super) own_gear: bool,
}

/// What of the shop is needed at every action.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Kit {
    pub(super) screwed: Option<bool>,
    pub(super) worm_ratio: Option<u32>,
    pub(super) half_tooth: bool,
    pub(super) tumbler: bool,
    pub(super) speeds: Vec<u32>,
    pub(super) indicator: bool,
    pub(super) holders: Vec<Holder>,
    /// Bars, saws and mills of carbide, by name.
    pub(super) carbide: Vec<String>,
}

/// A holder's limits.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Holder {
    pub(super) name: String,
    pub(super) kind: Option<&'static str>,
    pub(super) from: Option<f64>,
    pub(super) to: Option<f64>,
    pub(super) rpm_max: Option<u32>,
}

impl Kit {
    fn new(shop: &Shop) -> Kit {
        let size = |r: &crate::record::Record, key| r.quantity(key).map(|q| q.value().to_f64());
        let holder = |r: &crate::record::Record| {
            Some(Holder {
                name: r.text("name")?.into(),
                kind: r.choice("kind"),
                from: size(r, "from"),
                to: size(r, "to"),
                rpm_max: r.count("rpm_max"),
            })
        };
        let carbide = |r: &crate::record::Record| {
            (r.choice("material") == Some("carbide")).then(|| r.text("name").map(String::from))?
        };
        let dividing = shop.dividing();
        Kit {
            screwed: shop.lathe().choice("nose").map(|nose| nose == "screwed"),
            worm_ratio: dividing
                .and_then(|d| d.record("head"))
                .and_then(|head| head.count("worm_ratio")),
            half_tooth: dividing.is_some_and(|d| d.flag("half_tooth") == Some(true)),
            tumbler: shop.lathe().flag("tumbler") == Some(true),
            speeds: shop.speeds().iter().map(|s| s.rpm).collect(),
            indicator: shop.record().records("indicators").next().is_some(),
            holders: shop.record().records("holding").filter_map(holder).collect(),
            carbide: shop.record().records("cutters").filter_map(carbide).collect(),
        }
    }

    pub(super) fn holder(&self, name: &str) -> Option<&Holder> {
        self.holders.iter().find(|holder| holder.name == name)
    }
}

impl Machine {
    pub(super) fn new(shop: &Shop) -> Machine {
        Machine {
            supply: None,
            guard_shut: None,
            key_in: None,
            lathe: None,
            cutter_spindle: None,
            rpm: None,
            cutter_rpm: None,
            each_turn: None,
            tumbler: None,
            back_gear: None,
            nuts_in: None,
            feed_in: None,
            locks: [None; 9],
            put_on: [false; 9],
            meshed: Vec::new(),
            slides: ["carriage", "cross", "compound", "", "tailstock"].map(|n| Sled::new(shop, n)),
            compound: Lie::Unknown,
            compound_on: true,
            vertical_on: false,
            tail_centre: false,
            steady: false,
            indicator: false,
            stop: false,
            board: false,
            in_line: None,
            tool_height: None,
            head: Head::default(),
            detent_in: None,
            cutter: None,
            clear: None,
            work: None,
            rpm_max: None,
            at: [Place::default(); 3],
            outward: 1.0,
            angle: Ratio::ZERO,
            first_cut: None,
            angle_lost: false,
            hand_way: None,
            approach: None,
            detent_at: Ratio::ZERO,
            disturbed: false,
            by_teeth: false,
            chalked: false,
            turned_through: false,
            tool_tried: false,
            saw_true: false,
            measured: false,
            unmeasured: false,
            dirty: false,
            burr: false,
            milled: false,
            at_middle: false,
            at_wall: false,
            depth_set: false,
            fed: None,
            nose_clean: false,
            compound_touched: false,
            in_work: false,
            cone: super::taper::Taper::default(),
            thick: 0.0,
            record: super::drilling::Record::default(),
            threading: super::threading::Threading::new(shop),
            shop: Kit::new(shop),
        }
    }

    pub(super) fn lock(&self, what: Lockable) -> Option<bool> {
        self.locks.get(what as usize).copied().flatten()
    }

    /// Where the work is.
    pub(super) fn work_at(&self) -> Option<WorkAt> {
        self.work.as_ref().map(|work| work.at)
    }

    /// Whether the work turns with the lathe spindle.
    pub(super) fn work_in_spindle(&self) -> bool {
        matches!(self.work_at(), Some(WorkAt::LatheSpindle | WorkAt::Centres))
    }

    pub(super) fn in_head(&self) -> bool {
        self.work_at() == Some(WorkAt::Head)
    }

    /// Whether the work rides on the slides and the cutter stands.
    pub(super) fn work_rides(&self) -> bool {
        matches!(self.work_at(), Some(WorkAt::Head | WorkAt::CrossSlide))
    }

    pub(super) fn shape(&self) -> Option<Shape> {
        self.cutter.as_ref().map(|cutter| cutter.shape)
    }

    /// Whether the cutter is in the lathe spindle.
    pub(super) fn cutter_in_spindle(&self) -> bool {
        self.cutter.as_ref().is_some_and(|c| c.at == CutterAt::LatheSpindle)
    }

    /// The work's axis: 0 across, 2 along.
    pub(super) fn work_axis(&self) -> Option<usize> {
        match self.work_at()? {
            WorkAt::Head => match self.head.axis? {
                Axis::Along => Some(2),
                Axis::Across => Some(0),
                Axis::Upright => Some(1),
            },
            WorkAt::LatheSpindle | WorkAt::Centres => Some(2),
            // Its face looks at the cutter in the lathe spindle.
            WorkAt::CrossSlide => Some(2),
            WorkAt::Bench => None,
        }
    }

    /// The work's radius as it was mounted, mm.
    pub(super) fn radius(&self) -> Option<f64> {
        Some(self.work.as_ref()?.diameter?.mm.to_f64() / 2.0)
    }

    /// Turning by a tool that stands while the work turns.
    pub(super) fn turns_work(&self) -> bool {
        use Shape::{BoringBar, FormTool, Knurl, PartingBlade, ThreadingTool, TurningTool};
        self.work_in_spindle()
            && matches!(
                self.shape(),
                Some(TurningTool | BoringBar | PartingBlade | ThreadingTool | FormTool | Knurl)
            )
    }

    /// Divided work: it stands while it is cut.
    pub(super) fn divides(&self) -> bool {
        self.work_at() == Some(WorkAt::Head)
            || (self.work_in_spindle()
                && (self.shape() == Some(Shape::Scriber)
                    || self.cutter.as_ref().is_some_and(|c| c.at == CutterAt::DrivenSpindle)))
    }

    /// Whether the lathe spindle turns; none where nobody knows.
    pub(super) fn lathe_turns(&self) -> Option<bool> {
        match (self.lathe, self.supply) {
            (Some(is), _) => Some(is != Running::Stopped),
            (None, Some(false)) => Some(false),
            (None, _) => None,
        }
    }

    pub(super) fn turning(&self) -> bool {
        self.lathe_turns() == Some(true)
            || self.cutter_spindle.is_some_and(|is| is != Running::Stopped)
    }
}

/// What can be said of the machine at the bench: nothing where it is unknown.
#[derive(Clone, Debug, PartialEq)]
pub struct State {
    /// Whether the supply is on.
    pub supply: Option<bool>,
    /// Whether the guard is shut.
    pub guard_shut: Option<bool>,
    /// Whether the key is in.
    pub key_in: Option<bool>,
    /// What the lathe spindle does.
    pub spindle: Option<Running>,
    /// What the cutter's spindle does.
    pub cutter_spindle: Option<Running>,
    /// The lathe spindle's speed, turns a minute.
    pub rpm: Option<u32>,
    /// The tumbler.
    pub tumbler: Option<Tumbler>,
    /// The back gear.
    pub back_gear: Option<bool>,
    /// Whether the half-nuts are closed.
    pub nuts_in: Option<bool>,
    /// Whether the power feed is in.
    pub feed_in: Option<bool>,
    /// The locks, on or off.
    pub locks: [(Lockable, Option<bool>); 9],
    /// Whether the detent is in.
    pub detent_in: Option<bool>,
    /// Whether the crank's pin is in.
    pub crank_in: Option<bool>,
    /// Whether the plate's stop pin is in.
    pub stop_in: Option<bool>,
    /// Whether the worm is in mesh.
    pub worm_in: Option<bool>,
    /// Whether the tailstock is in line.
    pub tailstock_in_line: Option<bool>,
    /// How the compound lies, where it lies square.
    pub compound: Option<Axis>,
    /// Whether the cutter stands clear of the work.
    pub clear: Option<bool>,
    /// How far the work is turned from its start, in turns; none where it was lost.
    pub angle: Option<Ratio>,
}

impl Lathe {
    /// How the machine stands.
    #[must_use]
    pub fn state(&self) -> State {
        let m = &self.m;
        let mut locks = [(Lockable::LatheSpindle, None); 9];
        for (place, what) in locks.iter_mut().zip(Lockable::ALL) {
            *place = (*what, m.lock(*what));
        }
        State {
            supply: m.supply,
            guard_shut: m.guard_shut,
            key_in: m.key_in,
            spindle: m.lathe,
            cutter_spindle: m.cutter_spindle,
            rpm: m.rpm,
            tumbler: m.tumbler,
            back_gear: m.back_gear,
            nuts_in: m.nuts_in,
            feed_in: m.feed_in,
            locks,
            detent_in: m.detent_in,
            crank_in: m.head.crank_in,
            stop_in: m.head.stop_in,
            worm_in: m.head.worm,
            tailstock_in_line: m.in_line,
            compound: match m.compound {
                Lie::Lies(axis) => Some(axis),
                Lie::Unknown | Lie::Off(..) => None,
            },
            clear: m.clear,
            angle: (!m.angle_lost).then_some(m.angle),
        }
    }
}
