//! The vocabulary as one table: every property of every record, once.
//!
//! To add an input property, add a line here; reading, rules, facts, `columns` and the
//! tests learn it from this table.

use std::sync::LazyLock;

use super::Kind;
use super::closed_lists::{self as lists, ClosedList as _};
use crate::units::{Unit, Word};

/// What a cell of a property holds.
#[derive(Clone, Copy, Debug)]
pub enum ValueType {
    /// A number with a unit.
    Quantity(Unit),
    /// A whole number.
    Count,
    /// A number that may carry letters of the trade before it: sizes, balance grades.
    Size,
    /// A thread such as `M40x1.5`.
    Thread,
    /// One of a list of words.
    Word(&'static [Word]),
    /// Yes or no.
    Flag,
    /// Free text.
    Text,
    /// The record's own id.
    Id,
    /// The id of a part.
    Reference(Kind),
}

/// Which numbers a property can have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Range {
    /// Above zero.
    Positive,
    /// Zero or more.
    NotNegative,
    /// Any number.
    Any,
}

/// One property of one kind of record.
#[derive(Debug)]
pub struct Property {
    /// The field it is.
    pub field: Field,
    /// Record it belongs to.
    pub kind: Kind,
    /// Name as a CSV header and JSON key.
    pub name: &'static str,
    /// Name with its record, as rules and `missing` write it.
    pub qualified: &'static str,
    /// ISO 13399 symbols accepted as headers.
    pub symbols: &'static [&'static str],
    /// What its cells hold.
    pub value: ValueType,
    /// Which numbers it can have.
    pub range: Range,
    /// Whether the main rules cannot judge without it.
    pub starred: bool,
    /// One line for people.
    pub meaning: &'static str,
}

macro_rules! properties {
    ($($kind:ident $kind_name:literal {
        $($id:ident $name:literal [$($symbol:literal)*] $value:expr, $range:ident $($star:ident)?, $meaning:literal;)*
    })*) => {
        /// A property of a record, by number: small enough to be collected in sets.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[repr(u8)]
        pub enum Field { $($(#[doc = $meaning] $id,)*)* }

        /// All properties, in the order of [`Field`].
        pub static PROPERTIES: &[Property] = &[
            $($(Property {
                field: Field::$id,
                kind: Kind::$kind,
                name: $name,
                qualified: concat!($kind_name, ".", $name),
                symbols: &[$($symbol),*],
                value: $value,
                range: Range::$range,
                starred: properties!(@star $($star)?),
                meaning: $meaning,
            },)*)*
        ];
    };
    (@star starred) => { true };
    (@star) => { false };
}

use ValueType::{Count, Flag, Id, Quantity, Reference, Size, Text, Thread, Word as Words};

const MM: ValueType = Quantity(Unit::Mm);
const NM: ValueType = Quantity(Unit::Nm);
const DEG: ValueType = Quantity(Unit::Deg);
const PER_MIN: ValueType = Quantity(Unit::PerMin);
const KG: ValueType = Quantity(Unit::Kg);

properties! {
    Assembly "assembly" {
        ToolNumber "tool_number" [] Text, Any starred, "the number that the program calls";
        Assembly "assembly" [] Id, Any, "id of the assembly; the tool number if none is given";
        AssemblyDescription "description" [] Text, Any, "free text";
        Machine "machine" [] Text, Any, "machine that the tool number belongs to";
        Pot "pot" [] Text, Any, "place in the magazine";
        ProgramToolGroup "program_tool_group" [] Text, Any, "group within which the tool number is unique: MTConnect's ProgramToolGroup";
        CutterOf "cutter" [] Reference(Kind::Cutter), Any, "id of the cutter";
        ColletOf "collet" [] Reference(Kind::Collet), Any, "id of the collet";
        NutOf "nut" [] Reference(Kind::Nut), Any, "id of the nut";
        HolderOf "holder" [] Reference(Kind::Holder), Any, "id of the holder";
        Extension "extension" [] Text, Any, "id of an extension between collet and holder";
        StickOut "stick_out" [] MM, Positive starred, "projection from the nut face (the holder face where there is no nut) to the tool's foremost point, clamped and tightened";
        ProtrudingLength "protruding_length" ["LPR"] MM, Positive, "gauge plane to the foremost point of the tool";
        ProtrudingLengthNominal "protruding_length_nominal" [] MM, Positive, "protruding length that was meant, where protruding_length is what was measured";
        FunctionalLength "functional_length" ["LF"] MM, Positive, "gauge plane to the cutting reference point; for pointed tools the point length is left out";
        FunctionalLengthNominal "functional_length_nominal" [] MM, Positive, "functional length that was meant, where functional_length is what was measured";
        ClampingLength "clamping_length" ["LSC"] MM, NotNegative, "length of the tool behind the nut or holder face: the insertion";
        NutTorque "nut_torque" [] NM, Positive, "tightening torque that the setup calls for";
        AssemblyMass "assembly_mass" [] KG, Positive, "mass of the assembly";
        RunOut "run_out" [] MM, NotNegative, "measured run-out (total indicator reading, TIR) near the tip";
        MeasuredFrequency "measured_frequency" [] Quantity(Unit::Hz), Positive, "first natural frequency as measured at the tip";
        BoreSetback "bore_setback" [] MM, Any, "nut or holder face to the front end of the gripping length, if measured as a whole";
    }
    Cutter "cutter" {
        Cutter "cutter" [] Id, Any, "id of the cutter";
        CutterDescription "description" [] Text, Any, "free text";
        CutterKind "cutter_kind" [] Words(lists::CutterKind::WORDS), Any, "kind of cutter";
        CutterMaterial "cutter_material" [] Words(lists::CutterMaterial::WORDS), Any, "what the shank is made of";
        CuttingDiameter "cutting_diameter" ["DC"] MM, Positive starred, "cutting diameter";
        CuttingDiameterMax "cutting_diameter_max" ["DCX"] MM, Positive, "largest cutting diameter";
        CornerRadius "corner_radius" ["RE"] MM, NotNegative, "corner radius";
        PointAngle "point_angle" ["SIG"] DEG, Positive, "included angle of the point";
        HelixAngle "helix_angle" ["FHA"] DEG, Any, "helix angle of the flutes";
        FluteCount "flute_count" ["NOF"] Count, Positive, "number of flutes";
        DepthOfCutMax "depth_of_cut_max" ["APMX"] MM, Positive, "maximum axial depth that the edges cut";
        ChipFluteLength "chip_flute_length" ["LCF"] MM, Positive, "tip to the end of the flute washout";
        UsableLength "usable_length" ["LU"] MM, Positive, "reach without interference of the tool itself";
        HeadLength "head_length" ["LH"] MM, Positive, "tip to the start of the full shank";
        NeckDiameter "neck_diameter" ["DN"] MM, Positive, "diameter of the relieved neck";
        NeckLength "neck_length" ["LN"] MM, Positive, "tip to the end of the relieved neck";
        ShankDiameter "shank_diameter" ["DMM" "DCONMS"] MM, Positive starred, "shank diameter";
        ShankLength "shank_length" ["LS"] MM, Positive starred, "length of the plain cylindrical shank, from the shank end";
        ShankLengthNominal "shank_length_nominal" [] MM, Positive, "shank length that was meant, where shank_length is what was measured";
        ShankForm "shank_form" [] Words(lists::ShankForm::WORDS), Any, "form of the shank; HA, HB and HE are those of DIN 6535";
        ShankTolerance "shank_tolerance" ["TCDMM"] Text, Any, "tolerance class of the shank";
        FlatDistance "flat_distance" [] MM, Positive, "shank end to the middle of the drive flat; with two flats the one further from the shank end";
        FlatSpacing "flat_spacing" [] MM, Positive, "distance between the middles of two drive flats";
        RearFluteLength "rear_flute_length" [] MM, NotNegative, "double-ended cutter: shank end to the end of the rear flutes' washout; 0 if not stated";
        CutterDriveSquare "drive_square" [] MM, Positive, "driving square at the shank end, across flats";
        DriveSquareLength "drive_square_length" [] MM, NotNegative, "length of the driving square at the shank end";
        OverallLength "overall_length" ["OAL"] MM, Positive starred, "overall length when new";
        OverallLengthMin "overall_length_min" [] MM, Positive, "shortest overall length after regrinding";
        OverallLengthActual "overall_length_actual" [] MM, Positive, "overall length as it is now";
        CutterClampingLengthMin "clamping_length_min" ["LSCN"] MM, NotNegative, "minimum insertion that the cutter's manufacturer permits";
        CutterClampingLengthMax "clamping_length_max" ["LSCX"] MM, Positive, "maximum insertion that the cutter's manufacturer permits";
        ThreadPitch "thread_pitch" ["TP"] MM, Positive, "pitch of the thread it cuts";
        CutterSpeedMax "cutter_speed_max" ["RPMX"] PER_MIN, Positive, "maximum speed of the cutter";
        Hand "hand" [] Words(lists::Hand::WORDS), Any, "hand of cut";
        HelixHand "helix_hand" [] Words(lists::Hand::WORDS), Any, "hand of the helix";
        CoolantChannels "coolant_channels" [] Flag, Any, "whether coolant runs through the cutter";
    }
    Collet "collet" {
        Collet "collet" [] Id, Any, "id of the collet";
        ColletDescription "description" [] Text, Any, "free text";
        ColletSystem "collet_system" [] Words(lists::ColletSystem::WORDS), Any, "standard of the collet";
        ColletSize "collet_size" [] Size, Positive starred, "size of the collet";
        BoreDiameter "bore_diameter" ["DCONWS"] MM, Positive starred, "largest shank it takes, the nominal bore";
        BoreDiameterMin "bore_diameter_min" [] MM, NotNegative, "smallest shank it may be closed on";
        BoreLength "bore_length" [] MM, Positive starred, "gripping length of the bore, from its front end; relieved parts do not count";
        BoreForm "bore_form" [] Words(lists::BoreForm::WORDS), Any, "form of the bore: where it is relieved";
        BoreRecess "bore_recess" [] MM, NotNegative, "collet's front end to the front end of the gripping length";
        ColletLength "collet_length" [] MM, Positive, "overall length of the collet";
        ColletDriveSquare "drive_square" [] MM, Positive, "square in the collet, across flats";
        ColletSealed "sealed" [] Flag, Any, "whether the collet seals against coolant";
        ColletTorqueRecommended "torque_recommended" [] NM, Positive, "nut torque that the manufacturers recommend for this bore";
        ColletClampingLengthMin "clamping_length_min" ["LSCN"] MM, NotNegative, "minimum insertion that the collet's manufacturer permits";
        ColletClampingLengthMax "clamping_length_max" ["LSCX"] MM, Positive, "maximum insertion that the collet's manufacturer permits";
    }
    Nut "nut" {
        Nut "nut" [] Id, Any, "id of the nut";
        NutDescription "description" [] Text, Any, "free text";
        NutColletSize "collet_size" [] Size, Positive, "size of the collets it takes";
        NutStyle "nut_style" [] Words(lists::NutStyle::WORDS), Any, "style of the nut";
        NutThread "nut_thread" [] Thread, Any, "thread of the nut";
        NutOuterDiameter "nut_outer_diameter" [] MM, Positive, "outer diameter of the nut";
        FaceSetback "face_setback" [] MM, Any, "recess behind the nut face: nut face to the collet's front end; negative if the collet projects";
        NutSealed "sealed" [] Flag, Any, "whether the nut seals against coolant";
        NutTorqueRecommended "torque_recommended" [] NM, Positive, "tightening torque that the manufacturer recommends";
        TorqueBoreMin "torque_bore_min" [] MM, NotNegative, "smallest bore that the recommended torque applies to";
        TorqueBoreMax "torque_bore_max" [] MM, Positive, "largest bore that the recommended torque applies to";
        TorqueMax "torque_max" [] NM, Positive, "maximum tightening torque of the nut";
        NutSpeedMax "nut_speed_max" [] PER_MIN, Positive, "maximum speed of the nut";
    }
    Holder "holder" {
        Holder "holder" [] Id, Any, "id of the holder";
        HolderDescription "description" [] Text, Any, "free text";
        ClampingKind "clamping_kind" [] Words(lists::ClampingKind::WORDS), Any, "what clamps the tool";
        MachineInterface "machine_interface" [] Text, Any, "the side towards the spindle";
        HolderColletSize "collet_size" [] Size, Positive, "size of the collets it takes";
        HolderNutThread "nut_thread" [] Thread, Any, "thread for the nut";
        GaugeLength "gauge_length" [] MM, Positive, "gauge plane to the nut or holder face, at the collet's nominal bore";
        InsertionDepthMax "insertion_depth_max" [] MM, Positive, "nut or holder face, at the collet's nominal bore, to whatever stops the shank end";
        MouthSetback "mouth_setback" [] MM, Any, "nut face to the holder's mouth (the front end of the collet taper)";
        MouthDiameter "mouth_diameter" [] MM, Positive, "diameter of the collet taper at the holder's mouth";
        TaperLength "taper_length" [] MM, Positive, "length of the holder's collet taper";
        NoseDiameter "nose_diameter" [] MM, Positive, "diameter of the holder's nose";
        NoseLength "nose_length" [] MM, Positive, "length of the holder's nose, from its mouth to where its body begins";
        BodyDiameter "body_diameter" [] MM, Positive, "diameter of the holder's body";
        WrenchTorqueMax "wrench_torque_max" [] NM, Positive, "maximum torque of the wrench used with it";
        HolderSpeedMax "holder_speed_max" [] PER_MIN, Positive, "maximum speed of the holder";
        HolderMass "holder_mass" [] KG, Positive, "mass of the holder";
        BalanceGrade "balance_grade" [] Size, Positive, "balance quality grade G, mm/s";
        BalanceSpeed "balance_speed" [] PER_MIN, Positive, "speed at which the balance grade is stated";
        HolderClampingLengthMin "clamping_length_min" ["LSCN"] MM, NotNegative, "minimum insertion that the holder's manufacturer permits";
        HolderClampingLengthMax "clamping_length_max" ["LSCX"] MM, Positive, "maximum insertion that the holder's manufacturer permits";
        HolderBoreDiameter "bore_diameter" ["DCONWS"] MM, Positive, "the holder's own clamping bore; for a drill chuck the largest shank it takes";
        HolderBoreLength "bore_length" [] MM, Positive, "length over which the holder's own bore grips, from its front end";
        HolderBoreRecess "bore_recess" [] MM, NotNegative, "holder face to where its own bore begins to grip";
        ScrewDistance "screw_distance" [] MM, Positive, "holder face to the axis of the clamp screw; with two screws the one nearer the face";
        ScrewSpacing "screw_spacing" [] MM, Positive, "distance between the axes of two clamp screws";
        SeatForm "seat_form" [] Words(lists::SeatForm::WORDS), Any, "what the clamp screw is made for: a drive flat, a sloping flat or a round bar";
        Keyless "keyless" [] Flag, Any, "whether it is a keyless drill chuck";
    }
    Operation "operation" {
        Operation "operation" [] Id, Any, "id of the operation";
        OperationDescription "description" [] Text, Any, "free text";
        OperationToolNumber "tool_number" [] Text, Any, "tool number of the assembly that does it";
        OperationMachine "machine" [] Text, Any, "machine that does it";
        OperationKind "operation_kind" [] Words(lists::OperationKind::WORDS), Any, "kind of operation; if not stated, a drill, reamer, tap or boring bar does what it is made for";
        WorkpieceMaterial "workpiece_material" [] Text, Any, "key of the workpiece material";
        Reach "reach" [] MM, Positive, "depth from the highest surface that the nut or holder face must clear to the deepest point cut";
        Clearance "clearance" [] MM, NotNegative, "distance that the nut or holder face keeps above that surface; if not stated, a range from memory";
        RoomDiameter "room_diameter" [] MM, Positive, "diameter of a pocket that the nut may enter";
        RoomDepth "room_depth" [] MM, Positive, "how deep the nut may enter it";
        SideClearance "side_clearance" [] MM, NotNegative, "clearance at the side; 0.5 mm if not stated";
        Wall "wall" [] Words(lists::Wall::WORDS), Any, "whether there are walls beside the cut";
        AxialDepth "axial_depth" ["AP"] MM, Positive, "axial depth of cut";
        RadialWidth "radial_width" ["AE"] MM, Positive, "radial width of cut";
        FeedPerTooth "feed_per_tooth" ["FZ"] MM, Positive, "feed per tooth";
        FeedPerRevolution "feed_per_revolution" ["F"] MM, Positive, "feed per revolution";
        SpindleSpeed "spindle_speed" ["N"] PER_MIN, Positive, "spindle speed";
        CuttingSpeed "cutting_speed" ["VC"] Quantity(Unit::MPerMin), Positive, "cutting speed";
        SpindleDirection "spindle_direction" [] Words(lists::Hand::WORDS), Any, "spindle direction, as the cutter's hand";
        Coolant "coolant" [] Words(lists::Coolant::WORDS), Any, "how coolant reaches the cut";
        Finishing "finishing" [] Flag, Any, "whether it finishes the surface";
    }
    Stock "stock" {
        Quantity "quantity" [] Count, NotNegative, "how many are in stock";
        Location "location" [] Text, Any, "where it lies";
    }
}

impl Field {
    /// How many there are.
    pub const COUNT: usize = PROPERTIES.len();

    /// The property's line of the table.
    #[must_use]
    #[expect(
        clippy::indexing_slicing,
        reason = "enum and table are made by the same macro"
    )]
    pub fn property(self) -> &'static Property {
        &PROPERTIES[self as usize]
    }

    /// The record it belongs to.
    #[must_use]
    pub fn kind(self) -> Kind {
        self.property().kind
    }

    /// Name with its record: `cutter.shank_length`.
    #[must_use]
    pub fn qualified(self) -> &'static str {
        self.property().qualified
    }

    /// The bare name where only one kind of record has it, else the qualified one.
    #[must_use]
    pub fn short(self) -> &'static str {
        SHORT
            .get(self as usize)
            .copied()
            .unwrap_or_else(|| self.qualified())
    }

    /// The property of a record by its name.
    #[must_use]
    pub fn named(kind: Kind, name: &str) -> Option<Field> {
        PROPERTIES
            .iter()
            .find(|property| property.kind == kind && property.name == name)
            .map(|property| property.field)
    }

    /// The id of a kind of record.
    #[must_use]
    pub const fn id_of(kind: Kind) -> Option<Field> {
        match kind {
            Kind::Assembly => Some(Field::Assembly),
            Kind::Cutter => Some(Field::Cutter),
            Kind::Collet => Some(Field::Collet),
            Kind::Nut => Some(Field::Nut),
            Kind::Holder => Some(Field::Holder),
            Kind::Operation => Some(Field::Operation),
            Kind::Stock => None,
        }
    }

    /// The assembly's field that names its part of a kind.
    #[must_use]
    pub const fn naming(kind: Kind) -> Option<Field> {
        match kind {
            Kind::Cutter => Some(Field::CutterOf),
            Kind::Collet => Some(Field::ColletOf),
            Kind::Nut => Some(Field::NutOf),
            Kind::Holder => Some(Field::HolderOf),
            Kind::Assembly | Kind::Operation | Kind::Stock => None,
        }
    }
}

/// The short name of every field: findings of a large library ask for some of them a million
/// times.
static SHORT: LazyLock<Vec<&'static str>> = LazyLock::new(|| {
    let short = |property: &Property| {
        let alike = PROPERTIES
            .iter()
            .filter(|other| other.name == property.name);
        if alike.count() == 1 {
            property.name
        } else {
            property.qualified
        }
    };
    PROPERTIES.iter().map(short).collect()
});
