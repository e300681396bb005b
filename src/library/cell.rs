//! From a cell's text to a value.

use std::borrow::Cow;

use crate::input::{Cell, Fault, fault_kind};
use crate::text::{closest, quoted};
use crate::units::{self, Asked, Decimal, NumberFault, Problem, Spelling, Unit, Word, is_stand_in};

use super::beside_number::{is_date, is_no_speed, says_unsure, without_class};
use super::chunk::Stated;
use super::closed_lists::{self, FLAG};
use super::decimal_marks::{Open, Seen};
use super::property::{Property, Range, ValueType};
use super::stating::Stating;
use super::thread::Thread;
use super::{Field, ReadSettings, trade_size, two_sizes};

/// How the cells of a column are read, settled once for all of them.
pub(super) struct Settled {
    /// The property that they state.
    pub property: &'static Property,
    /// Its fields, where several records share it, or the one.
    pub fields: Vec<Field>,
    /// Whether they state it for all records that share it.
    pub is_shared: bool,
    /// Whether they hold numbers.
    pub is_number: bool,
    /// The unit of their bare numbers; none if they need one of their own.
    bare: Option<&'static Spelling>,
    decimal: Decimal,
    /// Where they stand, for who is to mend one.
    asked: Asked,
    /// The shop's own words, folded, and what they mean.
    values: Vec<(String, String)>,
}

impl Settled {
    /// What a column's target, the settings and its table say; none for a column without
    /// property.
    pub(super) fn new(
        target: &Stating,
        settings: &ReadSettings,
        decimal: Decimal,
    ) -> Option<Settled> {
        let property = target.fields.first()?.property();
        let bare = match property.value {
            ValueType::Size => Spelling::find("1", Unit::One),
            ValueType::Quantity(_) if target.unit.is_some() => target.unit,
            ValueType::Quantity(_) if target.broken_unit => None,
            ValueType::Quantity(unit) => settings.default_unit(unit),
            _ => None,
        };
        Some(Settled {
            property,
            fields: target.fields.clone(),
            is_shared: target.is_shared(),
            is_number: matches!(
                property.value,
                ValueType::Quantity(_) | ValueType::Count | ValueType::Size
            ),
            bare,
            decimal,
            asked: settings.asked,
            values: target
                .values
                .iter()
                .map(|(said, meant)| (folded(said), meant.clone()))
                .collect(),
        })
    }
}

impl Settled {
    /// The same property read in any form: numbers with a decimal point, bare ones in this unit.
    pub(super) fn plainly(&self, bare: Option<&'static Spelling>) -> Settled {
        Settled {
            fields: Vec::new(),
            bare,
            decimal: Decimal::Point,
            values: Vec::new(),
            ..*self
        }
    }

    /// The unit of bare numbers; none if they need one of their own.
    pub(super) const fn bare(&self) -> Option<&'static Spelling> {
        self.bare
    }

    /// What the decimal mark is.
    pub(super) const fn decimal(&self) -> Decimal {
        self.decimal
    }

    /// Whether it is believed of a row whose cells may stand under other names.
    pub(super) fn is_name(&self) -> bool {
        matches!(self.property.value, ValueType::Id) || self.property.field == Field::ToolNumber
    }

    /// What a cell means where it has a word of the shop's own.
    pub(super) fn meant(&self, text: &str) -> Option<&str> {
        if self.values.is_empty() {
            return None;
        }
        let folded = folded(text);
        let mut known = self.values.iter();
        known
            .find(|(said, _)| *said == folded)
            .map(|(_, meant)| meant.as_str())
    }
}

/// A text as it is compared: case and blanks around it do not count.
fn folded(text: &str) -> String {
    text.trim().to_lowercase()
}

/// Reads a cell; a fault instead if it is no value of its property. What its number tells about
/// the marks of its table is added to what was seen; of `open` marks it may have two readings.
pub(super) fn read<'t>(
    cell: &Cell<'t>,
    settled: &Settled,
    (seen, open): (&mut Seen, Open),
) -> Result<Stated<'t>, Fault> {
    if let Some(meant) = settled.meant(&cell.text) {
        let meant = Cell {
            text: Cow::Owned(meant.to_owned()),
            ..cell.clone()
        };
        return as_written(&meant, settled, (seen, open));
    }
    as_written(cell, settled, (seen, open))
}

/// Reads a cell as it is written.
fn as_written<'t>(
    cell: &Cell<'t>,
    settled: &Settled,
    (seen, open): (&mut Seen, Open),
) -> Result<Stated<'t>, Fault> {
    let text = cell.text.as_ref();
    let property = settled.property;
    if let Some(number) = plain(cell, settled) {
        return in_range(cell, property, number);
    }
    if settled.is_number {
        seen.look(text, property.value);
    }
    if settled.is_number
        && let Some((one, other)) = open.two_readings(text)
    {
        if is_no_speed(property, &one) {
            let whole = Cell {
                text: Cow::Owned(other),
                ..cell.clone()
            };
            return as_written(&whole, settled, (seen, Open::default()));
        }
        let here = settled.asked.either("in this table", "here");
        let problem = format!(
            "two readings, {one} and {other}, and nothing {here} tells which is meant; write it without a thousands mark, and not with three decimals"
        );
        return Err(wrong(cell, property, problem, "number"));
    }
    match property.value {
        ValueType::Quantity(unit) => quantity(cell, settled, unit),
        ValueType::Count => {
            let read = units::read_count(text, settled.decimal);
            let number = read.map_err(|problem| unreadable(cell, settled, &problem, Unit::One))?;
            in_range(cell, property, number)
        }
        ValueType::Size => size(cell, settled),
        ValueType::Thread => match Thread::read(text) {
            Some(thread) => Ok(Stated::Thread(thread)),
            None if is_stand_in(text) => Err(nothing(cell, settled)),
            None => Err(wrong(
                cell,
                property,
                "expected a thread such as M40x1.5",
                "word",
            )),
        },
        ValueType::Word(list) => Ok(Stated::Word(word(cell, settled, list)?, list)),
        // Of the two words the first is yes.
        ValueType::Flag => Ok(Stated::Flag(word(cell, settled, FLAG)?.at == 0)),
        // A part called `-` is no part: believing it would put the tool into a collet.
        ValueType::Reference(_) if is_stand_in(text) => Err(nothing(cell, settled)),
        // Nor does a program call a tool by `?`.
        ValueType::Text if property.starred && is_stand_in(text) => Err(nothing(cell, settled)),
        ValueType::Text | ValueType::Id | ValueType::Reference(_) => {
            Ok(Stated::Text(cell.text.clone()))
        }
    }
}

/// A plain number without any mark, as most are: nothing else need be asked.
fn plain(cell: &Cell<'_>, settled: &Settled) -> Option<f64> {
    let is_quantity = matches!(
        settled.property.value,
        ValueType::Quantity(_) | ValueType::Size
    );
    let bare = settled
        .bare
        .filter(|_| is_quantity && cell.unit.is_none())?;
    let (number, is_marked) = units::read_plain(&cell.text, bare, settled.decimal)?;
    (!is_marked).then_some(number)
}

/// A number with or without its unit.
fn quantity<'t>(cell: &Cell<'_>, settled: &Settled, unit: Unit) -> Result<Stated<'t>, Fault> {
    let (text, property, decimal) = (cell.text.as_ref(), settled.property, settled.decimal);
    let stated = beside(cell, property, unit)?;
    if let Some(stated) = stated
        && let Some(own) = units::own_unit(text, unit, decimal)
        && own.name != stated.name
    {
        let problem = format!(
            "two units, `{}` behind the number and `{}` beside it; state one",
            own.name, stated.name
        );
        return Err(wrong(cell, property, problem, "unit"));
    }
    if says_unsure(text) {
        let problem = "not sure, as it says itself; measure it, and state the number alone";
        return Err(wrong(cell, property, problem, "number"));
    }
    if is_date(text) {
        let problem = "a date, as a spreadsheet makes of `1/4` or `6.8`; enter the value as text";
        return Err(wrong(cell, property, problem, "number"));
    }
    if property.field == Field::CuttingDiameter
        && stated.is_none()
        && let Some(number) = trade_size::diameter(text, decimal)
    {
        return in_range(cell, property, number);
    }
    let text = match two_sizes::of(cell, settled) {
        Some(Ok((diameter, _))) => diameter,
        Some(Err(problem)) => return Err(wrong(cell, property, problem, "number")),
        None => text,
    };
    let bare = if property.name.ends_with("diameter") {
        let text = text.trim_start();
        text.strip_prefix(['Ø', 'ø', '⌀']).unwrap_or(text)
    } else {
        text
    };
    let bare = if property.name.ends_with("diameter") {
        without_class(bare)
    } else {
        bare
    };
    let read = units::read(bare, unit, stated.or(settled.bare), decimal);
    let number = read.map_err(|problem| unreadable(cell, settled, &problem, unit))?;
    in_range(cell, property, number)
}

/// A unit beside a cell that is no quantity.
pub(super) fn stray_unit(cell: &Cell<'_>, property: &Property) -> Option<Fault> {
    let (unit, place) = cell.unit.as_deref()?;
    if matches!(property.value, ValueType::Quantity(_)) || unit.trim() == "1" {
        return None;
    }
    let fault = Fault::new(fault_kind::UNKNOWN_ELEMENT, *place, property.name)
        .with("element", "unit")
        .with("parent", property.name.replace('_', "-"))
        .with("hint", "only quantities have one");
    Some(fault)
}

/// The unit that stands beside a cell, where its format has a place for one.
fn beside(
    cell: &Cell<'_>,
    property: &Property,
    wanted: Unit,
) -> Result<Option<&'static Spelling>, Fault> {
    let Some((unit, place)) = cell.unit.as_deref() else {
        return Ok(None);
    };
    Spelling::named(unit, wanted).map(Some).map_err(|problem| {
        Fault::new(fault_kind::CELL_UNREADABLE, *place, property.name)
            .with("property", property.name)
            .quoting("text", unit)
            .with("problem", problem.explain(wanted, Asked::InCell))
            .with("kind", "unit")
    })
}

/// Words that may stand before the number of a size: the word itself, and the two letters by
/// which the trade calls the collets of ISO 15488, whoever made them.
const BEFORE_SIZE: [&str; 2] = ["size", "er"];
/// The letter before a balance quality grade, ISO 21940-11.
const BEFORE_GRADE: [&str; 1] = ["g"];

/// A number, perhaps behind the one word that belongs there: `G 2.5`, `size 32`. Any other is no
/// prefix: what it would make of the number nobody knows.
fn size<'t>(cell: &Cell<'_>, settled: &Settled) -> Result<Stated<'t>, Fault> {
    let property = settled.property;
    let text = cell.text.trim();
    if is_stand_in(text) {
        return Err(nothing(cell, settled));
    }
    // A hyphen belongs to a size's word; before a grade it is a sign.
    let (words, marks): (&[&str], _) = match property.field {
        Field::BalanceGrade => (&BEFORE_GRADE, ""),
        _ => (&BEFORE_SIZE, "-_.:"),
    };
    let letters = text.find(|c: char| !c.is_alphabetic());
    let (word, behind) = text.split_at(letters.unwrap_or(text.len()));
    let known = words.iter().any(|known| known.eq_ignore_ascii_case(word));
    let bare = if known {
        behind.trim_start_matches(|c: char| c.is_whitespace() || marks.contains(c))
    } else {
        text
    };
    let read = units::read(bare, Unit::One, settled.bare, settled.decimal);
    let number = read.map_err(|problem| match problem {
        Problem::Number(NumberFault::None | NumberFault::Prefix) => {
            let problem = format!(
                "expected the number alone, or behind `{}`",
                words.first().copied().unwrap_or_default()
            );
            wrong(cell, property, problem, "number")
        }
        other => unreadable(cell, settled, &other, Unit::One),
    })?;
    in_range(cell, property, number)
}

/// A word of a list.
fn word(cell: &Cell<'_>, settled: &Settled, list: &'static [Word]) -> Result<&'static Word, Fault> {
    let text = cell.text.as_ref();
    if let Some(word) = closed_lists::find(list, text) {
        return Ok(word);
    }
    if is_stand_in(text) {
        return Err(nothing(cell, settled));
    }
    let known = list
        .iter()
        .flat_map(|word| std::iter::once(word.word).chain(word.also.iter().copied()));
    let problem = match closest(text, known) {
        Some(near) => format!("not a known word; did you mean `{near}`?"),
        None => {
            let all: Vec<&str> = list.iter().map(|word| word.word).collect();
            format!("not a known word; expected one of: {}", all.join(", "))
        }
    };
    Err(wrong(cell, settled.property, problem, "word"))
}

/// A stand-in such as `-` or `tbd`.
fn nothing(cell: &Cell<'_>, settled: &Settled) -> Fault {
    let problem = settled.asked.stand_in();
    wrong(cell, settled.property, problem, "stand-in")
}

fn in_range<'t>(cell: &Cell<'_>, property: &Property, number: f64) -> Result<Stated<'t>, Fault> {
    let (fits, expected) = match property.range {
        Range::Positive => (number > 0.0, "a number above zero"),
        Range::NotNegative => (number >= 0.0, "zero or more"),
        Range::Any => (true, ""),
    };
    if fits && number.is_finite() {
        return Ok(Stated::Number(number));
    }
    let fault = Fault::new(fault_kind::NEGATIVE_LENGTH, cell.place, property.name)
        .with("property", property.name)
        .quoting("text", &cell.text)
        .with("expected", expected);
    Err(fault)
}

fn unreadable(cell: &Cell<'_>, settled: &Settled, problem: &Problem, unit: Unit) -> Fault {
    let (property, asked) = (settled.property, settled.asked);
    if *problem == Problem::UnitMissing {
        let fault = Fault::new(fault_kind::UNIT_MISSING, cell.place, property.name)
            .with("property", property.name)
            .quoting("text", &cell.text)
            .with("problem", problem.explain(unit, asked));
        return fault;
    }
    let kind = match problem {
        Problem::Number(NumberFault::Placeholder) => "stand-in",
        Problem::UnitUnknown(..) | Problem::UnitWrong(_) => "unit",
        _ => "number",
    };
    let explained = match with_point(&cell.text, problem) {
        Some(number) => {
            let here = asked.either("this file", "a question");
            format!(
                "decimal comma where {here} has points: write {}",
                quoted(&number)
            )
        }
        None => problem.explain(unit, asked),
    };
    wrong(cell, property, explained, kind)
}

/// The number with a point, where a comma can only be a decimal mark: `12,5`, not `1,250`.
fn with_point(text: &str, problem: &Problem) -> Option<String> {
    let (whole, part) = text.split_once(',')?;
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    let comma = *problem == Problem::Number(NumberFault::DecimalComma);
    (comma && digits(whole) && digits(part) && part.len() != 3).then(|| format!("{whole}.{part}"))
}

pub(super) fn wrong(
    cell: &Cell<'_>,
    property: &Property,
    problem: impl Into<Cow<'static, str>>,
    kind: &'static str,
) -> Fault {
    Fault::new(fault_kind::CELL_UNREADABLE, cell.place, property.name)
        .with("property", property.name)
        .quoting("text", &cell.text)
        .with("problem", problem)
        .with("kind", kind)
        .with("starred", if property.starred { "yes" } else { "no" })
}
