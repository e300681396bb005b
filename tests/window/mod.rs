//! The stick-out window, against rules judged one stick-out at a time.

mod answer_page;
mod assumed;
mod broken;
mod chucks;
mod counts;
pub mod dice;
mod drawn;
mod ends;
mod example;
mod kept;
mod level;
mod linter;
mod recommended;
mod shop;
mod stopped;
mod tables;
mod tools;

use std::fs;

use shankwise::advice::{Window, window};
use shankwise::facts::Scene;
use shankwise::judge::{Judge, Measure, Outcome, Setup};
use shankwise::library::{Assembly, Field, Input, Library, Overrides, load};
use shankwise::rulebook::{Level, Rule};
use tempfile::TempDir;

/// A library in a folder of its own, with the shop's file and rules beside it.
struct Cell {
    _folder: TempDir,
    setup: Setup,
    library: Library,
}

impl Cell {
    /// Writes the files and reads them.
    fn new(files: &[(&str, &str)]) -> Cell {
        let folder = TempDir::new().expect("a folder");
        for (name, text) in files {
            let path = folder.path().join(name);
            fs::create_dir_all(path.parent().expect("a folder")).expect("it is made");
            fs::write(path, text).expect("it is written");
        }
        let setup = Setup::load(Some(folder.path()), None, &[], true).expect("the rules load");
        let loaded = load(Input::Path(folder.path()), &setup.read_settings());
        assert_eq!(loaded.errors, []);
        let library = loaded.library.expect("a library");
        Cell {
            _folder: folder,
            setup,
            library,
        }
    }

    /// One flat table and a shop file that may be empty.
    fn flat(text: &str, shop: &str) -> Cell {
        Cell::new(&[("assemblies.csv", text), ("shankwise.toml", shop)])
    }

    fn judge(&self) -> Judge<'_> {
        Judge::new(&self.setup.book, false)
    }

    /// The window of the first assembly.
    fn window(&self) -> Window {
        let assembly = &self.library.assemblies[0];
        self.of(assembly).expect("there is a window")
    }

    fn of(&self, assembly: &Assembly) -> Option<Window> {
        window(
            &self.judge(),
            &self.library,
            assembly,
            &Overrides::default(),
        )
    }
}

/// One assembly, judged at one stick-out, rule by rule: the way to check a window by.
struct Bench<'c> {
    judge: Judge<'c>,
    library: &'c Library,
    assembly: &'c Assembly,
}

impl<'c> Bench<'c> {
    fn new(cell: &'c Cell, assembly: &'c Assembly) -> Bench<'c> {
        Bench {
            judge: cell.judge(),
            library: &cell.library,
            assembly,
        }
    }

    fn look<R>(&self, stick_out: f64, see: impl FnOnce(&Scene<'_>, &[Scene<'_>]) -> R) -> R {
        let overrides = Overrides {
            numbers: vec![(Field::StickOut, stick_out)],
            ..Overrides::default()
        };
        self.judge
            .look(self.library, self.assembly, &overrides, see)
    }

    /// What a rule says of the assembly, or of each of its operations.
    fn said(&self, rule: (usize, &Rule), stick_out: f64) -> Vec<Measure> {
        let (index, rule) = rule;
        self.look(stick_out, |base, operations| {
            let said = |scene: &Scene<'_>| self.judge.measure(index, rule, scene);
            if rule.of_operation {
                operations.iter().map(said).collect()
            } else {
                vec![said(base)]
            }
        })
    }

    fn fails(&self, rule: (usize, &Rule), stick_out: f64) -> bool {
        self.said(rule, stick_out)
            .iter()
            .any(|said| said.outcome == Outcome::NotMet)
    }

    /// The error-level rules that fail at a stick-out.
    fn broken(&self, stick_out: f64) -> Vec<&str> {
        let errors = self
            .judge
            .bounding()
            .filter(|(_, rule)| rule.level == Level::Error);
        let broken = errors.filter(|rule| self.fails(*rule, stick_out));
        broken.map(|(_, rule)| rule.id.as_str()).collect()
    }

    fn rule(&self, id: &str) -> Option<(usize, &Rule)> {
        self.judge.bounding().find(|(_, rule)| rule.id == id)
    }
}

/// A tool of which nothing is missing for the grip: `more` adds columns and their cells.
fn tool(more: &[(&str, &str)]) -> String {
    let base = [
        ("tool_number", "7"),
        ("clamping_kind", "taper collet"),
        ("cutting_diameter", "12"),
        ("collet_size", "32"),
        ("bore_diameter", "12"),
        ("bore_length", "40"),
        ("overall_length", "83"),
        ("shank_diameter", "12"),
        ("shank_length", "45"),
        ("bore_setback", "0"),
        ("clearance", "0"),
    ];
    let changed = |name: &str| more.iter().any(|(other, _)| *other == name);
    let cells: Vec<_> = base
        .iter()
        .filter(|(name, _)| !changed(name))
        .chain(more)
        .collect();
    let line = |part: fn(&(&str, &str)) -> String| {
        let cells: Vec<String> = cells.iter().map(|cell| part(cell)).collect();
        cells.join(",")
    };
    let header = line(|(name, _)| (*name).to_owned());
    let row = line(|(_, cell)| (*cell).to_owned());
    format!("{header}\n{row}\n")
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-6
}
