//! The registry: every fact with its name, unit, meaning and source.

use crate::library::{Provenance, Reckoned};
use crate::units::{Scalar, Unit};

use super::{
    Scene, best_setting, clamping, contact, cutting, description, fit, grip, holding, insertion,
    makers, plausibility, push, reach, regrind, rotating, socket, square, stands, stiffness,
    torque,
};

/// The type of a fact's value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FactValue {
    /// A number in a canonical unit.
    Number(Unit),
    /// One of a few words.
    Word(&'static [&'static str]),
    /// Yes or no.
    Truth,
}

/// What is known about a fact itself.
#[derive(Debug)]
pub struct FactInfo {
    /// The fact.
    pub fact: Fact,
    /// Name, as rules and JSON write it.
    pub name: &'static str,
    /// Type and unit.
    pub value: FactValue,
    /// Whether it belongs to an assembly with one operation.
    pub of_operation: bool,
    /// One line for people.
    pub meaning: &'static str,
    /// Where its formula or convention comes from.
    pub source: &'static str,
}

macro_rules! facts {
    ($($id:ident $name:literal $type:ident $(($($of:tt)*))? = $reckon:path, $of_operation:expr,
       $meaning:literal, $source:literal;)*) => {
        /// A fact, by number.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        #[repr(u8)]
        pub enum Fact { $(#[doc = $meaning] $id,)* }

        static FACTS: &[FactInfo] = &[
            $(FactInfo {
                fact: Fact::$id,
                name: $name,
                value: $type$(($($of)*))?,
                of_operation: $of_operation,
                meaning: $meaning,
                source: $source,
            },)*
        ];

        impl Fact {
            /// Reckons it anew.
            pub(super) fn reckon<'a, P: Provenance>(
                self,
                scene: &Scene<'a, P>,
            ) -> Reckoned<Scalar<&'a str>, P> {
                match self { $(Fact::$id => $reckon(scene).map(Scalar::from),)* }
            }
        }
    };
}

use FactValue::{Number, Truth, Word};

const ASSEMBLY: bool = false;
const OPERATION: bool = true;

facts! {
    HeldInCollet "held_in_collet" Truth = clamping::held_in_collet, ASSEMBLY,
        "the tool sits in a collet chuck with a taper collet of ISO 15488",
        "the holder's clamping kind; if it is empty, a named or described collet";
    HeldByShank "held_by_shank" Truth = clamping::held_by_shank, ASSEMBLY,
        "the tool is held by a cylindrical shank",
        "the holder's clamping kind and the shank's form; if the kind is empty, a named or described collet";
    SlottedCollet "slotted_collet" Truth = clamping::slotted_collet, ASSEMBLY,
        "a slotted collet or a reduction sleeve grips the shank",
        "the holder's clamping kind; in a chuck, a named or described sleeve";
    HeldInChuck "held_in_chuck" Truth = clamping::held_in_chuck, ASSEMBLY,
        "the holder's own bore grips, with or without a sleeve",
        "the holder's clamping kind";
    BoreLength "bore_length" Number(Unit::Mm) = clamping::bore_length, ASSEMBLY,
        "length of the bore that grips: of the collet or sleeve if there is one, else of the holder",
        "the library";
    BoreDiameter "bore_diameter" Number(Unit::Mm) = clamping::bore_diameter, ASSEMBLY,
        "diameter of the bore that grips: of the collet or sleeve if there is one, else of the holder",
        "the library";
    Insertion "insertion" Number(Unit::Mm) = insertion::insertion, ASSEMBLY,
        "length of the tool behind the nut face (the holder face where there is no nut)",
        "geometry; clamping length LSC of ISO 13399";
    BoreSetback "bore_setback" Number(Unit::Mm) = grip::bore_setback, ASSEMBLY,
        "nut or holder face to the front end of the gripping length",
        "geometry";
    PlainShank "plain_shank" Number(Unit::Mm) = grip::plain_shank, ASSEMBLY,
        "plain shank that a bore can grip: its length less a driving square or rear flutes",
        "geometry";
    PlainInsertion "plain_insertion" Number(Unit::Mm) = insertion::plain_insertion, ASSEMBLY,
        "plain shank inserted, as a manufacturer's minimum insertion counts it: without square, rear flutes or flutes in the bore",
        "geometry";
    ShankNeeded "shank_needed" Number(Unit::Mm) = insertion::shank_needed, ASSEMBLY,
        "plain shank that the holder or collet needs at any stick-out: the needed grip of a slotted collet, the minimum insertion of a chuck",
        "the library; two thirds: common practice, no source";
    ScrewOnFlat "screw_on_flat" Truth = clamping::screw_on_flat, ASSEMBLY,
        "a clamp screw has to meet a flat of the shank",
        "the library: clamping kind, form of the seat, form of the shank";
    FlatStickOut "flat_stick_out" Number(Unit::Mm) = clamping::flat_stick_out, ASSEMBLY,
        "stick-out at which the clamp screw meets the middle of its flat",
        "geometry";
    RearFlutesInBore "rear_flutes_in_bore" Number(Unit::Mm) = grip::rear_flutes_in_bore, ASSEMBLY,
        "length of a double-ended cutter's rear flutes within the gripping length",
        "geometry";
    ShankGrade "shank_grade" Number(Unit::One) = clamping::shank_grade, ASSEMBLY,
        "number of the tolerance grade in the shank's tolerance class: 6 for h6",
        "the library; grades of ISO 286-1, higher is coarser";
    GrippedLength "gripped_length" Number(Unit::Mm) = grip::gripped_length, ASSEMBLY,
        "length of plain shank within the gripping length",
        "geometry; a drive flat does not reduce it";
    GripFraction "grip_fraction" Number(Unit::One) = grip::grip_fraction, ASSEMBLY,
        "gripped length over the length of the bore that grips",
        "geometry";
    NeededGrip "needed_grip" Number(Unit::Mm) = grip::needed_grip, ASSEMBLY,
        "minimum grip in a slotted collet: min_grip_fraction of the bore length",
        "two thirds: common practice, no source";
    UngrippedFront "ungripped_front" Number(Unit::Mm) = grip::ungripped_front, ASSEMBLY,
        "length at the front of the bore that does not grip plain shank",
        "geometry";
    FrontIs "front_is" Word(&["flute", "run-out", "neck", "shank"]) = grip::front_is, ASSEMBLY,
        "what lies in the front of the bore: shank if it is filled, else flute, neck, or run-out (the flutes' washout)",
        "geometry; flute where nothing is stated in front of the shank";
    BoreGap "bore_gap" Number(Unit::Mm) = grip::bore_gap, ASSEMBLY,
        "bore diameter minus shank diameter",
        "geometry";
    NormalCollapse "normal_collapse" Number(Unit::Mm) = grip::normal_collapse, ASSEMBLY,
        "how far below its nominal bore a collet of this size is normally closed",
        "the library; the size's row in the table of collet sizes, from memory";
    DrawIn "draw_in" Number(Unit::Mm) = insertion::draw_in, ASSEMBLY,
        "how far the collet is drawn in to close the gap",
        "geometry; setting angle 8° of ISO 15488, taper 1:10 of ISO 10897; zero in a chuck";
    TailGap "tail_gap" Number(Unit::Mm) = insertion::tail_gap, ASSEMBLY,
        "free length behind the shank end, to whatever stops it",
        "geometry";
    ColletRear "collet_rear" Number(Unit::Mm) = square::collet_rear, ASSEMBLY,
        "nut face to the collet's rear end",
        "geometry";
    SquareEngagement "square_engagement" Number(Unit::Mm) = square::square_engagement, ASSEMBLY,
        "how much of a tap's square is in the collet's square, at most; negative if they lie apart",
        "geometry";
    SquareInsertion "square_insertion" Number(Unit::Mm) = square::square_insertion, ASSEMBLY,
        "minimum insertion at which enough of a tap's square is in the collet's square",
        "geometry; how much is enough is our own choice";
    InsertionNeeded "insertion_needed" Number(Unit::Mm) = insertion::insertion_needed, ASSEMBLY,
        "minimum insertion that the grip, the manufacturers and a tap's square need",
        "geometry; the grip is common practice";
    InsertionPossible "insertion_possible" Number(Unit::Mm) = best_setting::insertion_possible, ASSEMBLY,
        "maximum insertion that the stop, the manufacturers and a tap's square allow",
        "geometry";
    ShortestOverallLength "shortest_overall_length" Number(Unit::Mm) = regrind::shortest_overall_length, ASSEMBLY,
        "shortest tool that still has the needed grip at this stick-out, and, for a drill, the flutes for its holes",
        "geometry; two thirds: common practice, no source";
    ShortestForFlutes "shortest_for_flutes" Number(Unit::Mm) = regrind::shortest_for_flutes, ASSEMBLY,
        "shortest drill whose flutes are still as long as its deepest hole is deep; regrinding shortens both alike",
        "geometry";
    MakerClampingMin "maker_clamping_min" Number(Unit::Mm) = makers::clamping_min, ASSEMBLY,
        "largest minimum insertion that the manufacturers of cutter, collet and holder state",
        "the library; minimum clamping length LSCN of ISO 13399";
    MakerClampingMinIs "maker_clamping_min_is" Word(makers::PARTS) = makers::clamping_min_is, ASSEMBLY,
        "the part whose manufacturer states it",
        "the library";
    MakerClampingMax "maker_clamping_max" Number(Unit::Mm) = makers::clamping_max, ASSEMBLY,
        "smallest maximum insertion that the manufacturers of cutter, collet and holder state",
        "the library; maximum clamping length LSCX of ISO 13399";
    MakerClampingMaxIs "maker_clamping_max_is" Word(makers::PARTS) = makers::clamping_max_is, ASSEMBLY,
        "the part whose manufacturer states it",
        "the library";
    LeastStickOut "least_stick_out" Number(Unit::Mm) = best_setting::least_stick_out, ASSEMBLY,
        "minimum stick-out that all its operations, its flutes and the known stops allow",
        "geometry";
    BestGrip "best_grip" Number(Unit::Mm) = best_setting::best_grip, ASSEMBLY,
        "gripped length at the minimum stick-out",
        "geometry";
    SpareOverhang "spare_overhang" Number(Unit::Mm) = best_setting::spare_overhang, ASSEMBLY,
        "stick-out minus the minimum stick-out",
        "geometry";
    FineWork "fine_work" Truth = best_setting::fine_work, ASSEMBLY,
        "one of its operations reams or finishes",
        "the library";
    FlatInBore "flat_in_bore" Number(Unit::Mm) = contact::flat_in_bore, ASSEMBLY,
        "length of a drive flat within the gripping length",
        "geometry; position of the flat: DIN 6535, partly from memory, so it is assumed";
    DriveFlats "drive_flats" Number(Unit::One) = contact::drive_flats, ASSEMBLY,
        "number of drive flats on the shank, by its form and diameter",
        "the library: form and diameter, counted by the table of DIN 6535; unknown for a diameter that is not in it";
    SeatSize "seat_size" Number(Unit::One) = fit::seat_size, ASSEMBLY,
        "size of the holder in which the collet sits; unknown with an extension between",
        "the library";
    ThreadsDiffer "threads_differ" Truth = fit::threads_differ, ASSEMBLY,
        "the nut's thread differs from the holder's; a pitch that one of them omits is not compared",
        "the library; for a standard nut without a stated thread ISO 15488, so it is assumed";
    OuterGrip "outer_grip" Number(Unit::Mm) = contact::outer_grip, ASSEMBLY,
        "grip of an extension in the holder; no library states it",
        "none: it is never known";
    DescribedDiameter "described_diameter" Number(Unit::Mm) = description::described_diameter, ASSEMBLY,
        "diameter that the description marks as one: Ø12, D12, dia 12",
        "the library";
    LooksLikeInches "looks_like_inches" Truth = plausibility::looks_like_inches, ASSEMBLY,
        "a shank implausibly thin in millimetres and a common size in inches",
        "common practice, no source: shank sizes";
    LooksLikeMillimetres "looks_like_millimetres" Truth = plausibility::looks_like_millimetres, ASSEMBLY,
        "a shank implausibly thick in inches and a common size in millimetres",
        "DIN 6535 shank diameters";
    GripStands "grip_stands" Truth = stands::grip_stands, ASSEMBLY,
        "the shank fills enough of the gripping length, its front too, and as much as the manufacturers state; unknown while a starred value is assumed",
        "geometry; two thirds: common practice, no source";
    MostFlutes "most_flutes" Number(Unit::One) = plausibility::most_flutes, ASSEMBLY,
        "maximum number of flutes of this kind of cutter",
        "the library: kind of cutter, by the table of plausible numbers, which is from memory";
    TorqueRecommended "torque_recommended" Number(Unit::Nm) = torque::recommended, ASSEMBLY,
        "nut torque that the manufacturers recommend for this bore, as stated in the library",
        "the library: the collet's value, else the nut's if it says for which bores";
    TorqueLimit "torque_limit" Number(Unit::Nm) = torque::limit, ASSEMBLY,
        "smallest torque that the library permits: nut, wrench, this bore",
        "the library";
    TorqueLimitIs "torque_limit_is" Word(torque::LIMITS) = torque::limit_is, ASSEMBLY,
        "the part that sets this torque limit",
        "the library";
    PointLength "point_length" Number(Unit::Mm) = reach::point_length, ASSEMBLY,
        "axial length of a conical point",
        "geometry";
    BuiltProtrudingLength "built_protruding_length" Number(Unit::Mm) = reach::protruding_length, ASSEMBLY,
        "gauge plane to the foremost point of the tool: the holder's gauge length plus the stick-out",
        "geometry; protruding length LPR of ISO 13399";
    BuiltFunctionalLength "built_functional_length" Number(Unit::Mm) = reach::functional_length, ASSEMBLY,
        "built_protruding_length, minus the point length of a pointed tool",
        "geometry; functional length LF of ISO 13399";
    BuiltClampingLength "built_clamping_length" Number(Unit::Mm) = reach::clamping_length, ASSEMBLY,
        "insertion; not known if the stick-out itself comes from the clamping length",
        "geometry";
    OverhangRatio "overhang_ratio" Number(Unit::One) = reach::overhang_ratio, ASSEMBLY,
        "largest of head length (or chip flute length) over cutting diameter, neck over neck diameter, stick-out over shank diameter",
        "geometry";
    ClampingForceLow "clamping_force_low" Number(Unit::N) = holding::clamping_force_low, ASSEMBLY,
        "axial force of the nut at its torque, low end of the frictions",
        "Shigley, Mechanical Engineering Design, ch. 8; frictions from memory until the shop states them";
    ClampingForceHigh "clamping_force_high" Number(Unit::N) = holding::clamping_force_high, ASSEMBLY,
        "axial force of the nut at its torque, high end of the frictions",
        "Shigley, Mechanical Engineering Design, ch. 8; frictions from memory until the shop states them";
    GripForceLow "grip_force_low" Number(Unit::N) = holding::grip_force_low, ASSEMBLY,
        "force at which the shank slips, low end of the frictions",
        "equilibrium of a wedge and Coulomb friction; it does not depend on the engaged length in this model";
    GripForceHigh "grip_force_high" Number(Unit::N) = holding::grip_force_high, ASSEMBLY,
        "force at which the shank slips, high end of the frictions, including the share of the nut's cone",
        "equilibrium of a wedge and Coulomb friction; it does not depend on the engaged length in this model";
    SlipTorqueLow "slip_torque_low" Number(Unit::Nm) = holding::slip_torque_low, ASSEMBLY,
        "torque at which the shank slips, low end of the frictions",
        "equilibrium of a wedge and Coulomb friction; it does not depend on the engaged length in this model";
    SlipTorqueHigh "slip_torque_high" Number(Unit::Nm) = holding::slip_torque_high, ASSEMBLY,
        "torque at which the shank slips, high end of the frictions, including the share of the nut's cone",
        "equilibrium of a wedge and Coulomb friction; it does not depend on the engaged length in this model";
    NoseStress "nose_stress" Number(Unit::MPa) = socket::nose_stress, ASSEMBLY,
        "mean axial stress of the nut's pull in the holder's nose under a stated thread, at high friction: a lower bound",
        "force over section; core of the thread: ISO 898-1, DIN 13-1, from memory";
    MouthStress "mouth_stress" Number(Unit::MPa) = socket::mouth_stress, ASSEMBLY,
        "hoop stress that the collet puts into the holder's mouth, best estimate",
        "Timoshenko beam on Lamé rings, compared with finite elements; the stress that the collet puts in; no jump at two thirds";
    MouthStressUpper "mouth_stress_upper" Number(Unit::MPa) = socket::mouth_stress_upper, ASSEMBLY,
        "hoop stress in the holder's mouth under equal pressure: an upper bound",
        "Timoshenko beam on Lamé rings, compared with finite elements; the stress that the collet puts in; no jump at two thirds";
    MouthStressRatio "mouth_stress_ratio" Number(Unit::One) = socket::mouth_stress_ratio, ASSEMBLY,
        "mouth stress over that with a full grip; needs no torque",
        "Timoshenko beam on Lamé rings, compared with finite elements; the stress that the collet puts in; no jump at two thirds";
    MouthOpening "mouth_opening" Number(Unit::Mm) = socket::mouth_opening, ASSEMBLY,
        "radial opening of the holder's mouth",
        "Timoshenko beam on Lamé rings, compared with finite elements; the stress that the collet puts in; no jump at two thirds";
    TipStiffness "tip_stiffness" Number(Unit::NPerMm) = stiffness::tip_stiffness, ASSEMBLY,
        "side stiffness at the tip: an upper bound, as clamping and holder give too",
        "Bernoulli beam fixed at the nut or holder face; equivalent diameter of the flutes after Kops and Vo, from memory";
    FirstFrequency "first_frequency" Number(Unit::Hz) = stiffness::first_frequency, ASSEMBLY,
        "first natural frequency of the overhang: an upper bound",
        "Bernoulli beam fixed at the nut or holder face; equivalent diameter of the flutes after Kops and Vo, from memory";
    RunOutTip "run_out_tip" Number(Unit::Mm) = rotating::run_out_tip, ASSEMBLY,
        "measured run-out (TIR); if there is none, that of the collet's class, carried out to the tip",
        "ISO 15488:2003, table 4, read second-hand; valid at the nominal bore";
    ClassRunOutShare "class_run_out_share" Number(Unit::One) = rotating::class_run_out_share, ASSEMBLY,
        "run_out_share by the collet's class, in the operation where it is largest; known only if no run-out is measured",
        "ISO 15488:2003, table 4, read second-hand; geometry";
    SpeedLimit "speed_limit" Number(Unit::PerMin) = rotating::speed_limit, ASSEMBLY,
        "smallest of the maximum speeds of cutter, nut and holder",
        "the library";
    SpeedLimitIs "speed_limit_is" Word(rotating::PARTS) = rotating::speed_limit_is, ASSEMBLY,
        "the part that has this maximum speed",
        "the library";
    SlendernessRatio "slenderness_ratio" Number(Unit::One) = reach::slenderness_ratio, ASSEMBLY,
        "overhang ratio, without the head where a thicker shank follows it; of a tapered cutter only neck and stick-out",
        "geometry; in front of a shank thicker than the cut the cone counts as stiff";
    ReachNeeded "reach_needed" Number(Unit::Mm) = reach::needed, OPERATION,
        "stick-out that the job needs: reach plus clearance",
        "geometry";
    ReachAdvised "reach_advised" Number(Unit::Mm) = reach::advised, OPERATION,
        "stick-out to set for the job: reach plus the clearance to keep, which is clearance_high where none is stated",
        "geometry; the clearance is from memory where none is stated";
    ReachMargin "reach_margin" Number(Unit::Mm) = reach::margin, OPERATION,
        "stick-out minus what the job needs",
        "geometry";
    RubbingExcess "rubbing_excess" Number(Unit::Mm) = contact::rubbing_excess, OPERATION,
        "how much thicker than the cut the shank or neck behind the flutes is, within the reach",
        "geometry";
    FluteMargin "flute_margin" Number(Unit::Mm) = contact::flute_margin, OPERATION,
        "chip flute length minus the reach",
        "geometry";
    NutRoom "nut_room" Number(Unit::Mm) = contact::nut_room, OPERATION,
        "free width that a pocket leaves the nut on its diameter, less the clearance on both sides",
        "geometry";
    CuttingSpeedOfSpindle "cutting_speed_of_spindle" Number(Unit::MPerMin) = plausibility::cutting_speed_of_spindle, OPERATION,
        "cutting speed that the spindle speed gives at the cutting diameter",
        "ISO 3002-1: vc = π DC n / 1000";
    CuttingTorquePeak "cutting_torque_peak" Number(Unit::Nm) = cutting::torque_peak, OPERATION,
        "torque of the cut at the worst instant of a tooth period, worn edge",
        "O. Kienzle 1952; specific cutting forces: Tabellenbuch Metall, second-hand; worn edge";
    CuttingTorqueMean "cutting_torque_mean" Number(Unit::Nm) = cutting::torque_mean, OPERATION,
        "mean torque of the cut, worn edge: for power only",
        "O. Kienzle 1952; specific cutting forces: Tabellenbuch Metall, second-hand; worn edge";
    CuttingForce "cutting_force" Number(Unit::N) = push::cutting_force, OPERATION,
        "largest side force of a milling cut, the vector sum over all teeth: estimated, low end, with a sharp edge",
        "O. Kienzle 1952; specific cutting forces: Tabellenbuch Metall, second-hand; force across the path: from memory";
    CuttingForceHigh "cutting_force_high" Number(Unit::N) = push::cutting_force_high, OPERATION,
        "largest side force of a milling cut: estimated, high end, with a worn edge",
        "O. Kienzle 1952; specific cutting forces: Tabellenbuch Metall, second-hand; force across the path: from memory";
    DrillThrust "drill_thrust" Number(Unit::N) = push::drill_thrust, OPERATION,
        "force that pushes a drill in while it cuts, worn edge: a low end, as the web pushes too; the pull at breakthrough and withdrawal is not modelled",
        "Dietrich, Praxis der Zerspantechnik: half of the cutting force of the two lips";
    AxialPullLow "axial_pull_low" Number(Unit::N) = push::axial_pull_low, OPERATION,
        "pull of a stated helix out of the holder, low end, with the chip's friction",
        "oblique cutting with the chip flow of Stabler (1951): Altintas, Manufacturing Automation; rake and friction from memory";
    AxialPull "axial_pull" Number(Unit::N) = push::axial_pull, OPERATION,
        "pull of a stated helix out of the holder, high end, without the chip's friction; tapping's pull at the reversal is not modelled",
        "geometry of the helix: tangential force times tan of its angle";
    CuttingPower "cutting_power" Number(Unit::KW) = cutting::power, OPERATION,
        "power of the cut, worn edge",
        "P = 2π n M";
    SlipRatio "slip_ratio" Number(Unit::One) = holding::slip_ratio, OPERATION,
        "low slip torque over peak cutting torque",
        "equilibrium of a wedge and Coulomb friction; it does not depend on the engaged length in this model";
    SlipRatioHigh "slip_ratio_high" Number(Unit::One) = holding::slip_ratio_high, OPERATION,
        "high slip torque over peak cutting torque: below 1 the tool slips at any friction of the band",
        "equilibrium of a wedge and Coulomb friction; it does not depend on the engaged length in this model";
    PullOutRatio "pull_out_ratio" Number(Unit::One) = holding::pull_out_ratio, OPERATION,
        "low grip over peak torque and axial pull together; creep under rotating bending is not covered",
        "equilibrium of a wedge and Coulomb friction; it does not depend on the engaged length in this model";
    PullOutRatioHigh "pull_out_ratio_high" Number(Unit::One) = holding::pull_out_ratio_high, OPERATION,
        "high grip over peak torque and axial pull together: below 1 the grip gives way at any friction of the band",
        "equilibrium of a wedge and Coulomb friction; it does not depend on the engaged length in this model";
    EdgeRatio "edge_ratio" Number(Unit::One) = holding::edge_ratio, OPERATION,
        "edge pressure of the side force at this grip over that with a full grip",
        "pin in a hole, linear contact: NASA CR-4608 (1994)";
    TipDeflection "tip_deflection" Number(Unit::Mm) = stiffness::tip_deflection, OPERATION,
        "deflection of the tip under the side forces of a milling cut, each at its height: estimated, low end",
        "Bernoulli beam fixed at the nut or holder face; equivalent diameter of the flutes and force across the path from memory";
    TipDeflectionHigh "tip_deflection_high" Number(Unit::Mm) = stiffness::tip_deflection_high, OPERATION,
        "deflection of the tip, high end: worn edge, all force at the tip, flutes that bend much; clamping, holder and spindle give besides",
        "Bernoulli beam fixed at the nut or holder face; equivalent diameter of the flutes and force across the path from memory";
    ToothSpeed "tooth_speed" Number(Unit::PerMin) = stiffness::tooth_speed, OPERATION,
        "spindle speed at which the teeth pass at the measured frequency",
        "60 f / z";
    ToothFrequency "tooth_frequency" Number(Unit::Hz) = stiffness::tooth_frequency, OPERATION,
        "tooth passing frequency: teeth through the cut each second",
        "z n / 60";
    ToothDifference "tooth_difference" Number(Unit::Mm) = rotating::tooth_difference, OPERATION,
        "difference in radius of neighbouring teeth caused by the run-out at the tip",
        "geometry";
    ThickestChip "thickest_chip" Number(Unit::Mm) = rotating::thickest_chip, OPERATION,
        "thickest chip of a milling cut; for a drill half of the feed per revolution",
        "geometry";
    RunOutShare "run_out_share" Number(Unit::One) = rotating::run_out_share, OPERATION,
        "difference of neighbouring teeth over the thickest chip",
        "geometry";
    BalanceAtSpeed "balance_at_speed" Number(Unit::One) = rotating::balance_at_speed, OPERATION,
        "the holder's balance grade carried to the operation's speed, mm/s",
        "ISO 21940-11";
    UnbalanceAllowed "unbalance_allowed" Number(Unit::GMm) = rotating::unbalance_allowed, OPERATION,
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
