//! A small shop as tables of text, and what is advised in it.

use std::collections::BTreeMap;
use std::fs;

use shankwise::advice::{Plan, Remedies, Remedy, advise, remedies};
use shankwise::judge::{Judge, Report, Setup, judge};
use shankwise::library::{Field, Input, Kind, Library, load};
use tempfile::TempDir;

use crate::support::{BUILT_IN, options};

/// Tables by name, each a list of rows of cells by column.
#[derive(Clone, Debug)]
pub struct Shop(pub BTreeMap<&'static str, Vec<BTreeMap<String, String>>>);

impl Shop {
    /// Reads tables as written: a line of columns, then rows; cells are split at commas.
    pub fn new(tables: &[(&'static str, &str)]) -> Shop {
        Shop(
            tables
                .iter()
                .map(|(name, text)| (*name, rows(text)))
                .collect(),
        )
    }

    /// The same with another cell in the row of an id; the id stands in the first column named.
    pub fn with(mut self, table: &str, id: (&str, &str), column: &str, cell: &str) -> Shop {
        let rows = self.0.get_mut(table).expect("the table is there");
        let row = rows.iter_mut().find(|row| row[id.0] == id.1);
        row.expect("the row is there")
            .insert(column.to_owned(), cell.to_owned());
        self
    }

    /// The same with further rows.
    pub fn and(mut self, table: &'static str, text: &str) -> Shop {
        self.0.entry(table).or_default().extend(rows(text));
        self
    }

    pub fn load(&self) -> Library {
        let folder = self.write();
        let loaded = load(Input::Path(folder.path()), &BUILT_IN.read_settings());
        assert_eq!(loaded.errors, []);
        loaded.library.expect("there is a library")
    }

    fn write(&self) -> TempDir {
        let folder = tempfile::tempdir().unwrap();
        for (name, rows) in &self.0 {
            let path = folder.path().join(format!("{name}.csv"));
            fs::write(path, text(rows)).unwrap();
        }
        folder
    }

    /// What is advised for the first assembly.
    pub fn advised(&self) -> Remedies {
        let library = self.load();
        of(&library, &BUILT_IN, 0)
    }

    pub fn lint(&self) -> Report {
        judge(&self.load(), &BUILT_IN, &options())
    }

    /// The shop after a remedy for its first assembly, in its own tables.
    pub fn cured(&self, remedy: &Remedy) -> Shop {
        let mut shop = self.clone();
        let library = self.load();
        for change in &remedy.changes {
            shop.fetch(change.part, &change.id, &library);
            let row = &mut shop.0.get_mut("assemblies").unwrap()[0];
            row.insert(change.part.name().to_owned(), change.id.clone());
        }
        let own_bore = remedy.changed(Kind::Holder).is_some_and(|id| {
            let rows = self.0["holders"].iter();
            let mut own = rows.filter(|row| row["holder"] == id);
            own.any(|row| row["clamping_kind"] != "taper collet")
        });
        let row = &mut shop.0.get_mut("assemblies").unwrap()[0];
        // A holder whose own bore grips takes neither collet nor nut.
        if own_bore {
            row.remove("collet");
            row.remove("nut");
        }
        if let Some(stick_out) = remedy.stick_out {
            row.insert("stick_out".to_owned(), stick_out.to_string());
        }
        if let Some(torque) = remedy.torque_at_most {
            row.insert("nut_torque".to_owned(), torque.to_string());
        }
        for split in &remedy.split {
            let rows = shop.0.get_mut("operations").unwrap();
            let row = rows
                .iter_mut()
                .find(|row| row["operation"] == split.operation);
            row.unwrap()
                .insert("reach".to_owned(), split.reach.to_string());
        }
        shop
    }

    /// Enters a part of the stock in the table of its kind, as who takes it would.
    fn fetch(&mut self, kind: Kind, id: &str, library: &Library) {
        let field = Field::id_of(kind).unwrap();
        let known = library.records(kind).iter();
        if known
            .into_iter()
            .any(|record| record.text(field) == Some(id))
        {
            return;
        }
        let stock = self.0["stock"].iter();
        let mut row = stock
            .clone()
            .find(|row| row.get(kind.name()).is_some_and(|cell| cell == id))
            .expect("the part is in stock")
            .clone();
        row.remove("quantity");
        row.remove("location");
        let table = if kind == Kind::Cutter {
            "cutters"
        } else {
            "collets"
        };
        self.0.entry(table).or_default().push(row);
    }
}

/// What is advised for one assembly of a library.
pub fn of(library: &Library, setup: &Setup, at: usize) -> Remedies {
    let judge = Judge::new(&setup.book, false);
    remedies(&judge, library, &library.assemblies[at])
}

/// Where to begin in a library.
pub fn plan(library: &Library, setup: &Setup) -> Plan {
    let mut report = judge(library, setup, &options());
    advise(library, setup, &options(), true, &mut report).plan
}

/// A report with what is advised in it.
pub fn advised_report(library: &Library, setup: &Setup) -> Report {
    let mut report = judge(library, setup, &options());
    let _ = advise(library, setup, &options(), true, &mut report);
    report
}

fn rows(text: &str) -> Vec<BTreeMap<String, String>> {
    let mut lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
    let cells = |line: &str| -> Vec<String> {
        line.split(',').map(|cell| cell.trim().to_owned()).collect()
    };
    let columns = cells(lines.next().expect("a line of columns"));
    lines
        .map(|line| columns.iter().cloned().zip(cells(line)).collect())
        .collect()
}

fn text(rows: &[BTreeMap<String, String>]) -> String {
    let mut columns: Vec<&String> = rows.iter().flat_map(BTreeMap::keys).collect();
    columns.sort();
    columns.dedup();
    let line = |cells: Vec<&str>| cells.join(",") + "\n";
    let mut text = line(columns.iter().map(|column| column.as_str()).collect());
    for row in rows {
        let cell = |column: &&String| row.get(*column).map_or("", String::as_str);
        text.push_str(&line(columns.iter().map(cell).collect()));
    }
    text
}
