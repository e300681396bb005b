//! What a cutter does follows from its kind where no operation says it: derived, not assumed.

use shankwise::library::{Field, Origin, Overrides, View};

use super::fallbacks::row;

/// What is known of the kind of a flat row's only operation, and how it came about.
fn does(pairs: &[(&str, &str)]) -> (Option<String>, Origin) {
    let library = row(pairs);
    let assembly = &library.assemblies[0];
    let overrides = Overrides::default();
    let view = View::new(
        &library,
        assembly,
        assembly.operations.first().copied(),
        &overrides,
    );
    let word = view.word(Field::OperationKind);
    let (_, origin) = view.with_origin(Field::OperationKind);
    assert!(word.trace.assumed.is_empty());
    if word.is_known() && origin == Origin::Derived {
        assert!(word.trace.used.contains(Field::CutterKind));
    }
    if !word.is_known() {
        assert!(word.trace.missing.contains(Field::OperationKind));
    }
    (word.value.map(str::to_owned), origin)
}

#[test]
fn a_drill_drills() {
    for (kind, what) in [
        ("drill", "drilling"),
        ("step drill", "drilling"),
        ("centre drill", "drilling"),
        ("spot drill", "drilling"),
        ("reamer", "reaming"),
        ("tap", "tapping"),
        ("boring bar", "boring"),
    ] {
        let found = does(&[("cutter_kind", kind), ("reach", "20")]);
        assert_eq!(found, (Some(what.to_owned()), Origin::Derived), "{kind}");
    }
}

/// What is stated wins, however odd; what can do several things says nothing.
#[test]
fn other_cutters_say_nothing() {
    let stated = does(&[
        ("cutter_kind", "drill"),
        ("reach", "20"),
        ("operation_kind", "milling"),
    ]);
    assert_eq!(stated, (Some("milling".to_owned()), Origin::Stated));
    for kind in ["end mill", "countersink", "thread mill", "other", ""] {
        let (found, _) = does(&[("cutter_kind", kind), ("reach", "20")]);
        assert_eq!(found, None, "{kind}");
    }
    // Without an operation nothing is done.
    let (found, _) = does(&[("cutter_kind", "drill")]);
    assert_eq!(found, None);
}
