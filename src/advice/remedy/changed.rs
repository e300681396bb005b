//! An assembly with other parts or another stick-out: what its record states changes with it.

use crate::library::{self, ClampingKind, Field, Overrides};

use super::attempt::Patient;
use super::crib::Part;

impl Patient<'_> {
    /// The assembly with other parts. A setback measured as a whole must follow them.
    pub(super) fn swapped<'r>(&self, parts: &[&'r Part<'_>]) -> Option<Overrides<'r>> {
        let mut overrides = Overrides {
            parts: parts.iter().map(|part| part.record.as_ref()).collect(),
            ..Overrides::default()
        };
        let moves = |part: &&Part<'_>| {
            part.kind == library::Kind::Collet || part.kind == library::Kind::Nut
        };
        // A holder whose own bore grips takes neither collet nor nut.
        let own_bore = parts.iter().any(|part| {
            let kind = part.listed::<ClampingKind>();
            part.kind == library::Kind::Holder && kind.is_some_and(|kind| !kind.is_collet())
        });
        if own_bore {
            overrides.without = vec![library::Kind::Collet, library::Kind::Nut];
        }
        if parts.iter().any(moves) {
            self.forget_setback(&mut overrides)?;
        }
        Some(overrides)
    }

    /// A setback measured as a whole was measured with the present collet and nut.
    fn forget_setback(&self, overrides: &mut Overrides<'_>) -> Option<()> {
        if self.assembly.record.get(Field::BoreSetback).is_none() {
            return Some(());
        }
        let parts = self.look(overrides, |base, _| {
            let face = base.field(Field::FaceSetback).value?;
            Some(face + base.field(Field::BoreRecess).value?)
        });
        overrides.numbers.push((Field::BoreSetback, parts?));
        Some(())
    }

    /// Sets the stick-out, mm, and the other lengths that the assembly states with it: who
    /// pulls a tool out changes them too.
    pub(super) fn set(&self, overrides: &mut Overrides<'_>, stick_out: f64) {
        let stated = |field| {
            let entry = self.assembly.record.get(field);
            entry.and_then(|entry| entry.value.number())
        };
        let was = self.look(&Overrides::default(), |base, _| {
            (
                base.field(Field::StickOut).value,
                base.field(Field::GaugeLength).value,
            )
        });
        let (gauge, overall) = self.look(overrides, |base, _| {
            let gauge = base.field(Field::GaugeLength).value;
            (gauge, base.view.overall_length().value)
        });
        let further = was.0.map_or(0.0, |was| stick_out - was);
        let longer = gauge.zip(was.1).map_or(0.0, |(gauge, was)| gauge - was);
        let mut numbers = vec![(Field::StickOut, stick_out)];
        for field in [Field::ProtrudingLength, Field::FunctionalLength] {
            numbers.extend(stated(field).map(|length| (field, length + further + longer)));
        }
        let clamped = overall.map(|overall| overall - stick_out);
        if stated(Field::ClampingLength).is_some() {
            numbers.extend(clamped.map(|clamped| (Field::ClampingLength, clamped)));
        }
        overrides.numbers.extend(numbers);
    }

    /// What the length from the gauge plane comes to, where the record states one, mm.
    pub(super) fn protruding(&self, overrides: &Overrides<'_>) -> Option<f64> {
        self.assembly.record.get(Field::ProtrudingLength)?;
        self.look(overrides, |base, _| {
            let gauge = base.field(Field::GaugeLength).value?;
            Some(gauge + base.field(Field::StickOut).value?)
        })
    }
}
