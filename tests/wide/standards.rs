//! Standing tables: what each says of itself, and the sizes at which one row ends.

use std::fs;

use shankwise::library::standard_sizes;

use crate::support::root;

#[test]
fn every_table_says_what_it_rests_on() {
    let mut read = 0;
    for entry in fs::read_dir(root().join("rules/tables")).unwrap() {
        let path = entry.unwrap().path();
        let table: toml::Table = toml::from_str(&fs::read_to_string(&path).unwrap()).unwrap();
        // Limits and rules say it one by one.
        if table.contains_key("limit") || each_pair_says_it(&table) {
            continue;
        }
        for key in ["title", "unit", "basis", "source", "reason"] {
            let text = table.get(key).and_then(toml::Value::as_str);
            assert!(
                text.is_some_and(|text| !text.is_empty()),
                "{key} of {}",
                path.display()
            );
        }
        let basis = table["basis"].as_str().unwrap();
        assert!(BASES.contains(&basis), "{basis}");
        read += 1;
    }
    assert!(read >= 8, "{read}");
}

const BASES: [&str; 4] = ["standard", "textbook", "common practice", "from memory"];

/// Whether a table is one of rules on what suits what; each of them has its own basis and reason.
fn each_pair_says_it(table: &toml::Table) -> bool {
    let Some(pairs) = table.get("pair").and_then(toml::Value::as_table) else {
        return false;
    };
    assert_eq!(table.len(), 1, "something stands beside the rules");
    assert!(pairs.len() >= 8, "{}", pairs.len());
    for (name, rule) in pairs {
        for key in ["title", "basis", "why"] {
            let text = rule.get(key).and_then(toml::Value::as_str);
            assert!(text.is_some_and(|text| !text.is_empty()), "{key} of {name}");
        }
        let basis = rule["basis"].as_str().unwrap();
        assert!(BASES.contains(&basis), "{basis} of {name}");
    }
    true
}

/// ISO 286-2: "over ... up to and including", so 6, 10 and 18 mm end their rows.
#[test]
fn rows_of_h6_end_with_their_upper_size() {
    let rows = &standard_sizes::H6.table.rows;
    let lower = |size: f64| {
        let mut fitting = rows
            .iter()
            .filter(|[over, to, _]| size > *over && size <= *to);
        let [_, _, lower] = fitting.next().unwrap();
        assert!(fitting.next().is_none(), "{size} stands in two rows");
        *lower
    };
    for (size, expected) in [
        (6.0, -0.008),
        (6.001, -0.009),
        (10.0, -0.009),
        (10.001, -0.011),
        (18.0, -0.011),
        (18.001, -0.013),
        (32.0, -0.016),
    ] {
        assert_eq!(lower(size), expected, "{size}");
    }
}

/// ISO 15488:2003, table 4, class 1 and class 2, read in a reprint.
#[test]
fn run_out_classes_by_bore() {
    let found: Vec<[f64; 4]> = standard_sizes::RUN_OUT
        .table
        .rows
        .iter()
        .map(|[_, to, distance, one, two]| [*to, *distance, *one, *two])
        .collect();
    let expected = [
        [1.6, 6.0, 0.010, 0.015],
        [3.0, 10.0, 0.010, 0.015],
        [6.0, 16.0, 0.010, 0.015],
        [10.0, 25.0, 0.010, 0.015],
        [18.0, 40.0, 0.015, 0.020],
        [26.0, 50.0, 0.015, 0.020],
    ];
    assert_eq!(found, expected);
}
