//! Other holders worth a trial, and what must be changed with them.

use crate::library::{ClampingKind, Field, Kind};

use super::candidates::MOST;
use super::crib::{Crib, Part};
use super::current_parts::{Exchange, Present, agree, same, takes};

/// Other holders for the same spindle: first those that take the place of the present one alone,
/// with its collet and nut or of another clamping kind; then chucks of another size with a collet
/// and a nut of that size.
pub(super) fn holders<'c, 'a>(
    crib: &'c Crib<'a>,
    present: &Present<'_, '_>,
) -> (Vec<Exchange<'c, 'a>>, Vec<Exchange<'c, 'a>>) {
    let (mut one, mut three) = (Vec::new(), Vec::new());
    let Some(spindle) = present.word(Field::MachineInterface) else {
        return (one, three);
    };
    for alike in crib.find(Kind::Holder, spindle, Some(0.0)) {
        if one.len() >= MOST && three.len() >= MOST {
            break;
        }
        let Some(holder) = present.other(alike) else {
            continue;
        };
        let kind = holder.listed::<ClampingKind>();
        if kind != Some(ClampingKind::ColletChuck) {
            // Of holders that are alike it matters which of them holds such a shank.
            let mut others = alike.iter().filter(|holder| !present.is(holder));
            let holder = others.find(|holder| crib.clamps(holder, present.shank));
            one.extend(holder.filter(|_| kind.is_some()).map(|holder| vec![holder]));
        } else if !same(
            holder.number(Field::HolderColletSize),
            present.number(Field::ColletSize),
        ) {
            let left = MOST.saturating_sub(three.len());
            three.extend(with_own_size(crib, present, holder).into_iter().take(left));
        } else if agree(
            present.thread(Field::NutThread),
            holder.thread(Field::HolderNutThread),
        ) {
            one.push(vec![holder]);
        }
    }
    (one, three)
}

/// A chuck of another size, with a collet for the shank and a nut of that size.
fn with_own_size<'c, 'a>(
    crib: &'c Crib<'a>,
    present: &Present<'_, '_>,
    holder: &'c Part<'a>,
) -> Vec<Exchange<'c, 'a>> {
    let size = holder.number(Field::HolderColletSize);
    let thread = holder.thread(Field::HolderNutThread);
    let nuts = crib.find(Kind::Nut, "", size);
    let nuts: Vec<&Part<'_>> = nuts
        .filter_map(<[Part<'_>]>::first)
        .filter(|nut| same(nut.number(Field::NutColletSize), size))
        .filter(|nut| agree(nut.thread(Field::NutThread), thread))
        .collect();
    let collets = crib.find(Kind::Collet, "", size);
    let collets = collets.filter_map(<[Part<'_>]>::first);
    let fits = |collet: &&Part<'_>| {
        same(collet.number(Field::ColletSize), size)
            && takes(collet.number(Field::BoreDiameter), present.shank)
    };
    let each = collets.filter(fits).flat_map(|collet| {
        let nuts = nuts.iter();
        nuts.map(move |nut| vec![holder, collet, *nut])
    });
    each.take(MOST).collect()
}
