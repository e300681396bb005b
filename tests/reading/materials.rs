//! The workpiece's material: what its names mean, and which of them is only the nearest.

use shankwise::judge::Setup;
use shankwise::library::standard_sizes::{MATERIALS, material};
use shankwise::library::{
    CuttingForce, Field, Input, Library, Overrides, View, Workpiece, load, reason,
};
use tempfile::TempDir;

use crate::support::library;

/// One drill in a material.
fn in_material(name: &str) -> Library {
    library(&format!(
        "tool_number,cutter_kind,workpiece_material,reach\n1,drill,\"{name}\",20\n"
    ))
}

fn seen<T>(library: &Library, look: impl FnOnce(&View<'_>) -> T) -> T {
    let assembly = &library.assemblies[0];
    let overrides = Overrides::default();
    let view = View::new(
        library,
        assembly,
        assembly.operations.first().copied(),
        &overrides,
    );
    look(&view)
}

/// What a name means, and why it is only assumed, if it is.
fn meant(library: &Library) -> (Option<Workpiece>, Option<String>) {
    seen(library, |view| {
        let found = view.workpiece();
        let assumed = found.trace.assumed.contains(Field::WorkpieceMaterial);
        let why = reason(view, Field::WorkpieceMaterial);
        assert_eq!(assumed, why.is_some());
        assert_eq!(
            found.value.is_none(),
            found.trace.missing.contains(Field::WorkpieceMaterial)
        );
        (found.value, why.map(|why| why.to_string()))
    })
}

fn of(name: &str) -> (Option<Workpiece>, Option<String>) {
    meant(&in_material(name))
}

/// The words for a name that means nothing.
fn unlisted(name: &str) -> String {
    let words = seen(&in_material(name), |view| {
        view.unlisted(Field::WorkpieceMaterial)
    });
    words.expect("it is stated")
}

fn exactly(kc11: f64, mc: f64) -> Workpiece {
    let force = CuttingForce { kc11, mc };
    Workpiece {
        low: force,
        high: force,
    }
}

#[test]
fn every_alias_is_of_a_material_and_no_two_names_are_alike() {
    let table = &MATERIALS.table;
    let fold = |text: &str| {
        text.replace(|c: char| !c.is_alphanumeric(), "")
            .to_lowercase()
    };
    let rows = table.material.iter().map(|row| fold(&row.name));
    let mut names: Vec<String> = rows
        .chain(table.alias.iter().map(|a| fold(&a.name)))
        .collect();
    for alias in &table.alias {
        assert!(material(&alias.of).is_some(), "{}", alias.of);
        assert!(["same", "nearest"].contains(&alias.standing.as_str()));
        assert!(["second-hand", "from memory"].contains(&alias.basis.as_str()));
        assert!(!alias.system.is_empty());
        let american = ["AISI/SAE", "ASTM", "UNS"].contains(&alias.system.as_str());
        assert!(
            !american || !alias.is_same(),
            "{} is nearest only",
            alias.name
        );
    }
    let all = names.len();
    names.sort();
    names.dedup();
    assert_eq!(names.len(), all);
}

#[test]
fn a_number_is_another_name() {
    let steel = (Some(exactly(2500.0, 0.26)), None);
    for name in ["42CrMo4", "1.7225", "42 crmo 4"] {
        assert_eq!(of(name), steel, "{name}");
    }
    assert_eq!(of("1.4301"), (Some(exactly(2350.0, 0.21)), None));
    for name in ["EN AW-2017", "EN AW-2017A", "AlCu4MgSi", "3.1325"] {
        assert_eq!(of(name), (Some(exactly(830.0, 0.23)), None), "{name}");
    }
    // A row from memory stays one by whatever name.
    let (force, why) = of("1.1221");
    assert_eq!(force, Some(exactly(2130.0, 0.18)));
    assert!(why.unwrap().contains("from memory"));
}

#[test]
fn an_american_name_is_the_nearest() {
    for name in ["4140", "AISI 4140", "SAE-4140", "aisi4140"] {
        let (force, why) = of(name);
        assert_eq!(force, Some(exactly(2500.0, 0.26)), "{name}");
        assert!(why.unwrap().contains("taken for 42CrMo4, the nearest"));
    }
    // Bare, it may be an aluminium.
    assert_eq!(of("1060").0, None);
    assert!(of("AISI 1060").0.is_some());
}

#[test]
fn a_group_is_a_band() {
    for name in ["P", "p", "ISO P", "ISO 513 P", "group P"] {
        let (force, why) = of(name);
        let (low, high) = ((1780.0, 0.14), (2500.0, 0.26));
        let band = |(kc11, mc)| CuttingForce { kc11, mc };
        let wanted = Workpiece {
            low: band(low),
            high: band(high),
        };
        assert_eq!(force, Some(wanted), "{name}");
        let why = why.unwrap();
        assert!(
            why.contains(
                "group P of ISO 513, by the table's rows: kc1.1 1780 to 2500 MPa, mc 0.14 to 0.26"
            ),
            "{why}"
        );
    }
    // Whatever the chip up to 1 mm, no row of the group lies outside the band.
    let (force, _) = of("K");
    let band = force.unwrap();
    for row in MATERIALS
        .table
        .material
        .iter()
        .filter(|row| row.group == "K")
    {
        for chip in [0.005_f64, 0.02, 0.1, 0.5, 1.0] {
            let at = |kc11: f64, mc: f64| kc11 * chip.powf(-mc);
            let own = at(row.kc11, row.mc);
            assert!(at(band.low.kc11, band.low.mc) <= own);
            assert!(at(band.high.kc11, band.high.mc) >= own);
        }
    }
    // No row of the table is hardened.
    assert_eq!(of("H").0, None);
    assert_eq!(of("X").0, None);
}

#[test]
fn what_the_table_does_not_know_is_said_so() {
    assert_eq!(of("1.2379"), (None, None));
    assert_eq!(
        unlisted("1.2379"),
        "stated as `1.2379`, not in the table of materials"
    );
    for (name, near) in [
        ("AlSi10Mg", "EN AW-2017 (AlCuMg1)"),
        ("S355JR", "S235JR"),
        ("EN-GJS-400", "EN-GJS-600"),
        ("34CrNiMo6", "42CrMo4"),
    ] {
        assert_eq!(of(name).0, None, "{name}");
        let wanted =
            format!("stated as `{name}`, not in the table of materials; nearest there: {near}");
        assert_eq!(unlisted(name), wanted);
    }
    assert!(!unlisted("brass").contains("nearest"));
    let long = "x".repeat(5000);
    assert!(unlisted(&long).chars().count() < 120);
    assert_eq!(of(&long).0, None);
    // What is not stated is not unlisted.
    let silent = library("tool_number,reach\n1,20\n");
    assert_eq!(
        seen(&silent, |view| view.unlisted(Field::WorkpieceMaterial)),
        None
    );
}

#[test]
fn a_shop_states_its_own() {
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("tools.csv");
    let text = "tool_number,cutter_kind,workpiece_material,reach\n1,drill,1.2379,20\n2,drill,42CrMo4,20\n3,drill,AlSi10Mgg,20\n";
    std::fs::write(&path, text).unwrap();
    let shop = "[[material]]\nname = \"1.2379\"\nkc11 = 2600\nmc = 0.25\ngroup = \"P\"\nsource = \"own trials\"\n\n\
        [[material]]\nname = \"42CrMo4\"\n\"kc1.1\" = \"2.2 GPa\"\nmc = 0.2\nsource = \"own trials\"\n\n\
        [[material]]\nname = \"AlSi10Mg\"\nkc11 = 700\nmc = 0.25\nsource = \"own trials\"\n";
    let shop = shop.replace("\"2.2 GPa\"", "2200");
    std::fs::write(folder.path().join("shankwise.toml"), shop).unwrap();
    let setup = Setup::load(Some(&path), None, &[], true).unwrap();
    let loaded = load(Input::Path(&path), &setup.read_settings());
    let mut library = loaded.library.unwrap();
    assert_eq!(meant(&library), (Some(exactly(2600.0, 0.25)), None));
    library.assemblies.remove(0);
    assert_eq!(meant(&library), (Some(exactly(2200.0, 0.2)), None));
    library.assemblies.remove(0);
    let words = seen(&library, |view| view.unlisted(Field::WorkpieceMaterial));
    assert!(words.unwrap().ends_with("nearest there: AlSi10Mg"));
}
