//! A day, as shop files and options state it.

use std::fmt;

/// A day of the calendar.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date {
    /// Year.
    pub year: i16,
    /// Month, from 1.
    pub month: i8,
    /// Day, from 1.
    pub day: i8,
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

impl Date {
    /// How many days it is after another day; below 0 if it is before.
    #[must_use]
    pub fn days_after(self, other: Date) -> i64 {
        let day = |date: Date| jiff::civil::Date::new(date.year, date.month, date.day).ok();
        let days = day(self).zip(day(other)).map(|(a, b)| a - b);
        days.map_or(0, |span| i64::from(span.get_days()))
    }
}
