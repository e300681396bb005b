//! The scale line with its dimensions, none of which covers another.

use crate::sheet::{Drawing, Mark};
use crate::units::Unit;
use crate::units::print::{self, DisplayUnits};

use super::canvas::{COLUMNS, Canvas, Ink};
use super::glyphs::Glyphs;
use super::scale::{Scale, keep_above};

/// One dimension.
#[derive(Clone, Debug, PartialEq)]
struct Label {
    column: usize,
    names: String,
    value: String,
    assumed: bool,
}

impl Label {
    fn text(&self) -> String {
        let assumed = if self.assumed { ", assumed" } else { "" };
        format!("{} {}{assumed}", self.names, self.value)
    }
}

/// The dimensions by their importance; those that read the same are one.
fn labels(drawing: &Drawing, scale: Scale, units: DisplayUnits) -> Vec<Label> {
    let land = drawing.land;
    let all = [
        ("stick-out", drawing.face),
        ("bore from", land.map(|land| land.from)),
        ("bore to", land.and_then(|land| land.to)),
        ("end", drawing.tail),
        ("collet to", drawing.collet_end),
        ("tip", Some(Mark::TIP)),
        ("stop", drawing.stop),
        ("job needs", keep_above(drawing)),
    ];
    let mut labels: Vec<Label> = Vec::new();
    for (name, mark) in all {
        let Some(mark) = mark.filter(|mark| scale.shows(*mark)) else {
            continue;
        };
        let value = if mark == Mark::TIP {
            "0".to_owned()
        } else {
            number(mark.z, units)
        };
        let assumed = mark.assumed;
        let same = |label: &&mut Label| label.value == value && label.assumed == assumed;
        match labels.iter_mut().find(same) {
            Some(label) => label.names = format!("{}, {name}", label.names),
            None => labels.push(Label {
                column: scale.column(mark.z),
                names: name.to_owned(),
                value,
                assumed,
            }),
        }
    }
    labels
}

/// A length without its unit, which the legend names once.
fn number(length: f64, units: DisplayUnits) -> String {
    let value = print::value(length, Unit::Mm, units);
    let bare = value.strip_suffix(units.length()).unwrap_or(&value);
    bare.trim_end().to_owned()
}

/// A label in its place: its row below the scale line, and on which side of its column.
#[derive(Clone, Debug)]
struct Placed {
    column: usize,
    text: String,
    on_the_left: bool,
    row: usize,
}

impl Placed {
    /// First and last column of hook, text and a blank behind it; none if they do not fit. Where
    /// two hooks stand side by side no blank is needed.
    fn reach(&self) -> Option<(usize, usize)> {
        let away = self.text.chars().count() + 1;
        if self.on_the_left {
            let first = self.column.checked_sub(away)?;
            Some((first.saturating_sub(1), self.column))
        } else {
            let last = self.column + away;
            (last < usize::from(COLUMNS)).then_some((self.column, last + 1))
        }
    }

    /// Whether its text lies across a column that is not its own.
    fn covers(&self, column: usize) -> bool {
        let across = |(first, last)| (first..=last).contains(&column);
        column != self.column && self.reach().is_some_and(across)
    }

    fn meets(&self, other: &Placed) -> bool {
        let both = self.reach().zip(other.reach());
        both.is_some_and(|(own, other)| own.0 <= other.1 && other.0 <= own.1)
    }
}

/// Moves labels down until none covers another or its leader; none if that cannot be.
fn stacked(mut placed: Vec<Placed>) -> Option<Vec<Placed>> {
    if placed.iter().any(|label| label.reach().is_none()) {
        return None;
    }
    loop {
        let mut lower = None;
        for (at, label) in placed.iter().enumerate() {
            for (above, other) in placed.iter().enumerate() {
                let blocked = label.covers(other.column) && other.row >= label.row;
                let level = other.row == label.row && above < at && label.meets(other);
                if at != above && (blocked || level) {
                    lower = Some((at, other.row + 1));
                }
            }
        }
        let Some((at, row)) = lower else {
            return Some(closed_up(placed));
        };
        if row >= placed.len() {
            return None;
        }
        if let Some(label) = placed.get_mut(at) {
            label.row = row;
        }
    }
}

/// Without rows that hold leaders only.
fn closed_up(placed: Vec<Placed>) -> Vec<Placed> {
    let mut rows: Vec<usize> = placed.iter().map(|label| label.row).collect();
    rows.sort_unstable();
    rows.dedup();
    let closed = placed.into_iter().map(|label| Placed {
        row: rows.partition_point(|row| *row < label.row),
        ..label
    });
    closed.collect()
}

/// The arrangement with the fewest rows, of all choices of sides; where there is none, the
/// least important label is dropped.
fn arranged(labels: &[Label]) -> Vec<Placed> {
    let sides = 1_u32 << labels.len().min(8);
    let choices = (0..sides).filter_map(|choice| {
        let placed = labels.iter().enumerate().map(|(at, label)| Placed {
            column: label.column,
            text: label.text(),
            on_the_left: choice >> at & 1 == 1,
            row: 0,
        });
        stacked(placed.collect())
    });
    let depth = |placed: &Vec<Placed>| {
        let rows = placed.iter().map(|label| label.row);
        (rows.clone().max(), rows.sum::<usize>())
    };
    match (choices.min_by_key(depth), labels.split_last()) {
        (Some(placed), _) => placed,
        (None, Some((_, fewer))) => arranged(fewer),
        (None, None) => Vec::new(),
    }
}

/// The scale line and the rows of dimensions below it.
pub(super) fn dimensions(
    drawing: &Drawing,
    scale: Scale,
    units: DisplayUnits,
    glyphs: &Glyphs,
) -> Canvas {
    let placed = arranged(&labels(drawing, scale, units));
    let mut canvas = Canvas::new(placed.len() + 1);
    let columns = || placed.iter().map(|label| label.column);
    let (first, last) = (columns().min().unwrap_or(0), columns().max().unwrap_or(0));
    for column in first..=last {
        canvas.put(0, column, glyphs.rule, Ink::Plain);
    }
    let [front, between, rear] = glyphs.ticks;
    for column in columns() {
        let tick = match column {
            _ if column == first => front,
            _ if column == last => rear,
            _ => between,
        };
        canvas.put(0, column, tick, Ink::Plain);
    }
    for label in &placed {
        place(label, &placed, glyphs, &mut canvas);
    }
    canvas
}

fn place(label: &Placed, all: &[Placed], glyphs: &Glyphs, canvas: &mut Canvas) {
    let own = |other: &&Placed| other.column == label.column;
    let goes_on = all.iter().filter(own).any(|other| other.row > label.row);
    let hooked = all.iter().filter(own).map(|other| other.row);
    let hooked: Vec<usize> = hooked.collect();
    for row in (0..label.row).filter(|row| !hooked.contains(row)) {
        canvas.put(row + 1, label.column, glyphs.leader, Ink::Plain);
    }
    let [right, left] = if goes_on { glyphs.tees } else { glyphs.hooks };
    let row = label.row + 1;
    if label.on_the_left {
        let away = label.text.chars().count() + 1;
        canvas.text(row, label.column.saturating_sub(away), &label.text);
        canvas.put(row, label.column, left, Ink::Plain);
    } else {
        canvas.text(row, label.column + 2, &label.text);
        canvas.put(row, label.column, right, Ink::Plain);
    }
}
