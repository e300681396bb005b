//! Lengths and torques of a card that need more than one value of the record.

use std::path::Path;

use crate::advice::insertion_needed;
use crate::facts::{Fact, Scene};
use crate::library::{Field, Setting};

/// The recorded stick-out, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StickOut {
    /// The length.
    pub length: f64,
    /// Whether it follows from other recorded lengths.
    pub derived: bool,
}

/// The protruding length LPR: gauge plane to the tip, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Protruding {
    /// It must be this, within a tolerance.
    Target {
        /// The length.
        length: f64,
        /// How much more or less it may be.
        tolerance: f64,
    },
    /// The collet closes below its nominal bore: the whole is drawn in, and only measuring tells.
    DrawnIn {
        /// The length at the nominal bore.
        nominal: f64,
        /// How far it is drawn in, if its taper is known.
        draw_in: Option<f64>,
    },
}

/// What stops the shank end, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stop {
    /// From the nut or holder face; none if it is not stated.
    pub depth: Option<f64>,
    /// Free behind the shank end at the recorded stick-out.
    pub free: Option<f64>,
    /// How much must be free before the nut is tightened; none in a chuck.
    pub keep: Option<f64>,
    /// Whether that includes the draw-in of the collet.
    pub draw_in_known: bool,
}

/// A value of the record, and where it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// The value.
    pub value: f64,
    /// The file's name and the line; none if it stands in no file.
    pub place: Option<(String, usize)>,
}

/// The torque of a nut, N·m: every one is stated.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TorqueShown {
    /// What the setup calls for.
    pub set: Option<Placed>,
    /// What the manufacturers recommend.
    pub recommended: Option<Placed>,
    /// What must not be exceeded, and the part that has this limit.
    pub limit: Option<(f64, &'static str)>,
}

/// The shortest that a tool may be, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shortest {
    /// The length.
    pub length: f64,
    /// Whether the record states it; else it follows from the grip at this stick-out.
    pub stated: bool,
}

impl StickOut {
    pub(super) fn of(base: &Scene<'_>) -> Option<StickOut> {
        let length = base.field(Field::StickOut).value?;
        Some(StickOut {
            length,
            derived: base.view.entry(Field::StickOut).is_none(),
        })
    }
}

/// A draw-in that no one can measure, mm: the collet closes at its nominal bore.
const NOTHING: f64 = 0.02;

impl Protruding {
    /// As it is recorded, else built from gauge length and stick-out. Where these two are recorded
    /// and differ, that is a finding.
    pub(super) fn of(base: &Scene<'_>, tolerance: f64) -> Option<Protruding> {
        let recorded = base.field(Field::ProtrudingLength).value;
        let length = recorded.or(base.number(Fact::BuiltProtrudingLength).value)?;
        let nothing_moves = base.view.held_by_shank().value == Some(false);
        let draw_in = if nothing_moves {
            Some(0.0)
        } else {
            base.number(Fact::DrawIn).value
        };
        Some(match draw_in {
            Some(draw_in) if draw_in <= NOTHING => Protruding::Target { length, tolerance },
            draw_in => Protruding::DrawnIn {
                nominal: length,
                draw_in,
            },
        })
    }
}

impl Stop {
    pub(super) fn of(base: &Scene<'_>, mark: Option<f64>) -> Option<Stop> {
        let depth = base.field(Field::InsertionDepthMax).value;
        let is_chuck = base.truth(Fact::HeldInChuck).value == Some(true);
        let draw_in = base.number(Fact::DrawIn).value;
        let closing = base.setting(Setting::ClosingRoom).value;
        let keep = closing.map(|closing| closing + draw_in.unwrap_or(0.0));
        let known = base.truth(Fact::HeldInChuck).is_known();
        known.then(|| Stop {
            depth,
            free: depth.zip(mark).map(|(depth, mark)| depth - mark),
            keep: keep.filter(|_| !is_chuck),
            draw_in_known: draw_in.is_some(),
        })
    }
}

impl TorqueShown {
    pub(super) fn of(base: &Scene<'_>) -> TorqueShown {
        let sources = &base.view.library.sources;
        let placed = |value: Option<f64>, field: Field| {
            let entry = base.view.entry(field);
            let place = entry.map(|entry| {
                let place = entry.place();
                let file = Path::new(sources.name(place)).file_name();
                let file = file.map_or_else(String::new, |name| name.to_string_lossy().into());
                let file = match sources.sheet(place) {
                    None => file,
                    Some(sheet) => format!("{file}, sheet {sheet},"),
                };
                (file, sources.position(place).line)
            });
            value.map(|value| Placed { value, place })
        };
        let recommended = base.number(Fact::TorqueRecommended);
        let of = if recommended.trace.used.contains(Field::NutTorqueRecommended) {
            Field::NutTorqueRecommended
        } else {
            Field::ColletTorqueRecommended
        };
        let limits = ["nut", "wrench", "bore"];
        let limit_is = base.fact(Fact::TorqueLimitIs).text().value;
        let limit_is = limits.into_iter().find(|part| Some(*part) == limit_is);
        TorqueShown {
            set: placed(base.field(Field::NutTorque).value, Field::NutTorque),
            recommended: placed(recommended.value, of),
            limit: base.number(Fact::TorqueLimit).value.zip(limit_is),
        }
    }
}

impl Shortest {
    /// What the grip needs at this stick-out, or what the record states if that is more.
    pub(super) fn of(base: &Scene<'_>) -> Option<Shortest> {
        let gripped = base.at_most(|scene| scene.number(Fact::ShortestOverallLength));
        let behind = || {
            let out = base.field(Field::StickOut).value?;
            Some(out + insertion_needed(base).value?)
        };
        let gripped = match (gripped.value, behind()) {
            (Some(a), Some(b)) => Some(a.max(b)),
            (a, b) => a.or(b),
        };
        let own = base.field(Field::OverallLengthMin).value;
        match (gripped, own) {
            (Some(gripped), Some(own)) if own > gripped => Some((own, true)),
            (Some(gripped), _) => Some((gripped, false)),
            (None, own) => own.map(|own| (own, true)),
        }
        .map(|(length, stated)| Shortest { length, stated })
    }
}
