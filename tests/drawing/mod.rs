//! Assemblies as shapes, and as a sketch for a terminal.

mod labels;
mod outlines;
mod picture;
mod random;
mod shapes;

use std::sync::LazyLock;

use shankwise::draw::{self, Drawing};
use shankwise::facts::Scene;
use shankwise::judge::settings_of;
use shankwise::library::{Field, Library, Overrides, Settings, View};
use shankwise::units::print::DisplayUnits;
use shankwise::write::{SketchLook, sketch};

use crate::support::{built_in, library};

static SETTINGS: LazyLock<Settings> = LazyLock::new(|| settings_of(&built_in().book));

/// An end mill of 83 mm with 45 mm of shank, 40 mm out of its nut, in a land of 40 mm.
const TOOL: &str = "tool_number=1,cutting_diameter=12,overall_length=83,chip_flute_length=32,\
    shank_diameter=12,shank_length=45,collet_size=32,bore_diameter=12,bore_length=40,\
    face_setback=1,nut_outer_diameter=50,stick_out=40";

const DRAWN: SketchLook = SketchLook {
    ascii: false,
    colour: false,
};

/// A library of one row from `name=value` pairs, the later of two counting.
fn row(cells: &[&str]) -> Library {
    let mut row: Vec<(&str, &str)> = Vec::new();
    for cell in cells.iter().flat_map(|cells| cells.split(',')) {
        let (name, value) = cell.trim().split_once('=').unwrap();
        row.retain(|(other, _)| *other != name);
        row.push((name, value));
    }
    let names: Vec<_> = row.iter().map(|(name, _)| *name).collect();
    let values: Vec<_> = row.iter().map(|(_, value)| *value).collect();
    library(&format!("{}\n{}\n", names.join(","), values.join(",")))
}

/// Looks at the first assembly with its first operation, if it has one.
fn with_scene<T>(library: &Library, numbers: &[(Field, f64)], see: impl Fn(&Scene<'_>) -> T) -> T {
    let overrides = Overrides {
        numbers: numbers.to_vec(),
        ..Overrides::default()
    };
    let assembly = &library.assemblies[0];
    let view = View::new(
        library,
        assembly,
        assembly.operations.first().copied(),
        &overrides,
    );
    see(&Scene::new(view, &SETTINGS))
}

/// The drawing of a row.
fn drawing(cells: &[&str]) -> Drawing {
    with_scene(&row(cells), &[], draw::assembly)
}

/// The sketch of a row, in millimetres, without colour.
fn drawn(cells: &[&str]) -> String {
    let drawing = drawing(cells);
    sketch(&drawing, DisplayUnits::default(), DRAWN).expect("enough is known")
}
