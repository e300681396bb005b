//! The registry: every fact with its name, unit, meaning and source.

use std::fmt;

use crate::library::Reckoned;
use crate::units::Unit;

use super::{Scene, described, grip, makers, reach, records, shape, spare, torque};

/// How a fact is reckoned, by the type of its value.
#[derive(Clone, Copy)]
pub enum FactValue {
    /// A number in a canonical unit.
    Number(Unit, fn(&Scene<'_>) -> Reckoned<f64>),
    /// One of a few words.
    Word(
        &'static [&'static str],
        fn(&Scene<'_>) -> Reckoned<&'static str>,
    ),
    /// Yes or no.
    Truth(fn(&Scene<'_>) -> Reckoned<bool>),
}

impl fmt::Debug for FactValue {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            FactValue::Number(unit, _) => write!(f, "Number({})", unit.symbol()),
            FactValue::Word(words, _) => write!(f, "Word({words:?})"),
            FactValue::Truth(_) => f.write_str("Truth"),
        }
    }
}

/// What is known about a fact itself.
#[derive(Debug)]
pub struct FactInfo {
    /// The fact.
    pub fact: Fact,
    /// Name, as rules and JSON write it.
    pub name: &'static str,
    /// Type, unit, and the function that reckons it.
    pub value: FactValue,
    /// Whether it belongs to an assembly with one operation.
    pub of_operation: bool,
    /// One line for people.
    pub meaning: &'static str,
    /// Where its formula or convention comes from.
    pub source: &'static str,
}

macro_rules! facts {
    ($($id:ident $name:literal $value:expr, $of_operation:expr, $meaning:literal, $source:literal;)*) => {
        /// A fact, by number.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        #[repr(u8)]
        pub enum Fact { $(#[doc = $meaning] $id,)* }

        static FACTS: &[FactInfo] = &[
            $(FactInfo {
                fact: Fact::$id,
                name: $name,
                value: $value,
                of_operation: $of_operation,
                meaning: $meaning,
                source: $source,
            },)*
        ];
    };
}

use FactValue::{Number, Truth, Word};

const ASSEMBLY: bool = false;
const OPERATION: bool = true;

facts! {
    HeldInCollet "held_in_collet" Truth(grip::held_in_collet), ASSEMBLY,
        "the tool sits in a taper collet of ISO 15488",
        "the holder's clamping kind; when that is empty, a named or described collet";
    Insertion "insertion" Number(Unit::Mm, grip::insertion), ASSEMBLY,
        "length of the tool behind the front face",
        "geometry; clamping length LSC of ISO 13399";
    BoreSetback "bore_setback" Number(Unit::Mm, grip::bore_setback), ASSEMBLY,
        "front face to the front end of the gripping land",
        "geometry";
    PlainShank "plain_shank" Number(Unit::Mm, grip::plain_shank), ASSEMBLY,
        "plain shank that a collet can grip: its length less a driving square",
        "geometry";
    GrippedLength "gripped_length" Number(Unit::Mm, grip::gripped_length), ASSEMBLY,
        "overlap along the axis of the plain shank with the gripping land",
        "geometry; a drive flat does not reduce it";
    GripFraction "grip_fraction" Number(Unit::One, grip::grip_fraction), ASSEMBLY,
        "gripped length over bore length",
        "geometry";
    NeededGrip "needed_grip" Number(Unit::Mm, grip::needed_grip), ASSEMBLY,
        "least grip: min_grip_fraction of the bore length",
        "two thirds: common practice, no source";
    UngrippedFront "ungripped_front" Number(Unit::Mm, grip::ungripped_front), ASSEMBLY,
        "length of land, at its front, that faces no plain shank",
        "geometry";
    FrontIs "front_is" Word(&["flute", "run-out", "neck", "shank"], grip::front_is), ASSEMBLY,
        "what lies under the front of the land: flute, run-out, neck, or shank if it is filled",
        "geometry; flute where nothing is stated in front of the shank";
    BoreGap "bore_gap" Number(Unit::Mm, grip::bore_gap), ASSEMBLY,
        "bore diameter less shank diameter",
        "geometry";
    DrawIn "draw_in" Number(Unit::Mm, grip::draw_in), ASSEMBLY,
        "how far the collet is pulled in to close the gap",
        "geometry; setting angle 8° of ISO 15488";
    TailGap "tail_gap" Number(Unit::Mm, grip::tail_gap), ASSEMBLY,
        "free length behind the tail, to whatever stops it",
        "geometry";
    ShortestOverallLength "shortest_overall_length" Number(Unit::Mm, grip::shortest_overall_length), ASSEMBLY,
        "shortest tool that still has the needed grip at this stick-out",
        "geometry; two thirds: common practice, no source";
    MakerClampingMin "maker_clamping_min" Number(Unit::Mm, makers::clamping_min), ASSEMBLY,
        "greatest of the least insertions that the makers of cutter, collet and holder permit",
        "the library; minimum clamping length LSCN of ISO 13399";
    MakerClampingMinIs "maker_clamping_min_is" Word(makers::PARTS, makers::clamping_min_is), ASSEMBLY,
        "whose it is",
        "the library";
    MakerClampingMax "maker_clamping_max" Number(Unit::Mm, makers::clamping_max), ASSEMBLY,
        "least of the greatest insertions that the makers of cutter and collet permit",
        "the library; maximum clamping length LSCX of ISO 13399";
    MakerClampingMaxIs "maker_clamping_max_is" Word(makers::PARTS, makers::clamping_max_is), ASSEMBLY,
        "whose it is",
        "the library";
    LeastStickOut "least_stick_out" Number(Unit::Mm, spare::least_stick_out), ASSEMBLY,
        "least stick-out that all its operations, its flutes and the known stops allow",
        "geometry";
    BestGrip "best_grip" Number(Unit::Mm, spare::best_grip), ASSEMBLY,
        "gripped length at the least stick-out",
        "geometry";
    SpareOverhang "spare_overhang" Number(Unit::Mm, spare::spare_overhang), ASSEMBLY,
        "stick-out beyond the least",
        "geometry";
    FineWork "fine_work" Truth(spare::fine_work), ASSEMBLY,
        "one of its operations reams or finishes",
        "the library";
    FlatInBore "flat_in_bore" Number(Unit::Mm, shape::flat_in_bore), ASSEMBLY,
        "length of a drive flat under the gripping land",
        "geometry; place of the flat: DIN 6535, partly from memory, so it is assumed";
    OuterGrip "outer_grip" Number(Unit::Mm, shape::outer_grip), ASSEMBLY,
        "grip of an extension in the holder; a library does not tell it",
        "none: it is never known";
    DescribedDiameter "described_diameter" Number(Unit::Mm, described::diameter), ASSEMBLY,
        "diameter that the description marks as one: Ø12, D12, dia 12",
        "the library";
    LooksLikeInches "looks_like_inches" Truth(records::looks_like_inches), ASSEMBLY,
        "a shank implausibly thin in millimetres and a common size in inches",
        "common practice, no source: shank sizes";
    LooksLikeMillimetres "looks_like_millimetres" Truth(records::looks_like_millimetres), ASSEMBLY,
        "a shank implausibly thick in inches and a common size in millimetres",
        "DIN 6535 shank diameters";
    TorqueRecommended "torque_recommended" Number(Unit::Nm, torque::recommended), ASSEMBLY,
        "nut torque that the makers recommend for this bore, as the library states it",
        "the library: the collet's value, else the nut's if it says for which bores";
    TorqueLimit "torque_limit" Number(Unit::Nm, torque::limit), ASSEMBLY,
        "least of the torques that the library permits: nut, wrench, this bore",
        "the library";
    TorqueLimitIs "torque_limit_is" Word(torque::LIMITS, torque::limit_is), ASSEMBLY,
        "which of them is the least",
        "the library";
    PointLength "point_length" Number(Unit::Mm, reach::point_length), ASSEMBLY,
        "axial length of a conical point",
        "geometry";
    BuiltProtrudingLength "built_protruding_length" Number(Unit::Mm, reach::protruding_length), ASSEMBLY,
        "gauge plane to the furthest point, from the holder's gauge length and the stick-out",
        "geometry; protruding length LPR of ISO 13399";
    BuiltFunctionalLength "built_functional_length" Number(Unit::Mm, reach::functional_length), ASSEMBLY,
        "the same less the point length of a pointed tool",
        "geometry; functional length LF of ISO 13399";
    OverhangRatio "overhang_ratio" Number(Unit::One, reach::overhang_ratio), ASSEMBLY,
        "greatest of head length (or chip flute length) over cutting diameter, neck over neck diameter, stick-out over shank diameter",
        "geometry";
    SlendernessRatio "slenderness_ratio" Number(Unit::One, reach::slenderness_ratio), ASSEMBLY,
        "overhang ratio; in front of a shank thicker than the cut the cone counts as stiff, so that flutes, neck and stick-out count and the head does not",
        "geometry";
    ReachNeeded "reach_needed" Number(Unit::Mm, reach::needed), OPERATION,
        "stick-out that the job needs: reach and clearance",
        "geometry";
    ReachMargin "reach_margin" Number(Unit::Mm, reach::margin), OPERATION,
        "stick-out less what the job needs",
        "geometry";
    RubbingExcess "rubbing_excess" Number(Unit::Mm, shape::rubbing_excess), OPERATION,
        "by how much what follows the flutes is thicker than the cut, within the reach",
        "geometry";
    FluteMargin "flute_margin" Number(Unit::Mm, shape::flute_margin), OPERATION,
        "chip flute length less the reach",
        "geometry";
    NutRoom "nut_room" Number(Unit::Mm, shape::nut_room), OPERATION,
        "room that a pocket leaves the nut on its diameter, less the clearance on both sides",
        "geometry";
    CuttingSpeedOfSpindle "cutting_speed_of_spindle" Number(Unit::MPerMin, records::cutting_speed_of_spindle), OPERATION,
        "cutting speed that the spindle speed gives at the cutting diameter",
        "ISO 3002-1: vc = π DC n / 1000";
}

impl Fact {
    /// How many there are.
    pub const COUNT: usize = FACTS.len();

    /// All facts in order.
    pub fn all() -> impl Iterator<Item = &'static FactInfo> {
        FACTS.iter()
    }

    /// The fact's line of the registry.
    #[must_use]
    #[expect(
        clippy::indexing_slicing,
        reason = "enum and table are made by the same macro"
    )]
    pub fn info(self) -> &'static FactInfo {
        &FACTS[self as usize]
    }
}
