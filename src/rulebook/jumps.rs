//! Whether a condition may change its mind between two values at which it agrees, and what it
//! hangs on.
//!
//! A comparison of two lengths does so only where one of them turns round, and its slack shows
//! that. A condition with an alternative, a case, an absolute value or an equality in it may do so
//! unseen: another part of it hides the slack. Its hinges then tell where to look closer.

use std::hash::{DefaultHasher, Hash, Hasher};

use super::ast::{Comparison, Operator};
use super::eval::{Environment, Values};
use super::type_check::{Checked, Node, NodeKind, Of, Symbol};
use crate::units::Scalar;

/// One thing on which a condition hangs. While all of them keep their sides, so does what
/// comes of the condition.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Hinge {
    /// How far two numbers are apart, in coherent units; NaN where one is not known.
    Apart(f64),
    /// What stands for a word, for yes or no, or for a value that is not known.
    Is(u64),
}

impl Hinge {
    /// Whether nothing turns over between two states of one hinge, if it does not turn round on
    /// the way.
    #[must_use]
    pub fn keeps(self, other: Hinge) -> bool {
        match (self, other) {
            (Hinge::Apart(a), Hinge::Apart(b)) => {
                (a > 0.0 && b > 0.0) || (a < 0.0 && b < 0.0) || (a.is_nan() && b.is_nan())
            }
            _ => self == other,
        }
    }

    /// Whether it comes nearer to where it turns over than both of its neighbours are, or as near.
    #[must_use]
    pub fn turns_round(self, before: Hinge, after: Hinge) -> bool {
        let (Hinge::Apart(here), Hinge::Apart(before), Hinge::Apart(after)) = (self, before, after)
        else {
            return false;
        };
        let (here, before, after) = (here.abs(), before.abs(), after.abs());
        here <= before && here <= after && here < before.max(after)
    }
}

impl Checked {
    /// Whether the slack of a condition may hide an edge, if the symbols for which `varies` is
    /// true change and all others stay.
    #[must_use]
    pub fn may_jump(&self, varies: &dyn Fn(u32) -> bool) -> bool {
        jumps(&self.root, varies)
    }

    /// Whether a condition depends at all on symbols for which `varies` is true; whether they are
    /// known does not count.
    #[must_use]
    pub fn depends(&self, varies: &dyn Fn(u32) -> bool) -> bool {
        depends(&self.root, varies)
    }

    /// Whether its hinges tell all: two values that change and are multiplied may turn over and
    /// back between any two places.
    #[must_use]
    pub fn is_hinged(&self, varies: &dyn Fn(u32) -> bool) -> bool {
        hinged(&self.root, varies)
    }

    /// Adds what it hangs on, always in the same order.
    pub fn hinges<'v, V: Values<'v>>(
        &'v self,
        environment: &Environment<'_, V>,
        found: &mut Vec<Hinge>,
    ) {
        environment.hinges(&self.root, found);
    }
}

impl<'v, V: Values<'v>> Environment<'_, V> {
    fn hinges(&self, node: &'v Node, found: &mut Vec<Hinge>) {
        let apart = |a: &'v Node, b: &'v Node| {
            let both = self.number(a).0.zip(self.number(b).0);
            Hinge::Apart(both.map_or(f64::NAN, |(a, b)| a - b))
        };
        match &node.kind {
            NodeKind::Compare(_, a, b) if is_number(a) => found.push(apart(a, b)),
            NodeKind::In(item, list) if is_number(item) => {
                found.extend(list.iter().map(|one| apart(item, one)));
            }
            NodeKind::Abs(inner) => {
                found.push(Hinge::Apart(self.number(inner).0.unwrap_or(f64::NAN)));
            }
            NodeKind::Extreme(_, all) => {
                let pairs = all.windows(2);
                found.extend(pairs.filter_map(|pair| Some(apart(pair.first()?, pair.last()?))));
            }
            NodeKind::Symbol(..) if !is_number(node) => found.push(self.is(node)),
            NodeKind::Known(inner) => {
                found.push(Hinge::Is(self.node(inner).value.is_some().into()));
            }
            _ => {}
        }
        for part in parts(node) {
            self.hinges(part, found);
        }
    }

    /// What stands for a word or a truth.
    fn is(&self, node: &'v Node) -> Hinge {
        let mut hasher = DefaultHasher::new();
        match self.node(node).value {
            Some(Scalar::Word(word)) => word.word.hash(&mut hasher),
            Some(Scalar::Text(text)) => text.hash(&mut hasher),
            Some(Scalar::Truth(truth)) => truth.hash(&mut hasher),
            Some(Scalar::Number(_)) | None => {}
        }
        Hinge::Is(hasher.finish())
    }
}

fn is_number(node: &Node) -> bool {
    matches!(node.of, Of::Number(..))
}

fn hinged(node: &Node, varies: &dyn Fn(u32) -> bool) -> bool {
    let multiplied = match &node.kind {
        NodeKind::Arithmetic(Operator::Multiply | Operator::Divide, a, b) => {
            depends(a, varies) && depends(b, varies)
        }
        _ => false,
    };
    !multiplied && parts(node).into_iter().all(|part| hinged(part, varies))
}

fn depends(node: &Node, varies: &dyn Fn(u32) -> bool) -> bool {
    match &node.kind {
        NodeKind::Symbol(Symbol::Outside(id), _) => varies(*id),
        NodeKind::Known(_) => false,
        _ => parts(node).into_iter().any(|part| depends(part, varies)),
    }
}

fn jumps(node: &Node, varies: &dyn Fn(u32) -> bool) -> bool {
    if !depends(node, varies) {
        return false;
    }
    let any = || parts(node).into_iter().any(|part| jumps(part, varies));
    let both = |a: &Node, b: &Node| depends(a, varies) && depends(b, varies);
    match &node.kind {
        NodeKind::Compare(Comparison::Equal | Comparison::NotEqual, ..)
        | NodeKind::In(..)
        | NodeKind::Abs(_)
        | NodeKind::Extreme(..) => true,
        NodeKind::Logic(Operator::Or, a, b) | NodeKind::Arithmetic(Operator::Multiply, a, b) => {
            both(a, b) || any()
        }
        NodeKind::Not(inner) => matches!(inner.kind, NodeKind::Logic(..)) || any(),
        NodeKind::Choice(condition, ..) => depends(condition, varies) || any(),
        _ => any(),
    }
}

fn parts(node: &Node) -> Vec<&Node> {
    match &node.kind {
        NodeKind::Number(_) | NodeKind::Text(_) | NodeKind::Truth(_) | NodeKind::Symbol(..) => {
            Vec::new()
        }
        NodeKind::Not(inner)
        | NodeKind::Negative(inner)
        | NodeKind::Known(inner)
        | NodeKind::Abs(inner) => vec![inner],
        NodeKind::Logic(_, a, b) | NodeKind::Compare(_, a, b) | NodeKind::Arithmetic(_, a, b) => {
            vec![a, b]
        }
        NodeKind::In(inner, list) => std::iter::once(&**inner).chain(list).collect(),
        NodeKind::Choice(condition, yes, no) => vec![condition, yes, no],
        NodeKind::Extreme(_, all) => all.iter().collect(),
    }
}
