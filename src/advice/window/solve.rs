//! The way in: reads all rules along the tool, has `solver` choose, and does so again where the
//! choice breaks a rule between two samples.

use std::cell::Cell;

use crate::judge::{Judge, Outcome};
use crate::library::{Assembly, Field, Library, Overrides, Watch, Watched};
use crate::rulebook::{Hinge, Level};

use super::samples::{Bounding, LEAST, Station, kinks};
use super::solver::Solver;
use super::spans::course;
use super::stick_out_limits::Window;

/// Parts into which a tool is cut before rules are read along it.
const PARTS: u32 = 16;
/// How often a window is solved again with a sample where it was too wide.
const ROUNDS: u32 = 4;

/// Solves an assembly's window; `None` if its overall length is not known, if its record is
/// wrong, or if the tool sticks out further than it is long, as on an arbor: that is no question
/// of the shank.
#[must_use]
pub fn window(
    judge: &Judge<'_>,
    library: &Library,
    assembly: &Assembly,
    overrides: &Overrides<'_>,
) -> Option<Window> {
    solve(judge, library, (assembly, overrides), |_| true)
}

/// Whether an assembly has a window that is empty, or none at all. Only what forbids a stick-out
/// is asked, which warnings do not.
#[must_use]
pub fn is_empty(
    judge: &Judge<'_>,
    library: &Library,
    assembly: &Assembly,
    overrides: &Overrides<'_>,
) -> bool {
    let forbids = |level| level == Some(Level::Error);
    let window = solve(judge, library, (assembly, overrides), forbids);
    window.is_none_or(|window| window.is_empty())
}

fn solve(
    judge: &Judge<'_>,
    library: &Library,
    (assembly, overrides): (&Assembly, &Overrides<'_>),
    asked: impl Fn(Option<Level>) -> bool,
) -> Option<Window> {
    judge
        .stopper(library, assembly, overrides)
        .is_none()
        .then_some(())?;
    let moved = Cell::new(false);
    let watch = Watch {
        of: Watched::StickOut,
        seen: &moved,
    };
    judge.look_under(library, assembly, overrides, Some(watch), |base, jobs| {
        let present = base.field(Field::StickOut).value;
        let length = base.view.overall_length().value;
        let length = length.filter(|length| length.is_finite() && *length > LEAST)?;
        if present.is_some_and(|present| present > length) {
            return None;
        }
        let kinks = kinks(base);
        let bounding = Bounding::new(judge, (base, jobs), &moved, &asked);
        Some(search(&bounding, length, present, kinks))
    })
}

/// Solves it along a tool of a length, mm, that sticks out as it does at present.
fn search(
    bounding: &Bounding<'_, '_>,
    length: f64,
    present: Option<f64>,
    kinks: Vec<f64>,
) -> Window {
    let mut stations = sampled(bounding, length, present, kinks);
    let mut window = solved(bounding, &stations, length, present);
    for _ in 0..ROUNDS {
        let Some(at) = window.recommended else {
            break;
        };
        let station = bounding.all(at);
        if !forbidden(bounding, &station, &window) {
            return window;
        }
        // What the samples passed over is seen once one of them lies in it.
        stations.push(station);
        stations.sort_by(|a, b| a.at.total_cmp(&b.at));
        window = solved(bounding, &stations, length, present);
    }
    // What counts as equal may lie just outside of an end that a strict rule sets.
    let (least, most) = window.ends();
    let inside = window.recommended.map(|at| at.max(least).min(most));
    window.recommended = inside.filter(|at| !forbidden(bounding, &bounding.all(*at), &window));
    window
}

/// The window that follows from the subjects at these stick-outs.
fn solved(
    bounding: &Bounding<'_, '_>,
    stations: &[Station],
    length: f64,
    present: Option<f64>,
) -> Window {
    let subjects = bounding.subjects.iter().enumerate();
    let courses = subjects.map(|(at, subject)| {
        let own = stations.iter();
        let own = own.filter_map(|one| Some((one.at, *one.said.get(at)?)));
        let hinges = stations.iter().filter_map(|one| one.hinges.get(at));
        let hinges: Vec<&[Hinge]> = hinges.map(Vec::as_slice).collect();
        course(bounding, subject, &own.collect::<Vec<_>>(), &hinges)
    });
    let solver = Solver::new(bounding, courses.collect(), length, present);
    solver.window()
}

/// Whether an error-level rule that some stick-out keeps is among those that fail.
fn forbidden(bounding: &Bounding<'_, '_>, station: &Station, window: &Window) -> bool {
    let mut subjects = bounding.subjects.iter().zip(&station.said);
    subjects.any(|(subject, said)| {
        let curable = !window.beyond_cure.iter().any(|rule| rule == subject.id());
        said.outcome == Outcome::NotMet && subject.level() == Some(Level::Error) && curable
    })
}

/// All subjects at stick-outs along the tool.
fn sampled(
    bounding: &Bounding<'_, '_>,
    length: f64,
    present: Option<f64>,
    kinks: Vec<f64>,
) -> Vec<Station> {
    let even =
        (0..=PARTS).map(|part| LEAST + (length - LEAST) * f64::from(part) / f64::from(PARTS));
    let mut at: Vec<f64> = even.chain(kinks).chain(present).collect();
    at.retain(|p| *p >= LEAST && *p <= length);
    at.sort_by(f64::total_cmp);
    at.dedup();
    at.into_iter().map(|p| bounding.all(p)).collect()
}
