//! What to beware of at the bench: few things, and only those that the kind of clamping has.

use crate::facts::Scene;
use crate::library::{ClampingKind, ColletSystem};

use super::super::front::Front;

/// One thing to beware of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Caution {
    /// Taper, bore and shank are clean and dry.
    Clean,
    /// A mark is drawn and never scribed.
    Mark,
    /// The collet is snapped into the nut before the nut is screwed on.
    SnapIn,
    /// A nut is never tightened on an empty collet.
    NoEmptyCollet,
    /// A chuck is never actuated without a shank.
    NoEmptyChuck,
    /// The wrench is never extended.
    NoExtension,
    /// No flute is in the collet.
    FlutesOutOfCollet,
    /// No flute is in the bore of the holder.
    FlutesOutOfBore,
    /// Thread and cone get what their manufacturer says.
    Lubricate,
    /// A collet that was closed on a short or undersize shank is discarded.
    Discard,
}

/// Those that apply, in the order in which they are met with at the bench.
pub(super) fn all(base: &Scene<'_>, clamping: Option<ClampingKind>, nut: bool) -> Vec<Caution> {
    let mut found = vec![Caution::Clean];
    if Front::of(base) != Front::NoShank {
        found.push(Caution::Mark);
    }
    if nut {
        // The collets of both standards are held in their nut, which draws them out again.
        let system = base.view.listed::<ColletSystem>().value;
        let snaps = matches!(
            system,
            Some(ColletSystem::Iso15488 | ColletSystem::Iso10897)
        );
        if snaps {
            found.push(Caution::SnapIn);
        }
        found.extend([
            Caution::NoEmptyCollet,
            Caution::FlutesOutOfCollet,
            Caution::NoExtension,
            Caution::Lubricate,
            Caution::Discard,
        ]);
        return found;
    }
    match clamping {
        Some(ClampingKind::HydraulicChuck | ClampingKind::MillingChuck) => {
            found.extend([
                Caution::NoEmptyChuck,
                Caution::FlutesOutOfBore,
                Caution::NoExtension,
            ]);
        }
        Some(ClampingKind::SideLock | ClampingKind::DrillChuck) => {
            found.extend([Caution::FlutesOutOfBore, Caution::NoExtension]);
        }
        _ if Front::of(base) == Front::NoShank => {}
        _ => found.push(Caution::FlutesOutOfBore),
    }
    found
}
