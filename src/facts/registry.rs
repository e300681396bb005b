//! The registry: every fact with its name, unit, meaning and source.

use std::fmt;

use crate::library::Reckoned;
use crate::units::Unit;

use super::{
    Scene, clamping, description, fit, grip, holding, insertion, load, makers, push, reach,
    records, regrind, rotating, shape, socket, spare, square, stands, stiffness, torque,
};

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
    HeldInCollet "held_in_collet" Truth(clamping::held_in_collet), ASSEMBLY,
        "the tool sits in a taper collet of ISO 15488",
        "the holder's clamping kind; when that is empty, a named or described collet";
    HeldByShank "held_by_shank" Truth(clamping::held_by_shank), ASSEMBLY,
        "what clamps the tool holds it by a cylindrical shank",
        "the holder's clamping kind and the shank's form; when the kind is empty, a named or described collet";
    SlottedCollet "slotted_collet" Truth(clamping::slotted_collet), ASSEMBLY,
        "a slotted collet or a reduction sleeve closes on the shank",
        "the holder's clamping kind; in a chuck, a named or described sleeve";
    HeldInChuck "held_in_chuck" Truth(clamping::held_in_chuck), ASSEMBLY,
        "the holder's own bore grips, with or without a sleeve",
        "the holder's clamping kind";
    BoreLength "bore_length" Number(Unit::Mm, clamping::bore_length), ASSEMBLY,
        "length of the bore that grips: the collet's or sleeve's if there is one, else the holder's own",
        "the library";
    BoreDiameter "bore_diameter" Number(Unit::Mm, clamping::bore_diameter), ASSEMBLY,
        "diameter of the bore that grips: the collet's or sleeve's if there is one, else the holder's own",
        "the library";
    Insertion "insertion" Number(Unit::Mm, insertion::insertion), ASSEMBLY,
        "length of the tool behind the front face",
        "geometry; clamping length LSC of ISO 13399";
    BoreSetback "bore_setback" Number(Unit::Mm, grip::bore_setback), ASSEMBLY,
        "front face to the front end of the gripping land, in a collet or in a chuck's own bore",
        "geometry";
    PlainShank "plain_shank" Number(Unit::Mm, grip::plain_shank), ASSEMBLY,
        "plain shank that a bore can grip: its length less a driving square or rear flutes",
        "geometry";
    PlainInsertion "plain_insertion" Number(Unit::Mm, insertion::plain_insertion), ASSEMBLY,
        "plain shank inserted, as a manufacturer's minimum insertion wants it: less a square or rear flutes at the shank end, and less flutes in the bore",
        "geometry";
    ShankNeeded "shank_needed" Number(Unit::Mm, insertion::shank_needed), ASSEMBLY,
        "plain shank that the clamping needs at any stick-out: the needed grip of a slotted collet, the minimum insertion of a chuck",
        "the library; two thirds: common practice, no source";
    ScrewOnFlat "screw_on_flat" Truth(clamping::screw_on_flat), ASSEMBLY,
        "a clamp screw has to meet a flat of the shank",
        "the library: clamping kind, form of the seat, form of the shank";
    FlatStickOut "flat_stick_out" Number(Unit::Mm, clamping::flat_stick_out), ASSEMBLY,
        "stick-out at which the clamp screw meets the middle of its flat",
        "geometry";
    RearFlutesInBore "rear_flutes_in_bore" Number(Unit::Mm, grip::rear_flutes_in_bore), ASSEMBLY,
        "length of a double-ended cutter's rear flutes under the gripping land",
        "geometry";
    ShankGrade "shank_grade" Number(Unit::One, clamping::shank_grade), ASSEMBLY,
        "number of the tolerance grade in the shank's tolerance class: 6 of h6",
        "the library; grades of ISO 286-1, higher is coarser";
    GrippedLength "gripped_length" Number(Unit::Mm, grip::gripped_length), ASSEMBLY,
        "overlap along the axis of the plain shank with the gripping land",
        "geometry; a drive flat does not reduce it";
    GripFraction "grip_fraction" Number(Unit::One, grip::grip_fraction), ASSEMBLY,
        "gripped length over bore length",
        "geometry";
    NeededGrip "needed_grip" Number(Unit::Mm, grip::needed_grip), ASSEMBLY,
        "least grip in a slotted collet: min_grip_fraction of the bore length",
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
    NormalCollapse "normal_collapse" Number(Unit::Mm, grip::normal_collapse), ASSEMBLY,
        "how far below its nominal bore a collet of the stated size is normally closed",
        "the library; the size's row in the table of collet sizes, from memory";
    DrawIn "draw_in" Number(Unit::Mm, insertion::draw_in), ASSEMBLY,
        "how far the collet is pulled in to close the gap",
        "geometry; setting angle 8° of ISO 15488, taper 1:10 of ISO 10897; nothing in a chuck";
    TailGap "tail_gap" Number(Unit::Mm, insertion::tail_gap), ASSEMBLY,
        "free length behind the tail, to whatever stops it",
        "geometry";
    ColletRear "collet_rear" Number(Unit::Mm, square::collet_rear), ASSEMBLY,
        "front face to the collet's rear end",
        "geometry";
    SquareEngagement "square_engagement" Number(Unit::Mm, square::square_engagement), ASSEMBLY,
        "how much of a tap's square is in the collet's square, at most; negative if they lie apart",
        "geometry";
    SquareInsertion "square_insertion" Number(Unit::Mm, square::square_insertion), ASSEMBLY,
        "least insertion at which enough of a tap's square is in the collet's square",
        "geometry; how much is enough is our own choice";
    InsertionNeeded "insertion_needed" Number(Unit::Mm, insertion::insertion_needed), ASSEMBLY,
        "least insertion that the grip, the makers and a tap's square ask for",
        "geometry; the grip is common practice";
    InsertionPossible "insertion_possible" Number(Unit::Mm, spare::insertion_possible), ASSEMBLY,
        "greatest insertion that the stop, the makers and a tap's square allow",
        "geometry";
    ShortestOverallLength "shortest_overall_length" Number(Unit::Mm, regrind::shortest_overall_length), ASSEMBLY,
        "shortest tool that still has the needed grip at this stick-out, and as a drill the flutes for its holes",
        "geometry; two thirds: common practice, no source";
    ShortestForFlutes "shortest_for_flutes" Number(Unit::Mm, regrind::shortest_for_flutes), ASSEMBLY,
        "shortest drill whose flutes are as long as its deepest hole is deep: regrinding takes as much of them as of the whole",
        "geometry";
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
    DriveFlats "drive_flats" Number(Unit::One, shape::drive_flats), ASSEMBLY,
        "how many drive flats the shank has, by its form and diameter",
        "the library: form and diameter, counted by the table of DIN 6535; not known for a diameter that it does not list";
    SeatSize "seat_size" Number(Unit::One, fit::seat_size), ASSEMBLY,
        "size of the holder that the collet sits in; unknown with an extension between",
        "the library";
    ThreadsDiffer "threads_differ" Truth(fit::threads_differ), ASSEMBLY,
        "the nut's thread is not the holder's; a pitch that one of them leaves out is not compared",
        "the library; for a standard nut without thread ISO 15488, so it is assumed";
    OuterGrip "outer_grip" Number(Unit::Mm, shape::outer_grip), ASSEMBLY,
        "grip of an extension in the holder; a library does not tell it",
        "none: it is never known";
    DescribedDiameter "described_diameter" Number(Unit::Mm, description::described_diameter), ASSEMBLY,
        "diameter that the description marks as one: Ø12, D12, dia 12",
        "the library";
    LooksLikeInches "looks_like_inches" Truth(records::looks_like_inches), ASSEMBLY,
        "a shank implausibly thin in millimetres and a common size in inches",
        "common practice, no source: shank sizes";
    LooksLikeMillimetres "looks_like_millimetres" Truth(records::looks_like_millimetres), ASSEMBLY,
        "a shank implausibly thick in inches and a common size in millimetres",
        "DIN 6535 shank diameters";
    GripStands "grip_stands" Truth(stands::grip_stands), ASSEMBLY,
        "the shank fills enough of the land, its front too, and as much as the makers state; not known while a starred value is assumed",
        "geometry; two thirds: common practice, no source";
    MostFlutes "most_flutes" Number(Unit::One, records::most_flutes), ASSEMBLY,
        "the most flutes that its kind of cutter has",
        "the library: the kind, counted by the table of plausible numbers, which is from memory";
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
    BuiltClampingLength "built_clamping_length" Number(Unit::Mm, reach::clamping_length), ASSEMBLY,
        "insertion, unless the stick-out is known from the clamping length: then the two would agree whatever they are",
        "geometry";
    OverhangRatio "overhang_ratio" Number(Unit::One, reach::overhang_ratio), ASSEMBLY,
        "greatest of head length (or chip flute length) over cutting diameter, neck over neck diameter, stick-out over shank diameter",
        "geometry";
    ClampingForceLow "clamping_force_low" Number(Unit::N, holding::clamping_force_low), ASSEMBLY,
        "axial force of the nut at its torque, low end of the frictions",
        "Shigley, Mechanical Engineering Design, ch. 8; frictions from memory until the shop states them";
    ClampingForceHigh "clamping_force_high" Number(Unit::N, holding::clamping_force_high), ASSEMBLY,
        "axial force of the nut at its torque, high end of the frictions",
        "Shigley, Mechanical Engineering Design, ch. 8; frictions from memory until the shop states them";
    GripForceLow "grip_force_low" Number(Unit::N, holding::grip_force_low), ASSEMBLY,
        "force against which the shank slips, low end of the frictions",
        "equilibrium of a wedge and Coulomb friction; it does not depend on the engaged length in this model";
    GripForceHigh "grip_force_high" Number(Unit::N, holding::grip_force_high), ASSEMBLY,
        "force against which the shank slips, high end of the frictions, with the part of the nut's cone",
        "equilibrium of a wedge and Coulomb friction; it does not depend on the engaged length in this model";
    SlipTorqueLow "slip_torque_low" Number(Unit::Nm, holding::slip_torque_low), ASSEMBLY,
        "torque at which the shank slips, low end of the frictions",
        "equilibrium of a wedge and Coulomb friction; it does not depend on the engaged length in this model";
    SlipTorqueHigh "slip_torque_high" Number(Unit::Nm, holding::slip_torque_high), ASSEMBLY,
        "torque at which the shank slips, high end of the frictions, with the part of the nut's cone",
        "equilibrium of a wedge and Coulomb friction; it does not depend on the engaged length in this model";
    NoseStress "nose_stress" Number(Unit::MPa, socket::nose_stress), ASSEMBLY,
        "mean axial stress of the nut's pull in the holder's nose under a stated thread, at high friction: a lower bound",
        "force over section; core of the thread: ISO 898-1, DIN 13-1, from memory";
    MouthStress "mouth_stress" Number(Unit::MPa, socket::mouth_stress), ASSEMBLY,
        "hoop stress that the collet puts into the socket's mouth, best estimate",
        "Timoshenko beam on Lamé rings, compared with finite elements; the stress that the collet puts in, no cliff at two thirds";
    MouthStressUpper "mouth_stress_upper" Number(Unit::MPa, socket::mouth_stress_upper), ASSEMBLY,
        "the same under equal pressure: an upper bound",
        "Timoshenko beam on Lamé rings, compared with finite elements; the stress that the collet puts in, no cliff at two thirds";
    MouthStressRatio "mouth_stress_ratio" Number(Unit::One, socket::mouth_stress_ratio), ASSEMBLY,
        "mouth stress over that of a full land; needs no torque",
        "Timoshenko beam on Lamé rings, compared with finite elements; the stress that the collet puts in, no cliff at two thirds";
    MouthOpening "mouth_opening" Number(Unit::Mm, socket::mouth_opening), ASSEMBLY,
        "radial opening of the socket's mouth",
        "Timoshenko beam on Lamé rings, compared with finite elements; the stress that the collet puts in, no cliff at two thirds";
    TipStiffness "tip_stiffness" Number(Unit::NPerMm, stiffness::tip_stiffness), ASSEMBLY,
        "side stiffness at the tip: an upper bound, as clamp and holder give too",
        "Bernoulli beam built in at the front face; equivalent diameter of the flutes after Kops and Vo, from memory";
    FirstFrequency "first_frequency" Number(Unit::Hz, stiffness::first_frequency), ASSEMBLY,
        "first natural frequency in front of the face: an upper bound",
        "Bernoulli beam built in at the front face; equivalent diameter of the flutes after Kops and Vo, from memory";
    RunOutTip "run_out_tip" Number(Unit::Mm, rotating::run_out_tip), ASSEMBLY,
        "measured run-out, else that of the collet's class carried out to the tip",
        "ISO 15488:2003, table 4, read second-hand; valid at the nominal bore";
    ClassRunOutShare "class_run_out_share" Number(Unit::One, rotating::class_run_out_share), ASSEMBLY,
        "the same ratio by the run-out of the collet's class, in the operation where it is greatest; known only where no run-out is measured",
        "ISO 15488:2003, table 4, read second-hand; geometry";
    SpeedLimit "speed_limit" Number(Unit::PerMin, rotating::speed_limit), ASSEMBLY,
        "least of the speeds that cutter, nut and holder permit",
        "the library";
    SpeedLimitIs "speed_limit_is" Word(rotating::PARTS, rotating::speed_limit_is), ASSEMBLY,
        "whose it is",
        "the library";
    SlendernessRatio "slenderness_ratio" Number(Unit::One, reach::slenderness_ratio), ASSEMBLY,
        "overhang ratio; in front of a shank thicker than the cut the cone counts as stiff, so that flutes, neck and stick-out count and the head does not; of a tapered cutter neck and stick-out only",
        "geometry";
    ReachNeeded "reach_needed" Number(Unit::Mm, reach::needed), OPERATION,
        "stick-out that the job needs: reach and clearance",
        "geometry";
    ReachAdvised "reach_advised" Number(Unit::Mm, reach::advised), OPERATION,
        "stick-out to set for the job: reach and the clearance to keep, which is 1 mm (limit clearance_high) where neither the job nor the shop states one",
        "geometry; the clearance is from memory where none is stated";
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
    CuttingTorquePeak "cutting_torque_peak" Number(Unit::Nm, load::torque_peak), OPERATION,
        "torque of the cut at the worst instant of a tooth period, worn edge",
        "O. Kienzle 1952; specific cutting forces: Tabellenbuch Metall, second-hand; worn edge";
    CuttingTorqueMean "cutting_torque_mean" Number(Unit::Nm, load::torque_mean), OPERATION,
        "mean torque of the cut, worn edge: for power only",
        "O. Kienzle 1952; specific cutting forces: Tabellenbuch Metall, second-hand; worn edge";
    CuttingForce "cutting_force" Number(Unit::N, push::cutting_force), OPERATION,
        "largest side force of all teeth in a milling cut, directions minded: estimated, low end, with a sharp edge",
        "O. Kienzle 1952; specific cutting forces: Tabellenbuch Metall, second-hand; force across the path: from memory";
    CuttingForceHigh "cutting_force_high" Number(Unit::N, push::cutting_force_high), OPERATION,
        "the same, high end, with a worn edge",
        "O. Kienzle 1952; specific cutting forces: Tabellenbuch Metall, second-hand; force across the path: from memory";
    DrillThrust "drill_thrust" Number(Unit::N, push::drill_thrust), OPERATION,
        "force that pushes a drill in while it cuts, worn edge: a lower end, as the web pushes besides; the pull at breakthrough and at withdrawal is not modelled",
        "Dietrich, Praxis der Zerspantechnik: half of the cutting force of the two lips";
    AxialPullLow "axial_pull_low" Number(Unit::N, push::axial_pull_low), OPERATION,
        "pull of a stated helix out of the holder, low end, with the chip's friction",
        "oblique cutting with the chip flow of Stabler (1951): Altintas, Manufacturing Automation; rake and friction from memory";
    AxialPull "axial_pull" Number(Unit::N, push::axial_pull), OPERATION,
        "the same, high end, without that friction; tapping's pull at the reversal is not modelled",
        "geometry of the helix: tangential force times tan of its angle";
    CuttingPower "cutting_power" Number(Unit::KW, load::power), OPERATION,
        "power of the cut, worn edge",
        "P = 2π n M";
    SlipRatio "slip_ratio" Number(Unit::One, holding::slip_ratio), OPERATION,
        "low slip torque over peak cutting torque",
        "equilibrium of a wedge and Coulomb friction; it does not depend on the engaged length in this model";
    SlipRatioHigh "slip_ratio_high" Number(Unit::One, holding::slip_ratio_high), OPERATION,
        "high slip torque over peak cutting torque: below 1 the tool slips at any friction of the band",
        "equilibrium of a wedge and Coulomb friction; it does not depend on the engaged length in this model";
    PullOutRatio "pull_out_ratio" Number(Unit::One, holding::pull_out_ratio), OPERATION,
        "low grip over peak torque and axial pull together; 1 says nothing of creeping out under rotating bending",
        "equilibrium of a wedge and Coulomb friction; it does not depend on the engaged length in this model";
    PullOutRatioHigh "pull_out_ratio_high" Number(Unit::One, holding::pull_out_ratio_high), OPERATION,
        "high grip over peak torque and axial pull together: below 1 it gives way at any friction of the band",
        "equilibrium of a wedge and Coulomb friction; it does not depend on the engaged length in this model";
    EdgeRatio "edge_ratio" Number(Unit::One, holding::edge_ratio), OPERATION,
        "edge pressure of the side force at this grip over that at a full land",
        "pin in a hole, linear contact: NASA CR-4608 (1994)";
    TipDeflection "tip_deflection" Number(Unit::Mm, stiffness::tip_deflection), OPERATION,
        "deflection of the tip under the side forces of a milling cut, each at its height: estimated, low end",
        "Bernoulli beam built in at the front face; equivalent diameter of the flutes and force across the path from memory";
    TipDeflectionHigh "tip_deflection_high" Number(Unit::Mm, stiffness::tip_deflection_high), OPERATION,
        "the same, high end: worn edge, all of the force at the tip, flutes that bend much; clamp, holder and spindle give besides",
        "Bernoulli beam built in at the front face; equivalent diameter of the flutes and force across the path from memory";
    ToothSpeed "tooth_speed" Number(Unit::PerMin, stiffness::tooth_speed), OPERATION,
        "spindle speed at which the teeth pass at the measured frequency",
        "60 f / z";
    ToothFrequency "tooth_frequency" Number(Unit::Hz, stiffness::tooth_frequency), OPERATION,
        "teeth through the cut each second",
        "z n / 60";
    ToothDifference "tooth_difference" Number(Unit::Mm, rotating::tooth_difference), OPERATION,
        "difference in radius of neighbouring teeth by the run-out at the tip",
        "geometry";
    ThickestChip "thickest_chip" Number(Unit::Mm, rotating::thickest_chip), OPERATION,
        "thickest chip of a milling cut; of a drill half of the feed",
        "geometry";
    RunOutShare "run_out_share" Number(Unit::One, rotating::run_out_share), OPERATION,
        "difference of neighbouring teeth over the thickest chip",
        "geometry";
    BalanceAtSpeed "balance_at_speed" Number(Unit::One, rotating::balance_at_speed), OPERATION,
        "the holder's balance grade carried to the speed of the operation, mm/s",
        "ISO 21940-11";
    UnbalanceAllowed "unbalance_allowed" Number(Unit::GMm, rotating::unbalance_allowed), OPERATION,
        "unbalance that the grade permits the assembly at this speed",
        "ISO 21940-11: U = 9549 G m / n";
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
