//! Which decimal mark a table uses, and numbers that may be read in two ways.
//!
//! `9.000` is nine or nine thousand: where a comma is the decimal mark, a point separates
//! thousands. Such a number is never read in silence as one of the two, unless the other numbers
//! of its table tell.

use crate::input::Table;
use crate::units::{Decimal, Unit};

use super::columns::Target;
use super::property::ValueType;

/// What the numbers of a table tell about its marks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Marks {
    /// A comma can only be a decimal mark somewhere: `5,5`.
    comma: bool,
    /// A point can only be a decimal mark somewhere: `5.5`, or a length `43.500`, which would be
    /// longer than any tool without it.
    point: bool,
    /// The table's own decimal mark.
    decimal: Option<Decimal>,
    /// Its cells are separated by semicolons.
    semicolons: bool,
}

/// A plain number with one mark: what stands before and behind it.
struct Marked<'t> {
    whole: &'t str,
    part: &'t str,
    mark: char,
}

impl<'t> Marked<'t> {
    /// The number that a cell begins with, if it has one mark and digits on both sides of it.
    fn of(text: &'t str) -> Option<Marked<'t>> {
        // Most numbers have no mark.
        if !text.bytes().any(|byte| matches!(byte, b'.' | b',')) {
            return None;
        }
        let text = text.trim().trim_start_matches(['-', '−', '+']).trim_start();
        let end = text.find(|c: char| !c.is_ascii_digit() && c != '.' && c != ',');
        let (number, rest) = text.split_at(end.unwrap_or(text.len()));
        // An exponent or a fraction has no thousands.
        if rest.starts_with(['e', 'E', '/']) {
            return None;
        }
        let at = number.find(['.', ','])?;
        let (whole, behind) = number.split_at(at);
        let mark = behind.chars().next()?;
        let part = behind.get(1..)?;
        let digits = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
        (digits(whole) && digits(part)).then_some(Marked { whole, part, mark })
    }

    /// Whether its mark may separate thousands: three digits behind it, one to three before it,
    /// of which the first is no zero.
    fn may_be_thousands(&self) -> bool {
        self.part.len() == 3 && self.whole.len() <= 3 && !self.whole.starts_with('0')
    }

    /// Both readings, as a message writes them.
    fn readings(&self) -> (String, String) {
        let part = self.part.trim_end_matches('0');
        let decimal = if part.is_empty() {
            self.whole.to_owned()
        } else {
            format!("{}.{part}", self.whole)
        };
        (decimal, format!("{}{}", self.whole, self.part))
    }
}

/// What the cells of a column hold, if that is numbers.
fn number_of(target: &Target) -> Option<ValueType> {
    let value = target.fields.first()?.property().value;
    let is_number = matches!(
        value,
        ValueType::Quantity(_) | ValueType::Count | ValueType::Size
    );
    is_number.then_some(value)
}

impl Marks {
    /// Looks at all numbers of a table.
    pub(super) fn of(table: &Table<'_>, targets: &[Target]) -> Marks {
        let mut marks = Marks {
            decimal: Some(table.decimal),
            semicolons: table.semicolons,
            ..Marks::default()
        };
        let numbers: Vec<Option<ValueType>> = targets.iter().map(number_of).collect();
        for cell in table.rows.iter().flat_map(|row| &row.cells) {
            let Some(value) = numbers.get(cell.column).copied().flatten() else {
                continue;
            };
            let Some(number) = Marked::of(&cell.text) else {
                continue;
            };
            let is_length = matches!(value, ValueType::Quantity(Unit::Mm));
            let tells = !number.may_be_thousands();
            marks.comma |= number.mark == ',' && tells;
            marks.point |= number.mark == '.' && (tells || is_length);
        }
        marks
    }

    /// Both readings of a number that this table leaves open: with a decimal mark, and with a
    /// mark between thousands.
    pub(super) fn two_readings(self, text: &str) -> Option<(String, String)> {
        let number = Marked::of(text).filter(Marked::may_be_thousands)?;
        let point_file = self.decimal == Some(Decimal::Point);
        let open = match number.mark {
            // In a file with commas between its cells a comma is no decimal mark at all.
            ',' => point_file || self.point || !(self.comma || self.semicolons),
            // One number with a comma in a file of points is the slip, and not the others.
            _ if point_file => self.comma && !self.point,
            _ => self.comma || !self.point,
        };
        open.then(|| number.readings())
    }
}
