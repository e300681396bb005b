//! Which parts are worth a trial: cheap comparisons before windows are solved.

use crate::facts::{Fact, Scene};
use crate::library::{Field, Kind};

use super::alike::{self, SAME, near};
use super::crib::{Crib, Part};

/// The largest collapse of a collet that any size is made for, mm: only to sort out bores that
/// cannot fit; what fits is judged by the rules.
const COLLAPSE: f64 = 2.0;
/// Candidates kept of one number of parts: a large crib is not to take minutes.
const MOST: usize = 48;

/// Parts that would take the place of the present ones.
pub(super) type Change<'c, 'a> = Vec<&'c Part<'a>>;

/// Candidates by number of parts changed, in the order of the crib, shorter cutters first.
pub(super) struct Candidates<'c, 'a> {
    pub one: Vec<Change<'c, 'a>>,
    pub two: Vec<Change<'c, 'a>>,
    pub three: Vec<Change<'c, 'a>>,
}

/// What the choice depends on, of the assembly as it is.
struct Present<'s, 'v> {
    base: &'s Scene<'v>,
    shank: Option<f64>,
    bore: Option<f64>,
    held: bool,
}

impl Present<'_, '_> {
    fn number(&self, field: Field) -> Option<f64> {
        self.base.field(field).value
    }

    fn word(&self, field: Field) -> Option<&str> {
        self.base.view.word(field).value
    }

    fn is(&self, part: &Part<'_>) -> bool {
        let own = self.base.view.part(part.kind);
        let id = own.and_then(|record| record.text(Field::id_of(part.kind)?));
        id == Some(part.id)
    }
}

pub(super) fn candidates<'c, 'a>(
    crib: &'c Crib<'a>,
    base: &Scene<'_>,
    operations: &[Scene<'_>],
) -> Candidates<'c, 'a> {
    let present = Present {
        base,
        shank: base.field(Field::ShankDiameter).value,
        bore: base.field(Field::BoreDiameter).value,
        held: base.view.held_in_collet().value == Some(true),
    };
    let mut found = Candidates {
        one: Vec::new(),
        two: Vec::new(),
        three: Vec::new(),
    };
    with_cutters(crib, &present, operations, &mut found);
    if present.held {
        with_collets(crib, &present, &mut found);
    }
    holders(crib, &present, &mut found);
    found.one.truncate(MOST);
    found.two.truncate(MOST);
    found.three.truncate(MOST);
    found
}

/// Another cutter, in the present collet or in another one.
fn with_cutters<'c, 'a>(
    crib: &'c Crib<'a>,
    present: &Present<'_, '_>,
    operations: &[Scene<'_>],
    found: &mut Candidates<'c, 'a>,
) {
    for cutter in cutters(crib, present, operations) {
        let shank = cutter.number(Field::ShankDiameter);
        let fits = if present.held {
            takes(present.bore, shank)
        } else {
            same(shank, present.shank)
        };
        if fits {
            found.one.push(vec![cutter]);
        }
        if present.held {
            let others = collets(crib, present, shank);
            found.two.extend(others.map(|collet| vec![cutter, collet]));
        }
    }
}

/// Another collet, another nut, or both.
fn with_collets<'c, 'a>(
    crib: &'c Crib<'a>,
    present: &Present<'_, '_>,
    found: &mut Candidates<'c, 'a>,
) {
    let others: Vec<&Part<'_>> = collets(crib, present, present.shank).collect();
    found.one.extend(others.iter().map(|collet| vec![*collet]));
    for nut in nuts(crib, present) {
        found.one.push(vec![nut]);
        let both = others.iter().map(|collet| vec![*collet, nut]);
        found.two.extend(both);
    }
}

fn same(a: Option<f64>, b: Option<f64>) -> bool {
    a.zip(b).is_some_and(|(a, b)| near(a, b))
}

/// Whether a bore may take a shank.
fn takes(bore: Option<f64>, shank: Option<f64>) -> bool {
    bore.zip(shank)
        .is_some_and(|(bore, shank)| shank <= bore + SAME && bore - shank <= COLLAPSE)
}

/// Cutters that cut the same and are long enough, the shortest first: it is the stiffest.
fn cutters<'c, 'a>(
    crib: &'c Crib<'a>,
    present: &Present<'_, '_>,
    operations: &[Scene<'_>],
) -> Vec<&'c Part<'a>> {
    let needed = operations.iter();
    let needed = needed.filter_map(|scene| scene.number(Fact::ReachNeeded).value);
    let needed = needed.fold(0.0, f64::max);
    let all = crib.of(Kind::Cutter).iter();
    let mut found: Vec<&Part<'_>> = all
        .filter(|part| !present.is(part))
        .filter(|part| {
            part.number(Field::OverallLength)
                .is_some_and(|long| long > needed)
        })
        .filter(|part| alike::cuts_alike(part, present.base, operations))
        .collect();
    let length = |part: &Part<'_>| part.number(Field::OverallLength).unwrap_or(0.0);
    found.sort_by(|a, b| length(a).total_cmp(&length(b)));
    found
}

/// Other collets of the present size and system whose bore may take a shank.
fn collets<'c, 'a>(
    crib: &'c Crib<'a>,
    present: &Present<'_, '_>,
    shank: Option<f64>,
) -> impl Iterator<Item = &'c Part<'a>> {
    // What the chuck is made for counts; a collet of another size may be what is wrong.
    let size = present
        .number(Field::HolderColletSize)
        .or_else(|| present.number(Field::ColletSize));
    let system = present.word(Field::ColletSystem).map(str::to_owned);
    let own = present.base.view.part(Kind::Collet).cloned();
    let all = crib.of(Kind::Collet).iter();
    all.filter(move |part| {
        let id = own.as_ref().and_then(|own| own.text(Field::Collet));
        let stated = part.word(Field::ColletSystem);
        id != Some(part.id)
            && same(part.number(Field::ColletSize), size)
            && stated.is_none_or(|stated| system.as_deref().is_none_or(|own| own == stated))
            && takes(part.number(Field::BoreDiameter), shank)
    })
}

/// Other nuts of the holder's size and thread.
fn nuts<'c, 'a>(crib: &'c Crib<'a>, present: &Present<'_, '_>) -> Vec<&'c Part<'a>> {
    let size = present
        .number(Field::HolderColletSize)
        .or_else(|| present.number(Field::ColletSize));
    let all = crib.of(Kind::Nut).iter();
    all.filter(|part| !present.is(part))
        .filter(|part| same(part.number(Field::NutColletSize), size))
        .filter(|part| {
            agree(
                part.word(Field::NutThread),
                present.word(Field::HolderNutThread),
            )
        })
        .collect()
}

fn agree(a: Option<&str>, b: Option<&str>) -> bool {
    a.zip(b).is_none_or(|(a, b)| a == b)
}

/// Other holders for the same spindle: with the present collet and nut, with a collet and nut of
/// their own size, or of another clamping kind.
fn holders<'c, 'a>(crib: &'c Crib<'a>, present: &Present<'_, '_>, found: &mut Candidates<'c, 'a>) {
    let Some(spindle) = present.word(Field::MachineInterface) else {
        return;
    };
    let all = crib.of(Kind::Holder).iter();
    for holder in all.filter(|part| !present.is(part)) {
        if holder.word(Field::MachineInterface) != Some(spindle) {
            continue;
        }
        let kind = holder.word(Field::ClampingKind);
        if kind != Some("taper collet ISO 15488") {
            if kind.is_some() && alike::clamps_elsewhere(present.base, holder, present.shank) {
                found.one.push(vec![holder]);
            }
            continue;
        }
        let size = holder.number(Field::HolderColletSize);
        if same(size, present.number(Field::ColletSize)) {
            if agree(
                present.word(Field::NutThread),
                holder.word(Field::HolderNutThread),
            ) {
                found.one.push(vec![holder]);
            }
            continue;
        }
        with_own_size(crib, present, holder, found);
    }
}

/// A chuck of another size, with a collet for the shank and a nut of that size.
fn with_own_size<'c, 'a>(
    crib: &'c Crib<'a>,
    present: &Present<'_, '_>,
    holder: &'c Part<'a>,
    found: &mut Candidates<'c, 'a>,
) {
    let size = holder.number(Field::HolderColletSize);
    let thread = holder.word(Field::HolderNutThread);
    let nuts = crib.of(Kind::Nut).iter();
    let nuts: Vec<&Part<'_>> = nuts
        .filter(|nut| same(nut.number(Field::NutColletSize), size))
        .filter(|nut| agree(nut.word(Field::NutThread), thread))
        .collect();
    let collets = crib.of(Kind::Collet).iter();
    let fits = |collet: &&Part<'_>| {
        same(collet.number(Field::ColletSize), size)
            && takes(collet.number(Field::BoreDiameter), present.shank)
    };
    for collet in collets.filter(fits) {
        let each = nuts.iter().map(|nut| vec![holder, collet, *nut]);
        found.three.extend(each);
    }
}
