//! Words, yes and no, threads and sizes in their many spellings.

use shankwise::library::{ClosedList as _, CutterKind, Field, ShankForm};
use shankwise::units::Scalar;

use super::{HEADER, ROW, faults, faults_of, only, stated, with_column, word};
use crate::support::library;

#[test]
fn words_are_answered_with_the_nearest_or_with_the_whole_list() {
    let problem = |header: &str, cell: &str| {
        let library = library(&with_column(header, cell));
        word(only(&library, "record/cell-unreadable"), "problem")
    };
    assert_eq!(
        problem("cutter_kind", "endmil"),
        "not a known word; did you mean `end mill`?"
    );
    assert_eq!(
        problem("wall", "round"),
        "not a known word; expected one of: open, closed"
    );
    assert_eq!(
        problem("nut_thread", "40"),
        "expected a thread such as M40x1.5"
    );
}

#[test]
fn words_flags_threads_and_sizes_in_their_many_spellings() {
    let show = |value: Scalar<&str>| format!("{value:?}");
    let one = |header: &str, cell: &str, field| {
        let library = library(&with_column(header, cell));
        assert_eq!(faults(&library), [] as [&str; 0], "{header}: {cell}");
        show(stated(&library, field).unwrap())
    };
    for cell in ["end mill", "End Mill", "end-mill", "END_MILL", "endmill"] {
        assert_eq!(
            one("cutter_kind", cell, Field::CutterKind),
            show(Scalar::Word(CutterKind::EndMill.word()))
        );
    }
    for cell in ["HB", "hb", "drive flat"] {
        assert_eq!(
            one("shank_form", cell, Field::ShankForm),
            show(Scalar::Word(ShankForm::Hb.word()))
        );
    }
    for cell in ["yes", "Y", "true", "1"] {
        assert_eq!(
            one("nut sealed", cell, Field::NutSealed),
            show(Scalar::Truth(true))
        );
    }
    for cell in ["no", "N", "FALSE", "0"] {
        assert_eq!(
            one("nut sealed", cell, Field::NutSealed),
            show(Scalar::Truth(false))
        );
    }
    for cell in [
        "M40x1.5",
        "m40x1.5",
        "M40 x 1.5",
        "M40X1.5",
        "M40×1.5",
        "M40*1.5",
        "\"M40x1,5\"",
    ] {
        let thread = one("nut_thread", cell, Field::NutThread);
        assert_eq!(thread, show(Scalar::Text("M40x1.5")), "{cell}");
    }
    for cell in ["2.5", "G2.5", "G 2.5"] {
        assert_eq!(
            one("balance_grade", cell, Field::BalanceGrade),
            show(Scalar::Number(2.5))
        );
    }
}

#[test]
fn a_collet_size_may_carry_its_word_before_its_number() {
    for cell in ["32", "size 32", "Size32", "SIZE-32"] {
        let text = format!("{HEADER}\n{}\n", ROW.replace(",32,", &format!(",{cell},")));
        let library = library(&text);
        assert_eq!(faults(&library), [] as [&str; 0], "{cell}");
        assert_eq!(
            stated(&library, Field::ColletSize),
            Some(Scalar::Number(32.0)),
            "{cell}"
        );
    }
}

#[test]
fn the_words_of_the_vocabulary_are_all_known() {
    let lists: [(&str, &[&str]); 10] = [
        (
            "cutter_kind",
            &[
                "ball nose",
                "ball with undercut",
                "barrel",
                "boring bar",
                "centre drill",
                "chamfer",
                "counterbore",
                "countersink",
                "dovetail",
                "drill",
                "end mill",
                "end mill with corner radius",
                "engraver",
                "face mill",
                "indexable",
                "probe",
                "reamer",
                "slitting saw",
                "spot drill",
                "step drill",
                "T-slot",
                "tap",
                "tapered",
                "thread mill",
                "other",
            ],
        ),
        ("cutter_material", &["carbide", "HSS", "HSS-Co", "steel"]),
        ("shank_form", &["HA", "HB", "HE", "square"]),
        (
            "collet_system",
            &["ISO 15488", "ISO 10897", "straight", "other"],
        ),
        (
            "bore_form",
            &[
                "through",
                "relieved at the rear",
                "counterbored",
                "relieved in front",
                "tapping",
            ],
        ),
        ("nut_style", &["standard", "reduced", "sealing", "bearing"]),
        (
            "operation_kind",
            &["milling", "drilling", "reaming", "tapping", "boring"],
        ),
        ("coolant", &["dry", "air", "flood", "through"]),
        ("wall", &["open", "closed"]),
        ("spindle_direction", &["right", "left"]),
    ];
    for (header, words) in lists {
        for word in words {
            let told = faults_of(&with_column(header, word));
            assert_eq!(told, [] as [&str; 0], "{header}: {word}");
        }
    }
    let kinds = [
        "collet chuck",
        "other collet",
        "shrink fit",
        "hydraulic chuck",
        "side-lock holder",
        "milling chuck",
        "drill chuck",
        "tapping attachment",
        "arbor",
        "screwed-on head",
        "one piece",
        "none",
        "other",
        // Former words.
        "taper collet ISO 15488",
        "clamp screw on flat",
    ];
    for kind in kinds {
        let text = format!("{HEADER}\n{}\n", ROW.replace("taper collet", kind));
        assert_eq!(faults_of(&text), [] as [&str; 0], "clamping_kind: {kind}");
    }
}

/// Every kind of cutter has its most flutes, in one row of the table only.
#[test]
fn every_kind_of_cutter_has_its_flutes() {
    use shankwise::library::standard_sizes::{PLAUSIBLE, most_flutes};
    let rows = &PLAUSIBLE.table.flutes;
    let listed: usize = rows.iter().map(|row| row.kinds.len()).sum();
    assert_eq!(listed, CutterKind::ALL.len());
    for kind in CutterKind::ALL {
        assert!(most_flutes(*kind).is_some(), "{kind:?}");
    }
    assert!(rows.iter().all(|row| !row.reason.is_empty()));
}

/// A word is the one of its own list, and of no other.
#[test]
fn a_word_belongs_to_its_list() {
    use shankwise::library::{ClampingKind, Hand, NutStyle};
    for kind in CutterKind::ALL {
        assert_eq!(CutterKind::of(kind.word()), Some(*kind));
        assert_eq!(CutterKind::named(kind.word().word), Some(*kind));
    }
    assert_eq!(ClampingKind::of(CutterKind::Drill.word()), None);
    assert_eq!(NutStyle::of(Hand::Left.word()), None);
    assert_eq!(Hand::named("LH"), Some(Hand::Left));
}

#[test]
fn a_thread_is_a_diameter_and_a_pitch() {
    use shankwise::library::Thread;
    let read = |text: &str| Thread::read(text).map(|thread| (thread.diameter, thread.pitch));
    assert_eq!(read("M8"), Some((8.0, None)));
    assert_eq!(read("m8 x 1,25"), Some((8.0, Some(1.25))));
    assert_eq!(read("M40×1.50"), Some((40.0, Some(1.5))));
    for none in [
        "40x1.5",
        "M",
        "Mx1.5",
        "M40x",
        "M0",
        "M-8",
        "M8x0",
        "M8x1.25x2",
        "Minf",
    ] {
        assert_eq!(read(none), None, "{none}");
    }
    let thread = |text: &str| Thread::read(text).unwrap();
    assert_eq!(thread("m40 X 1,50").written(), "M40x1.50");
    assert_eq!(thread("M40x1.5"), thread("M40x1.50"));
    assert!(thread("M40x1.5").differs_from(&thread("M40x2")));
    assert!(!thread("M40").differs_from(&thread("M40x2")));
    assert!(thread("M40").differs_from(&thread("M42")));
}
