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
        scene.word(Field::NutThread),
        scene.word(Field::HolderNutThread),
    );
    unless_extended(scene, || threads.all()).map(|(nut, holder)| {
        let (nut, holder) = (parts(nut), parts(holder));
        let pitches_differ = nut.1.zip(holder.1).is_some_and(|(a, b)| a != b);
        nut.0 != holder.0 || pitches_differ
    })
}

/// Diameter and pitch of a thread as it is stored, `M40x1.5`.
fn parts(thread: &str) -> (Option<f64>, Option<f64>) {
    let body = thread.trim_start_matches('M');
    let (diameter, pitch) = match body.split_once('x') {
        Some((diameter, pitch)) => (diameter, Some(pitch)),
        None => (body, None),
    };
    let number = |text: &str| text.parse().ok();
    (number(diameter), pitch.and_then(number))
}
