//! Geometry along the axis: how much shank is in the collet's bore, how far the collet is drawn in,
//! where the tip and the gauge plane are.
//!
//! z runs along the axis from the tool's tip. p is the stick-out, OAL the overall length,
//! LS the plain shank from the tail, q what is no plain shank at the tail (a driving square, the
//! rear flutes of a double-ended cutter), B the length of the collet's or chuck's gripping land, s the distance from the front face to the front end of that land
//! (negative if the collet stands proud). Shank [OAL − LS, OAL − q]; land [p + s, p + s + B].
//!
//! Left out: the chamfers of the bore and of the shank's tail, which carry nothing, and the
//! few hundredths by which a land is not cylindrical once the collet is closed.

use super::by_name::{Given, formulas};
use super::clamping::SETTING_ANGLE;

/// A plain shank along the axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shank {
    /// Overall length OAL, mm, above 0.
    pub overall_length: f64,
    /// Plain shank from the tail, LS, mm.
    pub shank_length: f64,
    /// Driving square or rear flutes at the tail, the longer of them, q, mm; 0 for none.
    pub square_length: f64,
}

/// A collet's gripping land along the axis.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Land {
    /// Stick-out p, mm: front face to the furthest point of the tool.
    pub stick_out: f64,
    /// Front face to the front end of the land, s, mm; negative if it stands proud.
    pub bore_setback: f64,
    /// Length of the gripping land, B, mm.
    pub bore_length: f64,
}

impl Shank {
    /// Where the plain shank begins and ends, from the tip, mm.
    fn ends(self) -> (f64, f64) {
        (
            self.overall_length - self.shank_length,
            self.overall_length - self.square_length,
        )
    }
}

impl Land {
    /// Where the land begins and ends, from the tip, mm.
    fn ends(self) -> (f64, f64) {
        let front = self.stick_out + self.bore_setback;
        (front, front + self.bore_length)
    }
}

/// Overlap along the axis of the plain shank with the gripping land.
///
/// # Formula
/// max(0, min(OAL − q, p + s + B) − max(OAL − LS, p + s))
/// # Units
/// mm; from 0 to B.
/// # Source
/// Geometry. A drive flat does not reduce it: the flat takes circumference, not length.
#[must_use]
pub fn gripped_length(shank: Shank, land: Land) -> f64 {
    let (shank_front, shank_end) = shank.ends();
    let (land_front, land_end) = land.ends();
    (shank_end.min(land_end) - shank_front.max(land_front)).max(0.0)
}

/// Part of the land, at its front, that faces no plain shank.
///
/// # Formula
/// min(max((OAL − LS) − (p + s), 0), B)
/// # Units
/// mm; from 0 to B.
/// # Source
/// Geometry.
#[must_use]
pub fn ungripped_front(shank: Shank, land: Land) -> f64 {
    let (shank_front, _) = shank.ends();
    let (land_front, _) = land.ends();
    (shank_front - land_front).clamp(0.0, land.bore_length.max(0.0))
}

/// Length of the tool behind the front face: the clamping length LSC of ISO 13399.
///
/// # Formula
/// OAL − p
/// # Units
/// mm.
/// # Source
/// ISO 13399 exchange example of the iso_133399 repository: 76.2 − 40.2 = 36.
#[must_use]
pub fn insertion(overall_length: f64, stick_out: f64) -> f64 {
    overall_length - stick_out
}

/// Shortest grip that the rule of thumb allows.
///
/// # Formula
/// f · B
/// # Units
/// mm; f is a ratio from 0 to 1.
/// # Source
/// f = 2/3 is common practice, no source; it is a limit that the shop may set.
#[must_use]
pub fn needed_grip(fraction: f64, bore_length: f64) -> f64 {
    fraction * bore_length
}

/// Front face to the front end of the gripping land.
///
/// # Formula
/// s = (nut's face to the collet's front end) + (collet's front end to the land)
/// # Units
/// mm; negative if the land stands proud of the front face.
/// # Source
/// Geometry.
#[must_use]
pub fn bore_setback(face_setback: f64, bore_recess: f64) -> f64 {
    face_setback + bore_recess
}

/// Front face to the collet's rear end.
///
/// # Formula
/// (nut's face to the collet's front end) + length of the collet
/// # Units
/// mm.
/// # Source
/// Geometry.
#[must_use]
pub fn collet_rear(face_setback: f64, collet_length: f64) -> f64 {
    face_setback + collet_length
}

/// How far the collet is pulled into its taper to close a gap on the diameter.
///
/// # Formula
/// gap / (2 tan 8°), so 3.56 mm of travel for 1 mm of gap
/// # Units
/// mm.
/// # Source
/// ISO 15488: setting angle 8° a side; the rest is geometry. Elastic closing is left out.
#[must_use]
pub fn draw_in(bore_gap: f64) -> f64 {
    bore_gap / (2.0 * SETTING_ANGLE.tan())
}

/// Shortest tool that still reaches the needed grip at this stick-out.
///
/// # Formula
/// p + s + f · B + q
/// # Units
/// mm.
/// # Source
/// Geometry: [`gripped_length`] solved for OAL at f · B, the shank long enough.
#[must_use]
pub fn shortest_overall_length(land: Land, needed_grip: f64, square_length: f64) -> f64 {
    land.stick_out + land.bore_setback + needed_grip + square_length
}

/// Shortest drill whose flutes are still as long as a hole is deep: a regrind takes as much of
/// the flutes as of the whole length.
///
/// # Formula
/// OAL - (LCF - reach)
/// # Units
/// mm.
/// # Source
/// Geometry: both lengths end at the tip.
#[must_use]
pub fn shortest_for_flutes(overall_length: f64, chip_flute_length: f64, reach: f64) -> f64 {
    overall_length - (chip_flute_length - reach)
}

/// Axial length of a conical point.
///
/// # Formula
/// (DC/2) / tan(SIG/2)
/// # Units
/// mm; SIG in degrees, above 0 and up to 180.
/// # Source
/// Geometry; ISO 13399 names it point length. d 10: 140° gives 1.82, 118° gives 3.00.
#[must_use]
pub fn point_length(cutting_diameter: f64, point_angle: f64) -> f64 {
    cutting_diameter / 2.0 / (point_angle.to_radians() / 2.0).tan()
}

/// Gauge plane to the furthest point of the tool: the protruding length LPR of ISO 13399.
///
/// # Formula
/// gauge_length + p
/// # Units
/// mm. The gauge length holds at the collet's nominal bore.
/// # Source
/// ISO 13399 exchange example of the iso_133399 repository: 62.4 + 40.2 = 102.6.
#[must_use]
pub fn protruding_length(gauge_length: f64, stick_out: f64) -> f64 {
    gauge_length + stick_out
}

/// Part of the land that grips.
///
/// # Formula
/// gripped length / B
/// # Units
/// ratio from 0 to 1; lengths in mm.
/// # Source
/// Geometry.
#[must_use]
pub fn grip_fraction(gripped_length: f64, bore_length: f64) -> f64 {
    gripped_length / bore_length
}

/// Shank that a collet can grip.
///
/// # Formula
/// max(0, LS − q)
/// # Units
/// mm.
/// # Source
/// Geometry.
#[must_use]
pub fn plain_shank(shank_length: f64, square_length: f64) -> f64 {
    (shank_length - square_length).max(0.0)
}

/// Gap on the diameter before the collet closes.
///
/// # Formula
/// bore diameter − shank diameter
/// # Units
/// mm; negative for a shank thicker than the bore.
/// # Source
/// Geometry.
#[must_use]
pub fn bore_gap(bore_diameter: f64, shank_diameter: f64) -> f64 {
    bore_diameter - shank_diameter
}

/// Overlap of a drive flat with the gripping land.
///
/// # Formula
/// max(0, min(OAL − a, p + s + B) − max(OAL − b, p + s)), the flat from a to b before the tail
/// # Units
/// mm.
/// # Source
/// Geometry, as [`gripped_length`].
#[must_use]
pub fn flat_in_bore(overall_length: f64, from_tail: f64, to_tail: f64, land: Land) -> f64 {
    let flat = Shank {
        overall_length,
        shank_length: to_tail,
        square_length: from_tail,
    };
    gripped_length(flat, land)
}

/// Least stick-out that flutes, job and stops allow.
///
/// # Formula
/// max(0, OAL − LS − s, reach with clearance, OAL − deepest insertion)
/// # Units
/// mm; the deepest insertion is infinite where nothing stops the tail.
/// # Source
/// Geometry: flutes stay out of the land, the job is reached, the tail stays clear.
#[must_use]
pub fn least_stick_out(shank: Shank, bore_setback: f64, reach: f64, deepest: f64) -> f64 {
    let (shank_front, _) = shank.ends();
    let flutes_out = shank_front - bore_setback;
    flutes_out
        .max(reach)
        .max(shank.overall_length - deepest)
        .max(0.0)
}

/// Least insertion: to the needed grip of the land, and as far as a maker or a tap's square asks.
///
/// # Formula
/// max(s + grip + q, maker's least insertion, insertion of the square); −∞ for one that asks nothing
/// # Units
/// mm.
/// # Source
/// Geometry: [`gripped_length`] solved for the insertion at the needed grip, the shank long enough.
#[must_use]
pub fn insertion_needed(
    bore_setback: f64,
    needed_grip: f64,
    square_length: f64,
    (maker, square): (f64, f64),
) -> f64 {
    (bore_setback + needed_grip + square_length)
        .max(maker)
        .max(square)
}

/// Deepest insertion before the tail stands on the stop, once the collet is closed.
///
/// # Formula
/// depth − draw-in − room
/// # Units
/// mm.
/// # Source
/// Geometry: tail and collet travel in together while the nut is tightened.
#[must_use]
pub fn deepest_insertion(depth: f64, draw_in: f64, room: f64) -> f64 {
    depth - draw_in - room
}

/// Plain shank that counts towards a manufacturer's minimum insertion: what is inserted, less the
/// square or rear flutes at the shank end and less what lies in front of the plain shank. In front
/// of where the bore begins to grip nobody asks for shank.
///
/// # Formula
/// max(0, OAL − q − max(p, OAL − LS − max(s, 0)))
/// # Units
/// mm.
/// # Source
/// Geometry.
#[must_use]
pub fn plain_insertion(shank: Shank, stick_out: f64, bore_setback: f64) -> f64 {
    let (shank_front, shank_end) = shank.ends();
    (shank_end - stick_out.max(shank_front - bore_setback.max(0.0))).max(0.0)
}

/// Stick-out at which a clamp screw meets the middle of its flat.
///
/// # Formula
/// OAL − (shank end to the flat) − (front face to the screw)
/// # Units
/// mm.
/// # Source
/// Geometry.
#[must_use]
pub fn flat_stick_out(overall_length: f64, flat_distance: f64, screw_distance: f64) -> f64 {
    overall_length - flat_distance - screw_distance
}

/// How far a collet of taper 1:10 is pulled in to close a gap on the diameter.
///
/// # Formula
/// 10 · gap
/// # Units
/// mm.
/// # Source
/// Geometry: such a taper changes its diameter by 1 mm in 10 mm of length. The taper is that of
/// ISO 10897, from memory.
#[must_use]
pub fn draw_in_one_in_ten(bore_gap: f64) -> f64 {
    10.0 * bore_gap
}

impl Shank {
    fn given(given: Given<'_>) -> Option<Shank> {
        Some(Shank {
            overall_length: given.number("overall_length")?,
            shank_length: given.number("shank_length")?,
            square_length: given.or("square_length", 0.0),
        })
    }
}

impl Land {
    fn given(given: Given<'_>) -> Option<Land> {
        Some(Land {
            stick_out: given.number("stick_out")?,
            ..Land::alone(given)?
        })
    }

    /// Where it matters only how long it is and how far behind the face.
    pub(super) fn alone(given: Given<'_>) -> Option<Land> {
        Some(Land {
            stick_out: 0.0,
            bore_setback: given.or("bore_setback", 0.0),
            bore_length: given.number("bore_length")?,
        })
    }
}

formulas! {
    "axial" {
        insertion(overall_length, stick_out);
        needed_grip(fraction, bore_length);
        draw_in(bore_gap);
        shortest_for_flutes(overall_length, chip_flute_length, reach);
        point_length(cutting_diameter, point_angle);
        protruding_length(gauge_length, stick_out);
        bore_setback(face_setback, bore_recess);
        plain_shank(shank_length, square_length);
        grip_fraction(gripped_length, bore_length);
        bore_gap(bore_diameter, shank_diameter);
        flat_stick_out(overall_length, flat_distance, screw_distance);
        draw_in_one_in_ten(bore_gap);
        collet_rear(face_setback, collet_length);
        deepest_insertion(depth, draw_in, room);
    } {
        gripped_length => |given| Some(gripped_length(Shank::given(given)?, Land::given(given)?));
        ungripped_front => |given| Some(ungripped_front(Shank::given(given)?, Land::given(given)?));
        shortest_overall_length => |given| Some(shortest_overall_length(
            Land::given(given)?,
            given.number("needed_grip")?,
            given.or("square_length", 0.0),
        ));
        flat_in_bore => |given| Some(flat_in_bore(
            given.number("overall_length")?,
            given.number("from_tail")?,
            given.number("to_tail")?,
            Land::given(given)?,
        ));
        plain_insertion => |given| Some(plain_insertion(
            Shank::given(given)?,
            given.number("stick_out")?,
            given.or("bore_setback", 0.0),
        ));
        insertion_needed => |given| {
            let asks = |name| given.or(name, f64::NEG_INFINITY);
            Some(insertion_needed(
                given.number("bore_setback")?,
                given.number("needed_grip")?,
                given.or("square_length", 0.0),
                (asks("maker"), asks("square_insertion")),
            ))
        };
        least_stick_out => |given| Some(least_stick_out(
            Shank::given(given)?,
            given.number("bore_setback")?,
            given.number("needs")?,
            given.or("deepest", f64::INFINITY),
        ));
    }
}
