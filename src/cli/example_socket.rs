//! An invented socket for a quick question, so that the model has something to show where nobody
//! states the holder's own.

use crate::library::Field;

use super::options::Stated;

/// An invented socket around a gripping length of 40 mm, in mm: no holder is made so.
const EXAMPLE: [(Field, f64); 6] = [
    (Field::MouthSetback, 10.0),
    (Field::MouthDiameter, 33.0),
    (Field::TaperLength, 36.0),
    (Field::NoseDiameter, 40.0),
    (Field::NoseLength, 14.0),
    (Field::BodyDiameter, 50.0),
];
/// The gripping length that it is made for, mm.
const AROUND: f64 = 40.0;
/// Without these the model says nothing.
const NEEDED: usize = 4;

/// The question with the example around its gripping length, mm; none where the socket is stated.
pub(super) fn with_example(stated: &[Stated], bore_length: f64) -> Option<Vec<Stated>> {
    let is_stated = |field: Field| stated.iter().any(|one| one.fields.contains(&field));
    if EXAMPLE
        .iter()
        .take(NEEDED)
        .all(|(field, _)| is_stated(*field))
    {
        return None;
    }
    let invented = |one: &&Stated| EXAMPLE.iter().any(|(field, _)| one.fields.contains(field));
    let mut all: Vec<Stated> = stated
        .iter()
        .filter(|one| !invented(one))
        .cloned()
        .collect();
    let scale = bore_length / AROUND;
    all.extend(EXAMPLE.map(|(field, length)| of(field, format!("{} mm", length * scale))));
    if !is_stated(Field::CutterMaterial) {
        // What the shank is made of moves the ratio by a few per cent.
        all.push(of(Field::CutterMaterial, "carbide".to_owned()));
    }
    Some(all)
}

fn of(field: Field, value: String) -> Stated {
    Stated {
        option: field.property().name.to_owned(),
        value,
        fields: vec![field],
    }
}
