//! Standing tables restated from their standards, and what they mean for the rule of thumb.

use shankwise::library::standard_sizes;

use crate::support::lint_text;

/// ISO 286-2, lower deviations of h6, µm, over and up to; the row up to 3 mm from memory.
const H6: [(f64, f64, f64); 6] = [
    (0.0, 3.0, -6.0),
    (3.0, 6.0, -8.0),
    (6.0, 10.0, -9.0),
    (10.0, 18.0, -11.0),
    (18.0, 30.0, -13.0),
    (30.0, 50.0, -16.0),
];

#[test]
fn h6_is_that_of_the_standard() {
    let rows: Vec<(f64, f64, f64)> = standard_sizes::H6
        .table
        .rows
        .iter()
        .map(|[over, to, lower]| (*over, *to, (lower * 1000.0).round()))
        .collect();
    assert_eq!(rows, H6);
}

/// ISO 15488, table 2: threads of the nuts, sizes 11 to 40.
#[test]
fn nut_threads_are_those_of_the_standard() {
    let threads = [
        (11.0, "M14x0.75"),
        (16.0, "M22x1.5"),
        (20.0, "M25x1.5"),
        (25.0, "M32x1.5"),
        (32.0, "M40x1.5"),
        (40.0, "M50x1.5"),
    ];
    for (size, thread) in threads {
        let row = standard_sizes::nut_size(size).unwrap();
        assert_eq!(
            (row.thread.written(), row.thread_basis.as_str()),
            (thread, "second-hand")
        );
    }
}

/// The sizes 8 and 50 are in no table of the standard: a thread assumed for one says so.
#[test]
fn threads_of_trade_sizes_are_from_memory() {
    for (size, basis) in [
        (8, "this size, from memory"),
        (32, "this size, ISO 15488 read second-hand"),
        (50, "this size, from memory"),
    ] {
        let report = lint_text(&format!(
            "tool_number,clamping_kind,nut collet_size,nut_style,holder nut_thread\n\
             1,taper collet,{size},standard,M5x0.8\n"
        ));
        let mut findings = report.findings.iter();
        let mismatch = findings.find(|finding| finding.rule == "grip/size-mismatch");
        let assumed = &mismatch.expect("the threads differ").assumptions;
        assert!(assumed.iter().any(|why| why.contains(basis)), "{assumed:?}");
    }
}

/// ISO 15488:2003, table 4: test distance, class 1 and class 2 by bore.
#[test]
fn run_out_classes_are_those_of_the_standard() {
    for (bore, distance, normal) in [
        (1.0, 6.0, 0.015),
        (1.6, 6.0, 0.015),
        (3.0, 10.0, 0.015),
        (6.0, 16.0, 0.015),
        (10.0, 25.0, 0.015),
        (18.0, 40.0, 0.020),
        (26.0, 50.0, 0.020),
    ] {
        assert_eq!(
            standard_sizes::run_out(bore),
            Some((distance, normal)),
            "{bore}"
        );
    }
    assert_eq!(standard_sizes::run_out(27.0), None);
}

#[test]
fn every_table_states_its_standing() {
    fn stated<T>(table: &standard_sizes::Standing<T>) {
        for words in [
            &table.title,
            &table.unit,
            &table.basis,
            &table.source,
            &table.reason,
        ] {
            assert!(!words.is_empty(), "{}", table.title);
        }
    }
    stated(&standard_sizes::SHANKS);
    stated(&standard_sizes::COLLETS);
    stated(&standard_sizes::NUTS);
    stated(&standard_sizes::FLATS);
    stated(&standard_sizes::H6);
    stated(&standard_sizes::DRILLS);
    stated(&standard_sizes::HEADER_WORDS);
    stated(&standard_sizes::RUN_OUT);
    stated(&standard_sizes::MATERIALS);
    stated(&standard_sizes::SHANK_SIZES);
    stated(&standard_sizes::PLAUSIBLE);
}

/// DIN 6535:1992, table 1, shank lengths, against two thirds of the bore of every size whose
/// collets take the shank (bore as long as the collet, lengths from memory): a standard shank
/// holds two thirds in every one, and the program says so at its best stick-out.
#[test]
fn standard_shanks_hold_two_thirds() {
    let mut tried = 0;
    for [diameter, shank] in &standard_sizes::SHANKS.table.rows {
        for size in standard_sizes::COLLETS
            .table
            .size
            .iter()
            .filter(|s| *diameter <= s.bore_max)
        {
            let holds = *shank >= size.length * 2.0 / 3.0 - 0.01;
            let overall = shank + 40.0;
            let text = format!(
                "tool_number,clamping_kind,stick_out,overall_length,shank_length,shank_diameter,cutting_diameter,collet_size,bore_diameter,bore_length,face_setback\n1,taper collet,40,{overall},{shank},{diameter},{diameter},{},{diameter},{},0\n",
                size.size, size.length
            );
            let report = lint_text(&text);
            let short = report.findings.iter().any(|f| f.rule == "grip/short-grip");
            assert_eq!(short, !holds, "{diameter} in size {}", size.size);
            tried += 1;
        }
    }
    assert!(tried > 50, "{tried}");
}
