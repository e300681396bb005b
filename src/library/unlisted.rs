//! Values that are stated, and that the table they are looked up in does not know.

use crate::text::quoted;

use super::{Field, View, workpiece};

/// The fields whose value is a key of a table of the program, with the table's name.
const KEYS: [(Field, &str); 4] = [
    (Field::WorkpieceMaterial, "table of materials"),
    (Field::ColletSize, "table of collets"),
    (Field::NutColletSize, "table of nuts"),
    (Field::HolderColletSize, "table of collets"),
];

impl View<'_> {
    /// What to say of a field for want of which something is not known although the library
    /// states it: ``stated as `1.2379`, not in the table of materials``.
    #[must_use]
    pub fn unlisted(&self, field: Field) -> Option<String> {
        let (_, table) = KEYS.into_iter().find(|(key, _)| *key == field)?;
        let entry = self.entry(field)?;
        let text = self.library.sources.text(entry.place());
        let shown = quoted(text);
        let near = (field == Field::WorkpieceMaterial)
            .then(|| workpiece::nearest(self.library, text))
            .flatten();
        let near = near.map_or_else(String::new, |near| format!("; nearest there: {near}"));
        Some(format!("stated as `{shown}`, not in the {table}{near}"))
    }
}
