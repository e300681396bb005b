//! Which decimal mark a table uses, and numbers that may be read in two ways.
//!
//! `9.000` is nine or nine thousand: where a comma is the decimal mark, a point separates
//! thousands. Such a number is never read in silence as one of the two, unless the other numbers
//! of its table tell. So a table is read once, and what it leaves open a second time.

use crate::input::Manner;
use crate::units::{Decimal, Unit};

use super::property::ValueType;

/// What the numbers of some rows tell about the marks of their table.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Seen {
    /// A comma can only be a decimal mark somewhere: `5,5`.
    comma: bool,
    /// A point can only be a decimal mark somewhere: `5.5`, or a length `43.500`, which would be
    /// longer than any tool without it.
    point: bool,
    /// Marks that may separate thousands stand somewhere.
    doubtful: Open,
}

/// The marks that have two readings, where three digits follow them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Open {
    comma: bool,
    point: bool,
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

/// Whether a number may be read in two ways, where nothing tells which mark its table has.
pub(super) fn may_be_two(text: &str) -> bool {
    Marked::of(text).is_some_and(|number| number.may_be_thousands())
}

impl Seen {
    /// Looks at a cell that should hold a number.
    pub(super) fn look(&mut self, text: &str, value: ValueType) {
        let Some(number) = Marked::of(text) else {
            return;
        };
        let is_length = matches!(value, ValueType::Quantity(Unit::Mm));
        let doubtful = number.may_be_thousands();
        if number.mark == ',' {
            self.comma |= !doubtful;
            self.doubtful.comma |= doubtful;
        } else {
            self.point |= !doubtful || is_length;
            self.doubtful.point |= doubtful;
        }
    }

    /// What both tell.
    pub(super) fn with(self, other: Seen) -> Seen {
        Seen {
            comma: self.comma || other.comma,
            point: self.point || other.point,
            doubtful: Open {
                comma: self.doubtful.comma || other.doubtful.comma,
                point: self.doubtful.point || other.doubtful.point,
            },
        }
    }

    /// The marks that all numbers of a table leave open.
    pub(super) fn open(self, manner: Manner) -> Open {
        if manner.in_sheet {
            // A stored number has a point and one reading. Of texts a comma that could separate
            // thousands is open, and so is a point if another text has a decimal comma.
            return Open {
                comma: true,
                point: self.comma,
            };
        }
        let point_file = manner.decimal == Decimal::Point;
        Open {
            // In a file with commas between its cells a comma is no decimal mark at all.
            comma: point_file || self.point || !(self.comma || manner.semicolons),
            // One number with a comma in a file of points is the slip, and not the others.
            point: if point_file {
                self.comma && !self.point
            } else {
                self.comma || !self.point
            },
        }
    }

    /// Whether these rows have a number that is left open.
    pub(super) fn meets(self, open: Open) -> bool {
        (self.doubtful.comma && open.comma) || (self.doubtful.point && open.point)
    }

    /// Whether these rows have any number that other rows of their table may leave open.
    pub(super) fn is_doubtful(self) -> bool {
        self.doubtful != Open::default()
    }
}

impl Open {
    /// The same for what is stored as a number, in which a point has one reading.
    pub(super) fn of_stored(self) -> Open {
        Open {
            point: false,
            ..self
        }
    }

    /// Both readings of a number that its table leaves open: with a decimal mark, and with a
    /// mark between thousands.
    pub(super) fn two_readings(self, text: &str) -> Option<(String, String)> {
        if self == Open::default() {
            return None;
        }
        let number = Marked::of(text).filter(Marked::may_be_thousands)?;
        let open = if number.mark == ',' {
            self.comma
        } else {
            self.point
        };
        open.then(|| number.readings())
    }
}
