//! What clamps the tool: whether its shank is held, and whose bore closes on it.

use super::{ClampingKind, CutterKind, Entry, Field, Kind, Provenance, Reckoned, ShankForm, View};

/// Properties of a collet that a bare column of a flat row states for another part too.
const SHARED: [(Field, Field); 6] = [
    (Field::BoreDiameter, Field::HolderBoreDiameter),
    (Field::BoreLength, Field::HolderBoreLength),
    (Field::BoreRecess, Field::HolderBoreRecess),
    (Field::ColletSize, Field::HolderColletSize),
    (Field::ColletSealed, Field::NutSealed),
    (Field::ColletTorqueRecommended, Field::NutTorqueRecommended),
];

impl<P: Provenance> View<'_, P> {
    /// Whether what clamps the tool holds it by a cylindrical shank.
    ///
    /// A Morse-taper shank is none, and a probe without stated clamping is held in its own way.
    /// When the clamping kind is empty a collet that is named or described says yes; else it is
    /// unknown.
    #[must_use]
    pub fn held_by_shank(&self) -> Reckoned<bool, P> {
        let form = self.listed::<ShankForm>();
        if form.value == Some(ShankForm::MorseTaper) {
            return Reckoned::known(false, form.trace);
        }
        let kind = self.listed::<ClampingKind>();
        match kind.value {
            Some(own) => Reckoned::known(own.holds_shank(), kind.trace),
            None if self.names(Kind::Collet) => Reckoned::free(true),
            None => {
                let cutter = self.listed::<CutterKind>();
                if cutter.value == Some(CutterKind::Probe) {
                    return Reckoned::known(false, cutter.trace);
                }
                Reckoned::missing(Field::ClampingKind)
            }
        }
    }

    /// Whether a slotted collet or a reduction sleeve closes on the shank.
    #[must_use]
    pub fn slotted_collet(&self) -> Reckoned<bool, P> {
        self.held_by_shank().and_then(|held| {
            if !held {
                return Reckoned::free(false);
            }
            let kind = self.listed::<ClampingKind>();
            match kind.value {
                Some(own) => Reckoned::known(own.is_collet() || self.has_own_collet(), kind.trace),
                None => Reckoned::free(true),
            }
        })
    }

    /// Whether the holder's own bore grips, with or without a sleeve.
    #[must_use]
    pub fn held_in_chuck(&self) -> Reckoned<bool, P> {
        self.held_by_shank().and_then(|held| {
            let kind = self.listed::<ClampingKind>();
            match kind.value {
                Some(own) if held => Reckoned::known(!own.is_collet(), kind.trace),
                _ => Reckoned::free(false),
            }
        })
    }

    /// Whether a collet or sleeve is named or described as such: by its id, by a linked or
    /// exchanged part, or in the row by what only a collet has.
    ///
    /// A row's column that states a property of collet and holder at once (`bore_length`) does
    /// not make a sleeve.
    #[must_use]
    pub fn has_own_collet(&self) -> bool {
        let row = &self.assembly.record;
        let stated = |field: Field| row.value(field);
        let of_a_collet = |entry: Entry<'_>| {
            let mut shared = SHARED.iter();
            match shared.find(|(own, _)| *own == entry.field) {
                Some((_, other)) => stated(*other) != Some(entry.value),
                None => entry.field.kind() == Kind::Collet && entry.field != Field::Collet,
            }
        };
        if self.is_without(Kind::Collet) {
            return false;
        }
        self.part(Kind::Collet).is_some()
            || row.get(Field::ColletOf).is_some()
            || row.entries().any(of_a_collet)
    }
}
