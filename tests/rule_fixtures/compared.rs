//! How many values a rule's condition compares.

use shankwise::rulebook::{Expr, ExprKind, Operator, parse};

/// The most names that stand on both sides of one comparison: 2 if a value is compared with
/// another, 1 if with a number as written, 0 if nothing is compared.
pub(super) fn values_compared(expr: &Expr) -> usize {
    let any = |all: &[&Expr]| all.iter().map(|expr| values_compared(expr)).max();
    match &expr.kind {
        ExprKind::Binary(Operator::Compare(_), a, b) => {
            usize::from(names(a)) + usize::from(names(b))
        }
        ExprKind::Binary(_, a, b) => any(&[a, b]).unwrap_or(0),
        ExprKind::Not(a) => values_compared(a),
        ExprKind::Choice(a, b, c) => any(&[a, b, c]).unwrap_or(0),
        _ => 0,
    }
}

/// Whether a name stands in an expression.
fn names(expr: &Expr) -> bool {
    match &expr.kind {
        ExprKind::Name(_) => true,
        ExprKind::Not(a) | ExprKind::Negative(a) => names(a),
        ExprKind::Binary(_, a, b) => names(a) || names(b),
        ExprKind::Choice(a, b, c) => names(a) || names(b) || names(c),
        ExprKind::Call(_, all) | ExprKind::List(all) => all.iter().any(names),
        ExprKind::Number(..) | ExprKind::Text(_) | ExprKind::Truth(_) => false,
    }
}

/// A comparison is seen wherever it stands, or the test above would ask for nothing.
#[test]
fn compared_values_are_counted() {
    let counted = |text: &str| values_compared(&parse(text).unwrap());
    assert_eq!(counted("known(nut_torque)"), 0);
    assert_eq!(counted("ungripped_front <= 0 mm"), 1);
    assert_eq!(counted("!known(a) || a >= b + 1 mm"), 2);
}
