//! What is not asked of a tool that nothing holds by a shank: a face mill on an arbor has a bore.

use crate::input::{Faults, Kept, fault_kind};

use super::{Field, Library, Overrides, View};

/// What only a shank has, or is needed only for its grip.
const OF_A_SHANK: [Field; 3] = [
    Field::ShankDiameter,
    Field::ShankLength,
    Field::OverallLength,
];

/// A stand-in for something of a shank is no gap where no shank is held: the main rules do not need it.
pub(super) fn need_no_shank(library: &mut Library) {
    let mut faults: Faults = std::mem::take(&mut library.faults);
    let as_it_is = Overrides::default();
    let is_chosen = |kept: Kept<'_>| {
        let field = kept.field();
        if kept.kind() != fault_kind::CELL_UNREADABLE
            || !OF_A_SHANK.iter().any(|own| own.property().name == field)
        {
            return false;
        }
        let assembly = kept.of().and_then(|of| library.assemblies.get(of));
        let is_held = assembly.is_none_or(|assembly| {
            let view: View<'_> = View::new(library, assembly, None, &as_it_is);
            view.held_by_shank().value != Some(false)
        });
        let is_stand_in = || {
            let fault = kept.fault();
            let mut args = fault.args.iter();
            args.any(|(name, text)| *name == "kind" && text == "stand-in")
        };
        !is_held && is_stand_in()
    };
    faults.reword(("starred", "no"), is_chosen);
    library.faults = faults;
}
