//! The tool of a question at several stick-outs: how much is gripped there, and what that does to
//! the socket's mouth.

use crate::draw::{self, Drawing};
use crate::facts::{Fact, Scene, why_not_along};
use crate::library::{Field, Overrides};

use super::question::Asked;

/// The part of a gripping length that common practice asks for; no standard states it.
const TWO_THIRDS: f64 = 2.0 / 3.0;

/// Why a stick-out is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Which {
    /// As long as the whole gripping length is filled, at most.
    FullGrip,
    /// As long as two thirds of it are filled, at most.
    TwoThirds,
    /// What is stated.
    AsSet,
    /// What is advised, where nothing is stated.
    AsAdvised,
}

/// The tool at one stick-out.
#[derive(Clone, Debug)]
pub struct AtStickOut {
    /// Why it is shown.
    pub which: Which,
    /// The stick-out, mm.
    pub stick_out: f64,
    /// Plain shank in the gripping length, mm.
    pub gripped: Option<f64>,
    /// Part of the gripping length that it fills.
    pub fraction: Option<f64>,
    /// Stress at the socket's mouth over that of a full grip, by the model.
    pub mouth: Result<f64, NoModel>,
    /// What nobody states, and at which end of its range it is drawn, mm.
    pub drawn_with: Vec<(&'static str, f64)>,
    /// Its drawing.
    pub drawing: Drawing,
}

/// Why the model says nothing of the mouth.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoModel {
    /// These properties are not stated.
    Missing(Vec<&'static str>),
    /// It was not checked for such a tool.
    Outside(&'static str),
}

impl Asked<'_> {
    /// The tool with a full grip, with two thirds of it, and as set or advised: in a slotted collet
    /// whose gripping length is known all three, else the last alone.
    #[must_use]
    pub fn at_stick_outs(&self, present: Option<f64>) -> Vec<AtStickOut> {
        let own = match (present, self.window.recommended) {
            (Some(at), _) => Some((Which::AsSet, at)),
            (None, Some(at)) => Some((Which::AsAdvised, at)),
            (None, None) => None,
        };
        let unfavourable = self.unfavourable();
        let with = |numbers: Vec<(Field, f64)>| Overrides {
            numbers,
            ..Overrides::default()
        };
        let as_stated = with(unfavourable.clone());
        let (judge, library, assembly) = (self.judge, self.library, self.assembly);
        let filled = judge.look(library, assembly, &as_stated, |base, _| {
            [
                (Which::FullGrip, filling(base, 1.0)),
                (Which::TwoThirds, filling(base, TWO_THIRDS)),
            ]
        });
        let filled = filled
            .into_iter()
            .filter_map(|(which, at)| Some((which, at?)));
        let named = unfavourable.iter().map(|(field, at)| (field.short(), *at));
        let named: Vec<(&'static str, f64)> = named.collect();
        let all = filled.chain(own).map(|(which, stick_out)| {
            let mut numbers = unfavourable.clone();
            numbers.push((Field::StickOut, stick_out));
            judge.look(library, assembly, &with(numbers), |base, jobs| {
                let scene = jobs.first().unwrap_or(base);
                AtStickOut {
                    which,
                    stick_out,
                    gripped: scene.number(Fact::GrippedLength).value,
                    fraction: scene.number(Fact::GripFraction).value,
                    mouth: mouth(scene),
                    drawn_with: named.clone(),
                    drawing: draw::assembly(scene),
                }
            })
        });
        all.collect()
    }

    /// What nobody states and is taken as a range, at the end where less is gripped: the further the
    /// collet lies behind the front face, the less of the shank is in it.
    fn unfavourable(&self) -> Vec<(Field, f64)> {
        let as_stated = Overrides::default();
        let (judge, library, assembly) = (self.judge, self.library, self.assembly);
        let range = judge.look(library, assembly, &as_stated, |base, _| {
            base.view.range(Field::FaceSetback)
        });
        let far = range.map(|(_, far)| (Field::FaceSetback, far));
        far.into_iter().collect()
    }
}

/// The longest stick-out at which so much of the gripping length is filled, as far as the shank's
/// end decides it; none where no slotted collet grips, or a length is not known.
///
/// # Formula
/// overall length − square length − bore setback − part × bore length
fn filling(base: &Scene<'_>, part: f64) -> Option<f64> {
    if base.truth(Fact::SlottedCollet).value != Some(true) {
        return None;
    }
    let long = base.view.overall_length().value?;
    let square = base.field(Field::DriveSquareLength).value?;
    let setback = base.number(Fact::BoreSetback).value?;
    let bore = base.field(Field::BoreLength).value?;
    Some(part.mul_add(-bore, long - square - setback)).filter(|at| *at > 0.0)
}

fn mouth(scene: &Scene<'_>) -> Result<f64, NoModel> {
    let ratio = scene.number(Fact::MouthStressRatio);
    ratio.value.ok_or_else(|| match why_not_along(scene) {
        Err(why) => NoModel::Outside(why),
        Ok(missing) => NoModel::Missing(missing.iter().map(Field::short).collect()),
    })
}
