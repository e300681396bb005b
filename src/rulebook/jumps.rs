//! Whether a condition may change its mind between two values at which it agrees.
//!
//! A comparison of two lengths does so only where one of them turns round, and its slack shows
//! that. A condition with an alternative, a case, an absolute value or an equality in it may do so
//! anywhere, and unseen: another part of it hides the slack.

use super::ast::{Comparison, Operator};
use super::check::{Checked, Node, NodeKind, Symbol};

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
