//! Which parts are worth a trial: cheap comparisons before windows are solved.

use crate::facts::Scene;
use crate::library::{ClosedList as _, ColletSystem, Field, Kind};

use super::super::lengths_needed::{insertion_needed, stick_out_needed};
use super::alike::Model;
use super::crib::{Crib, Part};
use super::current_parts::{Exchange, Present, agree, same, takes};
use super::holders::holders;

/// Candidates kept of one group: a large crib is not to take minutes.
pub(super) const MOST: usize = 48;

/// Candidates by number of parts changed, and in groups of which each is tried for itself, so
/// that many cutters do not push out the one collet that serves. In a group the likely ones come
/// first: long enough, then the shortest.
#[derive(Default)]
pub(super) struct Candidates<'c, 'a> {
    pub one: Vec<Vec<Exchange<'c, 'a>>>,
    pub two: Vec<Vec<Exchange<'c, 'a>>>,
    pub three: Vec<Vec<Exchange<'c, 'a>>>,
    /// Cutters that differ from the present one in a single respect, and in which.
    pub nearly: Vec<(&'c Part<'a>, Field)>,
}

impl Candidates<'_, '_> {
    fn capped(mut self) -> Self {
        let groups = [&mut self.one, &mut self.two, &mut self.three];
        for group in groups.into_iter().flatten() {
            group.truncate(MOST);
        }
        self.nearly.truncate(MOST);
        self
    }
}

pub(super) fn candidates<'c, 'a>(
    crib: &'c Crib<'a>,
    base: &Scene<'_>,
    operations: &[Scene<'_>],
) -> Candidates<'c, 'a> {
    let present = Present::of(base);
    let mut found = Candidates::default();
    with_cutters(crib, &present, operations, &mut found);
    if present.held {
        with_collets(crib, &present, &mut found);
    }
    let (one, three) = holders(crib, &present);
    found.one.push(one);
    found.three.push(three);
    found.capped()
}

/// Another cutter, in the present collet or in another one.
fn with_cutters<'c, 'a>(
    crib: &'c Crib<'a>,
    present: &Present<'_, '_>,
    operations: &[Scene<'_>],
    found: &mut Candidates<'c, 'a>,
) {
    let (mut one, mut two) = (Vec::new(), Vec::new());
    for (cutter, differs) in cutters(crib, present, operations) {
        let shank = cutter.number(Field::ShankDiameter);
        let fits = if present.held {
            takes(present.bore, shank)
        } else {
            same(shank, present.shank)
        };
        match differs.as_slice() {
            [] if fits => one.push(vec![cutter]),
            [only] if fits => found.nearly.push((cutter, *only)),
            _ => {}
        }
        // A crib of many cutters and collets has more pairs than would ever be tried.
        if present.held && differs.is_empty() && two.len() < MOST {
            let others = collets(crib, present, shank);
            two.extend(others.map(|collet| vec![cutter, collet]));
        }
    }
    found.one.push(one);
    found.two.push(two);
}

/// Another collet, another nut, or both.
fn with_collets<'c, 'a>(
    crib: &'c Crib<'a>,
    present: &Present<'_, '_>,
    found: &mut Candidates<'c, 'a>,
) {
    let others: Vec<&Part<'_>> = collets(crib, present, present.shank).collect();
    let nuts = nuts(crib, present);
    let alone = |parts: &[&'c Part<'a>]| parts.iter().map(|part| vec![*part]).collect();
    found.one.push(alone(&others));
    found.one.push(alone(&nuts));
    let both = nuts.iter().flat_map(|nut| {
        let others = others.iter();
        others.map(move |collet| vec![*collet, *nut])
    });
    found.two.push(both.take(MOST).collect());
}

/// Cutters that cut the same, or nearly, and reach the floor; those first that are long enough
/// for the present collet too, the shortest first: it is the stiffest.
fn cutters<'c, 'a>(
    crib: &'c Crib<'a>,
    present: &Present<'_, '_>,
    operations: &[Scene<'_>],
) -> Vec<(&'c Part<'a>, Vec<Field>)> {
    let reach = stick_out_needed(operations).unwrap_or(0.0);
    let behind = insertion_needed(present.base).value.unwrap_or(0.0);
    let length = |part: &Part<'_>| part.number(Field::OverallLength).unwrap_or(0.0);
    let model = Model::of(present.base, operations);
    let all = crib.find(
        Kind::Cutter,
        model.kind.map_or("", |kind| kind.word().word),
        model.diameter,
    );
    let others = all.filter_map(|alike| present.other(alike));
    let mut found: Vec<(&Part<'_>, Vec<Field>)> = others
        .filter(|part| length(part) > reach)
        .filter_map(|part| Some((part, model.differs(part)?)))
        .collect();
    let short = |part: &Part<'_>| length(part) < reach + behind;
    found.sort_by(|(a, _), (b, _)| {
        let both = short(a).cmp(&short(b));
        both.then(length(a).total_cmp(&length(b)))
    });
    found
}

/// Other collets of the present size and system whose bore may take a shank.
fn collets<'p, 'c: 'p, 'a: 'c>(
    crib: &'c Crib<'a>,
    present: &'p Present<'_, '_>,
    shank: Option<f64>,
) -> impl Iterator<Item = &'c Part<'a>> + 'p {
    // What the chuck is made for counts; a collet of another size may be what is wrong.
    let size = present
        .number(Field::HolderColletSize)
        .or_else(|| present.number(Field::ColletSize));
    let system = present.base.view.listed::<ColletSystem>().value;
    let all = crib.find(Kind::Collet, "", size);
    let others = all.filter_map(|alike| present.other(alike));
    others.filter(move |part| {
        let stated = part.listed::<ColletSystem>();
        same(part.number(Field::ColletSize), size)
            && stated.is_none_or(|stated| system.is_none_or(|own| own == stated))
            && takes(part.number(Field::BoreDiameter), shank)
    })
}

/// Other nuts of the holder's size and thread.
fn nuts<'c, 'a>(crib: &'c Crib<'a>, present: &Present<'_, '_>) -> Vec<&'c Part<'a>> {
    let size = present
        .number(Field::HolderColletSize)
        .or_else(|| present.number(Field::ColletSize));
    let all = crib.find(Kind::Nut, "", size);
    all.filter_map(|alike| present.other(alike))
        .filter(|part| same(part.number(Field::NutColletSize), size))
        .filter(|part| {
            agree(
                part.thread(Field::NutThread),
                present.thread(Field::HolderNutThread),
            )
        })
        .collect()
}
