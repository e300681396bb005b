//! Values of a question before they are read: a decimal comma, as in `--reach 35,5`.

use crate::library::ValueType;

use super::options::Stated;
use super::refusal::Refusal;

/// Digits that a mark for thousands has behind it.
const GROUP: usize = 3;

/// The same with decimal points, or what is wrong with each number that cannot be read.
pub(super) fn with_points(stated: &[Stated]) -> Result<Vec<Stated>, Vec<Refusal>> {
    let mut wrong = Vec::new();
    let mut read = Vec::new();
    for one in stated {
        match value(one) {
            Ok(value) => read.push(Stated {
                value,
                ..one.clone()
            }),
            Err(problem) => {
                let option = format!("--{}", one.option);
                wrong.push(Refusal::unreadable(&option, &one.value, problem));
            }
        }
    }
    if wrong.is_empty() {
        Ok(read)
    } else {
        Err(wrong)
    }
}

fn value(stated: &Stated) -> Result<String, &'static str> {
    let value = &stated.value;
    if value.contains(char::is_control) {
        return Err("it contains control characters; expected plain text");
    }
    let property = stated.fields.first().map(|field| field.property().value);
    let is_number = matches!(
        property,
        Some(ValueType::Quantity(_) | ValueType::Count | ValueType::Size | ValueType::Thread)
    );
    let Some((before, behind)) = value.split_once(',').filter(|_| is_number) else {
        return Ok(value.clone());
    };
    if before.contains('.') || behind.contains([',', '.']) {
        return Err("more than one mark in a number; expected one such as 12,5 or 12.5");
    }
    let digits = behind.chars().take_while(char::is_ascii_digit).count();
    let whole: String = before
        .chars()
        .rev()
        .take_while(char::is_ascii_digit)
        .collect();
    let may_part_thousands = digits == GROUP && !whole.chars().all(|digit| digit == '0');
    if may_part_thousands {
        return Err("a comma before three digits may part thousands; write 1.250 or 1250");
    }
    if digits == 0 {
        return Err("a comma with no digit behind it; expected a number such as 12,5");
    }
    Ok(format!("{before}.{behind}"))
}
