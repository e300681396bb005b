//! The demo's tables as rows of text, to be written anew in other ways.

use std::fs;
use std::path::Path;

use shankwise::library::Kind;

use crate::support::fixture;

/// One table: header and rows.
pub struct Table {
    pub header: Vec<String>,
    pub rows: Vec<Vec<String>>,
}

impl Table {
    /// Reads a table of a folder with the csv crate, which shares no code with the program.
    pub fn read(folder: &Path, name: &str) -> Table {
        let path = folder.join(name).with_extension("csv");
        let mut reader = csv::ReaderBuilder::new()
            .has_headers(false)
            .from_path(&path)
            .expect("the table opens");
        let mut lines = reader.records().map(|line| {
            let line = line.expect("the table is well formed");
            line.iter().map(str::to_owned).collect::<Vec<String>>()
        });
        Table {
            header: lines.next().expect("the table has a header"),
            rows: lines.collect(),
        }
    }

    /// The table as CSV.
    pub fn text(&self) -> String {
        let mut writer = csv::Writer::from_writer(Vec::new());
        for line in std::iter::once(&self.header).chain(&self.rows) {
            writer.write_record(line).expect("the line is written");
        }
        let bytes = writer.into_inner().expect("the table is written");
        String::from_utf8(bytes).expect("the table is text")
    }

    fn write(&self, path: &Path) {
        fs::write(path, self.text()).expect("the table can be written");
    }
}

/// Writes the demo into a folder of its own, each table changed, with `more` behind the shop's
/// file.
pub fn rewritten(change: impl Fn(Kind, &mut Table), more: &str) -> tempfile::TempDir {
    let demo = fixture("demo");
    let folder = tempfile::tempdir().expect("there is a temporary folder");
    for kind in Kind::ALL {
        let name = kind.table();
        let mut table = Table::read(&demo, name.trim_end_matches(".csv"));
        change(kind, &mut table);
        table.write(&folder.path().join(name));
    }
    let shop = fs::read_to_string(demo.join("shankwise.toml")).expect("there is a shop file");
    fs::write(folder.path().join("shankwise.toml"), shop + more).expect("it is written");
    folder
}
