//! Every spelling of every unit, in a cell and in a header.

use shankwise::units::{Spelling, Unit, split_unit};

use super::stated;

/// Unit, factor to the canonical unit, and how people write it.
const WRITTEN: &[(Unit, f64, &[&str])] = &[
    (Unit::Mm, 1.0, &["mm", "MM", "millimetre", "Millimeter"]),
    (
        Unit::Mm,
        25.4,
        &["in", "in.", "IN", "inch", "Inches", "\"", "″"],
    ),
    (Unit::Mm, 10.0, &["cm"]),
    (Unit::Mm, 1000.0, &["m"]),
    (Unit::Mm, 0.001, &["µm", "μm", "um", "micron"]),
    (Unit::One, 1.0, &["1"]),
    (Unit::One, 0.01, &["%"]),
    (Unit::N, 1.0, &["N"]),
    (Unit::N, 1000.0, &["kN"]),
    (
        Unit::Nm,
        1.0,
        &["N·m", "Nm", "N m", "N*m", "N.m", "N-m", "N⋅m", "NM"],
    ),
    (Unit::Nm, 0.01, &["N·cm", "Ncm"]),
    (Unit::Nm, 0.001, &["N·mm", "Nmm"]),
    (
        Unit::Nm,
        1.355_817_948_331_400_4,
        &[
            "lbf·ft", "lbf ft", "ft-lbf", "ft·lbf", "lb·ft", "lb-ft", "ft-lb", "ft lbs", "Ft-Lbs",
        ],
    ),
    (
        Unit::Nm,
        0.112_984_829_027_616_7,
        &["lbf·in", "in-lbf", "lb·in", "in-lb", "in lbs", "In.-Lbs."],
    ),
    (Unit::MPa, 1.0, &["MPa", "N/mm²", "N/mm2", "N/mm^2"]),
    (Unit::MPa, 1000.0, &["GPa"]),
    (Unit::NPerMm, 1.0, &["N/mm"]),
    (Unit::Hz, 1.0, &["Hz"]),
    (Unit::Hz, 1000.0, &["kHz"]),
    (Unit::Deg, 1.0, &["deg", "°", "degree", "Degrees"]),
    (
        Unit::PerMin,
        1.0,
        &[
            "1/min", "rpm", "RPM", "min⁻¹", "min-1", "min^-1", "rev/min", "/min",
        ],
    ),
    (Unit::MPerMin, 1.0, &["m/min"]),
    (Unit::MPerMin, 0.3048, &["ft/min", "sfm", "SFM", "fpm"]),
    (Unit::KW, 1.0, &["kW"]),
    (Unit::Kg, 1.0, &["kg"]),
    (Unit::Kg, 0.001, &["g"]),
    (Unit::Kg, 0.453_592_37, &["lb", "lbs", "lbm"]),
    (Unit::GMm, 1.0, &["g·mm", "gmm", "g mm"]),
];

#[test]
fn every_spelling_is_read_behind_a_blank_and_directly_behind_the_number() {
    // A cell says `0.5`, not `0.5 1`: that unit stands in headers and rules only.
    let in_cells = WRITTEN.iter().filter(|(_, _, all)| *all != ["1"]);
    for (unit, factor, spellings) in in_cells {
        for spelling in *spellings {
            assert_eq!(
                stated(&format!("1 {spelling}"), *unit),
                Ok(*factor),
                "1 {spelling}"
            );
            // `11/min` would be eleven a minute, and `11` eleven.
            if !spelling.starts_with('1') {
                assert_eq!(
                    stated(&format!("1{spelling}"), *unit),
                    Ok(*factor),
                    "1{spelling}"
                );
            }
        }
    }
}

#[test]
fn no_unit_of_the_program_is_left_out_above() {
    for unit in Unit::ALL {
        for name in Spelling::names(unit) {
            let tested = WRITTEN
                .iter()
                .any(|(of, _, all)| *of == unit && all.contains(&name));
            assert!(tested, "{name}");
        }
        let own = Spelling::find(unit.symbol(), unit).expect("a unit reads its own symbol");
        assert_eq!(own.name, unit.shown());
    }
}

#[test]
fn a_header_carries_its_unit_in_brackets() {
    let split = [
        ("overall length [mm]", ("overall length", Some("mm"))),
        ("OAL (in)", ("OAL", Some("in"))),
        (" OAL ( in ) ", ("OAL", Some("in"))),
        ("torque [N·m]", ("torque", Some("N·m"))),
        ("OAL", ("OAL", None)),
        ("OAL []", ("OAL", Some(""))),
        ("[mm]", ("", Some("mm"))),
        ("size (8°) [mm]", ("size (8°)", Some("mm"))),
        ("OAL (in", ("OAL (in", None)),
    ];
    for (header, parts) in split {
        assert_eq!(split_unit(header), parts, "{header}");
    }
}
