//! The tools that are blanked.

use shankwise::library::Field;

use crate::wide::tool::{Cell, Tool, Units};
use crate::wide::tools;

/// Sane tools in collets, with the stick-out stated and nothing from which it would follow.
pub fn plain_tools() -> Vec<Tool> {
    let other_lengths = [
        Field::ProtrudingLength,
        Field::FunctionalLength,
        Field::ClampingLength,
        Field::GaugeLength,
        Field::HeadLength,
        Field::NeckLength,
        Field::NeckDiameter,
        Field::OverallLengthActual,
        Field::WorkpieceMaterial,
        Field::FeedPerTooth,
    ];
    let all = tools(120, Units::Metric)
        .into_iter()
        .filter_map(|mut tool| {
            if tool.text(Field::ClampingKind) == "other collet" {
                return None;
            }
            tool.number(Field::BoreLength)?;
            tool.number(Field::StickOut)?;
            tool.forget(&other_lengths);
            tool.say(Field::ClampingKind, "taper collet");
            Some(tool)
        });
    let some: Vec<Tool> = all.take(40).chain(closed_and_tightened()).collect();
    assert_eq!(some.len(), 42);
    some
}

/// Two tools that the wide library has no like of: a collet closed by more than a small size may
/// be, with no range stated; a nut tightened to more than is recommended for other bores.
fn closed_and_tightened() -> [Tool; 2] {
    let mut closed = sound();
    closed.set(Field::ShankDiameter, 11.4);
    let mut tightened = sound();
    tightened.set(Field::NutTorque, 100.0);
    tightened.set(Field::TorqueMax, 120.0);
    tightened.set(Field::NutTorqueRecommended, 80.0);
    tightened.set(Field::TorqueBoreMin, 2.0);
    tightened.set(Field::TorqueBoreMax, 7.0);
    closed.say(Field::ToolNumber, "closed");
    tightened.say(Field::ToolNumber, "tightened");
    [closed, tightened]
}

/// A cutter of 12 in a collet of 12.
pub fn sound() -> Tool {
    let mut tool = Tool::default();
    for (field, number) in [
        (Field::StickOut, 40.0),
        (Field::CuttingDiameter, 10.0),
        (Field::ShankDiameter, 12.0),
        (Field::ShankLength, 45.0),
        (Field::OverallLength, 83.0),
        (Field::ColletSize, 32.0),
        (Field::BoreDiameter, 12.0),
        (Field::BoreLength, 40.0),
    ] {
        tool.0.insert(field, Cell::Number(number));
    }
    tool.say(Field::ToolNumber, "7");
    tool
}
