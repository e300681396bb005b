//! One assembly with at most one operation, seen as one set of fields.
//!
//! A field is looked up in the overrides, then in the assembly's own row, then in the part's
//! record, and last among the fallbacks. So a row may restate a part's value for this one
//! assembly, and the window and the remedy can ask "what if" without rebuilding a library.

use crate::units::Scalar;
use std::cell::Cell;
use std::marker::PhantomData;

use super::fallback;
use super::{
    Assembly, ClampingKind, ColletSystem, Entry, Field, Kind, Library, OfOneField, OperationRef,
    Provenance, Range, Reckoned, Record, ShankForm, Thread, Trace, Unstated, Watch,
};

/// "What if": other values or other parts.
#[derive(Clone, Debug, Default)]
pub struct Overrides<'a> {
    /// Other numbers, in canonical units.
    pub numbers: Vec<(Field, f64)>,
    /// Other parts: each takes the place of the assembly's part of its kind, with all that the
    /// assembly's row states about it.
    pub parts: Vec<&'a Record>,
    /// Kinds of parts that are left out, with all that the assembly's row states about them: a
    /// shrink-fit holder takes neither collet nor nut.
    pub without: Vec<Kind>,
}

/// What states how far a tool sticks out.
pub const LENGTHS: [Field; 4] = [
    Field::StickOut,
    Field::ProtrudingLength,
    Field::FunctionalLength,
    Field::ClampingLength,
];

/// What a holder says of the socket that clamps, and of the way from the gauge plane to its
/// front. Behind an extension none of it is about the tool: the collet sits in the extension.
const OF_THE_SOCKET: [Field; 19] = [
    Field::ClampingKind,
    Field::HolderColletSize,
    Field::HolderNutThread,
    Field::GaugeLength,
    Field::InsertionDepthMax,
    Field::MouthSetback,
    Field::MouthDiameter,
    Field::TaperLength,
    Field::NoseDiameter,
    Field::WrenchTorqueMax,
    Field::HolderClampingLengthMin,
    Field::HolderClampingLengthMax,
    Field::HolderBoreDiameter,
    Field::HolderBoreLength,
    Field::HolderBoreRecess,
    Field::ScrewDistance,
    Field::ScrewSpacing,
    Field::SeatForm,
    Field::Keyless,
];

/// One assembly, with at most one of its operations; its values say what they rest on as a `P`.
#[derive(Clone, Copy, Debug)]
pub struct View<'a, P = Trace> {
    /// The library.
    pub library: &'a Library,
    /// The assembly.
    pub assembly: &'a Assembly,
    /// The operation, if the view is of one.
    pub operation: Option<OperationRef>,
    /// What if.
    pub overrides: &'a Overrides<'a>,
    /// What is taken for granted of what nobody states.
    pub unstated: Unstated,
    /// Whether a starred property that is only assumed counts as unknown.
    pub distrusts_assumed: bool,
    /// Another stick-out than the recorded one, mm.
    pub stick_out: Option<f64>,
    /// What is told besides.
    pub watch: Option<Watch<'a>>,
    /// How its values say what they rest on.
    pub provenance: PhantomData<P>,
}

/// How a value that is not stated came about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// Stated in the library.
    Stated,
    /// Follows from what is stated.
    Derived,
    /// Fixed by the vocabulary.
    Default,
    /// Assumed, and why.
    Assumed(&'static str),
    /// One place in the range that stands for what nobody states.
    Ranged,
}

impl<'a> View<'a> {
    /// An assembly, or one of its operations, as it is recorded but for the overrides.
    #[must_use]
    pub fn new(
        library: &'a Library,
        assembly: &'a Assembly,
        operation: Option<OperationRef>,
        overrides: &'a Overrides<'a>,
    ) -> View<'a> {
        View {
            library,
            assembly,
            operation,
            overrides,
            unstated: Unstated::default(),
            distrusts_assumed: false,
            stick_out: None,
            watch: None,
            provenance: PhantomData,
        }
    }
}

impl<'a, P: Provenance> View<'a, P> {
    /// The same view, whose values say what they rest on in another way.
    #[must_use]
    pub fn resting<Q: Provenance>(&self) -> View<'a, Q> {
        View {
            library: self.library,
            assembly: self.assembly,
            operation: self.operation,
            overrides: self.overrides,
            unstated: self.unstated,
            distrusts_assumed: self.distrusts_assumed,
            stick_out: self.stick_out,
            watch: self.watch,
            provenance: PhantomData,
        }
    }

    /// A field's value with what it rests on.
    #[must_use]
    pub fn datum(&self, field: Field) -> Reckoned<Scalar<&'a str>, P> {
        self.with_origin(field).0
    }

    /// A field's value and how it came about.
    #[must_use]
    pub fn with_origin(&self, field: Field) -> (Reckoned<Scalar<&'a str>, P>, Origin) {
        if let Some(watch) = self.watch {
            watch.asks(field);
        }
        let trace = P::used(field);
        if let Some(number) = self.overridden(field) {
            return (
                Reckoned::known(Scalar::Number(number), trace),
                Origin::Stated,
            );
        }
        if let Some(entry) = self.entry(field) {
            return (Reckoned::known(entry.value, trace), Origin::Stated);
        }
        match fallback::find(self, field) {
            None => (Reckoned::missing(field), Origin::Stated),
            // Lengths that contradict each other give nothing: a stick-out below zero is none.
            Some((found, _)) if out_of_range(field, found.value) => {
                (Reckoned::missing(field), Origin::Stated)
            }
            Some((mut found, origin)) => {
                if matches!(origin, Origin::Assumed(_)) && found.is_known() {
                    if self.distrusts_assumed && field.property().starred {
                        return (Reckoned::missing(field), origin);
                    }
                    found.trace = found.trace.union(P::assumed(field));
                }
                if !found.is_known() {
                    // What would have to be filled in is the field itself.
                    found.trace = found.trace.lacking_nothing().union(P::missing(field));
                }
                (found, origin)
            }
        }
    }

    fn overridden(&self, field: Field) -> Option<f64> {
        if field == Field::StickOut && self.stick_out.is_some() {
            return self.stick_out;
        }
        let numbers = self.overrides.numbers.iter();
        numbers
            .rev()
            .find(|(overridden, _)| *overridden == field)
            .map(|(_, number)| *number)
    }

    /// A number in its canonical unit.
    #[must_use]
    pub fn number(&self, field: Field) -> Reckoned<f64, P> {
        self.datum(field).number()
    }

    /// A word or text.
    #[must_use]
    pub fn word(&self, field: Field) -> Reckoned<&'a str, P> {
        self.datum(field).text()
    }

    /// A word of the closed list that a property has for itself.
    #[must_use]
    pub fn listed<L: OfOneField>(&self) -> Reckoned<L, P> {
        self.datum(L::FIELD).listed()
    }

    /// A thread, as it is stated or as that of the standard nut.
    #[must_use]
    pub fn thread(&self, field: Field) -> Reckoned<&'a Thread, P> {
        let Reckoned { value, trace } = self.datum(field);
        let stated = self.entry(field).and_then(|entry| entry.thread());
        let thread = stated.or_else(|| fallback::standard_thread(self, field));
        Reckoned {
            value: value.and(thread),
            trace,
        }
    }

    /// Yes or no.
    #[must_use]
    pub fn flag(&self, field: Field) -> Reckoned<bool, P> {
        self.datum(field).truth()
    }

    /// What the library states of a field, and where.
    #[must_use]
    pub fn entry(&self, field: Field) -> Option<Entry<'a>> {
        let entry = self.entry_in_records(field)?;
        if let Some(watch) = self.watch {
            watch.reads(entry.value);
        }
        Some(entry)
    }

    fn entry_in_records(&self, field: Field) -> Option<Entry<'a>> {
        let kind = field.kind();
        if self.is_without(kind) {
            return None;
        }
        match kind {
            Kind::Operation => self.operation_record()?.get(field),
            Kind::Assembly | Kind::Stock => {
                let own = self.assembly.record.get(field);
                own.or_else(|| self.assembly.asset.as_ref()?.get(field))
            }
            Kind::Holder if OF_THE_SOCKET.contains(&field) && self.is_extended() => None,
            _ => {
                if let Some(part) = self.other_part(kind) {
                    return part.get(field);
                }
                let own = self.assembly.record.get(field);
                let own = own.or_else(|| self.part(kind)?.get(field));
                own.or_else(|| self.assembly.asset.as_ref()?.get(field))
            }
        }
    }

    /// What its watch sets, if it has one.
    #[must_use]
    pub fn seen(&self) -> Option<&'a Cell<bool>> {
        Some(self.watch?.seen)
    }

    /// Whether an extension stands between collet and holder.
    fn is_extended(&self) -> bool {
        self.assembly.record.get(Field::Extension).is_some()
    }

    /// Whether an override leaves a kind of part out.
    pub(super) fn is_without(&self, kind: Kind) -> bool {
        self.overrides.without.contains(&kind)
    }

    fn other_part(&self, kind: Kind) -> Option<&'a Record> {
        let parts = self.overrides.parts.iter().copied();
        parts.rev().find(|part| part.kind == kind)
    }

    /// The record of a part that the assembly names.
    #[must_use]
    pub fn part(&self, kind: Kind) -> Option<&'a Record> {
        if let Some(part) = self.other_part(kind) {
            return Some(part);
        }
        if self.is_without(kind) {
            return None;
        }
        let index = self.assembly.part(kind)?;
        self.library.records(kind).get(index)
    }

    fn operation_record(&self) -> Option<&'a Record> {
        match self.operation? {
            OperationRef::OwnRow => Some(&self.assembly.record),
            OperationRef::Record(index) => self.library.records(Kind::Operation).get(index),
        }
    }

    /// The record in which a field would have to be filled in.
    #[must_use]
    pub fn record_of(&self, kind: Kind) -> &'a Record {
        let record = match kind {
            Kind::Operation => self.operation_record(),
            Kind::Assembly | Kind::Stock => None,
            _ => self.part(kind),
        };
        record.unwrap_or(&self.assembly.record)
    }

    /// Whether a part is named and nowhere described.
    pub(super) fn is_unresolved(&self, kind: Kind) -> bool {
        self.other_part(kind).is_none() && self.assembly.is_unresolved(kind)
    }

    /// Whether the row, a linked record or an override says anything of a kind of part.
    #[must_use]
    pub fn names(&self, kind: Kind) -> bool {
        let reference = match kind {
            Kind::Cutter => Field::CutterOf,
            Kind::Collet => Field::ColletOf,
            Kind::Nut => Field::NutOf,
            Kind::Holder => Field::HolderOf,
            Kind::Assembly | Kind::Operation | Kind::Stock => return false,
        };
        if self.is_without(kind) {
            return false;
        }
        let mut overridden = self.overrides.numbers.iter();
        overridden.any(|(field, _)| field.kind() == kind)
            || self.part(kind).is_some()
            || self.assembly.record.get(reference).is_some()
            || self.assembly.record.describes(kind)
            || self
                .assembly
                .asset
                .as_ref()
                .is_some_and(|asset| asset.describes(kind))
    }

    /// Name of the operation, for people and for JSON.
    #[must_use]
    pub fn operation_name(&self) -> Option<&'a str> {
        let record = self.operation_record()?;
        let stated = record.text(Field::Operation);
        stated.or_else(|| self.assembly.record.text(Field::ToolNumber))
    }

    /// The overall length that judges: after regrinds the smallest known one.
    #[must_use]
    pub fn overall_length(&self) -> Reckoned<f64, P> {
        fallback::overall_length(self)
    }

    /// Whether the tool sits in a taper collet of ISO 15488.
    ///
    /// A Morse-taper shank does not. When the clamping kind is empty: yes if a collet is named or
    /// described, else unknown.
    #[must_use]
    pub fn held_in_collet(&self) -> Reckoned<bool, P> {
        let form = self.listed::<ShankForm>();
        if form.value == Some(ShankForm::MorseTaper) {
            return Reckoned::known(false, form.trace);
        }
        let kind = self.listed::<ClampingKind>();
        if let Some(kind_of) = kind.value {
            return Reckoned::known(kind_of == ClampingKind::ColletChuck, kind.trace);
        }
        if self.names(Kind::Collet) {
            return self.listed::<ColletSystem>().as_system(self);
        }
        // What is not held by a shank, such as a probe, is in no collet either.
        let held = self.held_by_shank();
        match held.value {
            Some(false) => held,
            _ => Reckoned::missing(Field::ClampingKind),
        }
    }
}

/// Whether a derived number is one that its property cannot have.
fn out_of_range(field: Field, value: Option<Scalar<&str>>) -> bool {
    match (value, field.property().range) {
        (Some(Scalar::Number(number)), Range::Positive) => number <= 0.0,
        (Some(Scalar::Number(number)), Range::NotNegative) => number < 0.0,
        _ => false,
    }
}

impl<P: Provenance> Reckoned<ColletSystem, P> {
    /// A collet of another stated system is no taper collet of ISO 15488.
    fn as_system(self, view: &View<'_, P>) -> Reckoned<bool, P> {
        let stated = view.entry(Field::ColletSystem).is_some();
        match self.value {
            Some(system) if stated => Reckoned::known(system == ColletSystem::Iso15488, self.trace),
            _ => Reckoned::free(true),
        }
    }
}
