//! Where a value comes from, kept to the end: used, assumed, missing.

use crate::units::Scalar;

use super::{ClosedList, Field, Provenance, Setting};

/// A set of fields.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct FieldSet([u64; 3]);

const _: () = assert!(Field::COUNT <= 3 * 64, "FieldSet has a bit for every field");

impl FieldSet {
    /// The set of no field.
    pub const NONE: FieldSet = FieldSet([0; 3]);

    /// The set of one field.
    #[must_use]
    pub const fn of(field: Field) -> FieldSet {
        let bit = 1 << (field as usize % 64);
        match field as usize / 64 {
            0 => FieldSet([bit, 0, 0]),
            1 => FieldSet([0, bit, 0]),
            _ => FieldSet([0, 0, bit]),
        }
    }

    /// Fields of either set.
    #[must_use]
    pub const fn union(self, other: FieldSet) -> FieldSet {
        let (own, other) = (self.0, other.0);
        FieldSet([own[0] | other[0], own[1] | other[1], own[2] | other[2]])
    }

    /// Fields that stand in both sets.
    #[must_use]
    pub const fn common(self, other: FieldSet) -> FieldSet {
        let (own, other) = (self.0, other.0);
        FieldSet([own[0] & other[0], own[1] & other[1], own[2] & other[2]])
    }

    /// Whether it holds none.
    #[must_use]
    pub const fn is_empty(self) -> bool {
        let [a, b, c] = self.0;
        a | b | c == 0
    }

    /// Whether it holds the field.
    #[must_use]
    pub const fn contains(self, field: Field) -> bool {
        !self.common(FieldSet::of(field)).is_empty()
    }

    /// Its fields in the order of the vocabulary.
    pub fn iter(self) -> impl Iterator<Item = Field> {
        let words = self.0.into_iter().zip([0, 64, 128]);
        let bits = words.flat_map(|(mut word, first)| {
            std::iter::from_fn(move || {
                let lowest = (word != 0).then(|| first + word.trailing_zeros() as usize);
                word &= word.wrapping_sub(1);
                lowest
            })
        });
        bits.filter_map(|at| super::PROPERTIES.get(at))
            .map(|property| property.field)
    }
}

/// A set of settings.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct SettingSet(u64);

const _: () = assert!(
    Setting::ALL.len() <= 64,
    "SettingSet has a bit for every setting"
);

impl SettingSet {
    /// Settings that stand in both sets.
    #[must_use]
    pub fn common(self, other: SettingSet) -> SettingSet {
        SettingSet(self.0 & other.0)
    }

    /// Settings of either set.
    #[must_use]
    pub fn union(self, other: SettingSet) -> SettingSet {
        SettingSet(self.0 | other.0)
    }

    /// Settings of this set that do not stand in the other.
    #[must_use]
    pub fn without(self, other: SettingSet) -> SettingSet {
        SettingSet(self.0 & !other.0)
    }

    /// Whether it holds none.
    #[must_use]
    pub fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// Whether it holds the setting.
    #[must_use]
    pub fn contains(self, setting: Setting) -> bool {
        !self.common(SettingSet::of(setting)).is_empty()
    }

    /// The set of one setting.
    #[must_use]
    pub fn of(setting: Setting) -> SettingSet {
        SettingSet(1 << setting as u64)
    }

    /// Its settings.
    pub fn iter(self) -> impl Iterator<Item = Setting> {
        let all = Setting::ALL.iter().copied();
        all.filter(move |setting| self.0 & (1 << *setting as u64) != 0)
    }
}

/// What a value rests on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Trace {
    /// Fields that it was computed from.
    pub used: FieldSet,
    /// Those of them that were assumed: inferred, or taken from a standing table.
    pub assumed: FieldSet,
    /// Fields that are needed and not there.
    pub missing: FieldSet,
    /// Fields whose absence it rests on.
    pub absent: FieldSet,
    /// Fields that nobody states and that are a range: this is the value at one place in it.
    pub ranged: FieldSet,
    /// Settings that it was computed with.
    pub settings: SettingSet,
}

/// A value that may be unknown, with what it rests on.
///
/// # Examples
/// ```
/// use shankwise::library::{All, Field, Provenance, Reckoned, Trace};
/// let length = Reckoned::known(83.0, Trace::used(Field::OverallLength));
/// let stick_out = Reckoned::<f64>::missing(Field::StickOut);
/// let insertion = (length, stick_out).all().map(|(l, p)| l - p);
/// assert_eq!(insertion.value, None);
/// assert!(insertion.trace.missing.contains(Field::StickOut));
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reckoned<T, P = Trace> {
    /// The value; `None` if something is missing.
    pub value: Option<T>,
    /// What it rests on.
    pub trace: P,
}

impl<T, P: Provenance> Reckoned<T, P> {
    /// A known value.
    #[must_use]
    pub fn known(value: T, trace: P) -> Reckoned<T, P> {
        Reckoned {
            value: Some(value),
            trace,
        }
    }

    /// A value that rests on nothing that could be missing.
    #[must_use]
    pub fn free(value: T) -> Reckoned<T, P> {
        Reckoned::known(value, P::default())
    }

    /// An unknown value.
    #[must_use]
    pub fn unknown(trace: P) -> Reckoned<T, P> {
        Reckoned { value: None, trace }
    }

    /// An unknown value for want of one field.
    #[must_use]
    pub fn missing(field: Field) -> Reckoned<T, P> {
        Reckoned::unknown(P::missing(field))
    }

    /// Applies a function to a known value.
    #[must_use]
    pub fn map<U>(self, f: impl FnOnce(T) -> U) -> Reckoned<U, P> {
        Reckoned {
            value: self.value.map(f),
            trace: self.trace,
        }
    }

    /// Goes on with a known value; the result rests on both.
    #[must_use]
    pub fn and_then<U>(self, f: impl FnOnce(T) -> Reckoned<U, P>) -> Reckoned<U, P> {
        match self.value {
            None => Reckoned::unknown(self.trace),
            Some(value) => f(value).resting_on(self.trace),
        }
    }

    /// The same, resting on something more.
    #[must_use]
    pub fn resting_on(self, trace: P) -> Reckoned<T, P> {
        Reckoned {
            value: self.value,
            trace: self.trace.union(trace),
        }
    }

    /// Whether it is known.
    #[must_use]
    pub fn is_known(&self) -> bool {
        self.value.is_some()
    }

    /// Both together; unknown if either is, naming what is missing of both.
    #[must_use]
    pub fn zip<U>(self, other: Reckoned<U, P>) -> Reckoned<(T, U), P> {
        Reckoned {
            value: self.value.zip(other.value),
            trace: self.trace.union(other.trace),
        }
    }
}

impl<'a, P: Provenance> Reckoned<Scalar<&'a str>, P> {
    /// The same as a number; unknown if it is none.
    #[must_use]
    pub fn number(self) -> Reckoned<f64, P> {
        self.of(Scalar::number)
    }

    /// The same as a word or text; unknown if it is none.
    #[must_use]
    pub fn text(self) -> Reckoned<&'a str, P> {
        self.of(Scalar::text)
    }

    /// The same as a word of a closed list; unknown if it is none of it.
    #[must_use]
    pub fn listed<L: ClosedList>(self) -> Reckoned<L, P> {
        self.of(|value| match value {
            Scalar::Word(word) => L::of(word),
            _ => None,
        })
    }

    /// The same as yes or no; unknown if it is none.
    #[must_use]
    pub fn truth(self) -> Reckoned<bool, P> {
        self.of(Scalar::truth)
    }

    fn of<U>(self, part: impl FnOnce(Scalar<&'a str>) -> Option<U>) -> Reckoned<U, P> {
        Reckoned {
            value: self.value.and_then(part),
            trace: self.trace,
        }
    }
}

impl<A, B, C, D, P: Provenance> All
    for (
        Reckoned<A, P>,
        Reckoned<B, P>,
        Reckoned<C, P>,
        Reckoned<D, P>,
    )
{
    type Rests = P;
    type Values = (A, B, C, D);
    fn all(self) -> Reckoned<(A, B, C, D), P> {
        let (first, second) = (self.0.zip(self.1), self.2.zip(self.3));
        first.zip(second).map(|((a, b), (c, d))| (a, b, c, d))
    }
}

/// Several values taken together: known if all are, else naming everything that is missing.
pub trait All {
    /// What they rest on.
    type Rests: Provenance;
    /// The values.
    type Values;
    /// Takes them together.
    fn all(self) -> Reckoned<Self::Values, Self::Rests>;
}

impl<A, B, P: Provenance> All for (Reckoned<A, P>, Reckoned<B, P>) {
    type Rests = P;
    type Values = (A, B);
    fn all(self) -> Reckoned<(A, B), P> {
        self.0.zip(self.1)
    }
}

impl<A, B, C, P: Provenance> All for (Reckoned<A, P>, Reckoned<B, P>, Reckoned<C, P>) {
    type Rests = P;
    type Values = (A, B, C);
    fn all(self) -> Reckoned<(A, B, C), P> {
        self.0.zip(self.1).zip(self.2).map(|((a, b), c)| (a, b, c))
    }
}
