//! Settings: numbers that facts need and no record states. Their values are limits of
//! `rules/tables/limits.toml`, which a shop may change like any other.

use super::{Provenance, Reckoned};

macro_rules! settings {
    ($($id:ident $name:literal $meaning:literal;)*) => {
        /// A number that facts need and no record states.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        #[repr(u8)]
        pub enum Setting { $(#[doc = $meaning] $id,)* }

        impl Setting {
            /// All settings, in order.
            pub const ALL: &[Setting] = &[$(Setting::$id,)*];

            /// Its name as a limit.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $(Setting::$id => $name,)* }
            }
        }
    };
}

settings! {
    MinGripFraction "min_grip_fraction" "Minimum part of the gripping length that must be filled, ratio.";
    ClosingRoom "closing_room" "Free depth that the shank end keeps to the stop beyond the collet's draw-in, mm.";
    SquareShare "square_share" "Minimum part of a tap's square that must be in the collet's square, ratio.";
    FrictionThreadLow "friction_thread_low" "Friction of the nut's thread, low.";
    FrictionThreadHigh "friction_thread_high" "Friction of the nut's thread, high.";
    FrictionConeLow "friction_cone_low" "Friction of the nut's cone on the collet, low.";
    FrictionConeHigh "friction_cone_high" "Friction of the nut's cone on the collet, high.";
    FrictionBearing "friction_bearing" "Friction of a bearing nut in place of its cone.";
    FrictionTaperLow "friction_taper_low" "Friction of the collet in its taper, low.";
    FrictionTaperHigh "friction_taper_high" "Friction of the collet in its taper, high.";
    FrictionShankLow "friction_shank_low" "Friction of the shank in the bore, low.";
    FrictionShankHigh "friction_shank_high" "Friction of the shank in the bore, high.";
    ConeRadiusRatio "cone_radius_ratio" "Mean radius of the nut's cone over the collet's front diameter, ratio.";
    ConeHalfAngle "cone_half_angle" "Half angle of the nut's cone to the axis, degrees.";
    NutLengthRatio "nut_length_ratio" "Length of a nut over the diameter of its thread, at most, ratio.";
    ModulusCarbide "modulus_carbide" "Young's modulus of carbide, MPa.";
    ModulusHss "modulus_hss" "Young's modulus of high-speed steel, MPa.";
    ModulusSteel "modulus_steel" "Young's modulus of steel, MPa.";
    DensityCarbide "density_carbide" "Density of carbide over that of water, ratio.";
    DensitySteel "density_steel" "Density of steels over that of water, ratio.";
    FlutedPartLow "fluted_part_low" "Equivalent diameter of a fluted length over its cutting diameter, low, ratio.";
    FlutedPartHigh "fluted_part_high" "Equivalent diameter of a fluted length over its cutting diameter, high, ratio.";
    RadialShareLow "radial_share_low" "Force of a tooth across its path over that along it, low, ratio.";
    RadialShareHigh "radial_share_high" "Force of a tooth across its path over that along it, high, ratio.";
    ChipRake "chip_rake" "Normal rake of an end mill's edge, degrees.";
    ChipFriction "chip_friction" "Friction angle of the chip on the face, degrees.";
    CuttingProcess "cutting_process" "Correction of the specific cutting force for milling, ratio.";
    CuttingWear "cutting_wear" "Correction of the specific cutting force for a worn edge, ratio.";
    DrillingCompression "drilling_compression" "Correction of the specific cutting force for drilling, ratio.";
    TappingFriction "tapping_friction" "Torque of a tap with friction and reversal over that of the cut alone, ratio.";
    HelixUnstated "helix_unstated" "Helix angle of an end mill that states none, degrees.";
    PointUnstated "point_unstated" "Point angle of a drill that states none, degrees.";
}

impl Setting {
    /// Whether it is a friction of the clamping, or the lever of one.
    #[must_use]
    pub fn is_friction(self) -> bool {
        self.name().starts_with("friction_") || self == Setting::ConeRadiusRatio
    }

    /// Whether a cut's force or torque rests on it: an estimate, whatever its basis.
    #[must_use]
    pub fn is_of_cut(self) -> bool {
        matches!(
            self,
            Setting::CuttingProcess
                | Setting::CuttingWear
                | Setting::DrillingCompression
                | Setting::RadialShareLow
                | Setting::RadialShareHigh
                | Setting::ChipRake
                | Setting::ChipFriction
                | Setting::TappingFriction
        )
    }
}

/// How many settings there are.
const COUNT: usize = Setting::ALL.len();

/// The values of the settings, in canonical units.
#[derive(Clone, Debug, PartialEq)]
pub struct Settings {
    values: [f64; COUNT],
}

impl Settings {
    /// Settings by a function that knows each value.
    #[must_use]
    pub fn new(value: impl Fn(Setting) -> f64) -> Settings {
        let mut values = [f64::NAN; COUNT];
        for (setting, slot) in Setting::ALL.iter().zip(&mut values) {
            *slot = value(*setting);
        }
        Settings { values }
    }

    /// The value of a setting, resting on it.
    #[must_use]
    pub fn get<P: Provenance>(&self, setting: Setting) -> Reckoned<f64, P> {
        let value = self.values.get(setting as usize).copied();
        Reckoned {
            value: value.filter(|value| value.is_finite()),
            trace: P::setting(setting),
        }
    }
}
