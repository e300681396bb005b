//! A shop's own values for what no record states: what they stand in for, and what is refused.

use shankwise::judge::{Report, Setup};
use shankwise::library::{Field, Input, Library, Origin, Overrides, View, load};
use shankwise::units::Scalar;

use super::{Shop, refused};

const DEFAULTS: &str = "[default]\nclearance = 2\ncutter_material = \"hardmetal\"\nface_setback = { standard = 0.5, sealing = \"6 mm\" }\n\n\
    [[default.bore_length]]\ncollet_size = 32\nbore_diameter = [10, 20]\nvalue = 38\n\n\
    [[default.clamping_length_min]]\nclamping_kind = \"hydraulic\"\nshank_diameter = 12\nvalue = 36\n";

const HEADER: &str = "tool_number,clamping_kind,overall_length,shank_diameter,shank_length,cutting_diameter,stick_out,collet_size,bore_diameter,bore_length,cutter_material,nut_style,face_setback,clearance,reach,holder clamping_length_min\n";
/// Nothing that has a default is stated.
const SILENT: &str = "1,taper collet,83,12,45,12,40,32,12,,,,,,30,\n";
/// All that has one is.
const STATED: &str = "2,taper collet,83,12,45,12,40,32,12,40,HSS,sealing,1,0,30,\n";
const HYDRAULIC: &str = "3,hydraulic chuck,83,12,45,12,40,,,,steel,,0,1,30,\n";
const THICK: &str = "4,hydraulic chuck,83,16,45,16,40,,,,steel,,0,1,30,\n";

fn shop(rows: &[&str], file: &str) -> Shop {
    let tools = HEADER.to_owned() + &rows.concat();
    Shop::new(&[("cell/tools.csv", &tools), ("cell/shankwise.toml", file)])
}

fn loaded(shop: &Shop) -> (Library, Setup) {
    let setup = shop.setup().expect("the setup loads");
    let path = shop.path("cell/tools.csv");
    let loaded = load(Input::Path(&path), &setup.read_settings());
    (loaded.library.expect("a library"), setup)
}

/// A field of the only tool: its number or word, and how it came about.
fn of(shop: &Shop, field: Field) -> (String, Origin) {
    let (library, _) = loaded(shop);
    let overrides = Overrides::default();
    let assembly = &library.assemblies[0];
    let view = View::new(
        &library,
        assembly,
        assembly.operations.first().copied(),
        &overrides,
    );
    let (found, origin) = view.with_origin(field);
    assert!(found.trace.assumed.is_empty(), "a default is no assumption");
    let text = match found.value {
        None => "unknown".to_owned(),
        Some(Scalar::Number(number)) => number.to_string(),
        Some(Scalar::Word(word)) => word.word.to_owned(),
        Some(Scalar::Text(text)) => text.to_owned(),
        Some(Scalar::Truth(truth)) => truth.to_string(),
    };
    (text, origin)
}

#[test]
fn they_stand_in_for_what_is_not_stated() {
    let silent = shop(&[SILENT], DEFAULTS);
    for (field, value) in [
        (Field::Clearance, "2"),
        (Field::CutterMaterial, "carbide"),
        (Field::FaceSetback, "0.5"),
        (Field::BoreLength, "38"),
    ] {
        assert_eq!(of(&silent, field), (value.to_owned(), Origin::Default));
    }
    let sealing = shop(
        &[&SILENT.replace("32,12,,,,", "32,12,,,sealing,")],
        DEFAULTS,
    );
    assert_eq!(of(&sealing, Field::FaceSetback).0, "6");
    // A bore outside the stated ones has none.
    let small = shop(&[&SILENT.replace("32,12,,", "32,8,,")], DEFAULTS);
    assert_ne!(of(&small, Field::BoreLength).0, "38");
}

#[test]
fn a_stated_value_wins() {
    let stated = shop(&[STATED], DEFAULTS);
    for (field, value) in [
        (Field::Clearance, "0"),
        (Field::CutterMaterial, "HSS"),
        (Field::FaceSetback, "1"),
        (Field::BoreLength, "40"),
    ] {
        assert_eq!(of(&stated, field), (value.to_owned(), Origin::Stated));
    }
}

#[test]
fn a_holders_minimum_goes_by_clamping_and_diameter() {
    let field = Field::HolderClampingLengthMin;
    assert_eq!(
        of(&shop(&[HYDRAULIC], DEFAULTS), field),
        ("36".to_owned(), Origin::Default)
    );
    assert_eq!(of(&shop(&[THICK], DEFAULTS), field).0, "unknown");
    assert_eq!(of(&shop(&[SILENT], DEFAULTS), field).0, "unknown");
}

fn report(rows: &[&str], file: &str) -> Report {
    shop(rows, file).report()
}

#[test]
fn what_rests_on_them_is_counted_and_listed() {
    let listed = report(&[SILENT, STATED, HYDRAULIC, THICK], DEFAULTS)
        .library
        .defaults;
    assert_eq!(
        listed,
        [
            "cutter.cutter_material carbide on 1 tool",
            "collet.bore_length 38.0 mm on 1 tool",
            "nut.face_setback 0.5 mm on 1 tool",
            "holder.clamping_length_min 36.0 mm on 1 tool",
            "operation.clearance 2.0 mm on 1 tool",
        ]
    );
    let twice = report(&[SILENT, &SILENT.replace("1,taper", "5,taper")], DEFAULTS);
    let last = twice.library.defaults.last().map(String::as_str);
    assert_eq!(last, Some("operation.clearance 2.0 mm on 2 tools"));
    assert_eq!(report(&[STATED], DEFAULTS).library.defaults, [""; 0]);
    assert_eq!(
        report(&[SILENT], "name = \"cell\"\n").library.defaults,
        [""; 0]
    );
}

/// The nearer file counts; what it does not say stays the plant's.
#[test]
fn each_file_overrules_the_one_before() {
    let shop = shop(
        &[SILENT],
        "[default]\nclearance = 3\nface_setback = { sealing = 7 }\n",
    );
    shop.put("plant/shankwise.toml", DEFAULTS);
    assert_eq!(of(&shop, Field::Clearance).0, "3");
    assert_eq!(of(&shop, Field::FaceSetback).0, "0.5");
    assert_eq!(of(&shop, Field::CutterMaterial).0, "carbide");
}

#[test]
fn what_makes_no_sense_is_refused_where_it_stands() {
    refused(
        "[default]\nclearence = 1\n",
        "clearence",
        "unknown key `clearence`; did you mean `clearance`?",
    );
    refused(
        "[default]\nclearance = 500\n",
        "500",
        "`clearance` must be from 0 mm to 50 mm",
    );
    refused(
        "[default]\nface_setback = { standart = 1 }\n",
        "standart",
        "`standart` is not a known word; did you mean `standard`?",
    );
    refused(
        "[default]\ncutter_material = \"wood\"\n",
        "\"wood\"",
        "expected one of: carbide, HSS, HSS-Co, steel",
    );
    refused(
        "[[default.bore_length]]\ncollet_size = 32\nbore_diameter = [20, 10]\nvalue = 40\n",
        "[20",
        "the smaller diameter first",
    );
    refused(
        "[[default.bore_length]]\ncollet_size = 32\nbore_diameter = [1, 2, 3]\nvalue = 40\n",
        "[1, 2",
        "one diameter, or two",
    );
    refused(
        "[[default.clamping_length_min]]\nclamping_kind = \"glue\"\nshank_diameter = 12\nvalue = 36\n",
        "\"glue\"",
        "is not a known word",
    );
    refused(
        "[units]\nlength = \"in\"\n\n[default]\nclearance = 1\n",
        "1\n",
        "this shop counts in inches: write the unit",
    );
}
