//! Facts about whether parts belong together.

use crate::library::{All, Field, Provenance, Reckoned};

use super::Scene;

/// Size that the holder takes, where the collet sits in the holder itself: with an extension
/// between, holder and collet need not agree.
pub(super) fn seat_size<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<f64, P> {
    unless_extended(scene, || scene.field(Field::HolderColletSize))
}

/// What can be said only where no extension sits between collet and holder.
pub(super) fn unless_extended<T, P: Provenance>(
    scene: &Scene<'_, P>,
    found: impl FnOnce() -> Reckoned<T, P>,
) -> Reckoned<T, P> {
    let extension = scene.word(Field::Extension);
    if extension.is_known() {
        return Reckoned::unknown(extension.trace);
    }
    found()
}

/// Whether the nut does not go on the holder, by what both say of their threads. Where one of
/// them leaves out the pitch, the diameters alone are compared.
pub(super) fn threads_differ<P: Provenance>(scene: &Scene<'_, P>) -> Reckoned<bool, P> {
    let threads = (
        scene.view.thread(Field::NutThread),
        scene.view.thread(Field::HolderNutThread),
    );
    unless_extended(scene, || threads.all()).map(|(nut, holder)| nut.differs_from(holder))
}
