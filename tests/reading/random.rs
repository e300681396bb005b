//! Whatever stands in a file, reading and judging end, and every judgement is counted once.

use std::sync::LazyLock;

use proptest::prelude::*;
use shankwise::judge::{Setup, judge};
use shankwise::library::{Input, Library, PROPERTIES, load};

use crate::support::{adds_up, built_in, cases, options};

/// Every place lies in its source.
fn check_places(library: &Library) {
    for fault in library.faults() {
        for place in &fault.places {
            let range = place.place.span.range();
            let text = library.sources.get(place.place.source).text();
            assert!(text.get(range).is_some(), "{fault:?}");
        }
    }
    for assembly in &library.assemblies {
        for entry in assembly.record.entries() {
            assert!(!library.sources.text(entry.place()).is_empty(), "{entry:?}");
        }
    }
}

static SETUP: LazyLock<Setup> = LazyLock::new(built_in);

fn judged(bytes: &[u8]) {
    let setup: &Setup = &SETUP;
    let loaded = load(Input::Bytes("t.csv", bytes), &setup.read_settings());
    assert!(loaded.library.is_some() || !loaded.errors.is_empty());
    if let Some(library) = loaded.library {
        check_places(&library);
        let report = judge(&library, setup, &options());
        adds_up(&report.summary);
        assert_eq!(report, judge(&library, setup, &options()), "twice the same");
    }
}

fn header() -> impl Strategy<Value = String> {
    let known: Vec<String> = PROPERTIES
        .iter()
        .flat_map(|p| {
            [p.name, p.qualified]
                .into_iter()
                .chain(p.symbols.iter().copied())
        })
        .map(str::to_owned)
        .collect();
    let unit = prop::sample::select(&["", "", "", " [mm]", " (in)", " [N·m]", " [xx]"][..]);
    (prop::sample::select(known), unit).prop_map(|(name, unit)| name + unit)
}

fn cell() -> impl Strategy<Value = String> {
    let likely = [
        "",
        "12",
        "33.5",
        "40",
        "83",
        "0",
        "-1",
        "1/2 in",
        "12 mm",
        "3/8\"",
        "taper collet",
        "end mill",
        "carbide",
        "through",
        "yes",
        "no",
        "M40x1.5",
        "size 32",
        "n/a",
        "12-14",
        "\"12,5\"",
        "1e999",
        "\"",
        "~12",
        "120 N·m",
        "EM12",
    ];
    prop_oneof![
        8 => prop::sample::select(likely.to_vec()).prop_map(str::to_owned),
        1 => "[ -~]{0,8}",
        1 => "\\PC{0,6}",
    ]
}

fn table() -> impl Strategy<Value = String> {
    let columns = prop::collection::vec(header(), 1..14);
    let rows = prop::collection::vec(prop::collection::vec(cell(), 0..16), 0..6);
    let delimiter = prop::sample::select(&[",", ";", "\t"][..]);
    let line_end = prop::sample::select(&["\n", "\r\n", "\r"][..]);
    (columns, rows, delimiter, line_end).prop_map(|(columns, rows, delimiter, line_end)| {
        let header = format!("tool_number{delimiter}{}", columns.join(delimiter));
        let lines = rows.iter().map(|row| row.join(delimiter));
        std::iter::once(header)
            .chain(lines)
            .map(|line| line + line_end)
            .collect()
    })
}

proptest! {
    #![proptest_config(cases(128))]

    #[test]
    fn no_bytes_make_reading_panic(bytes in any::<Vec<u8>>()) {
        judged(&bytes);
    }

    #[test]
    fn no_bytes_behind_a_header_make_reading_panic(bytes in any::<Vec<u8>>()) {
        judged(&[&b"tool_number,stick_out,OAL,LS,DMM\n"[..], &bytes].concat());
    }

    #[test]
    fn whatever_a_table_holds_every_judgement_is_counted_once(text in table()) {
        judged(text.as_bytes());
    }
}
