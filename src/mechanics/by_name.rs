//! Formulas by name, for the evidence: a row names one with its inputs. Each topic lists its own
//! at the end of its file.

use std::collections::BTreeMap;

/// The inputs of a row by name.
#[derive(Clone, Copy)]
pub(crate) struct Given<'g>(pub &'g BTreeMap<String, f64>);

impl Given<'_> {
    pub(super) fn number(self, name: &str) -> Option<f64> {
        self.0.get(name).copied()
    }

    /// An angle, which rows state in degrees.
    pub(super) fn degrees(self, name: &str) -> Option<f64> {
        self.number(name).map(f64::to_radians)
    }

    pub(super) fn or(self, name: &str, otherwise: f64) -> f64 {
        self.number(name).unwrap_or(otherwise)
    }
}

/// A formula that rows can name.
pub(crate) struct Formula {
    /// Its topic and its name, `axial.insertion`.
    pub name: &'static str,
    /// Its value; `None` if an input is not given.
    pub reckon: fn(Given<'_>) -> Option<f64>,
}

/// The formulas of a topic: those that are a function of this name and of plain numbers, each with
/// the names of its inputs, and then the others. An input may be an angle, `flank degrees`, or
/// have a value where it is not given, `bare or 0.0`.
macro_rules! formulas {
    (@ $given:ident $input:ident) => { $given.number(stringify!($input))? };
    (@ $given:ident $input:ident degrees) => { $given.degrees(stringify!($input))? };
    (@ $given:ident $input:ident or $otherwise:literal) => {
        $given.or(stringify!($input), $otherwise)
    };
    ($topic:literal {
        $($name:ident($($input:ident $($how:ident $($otherwise:literal)?)?),*);)*
    } {
        $($other:ident => $reckon:expr;)*
    }) => {
        /// By name.
        pub(super) const FORMULAS: &[$crate::mechanics::by_name::Formula] = &[
            $($crate::mechanics::by_name::Formula {
                name: concat!($topic, ".", stringify!($name)),
                reckon: |given| {
                    Some($name($($crate::mechanics::by_name::formulas!(
                        @ given $input $($how $($otherwise)?)?
                    )),*))
                },
            },)*
            $($crate::mechanics::by_name::Formula {
                name: concat!($topic, ".", stringify!($other)),
                reckon: $reckon,
            },)*
        ];
    };
}
pub(super) use formulas;
