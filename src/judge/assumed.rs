//! What a finding says that it assumes.

use crate::facts::Scene;
use crate::library::{SettingSet, Trace, reason};
use crate::units::{Scalar, print};

use super::judgement::Judge;
use super::write_up::field_unit;

impl Judge<'_> {
    /// What of a trace is only assumed, with value and reason, for people; of the harmless
    /// settings no value in the band would turn what is said.
    #[must_use]
    pub fn assumptions(
        &self,
        scene: &Scene<'_>,
        trace: Trace,
        harmless: SettingSet,
    ) -> Vec<String> {
        let guessed = trace.settings.common(self.assumed_settings);
        let settings = guessed.iter().filter_map(|setting| {
            let limit = self.book.limit(setting.name())?;
            let then = if harmless.contains(setting) {
                "the result is the same over its whole band"
            } else {
                "state your own under [limit]"
            };
            Some(format!(
                "{} {}: {}; {then}",
                limit.name,
                limit.written,
                limit.basis.name()
            ))
        });
        let assumed = trace.assumed.iter();
        let fields = assumed.filter_map(|field| {
            let why = reason(&scene.view, field)?;
            let value = match (scene.view.datum(field).value, field_unit(field)) {
                (Some(Scalar::Number(number)), Some(unit)) => {
                    print::value(number, unit, scene.view.library.units)
                }
                (value, _) => value
                    .and_then(Scalar::text)
                    .unwrap_or("its value")
                    .to_owned(),
            };
            Some(format!(
                "{} {value}: {why}; confirm on the tool",
                field.qualified()
            ))
        });
        fields.chain(settings).collect()
    }
}
