//! Which values are estimates: they rest on an assumed friction, or on an estimated cut.

use crate::library::{Setting, SettingSet, Trace};

/// The settings that make an estimate of what rests on them, of those that are assumed.
fn estimating(guessed: SettingSet) -> impl Iterator<Item = Setting> {
    let all = Setting::ALL.iter().copied();
    all.filter(move |setting| {
        setting.is_of_cut() || (setting.is_friction() && guessed.contains(*setting))
    })
}

/// Whether a value is an estimate: for people it has two significant digits and says so.
pub(super) fn is_estimate(trace: Trace, guessed: SettingSet) -> bool {
    !trace.settings.is_empty()
        && estimating(guessed).any(|setting| trace.settings.contains(setting))
}
