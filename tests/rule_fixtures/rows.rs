//! A rule's table of cases: the rows of one name are a library of their own.
//!
//! `fixtures/rules/<topic>/<rule>.csv` begins with `case` and `expect`; `field` names what a gap
//! lacks, `finds` the findings of that row where a rule's name does not say them. All other
//! columns are a flat library's. A case's library has those of them that it fills in, and
//! always `tool_number`.

use std::ops::Range;
use std::path::Path;

/// What only the harness reads, in this order, before the columns of the libraries.
const OWN: [&str; 4] = ["case", "expect", "field", "finds"];

/// One case of a table.
#[derive(Debug, PartialEq)]
pub struct Rows {
    /// What the case shows.
    pub case: String,
    /// `pass`, `fail`, `na` or `gap`.
    pub expect: String,
    /// The field that a gap lacks; otherwise nothing.
    pub field: String,
    /// The findings expected of each row, none where the rule's own level is expected.
    pub finds: Vec<Vec<String>>,
    /// Its columns.
    pub header: Vec<String>,
    /// Their cells, row by row.
    pub cells: Vec<Vec<String>>,
}

impl Rows {
    /// The case as a file that the program reads.
    pub fn text(&self) -> String {
        let mut writer = csv::Writer::from_writer(Vec::new());
        for row in std::iter::once(&self.header).chain(&self.cells) {
            writer.write_record(row).expect("rows are even");
        }
        let bytes = writer.into_inner().expect("it is all in memory");
        String::from_utf8(bytes).expect("a table is UTF-8")
    }

    /// Which column's content begins at a place in a line of [`Rows::text`], counted from 1.
    pub fn column_at(&self, row: usize, column: usize) -> Option<usize> {
        let mut begins = 1;
        self.cells[row].iter().position(|cell| {
            let mut writer = csv::Writer::from_writer(Vec::new());
            // A cell in front, as an empty one on its own would be written in quotes.
            writer.write_record(["", cell]).expect("it can be written");
            let written = String::from_utf8(writer.into_inner().unwrap()).unwrap();
            let written = written[1..].trim_end_matches('\n');
            let here = begins + usize::from(written.starts_with('"'));
            begins += written.chars().count() + 1;
            here == column
        })
    }
}

/// The cases of a table, in its order.
pub fn read(table: &Path) -> Vec<Rows> {
    let text = std::fs::read_to_string(table).map_err(|why| why.to_string());
    let cases = text.and_then(|text| cases(&text));
    cases.unwrap_or_else(|why| panic!("{}: {why}", table.display()))
}

fn cases(text: &str) -> Result<Vec<Rows>, String> {
    let table = Table::parse(text).map_err(|why| why.to_string())?;
    let all = 0..table.records.len();
    let mut columns = table.of_libraries();
    if let Some(blank) = columns.find(|at| !table.fills_in(&all, *at)) {
        return Err(format!("no case fills in {}", table.header[blank]));
    }
    let mut cases = Vec::new();
    let mut from = 0;
    while from < all.end {
        let rows = table.of_one_name(from);
        from = rows.end;
        cases.push(table.case(rows));
    }
    Ok(cases)
}

/// A table as it stands.
struct Table {
    header: Vec<String>,
    records: Vec<Vec<String>>,
}

impl Table {
    fn parse(text: &str) -> Result<Table, csv::Error> {
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let header = reader.headers()?.deserialize(None)?;
        let records = reader.deserialize().collect::<Result<_, _>>()?;
        Ok(Table { header, records })
    }

    /// A cell of a column that only the harness reads.
    fn own(&self, row: usize, column: &str) -> &str {
        let at = self.header.iter().position(|name| name == column);
        at.map_or("", |at| &self.records[row][at])
    }

    /// The columns of the libraries.
    fn of_libraries(&self) -> Range<usize> {
        let own = |name: &&String| OWN.contains(&name.as_str());
        self.header.iter().filter(own).count()..self.header.len()
    }

    fn fills_in(&self, rows: &Range<usize>, at: usize) -> bool {
        let mut rows = self.records[rows.clone()].iter();
        self.header[at] == "tool_number" || rows.any(|row| !row[at].is_empty())
    }

    /// The rows of the case that begins here.
    fn of_one_name(&self, from: usize) -> Range<usize> {
        let name = |row: usize| ["case", "expect", "field"].map(|column| self.own(row, column));
        let same = (from..self.records.len()).take_while(|row| name(*row) == name(from));
        from..from + same.count()
    }

    fn case(&self, rows: Range<usize>) -> Rows {
        let columns = self.of_libraries().filter(|at| self.fills_in(&rows, *at));
        let columns: Vec<usize> = columns.collect();
        let kept = |row: &Vec<String>| columns.iter().map(|at| row[*at].clone()).collect();
        let finds = |row: usize| {
            let listed = self.own(row, "finds").split("; ");
            let listed = listed.filter(|text| !text.is_empty());
            listed.map(str::to_owned).collect()
        };
        Rows {
            case: self.own(rows.start, "case").to_owned(),
            expect: self.own(rows.start, "expect").to_owned(),
            field: self.own(rows.start, "field").to_owned(),
            finds: rows.clone().map(finds).collect(),
            header: kept(&self.header),
            cells: self.records[rows].iter().map(kept).collect(),
        }
    }
}

#[test]
fn rows_of_one_name_are_one_library() {
    let found = cases(
        "case,expect,field,finds,tool_number,stick_out,hand\n\
         short,fail,,warning stick_out; note -,7,\"40,5\",\n\
         one of two,pass,,,1,,\n\
         one of two,pass,,,,41,left\n\
         short,gap,assembly.stick_out,,,,right\n",
    );
    let found = found.expect("the table can be read");
    let texts: Vec<String> = found.iter().map(Rows::text).collect();
    assert_eq!(
        texts,
        [
            "tool_number,stick_out\n7,\"40,5\"\n",
            "tool_number,stick_out,hand\n1,,\n,41,left\n",
            "tool_number,hand\n,right\n",
        ]
    );
    assert_eq!(found[0].finds, [["warning stick_out", "note -"]]);
    assert_eq!(found[1].finds, [[""; 0], []]);
    assert_eq!(found[2].field, "assembly.stick_out");
    assert_eq!(found[0].column_at(0, 4), Some(1), "behind the quote");
    assert_eq!(found[0].column_at(0, 3), None);
    assert_eq!(found[1].column_at(1, 2), Some(1));
    assert_eq!(found[1].column_at(1, 5), Some(2));
    let blank = cases("case,expect,tool_number,hand\na,pass,1,\n");
    assert_eq!(blank, Err("no case fills in hand".to_owned()));
}
