//! The day on which it is judged: what the shop accepts holds until one.

use crate::rulebook::Date;

/// Reads a day of the calendar.
pub(super) fn day(text: &str) -> Result<Date, String> {
    let date = jiff::civil::Date::strptime("%Y-%m-%d", text.trim());
    date.map(of)
        .map_err(|_| "expected a day of the calendar, such as 2027-01-31".to_owned())
}

/// The day that is asked for; else today by this machine's clock and zone.
pub(super) fn of_run(as_of: Option<Date>) -> Date {
    as_of.unwrap_or_else(|| of(jiff::ZonedDateTime::now().date()))
}

fn of(date: jiff::civil::Date) -> Date {
    Date {
        year: date.year(),
        month: date.month(),
        day: date.day(),
    }
}
