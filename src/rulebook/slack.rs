//! How far a condition is from its edge, and what a condition that does not apply waits for.

use super::ast::{Comparison, Operator};
use super::eval::{Environment, TraceLike, Values};
use super::type_check::{Checked, Node, NodeKind};
use crate::units::Scalar;

impl Checked {
    /// How far a condition is from its edge: above 0 it holds, below 0 it does not, whatever
    /// counts as equal. Infinite for what has no edge, such as words.
    ///
    /// It is as smooth as the values compared, so that the edge can be found as its root; its
    /// unit is that of the comparison that decides. `None` if it is not known.
    #[must_use]
    pub fn slack<'v, V: Values<'v>>(&'v self, environment: &Environment<'_, V>) -> Option<f64> {
        environment.slack(&self.root)
    }

    /// What a condition that is not true waits for: `None` if it is false whatever may still be
    /// stated, else what would have to be stated first.
    #[must_use]
    pub fn waits_for<'v, V: Values<'v>>(
        &'v self,
        environment: &Environment<'_, V>,
    ) -> Option<V::Trace> {
        let doubting = Environment {
            values: environment.values,
            private: environment.private,
            shared: environment.shared,
            tolerance: environment.tolerance,
            doubting: true,
        };
        let mut all = V::Trace::default();
        for part in conjuncts(&self.root) {
            if environment.truth(part).0 == Some(true) {
                continue;
            }
            let (truth, trace) = doubting.truth(part);
            if truth == Some(false) {
                return None;
            }
            all = all.union(trace);
        }
        Some(all)
    }
}

/// The conditions that must all be true.
fn conjuncts(node: &Node) -> Vec<&Node> {
    match &node.kind {
        NodeKind::Logic(Operator::And, a, b) => {
            let mut parts = conjuncts(a);
            parts.extend(conjuncts(b));
            parts
        }
        _ => vec![node],
    }
}

impl<'v, V: Values<'v>> Environment<'_, V> {
    fn slack(&self, node: &'v Node) -> Option<f64> {
        match &node.kind {
            NodeKind::Not(inner) => self.slack(inner).map(|slack| -slack),
            NodeKind::Logic(operator, a, b) => {
                let (a, b) = (self.slack(a), self.slack(b));
                let pick = if *operator == Operator::Or {
                    f64::max
                } else {
                    f64::min
                };
                let decides = |slack: &f64| (*slack > 0.0) == (*operator == Operator::Or);
                match (a, b) {
                    (Some(a), Some(b)) => Some(pick(a, b)),
                    // One side may decide alone.
                    (one, other) => one.or(other).filter(decides),
                }
            }
            NodeKind::Choice(condition, yes, no) => {
                let taken = if self.truth(condition).0? { yes } else { no };
                self.slack(taken)
            }
            NodeKind::Compare(comparison, a, b) => match (self.number(a).0, self.number(b).0) {
                (Some(a), Some(b)) => Some(distance(*comparison, a, b)),
                _ => self.edgeless(node),
            },
            _ => self.edgeless(node),
        }
    }

    /// What is true or false and nothing between.
    fn edgeless(&self, node: &'v Node) -> Option<f64> {
        match self.node(node).value? {
            Scalar::Truth(true) => Some(f64::INFINITY),
            Scalar::Truth(false) => Some(f64::NEG_INFINITY),
            _ => None,
        }
    }
}

fn distance(comparison: Comparison, a: f64, b: f64) -> f64 {
    match comparison {
        Comparison::Less | Comparison::LessOrEqual => b - a,
        Comparison::Greater | Comparison::GreaterOrEqual => a - b,
        Comparison::Equal => -(a - b).abs(),
        Comparison::NotEqual => (a - b).abs(),
    }
}
