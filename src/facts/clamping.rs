//! Facts about what clamps the tool, and whose bore closes on its shank.

use crate::library::{Field, Reckoned};

use super::Scene;

pub(super) fn held_by_shank(scene: &Scene<'_>) -> Reckoned<bool> {
    scene.view.held_by_shank()
}

pub(super) fn slotted_collet(scene: &Scene<'_>) -> Reckoned<bool> {
    scene.view.slotted_collet()
}

pub(super) fn held_in_chuck(scene: &Scene<'_>) -> Reckoned<bool> {
    scene.view.held_in_chuck()
}

pub(super) fn bore_length(scene: &Scene<'_>) -> Reckoned<f64> {
    scene.view.bore(Field::BoreLength, Field::HolderBoreLength)
}

pub(super) fn bore_diameter(scene: &Scene<'_>) -> Reckoned<f64> {
    scene
        .view
        .bore(Field::BoreDiameter, Field::HolderBoreDiameter)
}
