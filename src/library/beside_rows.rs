//! Assets beside the rows of a table: each is added to the row of its tool.

use std::collections::HashMap;

use super::{Field, Record};

/// Joins assets to rows, by the tool number and then by the asset's id; those of tools without a
/// row become rows. Of each joined asset the number of its row.
pub(super) fn join(rows: &mut Vec<Record>, assets: Vec<Record>) -> Vec<(usize, Record)> {
    let mut joined: Vec<(usize, Record)> = Vec::new();
    let mut alone = Vec::new();
    {
        let by_number = index(rows, Field::ToolNumber);
        let by_id = index(rows, Field::Assembly);
        for asset in assets {
            let found = |all: &HashMap<&str, Vec<usize>>, field| {
                let same = all.get(asset.text(field)?)?;
                let mut same = same.iter().filter(|at| fits(rows.get(**at), &asset));
                // Two rows of one number are told; neither of them is guessed.
                let first = same.next().copied();
                first.filter(|_| same.next().is_none())
            };
            let row = found(&by_number, Field::ToolNumber);
            match row.or_else(|| found(&by_id, Field::Assembly)) {
                Some(row) if joined.iter().all(|(taken, _)| *taken != row) => {
                    joined.push((row, asset));
                }
                _ => alone.push(asset),
            }
        }
    }
    rows.append(&mut alone);
    joined
}

fn index(rows: &[Record], field: Field) -> HashMap<&str, Vec<usize>> {
    let mut all: HashMap<&str, Vec<usize>> = HashMap::new();
    for (at, row) in rows.iter().enumerate() {
        if let Some(text) = row.text(field) {
            all.entry(text).or_default().push(at);
        }
    }
    all
}

/// Whether both may be one tool: a group that both name is the same.
fn fits(row: Option<&Record>, asset: &Record) -> bool {
    let group = |record: &Record| record.text(Field::ProgramToolGroup).map(str::to_owned);
    row.is_some_and(|row| match (group(row), group(asset)) {
        (Some(own), Some(other)) => own == other,
        _ => true,
    })
}
