//! A shop's own workpiece materials that are refused, each at its place.

use super::{Shop, refused, tool};

/// A material with one of its lines replaced.
fn with(key: &str, line: &str) -> String {
    let all = [
        ("name", "name = \"1.2379\""),
        ("kc11", "kc11 = 2600"),
        ("mc", "mc = 0.25"),
        ("group", "group = \"P\""),
        ("source", "source = \"own trials\""),
    ];
    let lines = all.map(|(name, own)| if name == key { line } else { own });
    format!("[[material]]\n{}\n", lines.join("\n"))
}

#[test]
fn a_material_that_makes_no_sense() {
    refused(
        &with("kc11", "kc11 = 26"),
        "26",
        "`kc1.1` must be from 100 MPa to 10000 MPa",
    );
    refused(
        &with("kc11", "kc11 = \"26 N\""),
        "\"26 N\"",
        "does not measure this",
    );
    refused(
        &with("mc", "mc = 25"),
        "25\ngroup",
        "`mc` must be from 0 to 0.6",
    );
    refused(
        &with("group", "group = \"steel\""),
        "\"steel\"",
        "one of P, M, K, N, S, H",
    );
    refused(
        &with("source", "source = \" \""),
        "\" \"",
        "a name and a source",
    );
    refused(&with("name", "name = \"\""), "\"\"", "a name and a source");
    refused(
        &with("source", ""),
        "[[material]]",
        "missing field `source`",
    );
    refused(
        &with("mc", "mcc = 0.25"),
        "mcc",
        "unknown key `mcc`; did you mean `mc`?",
    );
    let twice = with("", "") + &with("", "");
    let shop = Shop::new(&[
        ("cell/tools.csv", &tool(40.0)),
        ("cell/shankwise.toml", &twice),
    ]);
    assert!(
        shop.refusal()
            .message
            .contains("material `1.2379` is already stated")
    );
}

/// The library's own file overrules the plant's.
#[test]
fn the_nearer_file_counts() {
    let shop = Shop::new(&[
        ("cell/tools.csv", &tool(40.0)),
        ("plant/shankwise.toml", &with("", "")),
        ("cell/shankwise.toml", &with("kc11", "kc11 = 2700")),
    ]);
    let setup = shop.setup().unwrap();
    let forces: Vec<f64> = setup.shop.materials.iter().map(|m| m.kc11).collect();
    assert_eq!(forces, [2700.0]);
    assert_eq!(setup.shop.materials[0].source, "own trials");
}
