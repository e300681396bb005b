//! Cells of a sheet that are not what their text looks like.

use crate::input::{Cell, Fault};
use crate::text::Odd;

use super::ValueType;
use super::cell::{Settled, wrong};

/// What is wrong with a cell of a sheet that its text does not tell.
pub(super) fn fault(cell: &Cell<'_>, settled: &Settled, odd: Odd) -> Option<Fault> {
    let property = settled.property;
    let is_remark = matches!(property.value, ValueType::Text) && !property.starred;
    let problem = match odd {
        Odd::TextNumber => return None,
        Odd::Date if is_remark => return None,
        Odd::Date => {
            "a date or time; spreadsheets make one of numbers such as 5-1: write the value again, as a number or text"
        }
        Odd::Error => "an error value; mend its formula",
        Odd::Unsaved => {
            "a formula whose value is not stored; open the workbook in a spreadsheet and save it"
        }
    };
    Some(wrong(cell, property, problem, "number"))
}
