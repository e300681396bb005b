//! Where a result points.

use serde::Serialize;

use crate::sheet::FindingPlace;
use crate::text::Position;

use super::super::json::name;
use super::message::Message;
use super::uri::Artifact;

/// A place, and what stands there.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
#[expect(
    clippy::struct_field_names,
    reason = "they are the names of the standard"
)]
pub(super) struct Location {
    physical_location: Physical,
    /// The cell of a sheet: no viewer can show a region of a workbook.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    logical_locations: Vec<Logical>,
    #[serde(skip_serializing_if = "Option::is_none")]
    message: Option<Message>,
}

/// A cell of a sheet.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Logical {
    name: String,
    fully_qualified_name: String,
    kind: &'static str,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Physical {
    artifact_location: Artifact,
    #[serde(skip_serializing_if = "Option::is_none")]
    region: Option<Region>,
}

/// A stretch of text. Without an end it goes to the end of its line.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Region {
    start_line: usize,
    start_column: usize,
    #[serde(skip_serializing_if = "Option::is_none")]
    end_line: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    end_column: Option<usize>,
}

impl Location {
    /// Of a cell; of what is missing, the line of its record.
    pub(super) fn of(place: &FindingPlace) -> Location {
        let region = Region {
            start_line: place.line,
            start_column: place.column,
            end_line: (!place.absent).then_some(place.end_line),
            end_column: (!place.absent).then_some(place.end_column),
        };
        Location {
            physical_location: Physical {
                artifact_location: Artifact::of(&place.file),
                region: Some(region),
            },
            logical_locations: Logical::of(place),
            message: Message::unless_empty(&label(place)),
        }
    }

    /// Of a file, or of a place in it that has no end.
    pub(super) fn of_file(file: &str, position: Option<Position>) -> Location {
        let region = position.map(|at| Region {
            start_line: at.line,
            start_column: at.column,
            end_line: None,
            end_column: None,
        });
        Location {
            physical_location: Physical {
                artifact_location: Artifact::of(file),
                region,
            },
            logical_locations: Vec::new(),
            message: None,
        }
    }
}

impl Logical {
    fn of(place: &FindingPlace) -> Vec<Logical> {
        let cell = place.sheet.as_ref().zip(place.cell());
        let logical = cell.map(|(sheet, cell)| Logical {
            fully_qualified_name: format!("{sheet}!{cell}"),
            name: cell,
            kind: "cell",
        });
        logical.into_iter().collect()
    }
}

/// The record and the property, as far as they are known.
fn label(place: &FindingPlace) -> String {
    let record = name(&place.record);
    match (record.is_empty(), place.field.is_empty()) {
        (false, false) => format!("{record}: {}", place.field),
        (false, true) => record.into_owned(),
        (true, _) => place.field.clone(),
    }
}
