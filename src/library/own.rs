//! The shop's own materials and defaults, from its `shankwise.toml`: used where the records and the
//! tables of the program are silent.

use super::standard_sizes::Material;
use super::{
    All, ClampingKind, ClosedList as _, Constant, CutterMaterial, Field, NutStyle, Provenance,
    Reckoned, View,
};
use crate::units::Scalar;

/// A shop's own values, from its `shankwise.toml`.
#[derive(Clone, Debug, Default)]
pub struct Own {
    /// Workpiece materials; one of the table's names takes its place.
    pub materials: Vec<Material>,
    /// What it takes for granted where no record states it.
    pub defaults: Defaults,
}

/// What a shop takes for granted where no record states it. Lengths in mm.
#[derive(Clone, Debug, Default)]
pub struct Defaults {
    /// Clearance of operations.
    pub clearance: Option<f64>,
    /// Material of cutters.
    pub cutter_material: Option<CutterMaterial>,
    /// Recess behind the nut face, by style of nut.
    pub face_setback: Vec<(NutStyle, f64)>,
    /// Length of the bore that grips: size of the collet, nominal bores from and to, the length.
    pub bore_length: Vec<(f64, (f64, f64), f64)>,
    /// Minimum insertion of holders: what clamps, shank diameters from and to, the insertion.
    pub clamping_length_min: Vec<(ClampingKind, (f64, f64), f64)>,
    /// What is the same in all rows.
    pub constants: Vec<Constant>,
}

impl Defaults {
    /// Whether the shop states none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.clearance.is_none()
            && self.cutter_material.is_none()
            && self.face_setback.is_empty()
            && self.bore_length.is_empty()
            && self.clamping_length_min.is_empty()
            && self.constants.is_empty()
    }
}

/// The fields that a shop may have a default for, those that are the same in all rows aside.
pub const DEFAULTED: [Field; 5] = [
    Field::CutterMaterial,
    Field::BoreLength,
    Field::FaceSetback,
    Field::HolderClampingLengthMin,
    Field::Clearance,
];

/// Diameters nearer than this are one, mm.
const SAME: f64 = 0.01;

fn within((from, to): (f64, f64), diameter: f64) -> bool {
    diameter >= from - SAME && diameter <= to + SAME
}

impl<'a, P: Provenance> View<'a, P> {
    /// The shop's own value for a field that nothing states; `None` if it has none that fits.
    /// Of a part that is named and nowhere described nobody knows what would fit.
    #[must_use]
    pub fn shop_default(&self, field: Field) -> Option<Reckoned<Scalar<&'a str>, P>> {
        if self.entry(field).is_some() || self.is_unresolved(field.kind()) {
            return None;
        }
        let all = &self.library.own.defaults;
        let number = |found: Option<Reckoned<f64, P>>| Some(found?.map(Scalar::Number));
        match field {
            // Without an operation there is nothing to keep clear of.
            Field::Clearance => {
                self.operation?;
                number(all.clearance.map(Reckoned::free))
            }
            Field::CutterMaterial => {
                let material = all.cutter_material?;
                Some(Reckoned::free(Scalar::Word(material.word())))
            }
            Field::FaceSetback => number(self.default_setback()),
            Field::BoreLength => number(self.default_bore_length()),
            Field::HolderClampingLengthMin => number(self.default_insertion()),
            _ => None,
        }
        .or_else(|| self.constant(field))
    }

    /// A nut of unstated style counts as standard.
    fn default_setback(&self) -> Option<Reckoned<f64, P>> {
        let style = self.listed::<NutStyle>();
        let wanted = style.value.unwrap_or(NutStyle::Standard);
        let mut rows = self.library.own.defaults.face_setback.iter();
        let (_, setback) = rows.find(|(known, _)| *known == wanted)?;
        Some(Reckoned::known(*setback, style.trace.presence()))
    }

    fn default_bore_length(&self) -> Option<Reckoned<f64, P>> {
        let of = (
            self.number(Field::ColletSize),
            self.number(Field::BoreDiameter),
        )
            .all();
        let (size, bore) = of.value?;
        let mut rows = self.library.own.defaults.bore_length.iter();
        let (_, _, length) = rows.find(|row| row.0 == size && within(row.1, bore))?;
        Some(of.map(|_| *length))
    }

    fn default_insertion(&self) -> Option<Reckoned<f64, P>> {
        let of = (
            self.listed::<ClampingKind>(),
            self.number(Field::ShankDiameter),
        )
            .all();
        let (kind, shank) = of.value?;
        let mut rows = self.library.own.defaults.clamping_length_min.iter();
        let (_, _, length) = rows.find(|row| row.0 == kind && within(row.1, shank))?;
        Some(of.map(|_| *length))
    }
}
