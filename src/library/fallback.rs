//! What stands in for a field that is not stated: derived, default or assumed, never mixed up.
//!
//! A derived value follows from stated ones. A default is a harmless convention of the
//! vocabulary. An assumed value is a guess with a reason; every finding that rests on it says
//! so and is lowered.

use crate::units::Scalar;
use std::borrow::Cow;

use super::standard_sizes;
use super::workpiece;
use super::{
    All, BoreForm, ClampingKind, ClosedList as _, ColletSystem, Corner, CutterKind, CutterMaterial,
    Field, Kind, NutStyle, OperationKind, Origin, Provenance, Reckoned, Thread, View,
};

/// Diameters closer than this count as one size when a shank is compared with the cut.
const SAME_DIAMETER: f64 = 0.1;
/// Collapse that sealed collets permit below their nominal bore, mm; from memory.
const SEALED_COLLAPSE: f64 = 0.1;

type StandIn<'a, P> = Option<(Reckoned<Scalar<&'a str>, P>, Origin)>;

/// The fallback of a field, if it has one that says anything here.
pub(super) fn find<'a, P: Provenance>(view: &View<'a, P>, field: Field) -> StandIn<'a, P> {
    if !view.library.own.defaults.is_empty()
        && let Some(own) = view.shop_default(field)
    {
        return Some((own, Origin::Default));
    }
    match field {
        Field::StickOut => Some(derived(stick_out(view))),
        Field::ShankLength => shank_length(view),
        Field::FaceSetback | Field::HolderBoreRecess | Field::Clearance => ranged(view, field),
        Field::BoreRecess => bore_recess(view),
        Field::DriveSquareLength | Field::RearFluteLength => default(view, field, 0.0),
        Field::SideClearance => default(view, field, 0.5),
        Field::ColletSystem => collet_system(view),
        Field::ColletLength => collet_length(view).map(number),
        Field::BoreLength => bore_length(view).map(number),
        Field::NutOuterDiameter => nut_outer_diameter(view).map(number),
        Field::NutThread => nut_thread(view),
        Field::BoreDiameterMin => bore_diameter_min(view).map(number),
        Field::OperationKind => operation_kind(view),
        _ => None,
    }
}

fn number<'a, P: Provenance>(
    (found, origin): (Reckoned<f64, P>, Origin),
) -> (Reckoned<Scalar<&'a str>, P>, Origin) {
    (found.map(Scalar::Number), origin)
}

fn derived<'a, P: Provenance>(found: Reckoned<f64, P>) -> (Reckoned<Scalar<&'a str>, P>, Origin) {
    number((found, Origin::Derived))
}

/// A harmless convention. It is none for a square's length once a square is stated, nor for a
/// part that is named and nowhere described.
fn default<'a, P: Provenance>(view: &View<'a, P>, field: Field, value: f64) -> StandIn<'a, P> {
    let square =
        field == Field::DriveSquareLength && view.number(Field::CutterDriveSquare).is_known();
    if square || view.is_unresolved(field.kind()) {
        return None;
    }
    Some(number((Reckoned::free(value), Origin::Default)))
}

/// One place in the range that stands for what nobody states. Of a part that is named and nowhere
/// described not even that is known.
fn ranged<'a, P: Provenance>(view: &View<'a, P>, field: Field) -> StandIn<'a, P> {
    if view.is_unresolved(field.kind()) {
        return None;
    }
    let range = view.unstated.ranges.of(view, field)?;
    let trace = match view.unstated.corner {
        Corner::Open => P::ranged(field),
        Corner::At(_) => P::default(),
    };
    let place = Reckoned::known(view.end_of(field, range), trace);
    Some(number((place, Origin::Ranged)))
}

/// The land of a collet begins at its front, unless it is said to be relieved there: then nobody
/// knows where.
fn bore_recess<'a, P: Provenance>(view: &View<'a, P>) -> StandIn<'a, P> {
    let form = view.listed::<BoreForm>();
    if form.value == Some(BoreForm::RelievedInFront) {
        return None;
    }
    default(view, Field::BoreRecess, 0.0)
}

/// LPR − gauge_length, else overall_length − clamping_length. An extension adds to the first, and
/// no library states by how much.
fn stick_out<P: Provenance>(view: &View<'_, P>) -> Reckoned<f64, P> {
    let protruding = view.number(Field::ProtrudingLength);
    let from_gauge = (protruding, view.number(Field::GaugeLength)).all();
    if from_gauge.is_known() && !view.word(Field::Extension).is_known() {
        return from_gauge.map(|(protruding, gauge)| protruding - gauge);
    }
    let clamped = view.number(Field::ClampingLength);
    let overall = overall_length(view);
    (overall, clamped)
        .all()
        .map(|(overall, clamped)| overall - clamped)
}

/// The overall length that judges: after regrinds the smallest known one.
pub(super) fn overall_length<P: Provenance>(view: &View<'_, P>) -> Reckoned<f64, P> {
    let fields = [
        Field::OverallLength,
        Field::OverallLengthMin,
        Field::OverallLengthActual,
    ];
    let known = fields.into_iter().filter_map(|field| {
        let found = view.number(field);
        Some((found.value?, found.trace))
    });
    match known.min_by(|a, b| a.0.total_cmp(&b.0)) {
        Some((length, trace)) => Reckoned::known(length, trace),
        None => Reckoned::missing(Field::OverallLength),
    }
}

fn shank_length<'a, P: Provenance>(view: &View<'a, P>) -> StandIn<'a, P> {
    let overall = view.number(Field::OverallLength);
    for front in [Field::HeadLength, Field::NeckLength] {
        let shank = (overall, view.number(front)).all();
        if shank.is_known() {
            return Some(derived(shank.map(|(overall, front)| overall - front)));
        }
    }
    if let Some(bound) = behind_the_flutes(view, overall) {
        let why =
            "overall length less chip flute length, an upper bound: the flute washout is not known";
        return Some(number((bound, Origin::Assumed(why))));
    }
    let standard = din_6535_length(view)?;
    let why = "length of DIN 6535 for a carbide shank of this diameter";
    Some(number((standard, Origin::Assumed(why))))
}

/// A cutter as thick as its shank and without neck is shank from the flutes on.
fn behind_the_flutes<P: Provenance>(
    view: &View<'_, P>,
    overall: Reckoned<f64, P>,
) -> Option<Reckoned<f64, P>> {
    if view.number(Field::NeckDiameter).is_known() {
        return None;
    }
    let diameters = (
        view.number(Field::ShankDiameter),
        view.number(Field::CuttingDiameter),
    );
    let same = diameters
        .all()
        .map(|(shank, cut)| (shank - cut).abs() <= SAME_DIAMETER);
    let flutes = view.number(Field::ChipFluteLength);
    let bound = (overall, flutes)
        .all()
        .map(|(overall, flutes)| overall - flutes);
    (same.value == Some(true) && bound.is_known()).then(|| bound.resting_on(same.trace))
}

fn din_6535_length<P: Provenance>(view: &View<'_, P>) -> Option<Reckoned<f64, P>> {
    let material = view.listed::<CutterMaterial>();
    let diameter = view.number(Field::ShankDiameter);
    let (material, diameter) = (material.value?, (diameter.value?, diameter.trace));
    let length = standard_sizes::shank_length(diameter.0)?;
    // A shank as long as the whole tool is none of a cutter, and one that would reach into the
    // flutes is shorter than the standard says.
    let overall = view.number(Field::OverallLength).value;
    let flutes = view.number(Field::ChipFluteLength).value.unwrap_or(0.0);
    if overall.is_some_and(|overall| length >= overall || length + flutes > overall) {
        return None;
    }
    (material == CutterMaterial::Carbide).then(|| {
        let trace = diameter.1.union(P::used(Field::CutterMaterial));
        Reckoned::known(length, trace)
    })
}

/// A drill drills: what a cutter can do only in one way needs no word of its own. A cutter that
/// mills may plunge and bore too, and says nothing.
fn operation_kind<'a, P: Provenance>(view: &View<'a, P>) -> StandIn<'a, P> {
    view.operation?;
    let cutter = view.listed::<CutterKind>();
    let does = match cutter.value? {
        CutterKind::Drill
        | CutterKind::StepDrill
        | CutterKind::CentreDrill
        | CutterKind::SpotDrill => OperationKind::Drilling,
        CutterKind::Reamer => OperationKind::Reaming,
        CutterKind::Tap => OperationKind::Tapping,
        CutterKind::BoringBar => OperationKind::Boring,
        _ => return None,
    };
    Some((cutter.map(|_| Scalar::Word(does.word())), Origin::Derived))
}

fn size<P: Provenance>(view: &View<'_, P>) -> Option<(&'static standard_sizes::ColletSize, P)> {
    let size = view.number(Field::ColletSize);
    Some((standard_sizes::collet_size(size.value?)?, size.trace))
}

/// The first system of which the size is one, unless it is stated that something else clamps.
fn collet_system<'a, P: Provenance>(view: &View<'a, P>) -> StandIn<'a, P> {
    let (_, trace) = size(view)?;
    let clamping = view.listed::<ClampingKind>().value;
    if clamping.is_some_and(|kind| kind != ClampingKind::ColletChuck) {
        return None;
    }
    Some((
        Reckoned::known(Scalar::Word(ColletSystem::Iso15488.word()), trace),
        Origin::Default,
    ))
}

/// Tables of ISO 15488 say nothing of a collet of another system.
fn standard_size<P: Provenance>(
    view: &View<'_, P>,
) -> Option<(&'static standard_sizes::ColletSize, P)> {
    let (row, trace) = size(view)?;
    let system = view.listed::<ColletSystem>().value;
    (system == Some(ColletSystem::Iso15488)).then_some((row, trace))
}

fn collet_length<P: Provenance>(view: &View<'_, P>) -> Option<(Reckoned<f64, P>, Origin)> {
    let (row, trace) = standard_size(view)?;
    let why = "length of a standard collet of this size, from memory";
    Some((Reckoned::known(row.length, trace), Origin::Assumed(why)))
}

/// A through bore in the upper half of its size's range grips over the collet's length. Small
/// bores are usually relieved at the rear: then nothing can be assumed.
fn bore_length<P: Provenance>(view: &View<'_, P>) -> Option<(Reckoned<f64, P>, Origin)> {
    let form = view.listed::<BoreForm>();
    let (row, _) = standard_size(view)?;
    let bore = view.number(Field::BoreDiameter);
    let large = bore.value? > row.bore_max / 2.0;
    let length = view.number(Field::ColletLength);
    let recess = view.number(Field::BoreRecess);
    let why =
        "length of the collet, as its bore is through and in the upper half of the size's range";
    (form.value == Some(BoreForm::Through) && large && length.is_known()).then(|| {
        let land = (length, recess)
            .all()
            .map(|(length, recess)| length - recess);
        let trace = form.trace.union(bore.trace);
        (land.resting_on(trace), Origin::Assumed(why))
    })
}

fn bore_diameter_min<P: Provenance>(view: &View<'_, P>) -> Option<(Reckoned<f64, P>, Origin)> {
    let (row, trace) = standard_size(view)?;
    let bore = view.number(Field::BoreDiameter);
    let sealed = view.flag(Field::ColletSealed);
    let (collapse, why) = if sealed.value == Some(true) {
        (
            SEALED_COLLAPSE,
            "nominal bore less 0.1 mm, as the collet is sealed; from memory",
        )
    } else {
        (
            row.collapse,
            "nominal bore less the normal collapse of the size; from memory",
        )
    };
    let least = bore
        .map(|bore| (bore - collapse).max(0.0))
        .resting_on(trace);
    least.is_known().then_some((least, Origin::Assumed(why)))
}

/// The standard nut of a size; a reduced one is another.
fn standard_nut<P: Provenance>(
    view: &View<'_, P>,
) -> Option<(&'static standard_sizes::NutSize, P)> {
    let style = view.listed::<NutStyle>();
    let size = view.number(Field::NutColletSize);
    let row = standard_sizes::nut_size(size.value?)?;
    (style.value == Some(NutStyle::Standard)).then(|| (row, size.trace.union(style.trace)))
}

fn nut_outer_diameter<P: Provenance>(view: &View<'_, P>) -> Option<(Reckoned<f64, P>, Origin)> {
    let (row, trace) = standard_nut(view)?;
    let why = "outer diameter of a standard nut of this size, from memory";
    Some((
        Reckoned::known(row.outer_diameter?, trace),
        Origin::Assumed(why),
    ))
}

fn nut_thread<'a, P: Provenance>(view: &View<'a, P>) -> StandIn<'a, P> {
    let (row, trace) = standard_nut(view)?;
    let why = if row.thread_basis == "from memory" {
        "thread of a standard nut of this size, from memory"
    } else {
        "thread of a standard nut of this size, ISO 15488 read second-hand"
    };
    Some((
        Reckoned::known(Scalar::Text(row.thread.written()), trace),
        Origin::Assumed(why),
    ))
}

/// The thread of the standard nut, where it stands in for a nut's own.
pub(super) fn standard_thread<'a, P: Provenance>(
    view: &View<'a, P>,
    field: Field,
) -> Option<&'a Thread> {
    let nut = (field == Field::NutThread).then(|| standard_nut(view));
    Some(&nut.flatten()?.0.thread)
}

/// Why an assumed field was assumed, for the finding that rests on it.
#[must_use]
pub fn reason(view: &View<'_>, field: Field) -> Option<Cow<'static, str>> {
    match view.with_origin(field) {
        (found, Origin::Assumed(why)) if found.is_known() => Some(why.into()),
        _ if field == Field::WorkpieceMaterial => workpiece::reason(view),
        _ => stands_in(field).map(Cow::from),
    }
}

/// The starred properties without which the main rules cannot judge this assembly. The shank
/// matters only where something may hold the tool by it, the collet where one closes on it: of a
/// sleeve in a chuck nothing must be known.
#[must_use]
pub fn needed(view: &View<'_>) -> Vec<Field> {
    let held = view.held_by_shank().value;
    let collet = held == Some(true) && view.held_in_chuck().value == Some(false);
    let starred = super::PROPERTIES.iter().filter(|property| property.starred);
    starred
        .filter(|property| match property.kind {
            Kind::Collet => collet,
            Kind::Cutter => held != Some(false) || property.field == Field::CuttingDiameter,
            _ => true,
        })
        .map(|property| property.field)
        .collect()
}

/// What a table says of a stated word, where the table is from memory.
fn stands_in(field: Field) -> Option<&'static str> {
    match field {
        Field::ShankForm => Some("place of its flat as in DIN 6535, partly from memory"),
        Field::NutThread => Some("thread of the standard nut of this size, ISO 15488 second-hand"),
        Field::RunOut => Some("run-out of the normal class, ISO 15488, at the nominal bore"),
        _ => None,
    }
}
