//! Where nothing serves: what would have to be bought, or stated.

use crate::facts::{Fact, Scene};
use crate::library::{Field, Overrides};
use crate::rulebook::{Compares, CuredBy, Rule};

use super::super::lengths_needed::{
    grip_needed, insertion_needed, insertion_possible, setting_tolerance, shank_needed,
    stick_out_needed,
};
use super::attempt::Patient;
use super::kinds::Nearest;
use super::verify;

/// What comes nearest to a cure of these rules.
pub(super) fn nearest(patient: &Patient<'_>, rules: &[&Rule]) -> Nearest {
    let missing = verify::missing(patient.judge, &patient.before);
    let mut nearest = patient.look(&Overrides::default(), |base, operations| {
        let mut found = Nearest::default();
        let held = base.view.held_by_shank().value == Some(true);
        if held && rules.iter().any(|rule| is_of_length(rule)) {
            lengths(&mut found, base, operations);
        }
        demanded(&mut found, patient, base, operations);
        if found.why.is_empty() {
            let (why, about) = why(held, &missing, rules);
            found.why = String::from(why);
            found.about = about;
        }
        found
    });
    nearest.rules = rules.iter().map(|rule| rule.id.clone()).collect();
    nearest.missing = missing;
    nearest.room = 2.0 * setting_tolerance(patient.judge);
    nearest
}

/// Whether a longer cutter corrects a rule, or one with a longer shank; what it must have is then
/// what reach and grip need together.
fn is_of_length(rule: &Rule) -> bool {
    rule.is_cured_by(CuredBy::Length) && rule.demands.is_empty()
}

/// Whether a rule demands something of a property.
fn demands(rule: &Rule, name: &str) -> bool {
    rule.demands.iter().any(|demand| demand.name == name)
}

/// What the failing rules demand of parts to buy: the hardest of each property.
fn demanded(
    found: &mut Nearest,
    patient: &Patient<'_>,
    base: &Scene<'_>,
    operations: &[Scene<'_>],
) {
    let judge = patient.judge;
    let failing = patient.before.iter();
    for ruling in failing.filter(|ruling| ruling.is_error()) {
        let Some(rule) = judge.book.rules.get(ruling.rule) else {
            continue;
        };
        for demand in &rule.demands {
            let number = |scene: &Scene<'_>| judge.demanded(ruling.rule, demand, scene);
            let number = match ruling.operation {
                None => number(base),
                Some(at) => operations.get(at).and_then(number),
            };
            let Some((field, number)) = number else {
                continue;
            };
            let (place, harder): (_, fn(f64, f64) -> f64) = match (field, demand.compares) {
                (Field::ChipFluteLength, Compares::AtLeast) => {
                    (&mut found.flute_length_min, f64::max)
                }
                (Field::DepthOfCutMax, Compares::AtLeast) => {
                    (&mut found.cutting_edge_min, f64::max)
                }
                (Field::OverallLength, Compares::AtLeast) => {
                    (&mut found.overall_length_min, f64::max)
                }
                (Field::ShankLength, Compares::AtLeast) => (&mut found.shank_length_min, f64::max),
                (Field::NutOuterDiameter, Compares::AtMost) => {
                    (&mut found.nut_diameter_max, f64::min)
                }
                (Field::BoreDiameter, Compares::Equals) => (&mut found.bore, |_, number| number),
                (Field::ColletDriveSquare, Compares::Equals) => {
                    (&mut found.drive_square, |_, number| number)
                }
                // Rules with any other are refused when they are read.
                _ => continue,
            };
            *place = Some(place.map_or(number, |known| harder(known, number)));
        }
    }
}

/// Which rules a reason is about.
type Asks = fn(&Rule) -> bool;

/// Why nothing serves, and the rules that this is about; none if it is about all.
fn why(held: bool, missing: &[&str], rules: &[&Rule]) -> (&'static str, Vec<String>) {
    if !held {
        let why = "the record does not state what holds its shank";
        return (why, Vec::new());
    }
    if !missing.is_empty() {
        let why = "no remedy is offered until what is missing is stated";
        return (why, Vec::new());
    }
    let reasons: [(Asks, &str); 5] = [
        (
            |rule| demands(rule, "collet.drive_square"),
            "no collet in stock has this bore and this square",
        ),
        (
            |rule| demands(rule, "collet.bore_diameter"),
            "no collet in stock fits this shank in this holder",
        ),
        (
            |rule| rule.is_cured_by(CuredBy::Nut),
            "no collet, nut and holder in stock belong together",
        ),
        (
            |rule| demands(rule, "nut.nut_outer_diameter"),
            "no nut in stock is slim enough for the pocket, and no cutter keeps the nut above it",
        ),
        (
            |rule| demands(rule, "chip_flute_length"),
            "no equivalent cutter in stock has long enough flutes or a long enough neck",
        ),
    ];
    for (asks, why) in reasons {
        let about = rules.iter().filter(|rule| asks(rule));
        let about: Vec<String> = about.map(|rule| rule.id.clone()).collect();
        if !about.is_empty() {
            return (why, about);
        }
    }
    let why = if rules.iter().any(|rule| rule.needs_part()) {
        "nothing in stock replaces the component that does not suit"
    } else {
        "no equivalent cutter, and no other collet or holder in stock, gives both reach and grip"
    };
    (why, Vec::new())
}

/// The lengths that a cutter for this collet or holder needs; none if the present one has them, so that
/// they are not what is wrong.
///
/// # Formula
/// overall length ≥ stick-out needed + insertion needed; plain shank ≥ insertion needed - bore
/// setback. mm.
fn lengths(found: &mut Nearest, base: &Scene<'_>, operations: &[Scene<'_>]) {
    let number = |fact| base.number(fact).value;
    let grip = number(Fact::NeededGrip);
    let square = base.field(Field::DriveSquareLength).value;
    let setback = base.at_most(|scene| scene.number(Fact::BoreSetback)).value;
    let behind = insertion_needed(base).value;
    let reach = stick_out_needed(operations);
    let overall = reach.zip(behind).map(|(reach, behind)| reach + behind);
    let shank = shank_needed(base);
    let has = |has: Option<f64>, needed: Option<f64>| {
        needed.is_none_or(|needed| has.is_some_and(|has| has >= needed))
    };
    let long = base.view.overall_length().value;
    let plain = base.field(Field::ShankLength).value;
    let stopped = insertion_possible(base).value.zip(behind);
    if stopped.is_some_and(|(room, behind)| room < behind) {
        found.why = String::from(
            "no cutter suits: a stop, or a manufacturer's maximum insertion, leaves less depth than the grip needs",
        );
        return;
    }
    if has(long, overall) && has(plain, shank) {
        return;
    }
    found.reach_needed = reach;
    found.land = base.field(Field::BoreLength).value;
    found.overall_length_min = overall;
    found.shank_length_min = shank;
    if behind > grip_needed(base).value {
        found.clamped_min = behind;
    } else {
        found.bore_setback = setback;
        found.needed_grip = grip;
        found.square_length = square;
    }
}
