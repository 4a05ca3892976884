//! What is cut, what cuts it, and how.

use core::fmt;

/// A list whose members have a stable id, for files, and a name in plain words.
macro_rules! named {
    ($(#[$doc:meta])* $name:ident { $($(#[$member_doc:meta])* $member:ident, $id:literal, $words:literal;)+ }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name { $($(#[$member_doc])* $member,)+ }

        impl $name {
            /// All of them, in the order of the list.
            pub const ALL: &[$name] = &[$($name::$member,)+];

            /// The word that a file keeps.
            #[must_use]
            pub const fn id(self) -> &'static str {
                match self { $($name::$member => $id,)+ }
            }

            /// The one with this id.
            #[must_use]
            pub fn from_id(id: &str) -> Option<$name> {
                $name::ALL.iter().copied().find(|one| one.id() == id)
            }
        }

        /// In plain words.
        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(match self { $($name::$member => $words,)+ })
            }
        }
    };
}

named! {
    /// What the work is made of. The hardness assumed stands with each.
    Stock {
        /// Leaded or sulphurised low-carbon steel, 120 to 150 Brinell.
        FreeCuttingSteel, "free-cutting-steel", "free-cutting steel";
        /// Bright low-carbon bar, 150 to 170 Brinell.
        MildSteel, "mild-steel", "mild steel";
        /// 0.3 to 0.5 % carbon, as rolled or normalised, 170 to 190 Brinell.
        MediumCarbonSteel, "medium-carbon-steel", "medium-carbon steel";
        /// Low-alloy steel, annealed, 175 to 225 Brinell.
        AlloySteel, "alloy-steel", "alloy steel";
        /// About 1 % carbon, annealed, up to 250 Brinell: silver steel among them.
        ToolSteel, "tool-steel", "silver steel";
        /// Austenitic, annealed, 135 to 185 Brinell.
        StainlessSteel, "stainless-steel", "stainless steel";
        /// 190 to 220 Brinell, below the skin.
        GreyIron, "grey-iron", "grey iron";
        /// Wrought alloys.
        Aluminium, "aluminium", "aluminium";
        /// Free-cutting brass.
        Brass, "brass", "brass";
        /// Bearing bronze and gunmetal.
        Bronze, "bronze", "bronze";
        /// Copper, unalloyed.
        Copper, "copper", "copper";
        /// Acetal.
        Acetal, "acetal", "acetal";
        /// Nylon.
        Nylon, "nylon", "nylon";
    }
}

named! {
    /// What the cutting edge is made of.
    CutterMaterial {
        /// High-speed steel.
        Hss, "hss", "high-speed steel";
        /// A carbide tip brazed to a steel shank.
        BrazedCarbide, "brazed-carbide", "brazed carbide";
        /// Indexable or solid carbide.
        Carbide, "carbide", "carbide";
    }
}

named! {
    /// What is done.
    Process {
        /// Roughing cuts along the work.
        Turn, "turn", "turn";
        /// The last cut along the work.
        Finish, "finish", "finish-turn";
        /// Inside, with a single point.
        Bore, "bore", "bore";
        /// Across the end.
        Face, "face", "face";
        /// With a twist drill.
        Drill, "drill", "drill";
        /// With a machine reamer.
        Ream, "ream", "ream";
        /// With a countersink or a counterbore.
        Countersink, "countersink", "countersink";
        /// With a cutter that turns.
        Mill, "mill", "mill";
        /// Parting and grooving.
        Part, "part", "part";
        /// With a knurl.
        Knurl, "knurl", "knurl";
        /// Screw-cutting with a single point.
        Thread, "thread", "screw-cut";
        /// With a tap under power.
        Tap, "tap", "tap";
        /// With a die under power.
        Die, "die", "thread with a die";
    }
}

impl Stock {
    /// The hardness that the figures are for, Brinell, where the books say: harder stock of the same
    /// name is cut slower.
    #[must_use]
    pub const fn brinell(self) -> Option<(u16, u16)> {
        Some(match self {
            Stock::FreeCuttingSteel => (120, 150),
            Stock::MildSteel => (150, 170),
            Stock::MediumCarbonSteel => (170, 190),
            Stock::AlloySteel => (175, 225),
            Stock::ToolSteel => (200, 250),
            Stock::StainlessSteel => (135, 185),
            Stock::GreyIron => (190, 220),
            _ => return None,
        })
    }
}

impl Process {
    /// Whether the cutter turns on its own diameter, and not the work on its.
    #[must_use]
    pub const fn goes_by_the_cutter(self) -> bool {
        matches!(
            self,
            Process::Drill | Process::Ream | Process::Countersink | Process::Mill | Process::Tap
        )
    }

    /// Whether a pitch decides the feed.
    #[must_use]
    pub const fn follows_a_pitch(self) -> bool {
        matches!(self, Process::Thread | Process::Tap | Process::Die)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_id_finds_its_own() {
        for stock in Stock::ALL {
            assert_eq!(Stock::from_id(stock.id()), Some(*stock));
        }
        for cutter in CutterMaterial::ALL {
            assert_eq!(CutterMaterial::from_id(cutter.id()), Some(*cutter));
        }
        for process in Process::ALL {
            assert_eq!(Process::from_id(process.id()), Some(*process));
        }
        assert_eq!(Stock::from_id("unobtainium"), None);
    }
}
