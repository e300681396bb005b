//! Which fields a rule needs is found out, not listed.
//!
//! Two ways, over every flat `pass-` and `fail-` case of a rule. *Blanking*: one column of the
//! case is emptied, and whatever the rule then says is missing is needed. *Filling*: the case
//! starts with nothing but tool numbers, and whatever the rule says is missing is needed, and
//! is filled in from the case, until the rule can be judged. Blanking finds fields that only
//! this case needs; filling finds those that several columns can stand in for. A field that the
//! rule guards with `known()` is never missing, and one with a default is not either.

use std::collections::BTreeSet;
use std::fs;

use shankwise::judge::judge;
use shankwise::library::{Field, Form, Input, Kind, fields_of, load};
use shankwise::units::split_unit;

use super::cases::{Case, SETUP, Sort, Source, alone, none_of, of};

/// A flat case as a table of texts.
struct Flat {
    header: Vec<String>,
    rows: Vec<Vec<String>>,
}

impl Flat {
    fn read(case: &Case) -> Option<Flat> {
        let is_flat = case.library.form == Form::Flat;
        let text = match &case.source {
            Source::Rows(rows) => rows.text(),
            Source::Path(path) => fs::read_to_string(path).ok().filter(|_| is_flat)?,
        };
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let cells = |record: &csv::StringRecord| record.iter().map(str::to_owned).collect();
        let header = cells(reader.headers().unwrap());
        let rows = reader.records().map(|record| cells(&record.unwrap()));
        Some(Flat {
            rows: rows.collect(),
            header,
        })
    }

    /// The same library with only some of its columns filled in.
    fn with_only(&self, keeps: impl Fn(usize) -> bool) -> Vec<u8> {
        let mut writer = csv::Writer::from_writer(Vec::new());
        writer.write_record(&self.header).unwrap();
        for row in &self.rows {
            let cells = row.iter().enumerate();
            let kept = cells.map(|(at, cell)| if keeps(at) { cell } else { "" });
            writer.write_record(kept).unwrap();
        }
        writer.into_inner().unwrap()
    }

    /// The qualified names of what a column states.
    fn fields(&self, column: usize) -> Vec<&'static str> {
        let (name, _) = split_unit(&self.header[column]);
        let fields = fields_of(name, Kind::Assembly);
        fields.into_iter().map(Field::qualified).collect()
    }

    fn is_number(&self, column: usize) -> bool {
        self.fields(column).contains(&"assembly.tool_number")
    }
}

/// What the rule says is missing from a library.
fn missing(rule: &str, bytes: &[u8]) -> BTreeSet<&'static str> {
    let loaded = load(Input::Bytes("blanked.csv", bytes), &SETUP.read_settings());
    let Some(library) = loaded.library else {
        return BTreeSet::new();
    };
    let report = judge(&library, &SETUP, &alone(rule));
    let findings = report.findings.iter();
    findings
        .flat_map(|finding| finding.missing.clone())
        .collect()
}

fn blanking(rule: &str, flat: &Flat) -> BTreeSet<&'static str> {
    let columns = (0..flat.header.len()).filter(|column| !flat.is_number(*column));
    columns
        .flat_map(|blank| missing(rule, &flat.with_only(|column| column != blank)))
        .collect()
}

fn filling(rule: &str, flat: &Flat) -> BTreeSet<&'static str> {
    let mut needed = BTreeSet::new();
    loop {
        let states_needed = |column: usize| {
            let fields = flat.fields(column);
            flat.is_number(column) || fields.iter().any(|field| needed.contains(field))
        };
        let found = missing(rule, &flat.with_only(states_needed));
        let before = needed.len();
        needed.extend(found);
        if needed.len() == before {
            return needed;
        }
    }
}

/// The fields that a rule needs.
fn needed(rule: &str) -> BTreeSet<&'static str> {
    let cases = of(rule).filter(|case| matches!(case.sort, Sort::Pass | Sort::Fail));
    let flat = cases.filter_map(Flat::read);
    flat.flat_map(|flat| {
        let mut needed = blanking(rule, &flat);
        needed.extend(filling(rule, &flat));
        needed
    })
    .collect()
}

#[test]
fn every_field_that_a_rule_needs_has_a_gap_fixture() {
    let rules = SETUP.book.rules.iter().filter(|rule| !rule.is_fault());
    none_of(rules.flat_map(|rule| {
        let gap = |field: &&str| of(&rule.id).any(|case| case.sort == Sort::Gap((*field).into()));
        let open = needed(&rule.id)
            .into_iter()
            .filter(move |field| !gap(field));
        open.map(|field| format!("{}: no gap fixture for {field}", rule.id))
    }));
}

/// The finding-out itself must find: the fields that the first rule of all rests on.
#[test]
fn what_the_grip_needs_is_found_out() {
    let found = needed("grip/short-grip");
    let known = [
        "assembly.stick_out",
        "collet.bore_length",
        "cutter.drive_square_length",
        "cutter.overall_length",
        "cutter.shank_length",
        "holder.clamping_kind",
        "nut.face_setback",
    ];
    assert_eq!(found, BTreeSet::from(known));
}
