//! A thread's shape: angle, depth, flats and radii, and the diameters that follow.

use super::designation::{Designation, Side};
use super::lead::INCH;
use super::series::Series;
use crate::exact::{Ratio, RatioError};

/// The shape of a thread.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Form {
    /// ISO metric and Unified, 60°.
    Sixty,
    /// Whitworth, 55°, rounded at crest and root.
    Whitworth,
    /// BA, 47½°, rounded at crest and root.
    Ba,
    /// ISO metric trapezoidal, 30°.
    Trapezoidal,
    /// Acme, 29°.
    Acme,
    /// Stub Acme, 29°.
    StubAcme,
    /// Cycle, 60°, rounded at crest and root.
    Cycle,
    /// A worm, 40° or 29°.
    Worm,
    /// A plain sharp V of any angle.
    Vee,
}

/// What the tool's point looks like.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Point {
    /// Ground to the bare angle.
    Sharp,
    /// A flat of so many mm.
    Flat(f64),
    /// A radius of so many mm.
    Radius(f64),
}

/// One thread's shape. Lengths are radial, in mm, and exact but for what the standards give as
/// decimals of the pitch (60°, Whitworth) and for worms, whose pitch has π in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Profile {
    /// Which shape.
    pub form: Form,
    /// Angle between the flanks, degrees.
    pub included_deg: Ratio,
    /// From crest to crest, mm.
    pub pitch: Ratio,
    /// From the nominal outside diameter in to the pitch line.
    pub addendum: Ratio,
    /// From the nominal outside diameter in to the nut's crest.
    pub nut_crest: Ratio,
    /// From the nominal outside diameter in to the screw's root: the depth to cut outside.
    pub screw_depth: Ratio,
    /// From the nominal outside diameter out to the nut's root.
    pub nut_clearance: Ratio,
    /// Radius at the screw's root, where the form has one.
    pub root_radius: Option<Ratio>,
}

/// Gap between the trapezoidal screw's root and the nut's crest, mm.
///
/// Source: ISO 2904 Table 2: 0.15 for a pitch of 1.5 mm, 0.25 for 2 to 5, 0.5 for 6 to 12, 1 above.
fn trapezoidal_gap(pitch: Ratio) -> Ratio {
    if pitch < Ratio::whole(2) {
        Ratio::of(3, 20)
    } else if pitch < Ratio::whole(6) {
        Ratio::of(1, 4)
    } else if pitch < Ratio::whole(14) {
        Ratio::of(1, 2)
    } else {
        Ratio::ONE
    }
}

/// Gap between the Acme screw's root and the nut's crest, mm: 0.010 in for ten threads per inch
/// and coarser, 0.005 in for finer.
///
/// Source: ASME B1.5 and B1.8 (from memory); 0.010 in: Jones, Turning and Boring (1914) p. 156.
fn acme_gap(pitch: Ratio) -> Result<Ratio, RatioError> {
    let ten = INCH.div(Ratio::whole(10))?;
    INCH.mul(if pitch >= ten { Ratio::of(1, 100) } else { Ratio::of(1, 200) })
}

impl Profile {
    /// The shape of a thread; `None` for a bare lead with no angle chosen.
    ///
    /// A bare lead of 60, 55, 47½, 30 or 29 degrees has that standard's shape, any other is a
    /// plain V; a worm has 40 degrees unless told 29.
    ///
    /// # Errors
    ///
    /// [`RatioError`] when the sizes are too large to be kept exactly.
    pub fn of(thread: &Designation) -> Result<Option<Profile>, RatioError> {
        let own = |degrees: Ratio| thread.angle.unwrap_or(degrees);
        let (form, angle) = match thread.series {
            Series::Metric
            | Series::Unc
            | Series::Unf
            | Series::Unef
            | Series::Un8
            | Series::Un12
            | Series::Un16
            | Series::Uns => (Form::Sixty, Ratio::whole(60)),
            Series::Bsw
            | Series::Bsf
            | Series::Whitworth
            | Series::Pipe
            | Series::ModelEngineer
            | Series::Brass => (Form::Whitworth, Ratio::whole(55)),
            Series::Cycle => (Form::Cycle, Ratio::whole(60)),
            Series::Ba => (Form::Ba, Ratio::of(95, 2)),
            Series::Trapezoidal => (Form::Trapezoidal, Ratio::whole(30)),
            Series::Acme => (Form::Acme, Ratio::whole(29)),
            Series::StubAcme => (Form::StubAcme, Ratio::whole(29)),
            Series::Module | Series::DiametralPitch => (Form::Worm, own(Ratio::whole(40))),
            Series::Plain => {
                let Some(angle) = thread.angle else { return Ok(None) };
                let known = [
                    (Ratio::whole(60), Form::Sixty),
                    (Ratio::whole(55), Form::Whitworth),
                    (Ratio::of(95, 2), Form::Ba),
                    (Ratio::whole(30), Form::Trapezoidal),
                    (Ratio::whole(29), Form::Acme),
                ];
                let form = known.into_iter().find(|(degrees, _)| *degrees == angle);
                (form.map_or(Form::Vee, |(_, form)| form), angle)
            }
        };
        Profile::new(form, angle, thread.pitch.mm()?).map(Some)
    }

    /// A shape of this angle (which only worms and plain Vs are free to choose) and pitch in mm.
    ///
    /// # Errors
    ///
    /// [`RatioError`] when the sizes are too large to be kept exactly.
    pub fn new(form: Form, included_deg: Ratio, pitch: Ratio) -> Result<Profile, RatioError> {
        let gap = match form {
            Form::Trapezoidal => trapezoidal_gap(pitch),
            Form::Acme | Form::StubAcme => acme_gap(pitch)?,
            _ => Ratio::ZERO,
        };
        // In ten-millionths of the pitch: pitch line, nut's crest, screw's root (to which the gap
        // comes), radius at the root.
        let [addendum, nut_crest, root, radius] = match form {
            // Source: ISO 68-1 and ISO 724, their six-decimal constants: 3/4 H = 0.649519 P on the
            // diameter, 5/8 H = 0.541266 P, 17/24 H = 0.613434 P with a root radius of
            // H/6 = 0.144338 P. ASME B1.1 has the same basic profile, and UN the same depth.
            Form::Sixty => [3_247_595, 5_412_660, 6_134_340, 1_443_380],
            // Source: BS 84: H = 0.960491 P, depth 2/3 H = 0.640327 P, radius 0.137329 P.
            Form::Whitworth => [3_201_635, 6_403_270, 6_403_270, 1_373_290],
            // Source: BS 93: depth 0.6 P exactly, radius 0.180834 P.
            Form::Ba => [3_000_000, 6_000_000, 6_000_000, 1_808_340],
            // Source: BS 811:1950: depth 0.5327 P, crest and root of radius P/6.
            Form::Cycle => [2_663_500, 5_327_000, 5_327_000, 1_666_667],
            // Source: ISO 2904 and ASME B1.5: height 0.5 P and the gap, exactly.
            Form::Trapezoidal | Form::Acme => [2_500_000, 5_000_000, 5_000_000, 0],
            // Source: ASME B1.8: height 0.3 P and the gap, exactly.
            Form::StubAcme => [1_500_000, 3_000_000, 3_000_000, 0],
            // Source: common practice: addendum one module; depth 2.25 modules at 40°, 0.6866 P
            // at 29° (from memory). The module is filled in below.
            Form::Worm => [0, 0, 6_866_000, 0],
            Form::Vee => [0; 4],
        };
        let p = |part| pitch.mul(Ratio::of(part, 10_000_000));
        let mut profile = Profile {
            form,
            included_deg,
            pitch,
            addendum: p(addendum)?,
            nut_crest: p(nut_crest)?,
            screw_depth: p(root)?.add(gap)?,
            nut_clearance: gap,
            root_radius: if radius > 0 { Some(p(radius)?) } else { None },
        };
        if form == Form::Worm {
            let module = pitch.div(super::lead::PI)?;
            profile.addendum = module;
            profile.nut_crest = module.add(module)?;
            if included_deg != Ratio::whole(29) {
                profile.screw_depth = module.mul(Ratio::of(9, 4))?;
            }
        } else if form == Form::Vee {
            // A sharp V: its height from the angle, to the nearest nanometre.
            let height = near(pitch.to_f64() / 2.0 / libm::tan(half_angle(included_deg)))?;
            profile.addendum = height.mul(Ratio::of(1, 2))?;
            (profile.nut_crest, profile.screw_depth) = (height, height);
        }
        Ok(profile)
    }

    /// Half the angle between the flanks, radians.
    #[must_use]
    pub fn half_angle(&self) -> f64 {
        half_angle(self.included_deg)
    }

    /// The depth to cut, from the blank's surface: the screw's from its outside diameter, the
    /// nut's from its bore.
    ///
    /// # Errors
    ///
    /// [`RatioError::Overflow`].
    pub const fn depth(&self, side: Side) -> Result<Ratio, RatioError> {
        match side {
            Side::Outside => Ok(self.screw_depth),
            Side::Inside => self.nut_crest.add(self.nut_clearance),
        }
    }

    /// Basic outside diameter of screw or nut for this nominal diameter, mm (a trapezoidal nut's D4
    /// is larger than its screw's d).
    ///
    /// # Errors
    ///
    /// [`RatioError::Overflow`].
    pub const fn major(&self, side: Side, diameter: Ratio) -> Result<Ratio, RatioError> {
        match side {
            Side::Outside => Ok(diameter),
            Side::Inside => less_twice(diameter, self.nut_clearance.neg()),
        }
    }

    /// Basic pitch diameter for this nominal diameter, mm.
    ///
    /// # Errors
    ///
    /// [`RatioError::Overflow`].
    pub const fn pitch_diameter(&self, diameter: Ratio) -> Result<Ratio, RatioError> {
        less_twice(diameter, self.addendum)
    }

    /// Basic minor diameter for this nominal diameter, mm: the screw's root, the nut's bore.
    ///
    /// # Errors
    ///
    /// [`RatioError::Overflow`].
    pub const fn minor(&self, side: Side, diameter: Ratio) -> Result<Ratio, RatioError> {
        match side {
            Side::Outside => less_twice(diameter, self.screw_depth),
            Side::Inside => less_twice(diameter, self.nut_crest),
        }
    }

    /// How deep a sharp tool would go, mm, from the blank's surface, to bring the flanks to the
    /// basic pitch diameter: to where they meet.
    ///
    /// By geometry: the groove is half a pitch wide at the pitch line.
    #[must_use]
    pub fn sharp_depth(&self, side: Side) -> f64 {
        let to_pitch_line = match side {
            Side::Outside => self.addendum.to_f64(),
            Side::Inside => self.nut_crest.to_f64() - self.addendum.to_f64(),
        };
        // A worm's grooves are half a pitch wide at the pitch line too.
        to_pitch_line + self.pitch.to_f64() / 4.0 / libm::tan(self.half_angle())
    }

    /// How deep this tool must go, mm, from the blank's surface, for the basic pitch diameter.
    #[must_use]
    pub fn tool_depth(&self, side: Side, point: Point) -> f64 {
        let half = self.half_angle();
        self.sharp_depth(side)
            - match point {
                Point::Sharp => 0.0,
                Point::Flat(width) => width / 2.0 / libm::tan(half),
                Point::Radius(radius) => radius * (1.0 / libm::sin(half) - 1.0),
            }
    }

    /// How wide the groove's bottom is, mm, at the full depth: the flat to grind on the tool.
    #[must_use]
    pub fn root_flat(&self, side: Side) -> f64 {
        let depth = match side {
            Side::Outside => self.screw_depth.to_f64(),
            Side::Inside => self.nut_crest.to_f64() + self.nut_clearance.to_f64(),
        };
        2.0 * (self.sharp_depth(side) - depth) * libm::tan(self.half_angle())
    }

    /// How wide the screw's crest is, mm, between its flanks at the nominal outside diameter.
    #[must_use]
    pub fn crest_flat(&self) -> f64 {
        self.pitch.to_f64() / 2.0 - 2.0 * self.addendum.to_f64() * libm::tan(self.half_angle())
    }
}

const fn less_twice(diameter: Ratio, radial: Ratio) -> Result<Ratio, RatioError> {
    match radial.add(radial) {
        Ok(twice) => diameter.sub(twice),
        Err(why) => Err(why),
    }
}

fn half_angle(included_deg: Ratio) -> f64 {
    included_deg.to_f64().to_radians() / 2.0
}

/// The nearest whole number of nanometres, as mm.
pub(super) fn near(mm: f64) -> Result<Ratio, RatioError> {
    let nanometres = libm::round(mm * 1e6);
    if nanometres.abs() < 9e15 {
        // Checked just above: the cast can't saturate.
        Ok(Ratio::of(nanometres as i64, 1_000_000))
    } else {
        Err(RatioError::Overflow)
    }
}
