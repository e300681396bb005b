//! Evaluating with unknowns: what is missing is never taken for a yes or a no.

use crate::units::{Dimension, Scalar, Unit};

use super::ast::{Comparison, Operator};
use super::type_check::{Checked, Node, NodeKind, Of, Symbol};

/// What a value rests on, as far as the rulebook cares.
pub trait TraceLike: Copy + Default {
    /// Resting on both.
    #[must_use]
    fn union(self, other: Self) -> Self;
    /// Resting only on whether something is there, not on its value.
    #[must_use]
    fn presence(self) -> Self;
}

/// A value that may be unknown, and what it rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Found<'v, T> {
    /// The value.
    pub value: Option<Scalar<&'v str>>,
    /// What it rests on.
    pub trace: T,
}

/// Hands in the values of facts and properties.
pub trait Values<'v> {
    /// What a value rests on.
    type Trace: TraceLike;
    /// The value of a fact or property, in its canonical unit.
    fn value(&self, id: u32) -> Found<'v, Self::Trace>;
}

/// How near two values count as equal.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tolerance {
    /// Lengths, mm.
    pub length: f64,
    /// Everything else, as a ratio.
    pub relative: f64,
}

/// Everything that an expression is evaluated against.
pub struct Environment<'e, V> {
    /// Facts and properties.
    pub values: &'e V,
    /// The rule's own limits, in canonical units.
    pub private: &'e [f64],
    /// The shared limits, in canonical units.
    pub shared: &'e [f64],
    /// When values count as equal.
    pub tolerance: Tolerance,
    /// Whether `known(x)` of what is not stated is unknown instead of false: it might be.
    pub doubting: bool,
}

/// Two numbers that a failing condition compared, in coherent units.
#[derive(Clone, Debug, PartialEq)]
pub struct Compared {
    /// Both sides as written.
    pub sides: [String; 2],
    /// Both values, in `unit`.
    pub values: [f64; 2],
    /// The unit to show them in.
    pub unit: Unit,
    /// How they were compared.
    pub comparison: Comparison,
}

impl Checked {
    /// Evaluates the expression.
    #[must_use]
    pub fn evaluate<'v, V: Values<'v>>(
        &'v self,
        environment: &Environment<'_, V>,
    ) -> Found<'v, V::Trace> {
        environment.node(&self.root)
    }

    /// The unit of its value, if it is a number that has a unit in the closed list.
    #[must_use]
    pub fn unit(&self) -> Option<Unit> {
        unit_of(&self.root)
    }

    /// Whether it names limits only.
    #[must_use]
    pub fn is_limit(&self) -> bool {
        let outside = |(_, symbol): &(String, Symbol)| matches!(symbol, Symbol::Outside(_));
        !self.symbols.iter().any(outside)
    }

    /// The comparisons of numbers in it that come out false.
    #[must_use]
    pub fn failing<'v, V: Values<'v>>(&'v self, environment: &Environment<'_, V>) -> Vec<Compared> {
        let mut found = Vec::new();
        self.collect(&self.root, environment, true, &mut found);
        found
    }

    /// All comparisons of numbers in it that are evaluated, whatever comes out.
    #[must_use]
    pub fn comparisons<'v, V: Values<'v>>(
        &'v self,
        environment: &Environment<'_, V>,
    ) -> Vec<Compared> {
        let mut found = Vec::new();
        self.collect(&self.root, environment, false, &mut found);
        found
    }

    fn collect<'v, V: Values<'v>>(
        &'v self,
        node: &'v Node,
        environment: &Environment<'_, V>,
        failing: bool,
        found: &mut Vec<Compared>,
    ) {
        match &node.kind {
            NodeKind::Logic(_, a, b) => {
                self.collect(a, environment, failing, found);
                self.collect(b, environment, failing, found);
            }
            NodeKind::Choice(condition, yes, no) => match environment.truth(condition).0 {
                Some(true) => self.collect(yes, environment, failing, found),
                Some(false) => self.collect(no, environment, failing, found),
                None => {}
            },
            NodeKind::Compare(comparison, a, b)
                if !failing || environment.truth(node).0 == Some(false) =>
            {
                found.extend(self.compared(*comparison, (a, b), environment));
            }
            _ => {}
        }
    }

    fn compared<'v, V: Values<'v>>(
        &'v self,
        comparison: Comparison,
        (a, b): (&'v Node, &'v Node),
        environment: &Environment<'_, V>,
    ) -> Option<Compared> {
        let unit = unit_of(a).or_else(|| unit_of(b))?;
        let (Some(x), Some(y)) = (environment.number(a).0, environment.number(b).0) else {
            return None;
        };
        let side = |node: &Node| self.text.get(node.span.range()).unwrap_or("").to_owned();
        Some(Compared {
            sides: [side(a), side(b)],
            values: [x / unit.coherent(), y / unit.coherent()],
            unit,
            comparison,
        })
    }
}

fn unit_of(node: &Node) -> Option<Unit> {
    match &node.of {
        Of::Number(_, Some(unit)) => Some(*unit),
        Of::Number(dimension, None) => Unit::of(*dimension),
        _ => None,
    }
}

impl<'v, V: Values<'v>> Environment<'_, V> {
    pub(super) fn node(&self, node: &'v Node) -> Found<'v, V::Trace> {
        match &node.kind {
            NodeKind::Number(value) => free(Scalar::Number(*value)),
            NodeKind::Text(text) => free(Scalar::Text(text)),
            NodeKind::Truth(truth) => free(Scalar::Truth(*truth)),
            NodeKind::Symbol(symbol, coherent) => self.symbol(*symbol, *coherent),
            NodeKind::Not(inner) => truth(self.truth(inner), |inner| !inner),
            NodeKind::Negative(inner) => number(self.number(inner), |inner| -inner),
            NodeKind::Abs(inner) => number(self.number(inner), f64::abs),
            NodeKind::Logic(operator, a, b) => self.logic(*operator, a, b),
            NodeKind::Compare(comparison, a, b) => {
                let (a_found, b_found) = (self.node(a), self.node(b));
                let pair = a_found.value.zip(b_found.value);
                Found {
                    value: pair.map(|(x, y)| {
                        Scalar::Truth(self.tolerance.compare(*comparison, x, y, &a.of))
                    }),
                    trace: a_found.trace.union(b_found.trace),
                }
            }
            NodeKind::In(item, list) => self.within(item, list),
            NodeKind::Arithmetic(operator, a, b) => self.arithmetic(*operator, a, b),
            NodeKind::Choice(condition, yes, no) => {
                let (condition, trace) = self.truth(condition);
                let Some(condition) = condition else {
                    return Found { value: None, trace };
                };
                let taken = self.node(if condition { yes } else { no });
                Found {
                    value: taken.value,
                    trace: taken.trace.union(trace),
                }
            }
            NodeKind::Known(inner) => {
                let inner = self.node(inner);
                if self.doubting && inner.value.is_none() {
                    return inner;
                }
                Found {
                    value: Some(Scalar::Truth(inner.value.is_some())),
                    trace: inner.trace.presence(),
                }
            }
            NodeKind::Extreme(greatest, nodes) => self.extreme(*greatest, nodes),
        }
    }

    fn symbol(&self, symbol: Symbol, coherent: f64) -> Found<'v, V::Trace> {
        let found = match symbol {
            Symbol::Outside(id) => self.values.value(id),
            Symbol::Private(index) => limit(self.private, index),
            Symbol::Shared(index) => limit(self.shared, index),
        };
        let value = found.value.map(|value| match value {
            Scalar::Number(number) => Scalar::Number(number * coherent),
            other => other,
        });
        Found {
            value,
            trace: found.trace,
        }
    }

    pub(super) fn truth(&self, node: &'v Node) -> (Option<bool>, V::Trace) {
        let found = self.node(node);
        match found.value {
            Some(Scalar::Truth(truth)) => (Some(truth), found.trace),
            _ => (None, found.trace),
        }
    }

    pub(super) fn number(&self, node: &'v Node) -> (Option<f64>, V::Trace) {
        let found = self.node(node);
        match found.value {
            Some(Scalar::Number(number)) => (Some(number), found.trace),
            _ => (None, found.trace),
        }
    }

    /// One side may decide alone; then the other's unknowns do not matter.
    fn logic(&self, operator: Operator, a: &'v Node, b: &'v Node) -> Found<'v, V::Trace> {
        let deciding = operator == Operator::Or;
        let decided = |trace| Found {
            value: Some(Scalar::Truth(deciding)),
            trace,
        };
        let (a, of_a) = self.truth(a);
        if a == Some(deciding) {
            return decided(of_a);
        }
        let (b, of_b) = self.truth(b);
        if b == Some(deciding) {
            return decided(of_b);
        }
        Found {
            value: a.and(b).map(|_| Scalar::Truth(!deciding)),
            trace: of_a.union(of_b),
        }
    }

    /// Known only if the item and the whole list are.
    fn within(&self, item: &'v Node, list: &'v [Node]) -> Found<'v, V::Trace> {
        let found = self.node(item);
        let mut trace = found.trace;
        let mut result = found.value.map(|_| false);
        for candidate in list {
            let other = self.node(candidate);
            trace = trace.union(other.trace);
            result = result
                .zip(found.value.zip(other.value))
                .map(|(before, (x, y))| {
                    before || self.tolerance.compare(Comparison::Equal, x, y, &item.of)
                });
        }
        Found {
            value: result.map(Scalar::Truth),
            trace,
        }
    }

    fn arithmetic(&self, operator: Operator, a: &'v Node, b: &'v Node) -> Found<'v, V::Trace> {
        let ((a, of_a), (b, of_b)) = (self.number(a), self.number(b));
        let value = a.zip(b).map(|(a, b)| match operator {
            Operator::Add => a + b,
            Operator::Subtract => a - b,
            Operator::Multiply => a * b,
            _ => a / b,
        });
        // A division by zero has no value.
        let value = value.filter(|value| value.is_finite());
        Found {
            value: value.map(Scalar::Number),
            trace: of_a.union(of_b),
        }
    }

    fn extreme(&self, greatest: bool, nodes: &'v [Node]) -> Found<'v, V::Trace> {
        let start = if greatest {
            f64::NEG_INFINITY
        } else {
            f64::INFINITY
        };
        let mut value = Some(start);
        let mut trace = V::Trace::default();
        for node in nodes {
            let (number, of) = self.number(node);
            trace = trace.union(of);
            let pick = if greatest { f64::max } else { f64::min };
            value = value.zip(number).map(|(a, b)| pick(a, b));
        }
        Found {
            value: value.map(Scalar::Number),
            trace,
        }
    }
}

fn free<T: TraceLike>(value: Scalar<&str>) -> Found<'_, T> {
    Found {
        value: Some(value),
        trace: T::default(),
    }
}

fn limit<'v, T: TraceLike>(limits: &[f64], index: usize) -> Found<'v, T> {
    Found {
        value: limits.get(index).map(|value| Scalar::Number(*value)),
        trace: T::default(),
    }
}

fn truth<'v, T>((value, trace): (Option<bool>, T), f: impl FnOnce(bool) -> bool) -> Found<'v, T> {
    Found {
        value: value.map(|value| Scalar::Truth(f(value))),
        trace,
    }
}

fn number<'v, T>((value, trace): (Option<f64>, T), f: impl FnOnce(f64) -> f64) -> Found<'v, T> {
    Found {
        value: value.map(|value| Scalar::Number(f(value))),
        trace,
    }
}

impl Tolerance {
    fn compare(self, comparison: Comparison, a: Scalar<&str>, b: Scalar<&str>, of: &Of) -> bool {
        let (Scalar::Number(x), Scalar::Number(y)) = (a, b) else {
            return match comparison {
                Comparison::NotEqual => !a.is(b),
                _ => a.is(b),
            };
        };
        // The measure of a distance just over the tolerance is itself off by a rounding.
        let near = match of {
            Of::Number(dimension, _) if *dimension == Dimension::LENGTH => self.length + 1e-9,
            _ => self.relative * x.abs().max(y.abs()),
        };
        let equal = (x - y).abs() <= near;
        match comparison {
            Comparison::Equal => equal,
            Comparison::NotEqual => !equal,
            Comparison::Less => !equal && x < y,
            Comparison::LessOrEqual => equal || x < y,
            Comparison::Greater => !equal && x > y,
            Comparison::GreaterOrEqual => equal || x > y,
        }
    }
}
