//! Standing tables against the standard, restated here.

use shankwise::library::standard_sizes;
use shankwise::units::Scalar;

use super::{facts, is_near};
use crate::support::root;

/// DIN 6535:1992, table 1: length l1 of a plain shank, tolerance +2/0, by diameter d1, read
/// from the text of the standard.
const DIN_6535: [(u8, u8); 14] = [
    (2, 28),
    (3, 28),
    (4, 28),
    (5, 28),
    (6, 36),
    (8, 36),
    (10, 40),
    (12, 45),
    (14, 45),
    (16, 48),
    (18, 48),
    (20, 50),
    (25, 56),
    (32, 60),
];

#[test]
fn shanks_are_those_of_the_standard() {
    let text = std::fs::read_to_string(root().join("rules/tables/shanks.toml")).unwrap();
    let table: toml::Table = toml::from_str(&text).unwrap();
    let number = |value: &toml::Value| u8::try_from(value.as_integer().unwrap()).unwrap();
    let rows: Vec<(u8, u8)> = table["rows"]
        .as_array()
        .unwrap()
        .iter()
        .map(|row| (number(&row[0]), number(&row[1])))
        .collect();
    assert_eq!(rows, DIN_6535);
    assert_eq!(table["unit"].as_str(), Some("mm"));
    assert_eq!(table["basis"].as_str(), Some("standard"));
    assert!(table["source"].as_str().unwrap().contains("DIN 6535"));
}

/// The table is used only for carbide of a diameter that stands in it, and says that it is.
#[test]
fn shanks_are_assumed_from_the_table() {
    for (diameter, length) in DIN_6535 {
        assert_eq!(
            standard_sizes::shank_length(f64::from(diameter)),
            Some(f64::from(length))
        );
        let found = facts(&format!(
            "tool_number,cutter_material,shank_diameter,cutting_diameter\n1,carbide,{diameter},1\n"
        ));
        is_near(&found, "plain_shank", f64::from(length), 1e-9);
        assert!(found["plain_shank"].assumed);
    }
    for (material, diameter) in [
        ("HSS", "12"),
        ("", "12"),
        ("carbide", "7"),
        ("carbide", "12.5"),
    ] {
        let found = facts(&format!(
            "tool_number,cutter_material,shank_diameter,cutting_diameter\n1,{material},{diameter},1\n"
        ));
        assert_eq!(found["plain_shank"].value, None, "{material} {diameter}");
    }
}

/// The tolerance of the shank's length is what a run-out may be shank in truth.
#[test]
fn run_out_allowance_is_the_tolerance_of_the_standard() {
    let setup = crate::support::built_in();
    let rule = setup.book.rule("grip/flutes-in-bore").unwrap();
    let limit = rule
        .limits
        .iter()
        .find(|l| l.name == "run_out_allowance")
        .unwrap();
    assert_eq!(limit.value, 2.0);
    assert_eq!(limit.basis.name(), "standard");
    assert!(limit.source.contains("DIN 6535"));
}

/// The sizes of ISO 15488, table 2, and the two trade sizes beside them; their dimensions are
/// from memory, so whatever rests on them is assumed.
#[test]
fn collets_have_the_sizes_of_the_standard() {
    let sizes: Vec<f64> = standard_sizes::COLLETS
        .table
        .size
        .iter()
        .map(|row| row.size)
        .collect();
    assert_eq!(sizes, [8.0, 11.0, 16.0, 20.0, 25.0, 32.0, 40.0, 50.0]);
    let text = std::fs::read_to_string(root().join("rules/tables/collets.toml")).unwrap();
    let table: toml::Table = toml::from_str(&text).unwrap();
    assert_eq!(table["basis"].as_str(), Some("from memory"));
    let found = facts(
        "tool_number,stick_out,overall_length,shank_length,shank_diameter,collet_size,\
         bore_diameter,bore_form\n1,50,83,45,16,32,16,through\n",
    );
    assert!(
        found["needed_grip"].assumed,
        "the land is assumed from the size"
    );
    assert!(matches!(
        found["needed_grip"].value,
        Some(Scalar::Number(_))
    ));
}

/// Specific cutting forces as the Tabellenbuch Metall gives them, second-hand; those that are
/// from memory say so, and whatever rests on them is assumed.
#[test]
fn materials_are_those_of_the_table_book() {
    let printed = [
        ("S235JR", 1780.0, 0.17),
        ("E295", 1990.0, 0.26),
        ("C45E", 2220.0, 0.14),
        ("16MnCr5", 2100.0, 0.26),
        ("42CrMo4", 2500.0, 0.26),
        ("X5CrNi18-10", 2350.0, 0.21),
        ("EN-GJL-250", 1120.0, 0.26),
        ("EN AW-2017", 830.0, 0.23),
    ];
    for (name, kc11, mc) in printed {
        let row = standard_sizes::material(name).unwrap_or_else(|| panic!("no {name}"));
        assert_eq!((row.kc11, row.mc), (kc11, mc), "{name}");
        assert_ne!(row.basis, "from memory", "{name}");
    }
    let remembered = [
        ("EN-GJS-600", 1480.0, 0.17),
        ("TiAl6V4", 1370.0, 0.21),
        ("EN-GJL-200", 1020.0, 0.25),
        ("C60E", 2130.0, 0.18),
    ];
    for (name, kc11, mc) in remembered {
        let row = standard_sizes::material(name).unwrap_or_else(|| panic!("no {name}"));
        assert_eq!((row.kc11, row.mc), (kc11, mc), "{name}");
        assert_eq!(row.basis, "from memory", "{name}");
    }
}

/// DIN 6535: form HB has one flat up to 20 mm and two at 25 and 32; form HE has one.
#[test]
fn flats_are_counted_as_the_standard_draws_them() {
    for (diameter, hb) in [(6, 1.0), (12, 1.0), (20, 1.0), (25, 2.0), (32, 2.0)] {
        for (form, count) in [("HA", 0.0), ("HB", hb), ("HE", 1.0)] {
            let text = format!(
                "tool_number,cutter_kind,shank_form,shank_diameter\n1,end mill,{form},{diameter}\n"
            );
            is_near(&facts(&text), "drive_flats", count, 1e-12);
        }
    }
    // Between the listed diameters nobody knows.
    let text = "tool_number,cutter_kind,shank_form,shank_diameter\n1,end mill,HB,13\n";
    assert_eq!(facts(text)["drive_flats"].value, None);
}
