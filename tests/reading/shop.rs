//! What the shop's file says about reading: units, headers of its own, the library's name.

use std::fs;

use shankwise::judge::Setup;
use shankwise::library::{ClampingKind, ClosedList as _, CutterKind, Field, Library};
use shankwise::units::Scalar;
use tempfile::TempDir;

use super::{faults, folder_library, only, stated, word};

fn with_shop(shop: &str, assemblies: &str) -> Library {
    folder_library(&[("shankwise.toml", shop), ("assemblies.csv", assemblies)])
}

const INCH: &str = "[units]\nlength = \"in\"\n";

#[test]
fn an_inch_library_reads_bare_lengths_in_inches() {
    let library = with_shop(INCH, "tool_number,stick_out,OAL [mm],DC\n1,1.3,83,1/2\n");
    assert_eq!(faults(&library), [] as [&str; 0]);
    assert_eq!(
        stated(&library, Field::StickOut),
        Some(Scalar::Number(33.02))
    );
    assert_eq!(
        stated(&library, Field::OverallLength),
        Some(Scalar::Number(83.0))
    );
    assert_eq!(
        stated(&library, Field::CuttingDiameter),
        Some(Scalar::Number(12.7))
    );
    assert_eq!(library.units.length(), "in");
}

#[test]
fn a_torque_without_unit_in_an_inch_library_is_a_finding() {
    let text = "tool_number,stick_out,nut_torque\n1,1.3,100\n2,1.3,100 lbf·ft\n3,1.3,120 N·m\n4,1.3,100 lbf·in\n";
    let library = with_shop(INCH, text);
    assert_eq!(faults(&library), ["unit-missing 2:7 nut_torque"]);
    let fault = only(&library, "record/unit-missing");
    assert_eq!(word(&fault, "text"), "100");
    assert_eq!(stated(&library, Field::NutTorque), None);
    let of = |row: usize| {
        let entry = library.assemblies[row]
            .record
            .get(Field::NutTorque)
            .unwrap();
        entry.value.number()
    };
    assert_eq!(of(1), Some(135.581_794_833_140_04));
    assert_eq!(of(2), Some(120.0));
    assert_eq!(of(3), Some(11.298_482_902_761_67));
    // The column's unit is as good as the cell's.
    let header = with_shop(
        INCH,
        "tool_number,stick_out,nut_torque [lbf·ft]\n1,1.3,100\n",
    );
    assert_eq!(faults(&header), [] as [&str; 0]);
}

#[test]
fn a_shop_may_state_its_unit_of_torque() {
    let shop = "[units]\nlength = \"in\"\ntorque = \"lbf·ft\"\n";
    let library = with_shop(shop, "tool_number,stick_out,nut_torque\n1,1.3,100\n");
    assert_eq!(faults(&library), [] as [&str; 0]);
    assert_eq!(
        stated(&library, Field::NutTorque),
        Some(Scalar::Number(135.581_794_833_140_04))
    );
    let metric = with_shop("", "tool_number,stick_out,nut_torque\n1,33,120\n");
    assert_eq!(
        stated(&metric, Field::NutTorque),
        Some(Scalar::Number(120.0))
    );
}

#[test]
fn headers_of_the_shops_own_are_read_as_it_says() {
    let shop = "[columns]\n\"sticks out\" = \"stick_out\"\n\"Kranz\" = \"collet collet_size\"\n\"len\" = \"OAL [in]\"\n";
    let text = "tool_number,Sticks-Out,KRANZ,len\n1,33,32,3.25\n";
    let library = with_shop(shop, text);
    assert_eq!(faults(&library), [] as [&str; 0]);
    assert_eq!(
        stated(&library, Field::StickOut),
        Some(Scalar::Number(33.0))
    );
    assert_eq!(
        stated(&library, Field::ColletSize),
        Some(Scalar::Number(32.0))
    );
    assert_eq!(
        stated(&library, Field::NutColletSize),
        None,
        "only the collet's"
    );
    assert_eq!(
        stated(&library, Field::OverallLength),
        Some(Scalar::Number(82.55))
    );
}

#[test]
fn a_header_of_the_shops_own_may_carry_a_unit_too() {
    let shop = "[columns]\n\"sticks out\" = \"stick_out\"\n";
    let library = with_shop(shop, "tool_number,sticks out [in]\n1,1.3\n");
    assert_eq!(faults(&library), [] as [&str; 0]);
    assert_eq!(
        stated(&library, Field::StickOut),
        Some(Scalar::Number(33.02))
    );
}

/// How an export calls its columns, its units and its words.
const EXPORT: &str = r#"
[columns]
"Nr" = "tool_number"

[columns."Typ"]
property = "cutter_kind"
values = { "Fräser" = "end mill", "Bohrer" = "drill" }

[columns."Spannmittel"]
property = "holder clamping_kind"
values = { "ZF" = "collet chuck" }

[columns."IK"]
property = "coolant_channels"
values = { "ja" = "yes", "nein" = "no" }

[columns."Auskragung"]
property = "stick_out"
unit = "cm"

[columns.overall_length]
unit = "in"

[columns."Bemerkung"]
ignored = true
"#;

#[test]
fn cells_of_the_shops_own_words_and_units() {
    let text = "Nr;Typ;Spannmittel;IK;Auskragung;overall_length;Bemerkung\n\
                1;Fräser;zf;ja;3,3;3,25;alt\n2;BOHRER;ZF;nein;41 mm;100 mm;\n3;end mill;;;;;\n";
    let library = with_shop(EXPORT, text);
    assert_eq!(faults(&library), [] as [&str; 0]);
    let all = |field| stated(&library, field);
    assert_eq!(all(Field::StickOut), Some(Scalar::Number(33.0)));
    assert_eq!(all(Field::OverallLength), Some(Scalar::Number(82.55)));
    assert_eq!(
        all(Field::CutterKind),
        Some(Scalar::Word(CutterKind::EndMill.word()))
    );
    assert_eq!(
        all(Field::ClampingKind),
        Some(Scalar::Word(ClampingKind::ColletChuck.word()))
    );
    assert_eq!(all(Field::CoolantChannels), Some(Scalar::Truth(true)));
    let second = &library.assemblies[1].record;
    let number = |field| second.get(field).unwrap().value.number();
    assert_eq!(
        number(Field::StickOut),
        Some(41.0),
        "a cell's own unit wins"
    );
    assert_eq!(number(Field::OverallLength), Some(100.0));
}

/// What is ignored is no unknown column, and a word that nobody translated is told as it stands.
#[test]
fn what_is_not_translated_is_still_a_fault() {
    let text = "Nr;Typ;Bemerkung;Sonst\n1;Reibahle;x;y\n";
    let library = with_shop(EXPORT, text);
    assert_eq!(
        faults(&library),
        [
            "unknown-column 1:18 Sonst",
            "cell-unreadable 2:3 cutter_kind"
        ]
    );
}

#[test]
fn a_library_goes_by_the_name_that_the_shop_gives_it() {
    let named = with_shop("name = \"cell 3\"\n", "tool_number,stick_out\n1,33\n");
    assert_eq!(named.name, "cell 3");
    assert_eq!(
        crate::support::library("tool_number,stick_out\n1,33\n").name,
        "library"
    );
}

/// What a shop says once for all rows, and what a view has of a row.
fn in_all_rows(shop: &str, text: &str, field: Field) -> Option<f64> {
    let library = with_shop(shop, text);
    super::number(&library, field).0
}

#[test]
fn a_constant_counts_where_a_row_states_nothing() {
    let shop = "[columns]\n\"Zange\" = { property = \"collet_size\", constant = \"32\" }\n\"clearance\" = { constant = \"1/8 in\" }\n";
    let stated = "tool_number,stick_out,Zange,bore_diameter,reach\n1,33,25,12,20\n";
    let blank = "tool_number,stick_out,Zange,bore_diameter,reach\n1,33,,12,20\n";
    assert_eq!(in_all_rows(shop, stated, Field::ColletSize), Some(25.0));
    assert_eq!(in_all_rows(shop, blank, Field::ColletSize), Some(32.0));
    // Without an operation there is nothing to keep clear of.
    assert_ne!(in_all_rows(shop, blank, Field::Clearance), Some(3.175));
    // Nor is there a collet where no row and no part speaks of one.
    let arbor = "tool_number,stick_out,clamping_kind\n1,33,arbor\n";
    assert_eq!(in_all_rows(shop, arbor, Field::ColletSize), None);
}

#[test]
fn a_constant_that_cannot_be_is_refused() {
    for (entry, why) in [
        ("clearance = { constant = \"1\" }", "unit"),
        (
            "clearance = { constant = \"1 kg\" }",
            "does not measure this",
        ),
        (
            "cutter_kind = { constant = \"endmil\" }",
            "did you mean `end mill`?",
        ),
        (
            "tool_number = { constant = \"7\" }",
            "cannot be the same in all rows",
        ),
        (
            "collet = { constant = \"C32\" }",
            "cannot be the same in all rows",
        ),
        (
            "stick_out = { constant = \"-3 mm\" }",
            "a number above zero",
        ),
        (
            "clearance = { constant = \"1 mm\", ignored = true }",
            "leave one out",
        ),
    ] {
        let folder = TempDir::new().unwrap();
        fs::write(
            folder.path().join("shankwise.toml"),
            format!("[columns]\n{entry}\n"),
        )
        .unwrap();
        let refused = Setup::load(Some(folder.path()), None, &[], true).unwrap_err();
        let shown = format!("{refused:?}");
        assert!(shown.contains(why), "{entry}: {shown}");
    }
}

#[test]
fn headers_that_are_alike_are_told_by_their_number() {
    let shop = "[columns]\n\"Ø (1)\" = \"cutting_diameter\"\n\"Ø (2)\" = \"shank_diameter\"\n";
    let library = with_shop(shop, "tool_number,Ø,stick_out,Ø\n1,12,33,16\n");
    assert_eq!(faults(&library), [] as [&str; 0]);
    let number = |field| stated(&library, field).unwrap().number();
    assert_eq!(number(Field::CuttingDiameter), Some(12.0));
    assert_eq!(number(Field::ShankDiameter), Some(16.0));
}

/// A header that is named whole keeps the unit that stands in it; what is no unit there is none.
#[test]
fn a_header_named_whole_keeps_its_unit() {
    let shop = "[columns]\n\"Laenge M\" = \"shank_length\"\n\"Anzug (ft-lb)\" = \"nut_torque\"\n\"Tiefe [cm]\" = \"stick_out\"\n\"Max Md Nm\" = \"nut.torque_max\"\n\"OAL (all)\" = \"overall_length\"\n\"DC (in)\" = { property = \"cutting_diameter\", unit = \"mm\" }\n";
    let text = "tool_number,Anzug (ft-lb),Tiefe [cm],Max Md Nm,OAL (all),DC (in),Laenge M\n1,110,4.5,120,83,12,45\n";
    let library = with_shop(shop, text);
    assert_eq!(faults(&library), [] as [&str; 0]);
    for (field, wanted) in [
        (Field::NutTorque, 149.14),
        (Field::StickOut, 45.0),
        (Field::TorqueMax, 120.0),
        (Field::OverallLength, 83.0),
        // A letter alone is no unit.
        (Field::ShankLength, 45.0),
        // The shop's own word counts most.
        (Field::CuttingDiameter, 12.0),
    ] {
        let number = stated(&library, field).and_then(Scalar::number);
        assert!(
            number.is_some_and(|number| (number - wanted).abs() < 0.01),
            "{field:?} {number:?}"
        );
    }
}
