//! From what is asked with to a library of one row, and back from its faults to the options.

use crate::input::Fault;
use crate::library::{Field, Input, Library, ReadSettings, ValueType, load};
use crate::units::{Asked, Decimal, Spelling, Unit, own_unit, print};
use crate::write::parted;

use super::args::LengthUnit;
use super::options::Stated;
use super::refusal::{Refusal, shown};

/// The name under which the question is shown.
const NAME: &str = "the question";
/// The tool number that the row has if none is asked with.
const NUMBER: &str = "1";

/// How the question is read: as the shop's files are, in the units that it is asked in.
pub(super) fn settings(
    shop: &ReadSettings,
    units: Option<LengthUnit>,
    stated: &[Stated],
) -> ReadSettings {
    let inch = Spelling::find("in", Unit::Mm);
    let length = match (units, inch) {
        (Some(LengthUnit::In), Some(inch)) => inch,
        (None, Some(inch)) if all_in_inches(stated) => inch,
        (Some(LengthUnit::Mm), _) => Spelling::millimetre(),
        _ => shop.length,
    };
    // The default for torques belongs to the system of units: an inch question has none.
    let torque = match (length.name, shop.length.name) {
        (now, before) if now == before => shop.torque,
        ("in", _) => None,
        _ => Spelling::find("N·m", Unit::Nm),
    };
    ReadSettings {
        name: None,
        sheet: None,
        length,
        torque,
        // Options are named by the vocabulary, not by the shop's headers.
        columns: Vec::new(),
        framing: shop.framing,
        own: shop.own.clone(),
        asked: Asked::InOption,
    }
}

fn all_in_inches(stated: &[Stated]) -> bool {
    let is_length = |one: &&Stated| {
        let value = one.fields.first().map(|field| field.property().value);
        matches!(value, Some(ValueType::Quantity(Unit::Mm)))
    };
    let mut lengths = stated.iter().filter(is_length).peekable();
    let in_inches = |one: &Stated| {
        let unit = own_unit(&one.value, Unit::Mm, Decimal::Point);
        unit.is_some_and(|unit| unit.name == "in")
    };
    lengths.peek().is_some() && lengths.all(in_inches)
}

/// The library of the one row that the question describes, or what of it cannot be read.
pub(super) fn library(stated: &[Stated], settings: &ReadSettings) -> Result<Library, Vec<Refusal>> {
    let mut cells: Vec<(&str, &str)> = stated
        .iter()
        .map(|one| (one.option.as_str(), one.value.as_str()))
        .collect();
    if !stated.iter().any(|one| one.fields == [Field::ToolNumber]) {
        cells.insert(0, ("tool_number", NUMBER));
    }
    // A row of a tool, whatever is asked: without this column it might be one of parts.
    if !stated.iter().any(|one| one.fields == [Field::StickOut]) {
        cells.push(("stick_out", ""));
    }
    let line = |cells: Vec<&str>| {
        let quoted = cells.iter().map(|cell| cell.replace('"', "\"\""));
        let quoted: Vec<String> = quoted.map(|cell| format!("\"{cell}\"")).collect();
        quoted.join(",")
    };
    let header = line(cells.iter().map(|cell| cell.0).collect());
    let row = line(cells.iter().map(|cell| cell.1).collect());
    // A table of one column has no delimiter to be told by; the header always has two.
    let text = format!("{header},\"\"\n{row},\"\"\n");
    let loaded = load(Input::Bytes(NAME, text.as_bytes()), settings);
    let errors = loaded.errors.iter().map(|error| {
        let (what, hint) = parted(&error.reason);
        Refusal::new(what, hint)
    });
    let errors: Vec<Refusal> = errors.collect();
    let Some(mut library) = loaded.library.filter(|_| errors.is_empty()) else {
        return Err(errors);
    };
    let wrong: Vec<Refusal> = library
        .faults()
        .filter_map(|fault| of_an_option(&fault, stated))
        .collect();
    if !wrong.is_empty() {
        return Err(wrong);
    }
    // What a question leaves out is no fault of form: the answer says what it lacks.
    library.forgive();
    Ok(library)
}

/// The same question with the tool set to a stick-out, mm.
pub(super) fn set_to(stick_out: f64, stated: &[Stated]) -> Vec<Stated> {
    let others = stated.iter().filter(|one| one.fields != [Field::StickOut]);
    let set = Stated {
        option: Field::StickOut.property().name.to_owned(),
        value: format!("{stick_out} mm"),
        fields: vec![Field::StickOut],
    };
    others.cloned().chain([set]).collect()
}

/// Lengths in another unit than the answer's, as they were read: who writes 36cm and means 36 mm
/// sees it here.
pub(super) fn read_as(
    stated: &[Stated],
    settings: &ReadSettings,
    library: &Library,
) -> Vec<String> {
    let other = stated.iter().filter(|one| {
        let unit = own_unit(&one.value, Unit::Mm, Decimal::Point);
        unit.is_some_and(|unit| unit.name != settings.length.name)
    });
    let read = other.filter_map(|one| {
        let record = &library.assemblies.first()?.record;
        let entry = one.fields.iter().find_map(|field| record.get(*field))?;
        let length = entry.value.number()?;
        let length = print::value(length, Unit::Mm, library.units);
        let (option, value) = (shown(&one.option), shown(&one.value));
        Some(format!("--{option} {value} is {length}"))
    });
    read.collect()
}

/// What is wrong with an option's value; `None` if the fault is about what was left out.
fn of_an_option(fault: &Fault, stated: &[Stated]) -> Option<Refusal> {
    let place = fault.places.first().filter(|place| !place.absent)?;
    let arg = |name: &str| {
        let arg = fault.args.iter().find(|(known, _)| *known == name);
        arg.map_or("", |(_, text)| text.as_ref())
    };
    let of_field = |one: &&Stated| {
        let mut fields = one.fields.iter();
        fields.any(|field| field.property().name == arg("property") || field.short() == place.field)
    };
    let problem = match arg("problem") {
        "" if arg("expected").is_empty() => "it is not a value of this property".to_owned(),
        "" => format!("expected {}", arg("expected")),
        problem => problem.to_owned(),
    };
    Some(match stated.iter().find(of_field) {
        Some(one) => Refusal::unreadable(&format!("--{}", one.option), &one.value, &problem),
        None => {
            let (what, hint) = parted(&problem);
            let what = format!("the question cannot be read: {} {what}", fault.kind);
            Refusal::new(what, hint)
        }
    })
}
