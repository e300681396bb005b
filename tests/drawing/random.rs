//! Any library gives shapes that fit each other, and a sketch that fits its columns.

use proptest::prelude::*;
use shankwise::draw::{self, Extent, Grip};
use shankwise::facts::Fact;
use shankwise::library::Field;
use shankwise::units::print::DisplayUnits;
use shankwise::write::{SketchLook, sketch};

use super::{row, with_scene};
use crate::support::cases;

const LENGTHS: [Field; 15] = [
    Field::StickOut,
    Field::OverallLength,
    Field::OverallLengthMin,
    Field::ShankLength,
    Field::ShankDiameter,
    Field::CuttingDiameter,
    Field::ChipFluteLength,
    Field::NeckDiameter,
    Field::NeckLength,
    Field::DriveSquareLength,
    Field::BoreLength,
    Field::BoreRecess,
    Field::FaceSetback,
    Field::InsertionDepthMax,
    Field::Reach,
];

/// Lengths from a hundredth of a millimetre to ten metres, many of them near each other.
fn length() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => (1..40_000_u32).prop_map(|n| f64::from(n) / 100.0),
        2 => (1..60_u32).prop_map(f64::from),
        1 => (-2.0..4.0_f64).prop_map(|power| 10f64.powf(power)),
    ]
}

/// A row that states some of them.
fn stated() -> impl Strategy<Value = Vec<String>> {
    let each = prop::option::weighted(0.8, length());
    proptest::collection::vec(each, LENGTHS.len()).prop_map(|lengths| {
        let cells = LENGTHS.iter().zip(lengths);
        let cells = cells.filter_map(|(field, length)| {
            let sign = if *field == Field::FaceSetback {
                -1.0
            } else {
                1.0
            };
            Some(format!("{}={}", field.qualified(), length? * sign))
        });
        cells.collect()
    })
}

proptest! {
    #![proptest_config(cases(400))]

    #[test]
    fn any_sketch_fits_its_columns(stated in stated(), inch: bool, ascii: bool) {
        let mut cells = vec!["tool_number=1,collet_size=32,operation_kind=milling"];
        cells.extend(stated.iter().map(String::as_str));
        let library = row(&cells);
        let drawing = with_scene(&library, &[], draw::assembly);
        let units = if inch { DisplayUnits::new("in", "N·m") } else { DisplayUnits::default() };
        let look = SketchLook { ascii, colour: false };
        let Some(text) = sketch(&drawing, units, look) else {
            return Ok(());
        };
        for line in text.lines() {
            prop_assert!(line.chars().count() <= 76, "{}", text);
            prop_assert!(!line.ends_with(' '), "{}", text);
        }
        prop_assert!(text.lines().count() <= 22, "{}", text);
        prop_assert!(text.contains("stick-out"), "{}", text);
        prop_assert!(!ascii || text.is_ascii());
        let gripped = if ascii { '#' } else { '█' };
        prop_assert_eq!(text.contains(gripped), matches!(drawing.grip, Grip::Over(_)), "{}", text);
    }

    #[test]
    fn parts_lie_one_behind_the_other(stated in stated()) {
        let mut cells = vec!["tool_number=1,collet_size=32"];
        cells.extend(stated.iter().map(String::as_str));
        let library = row(&cells);
        let drawing = with_scene(&library, &[], draw::assembly);
        let mut at = 0.0;
        for part in &drawing.cutter {
            prop_assert_eq!(part.span.from, at);
            prop_assert!(part.span.to > at && part.span.to.is_finite());
            at = part.span.to;
        }
        if let Some(tail) = drawing.tail {
            prop_assert_eq!(at, tail.z);
        }
        let land = drawing.land.and_then(|land| land.span());
        if let (Grip::Over(grip), Some(land)) = (drawing.grip, land) {
            let bare: f64 = drawing.ungripped().iter().map(Extent::length).sum();
            prop_assert!((grip.length() + bare - land.length()).abs() <= 0.02 + 1e-9);
        }
        let known = with_scene(&library, &[], |scene| scene.number(Fact::GrippedLength).is_known());
        prop_assert_eq!(known, !matches!(drawing.grip, Grip::Unknown(_)));
    }
}
