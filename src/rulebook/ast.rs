//! The tree of an expression, each node with its bytes.

use crate::text::Span;
use crate::units::Unit;

/// An expression as written.
#[derive(Clone, Debug, PartialEq)]
pub struct Expr {
    /// What it is.
    pub kind: ExprKind,
    /// The bytes it was read from, counted from the expression's start.
    pub span: Span,
}

/// The kinds of expression.
#[derive(Clone, Debug, PartialEq)]
pub enum ExprKind {
    /// A number, with its unit if it has one.
    Number(f64, Option<Unit>),
    /// A text.
    Text(String),
    /// `true` or `false`.
    Truth(bool),
    /// A fact, property or limit.
    Name(String),
    /// `[a, b]`, only behind `in`.
    List(Vec<Expr>),
    /// `!a`.
    Not(Box<Expr>),
    /// `-a`.
    Negative(Box<Expr>),
    /// `a + b`, `a && b`, `a < b`, `a in b`.
    Binary(Operator, Box<Expr>, Box<Expr>),
    /// `a ? b : c`.
    Choice(Box<Expr>, Box<Expr>, Box<Expr>),
    /// `known(a)`, `min(a, b)`, `max(a, b)`, `abs(a)`.
    Call(String, Vec<Expr>),
}

/// Operators between two expressions.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Operator {
    /// `||`
    Or,
    /// `&&`
    And,
    /// `== != < <= > >=`
    Compare(Comparison),
    /// `in`
    In,
    /// `+`
    Add,
    /// `-`
    Subtract,
    /// `*`
    Multiply,
    /// `/`
    Divide,
}

/// Comparisons.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Comparison {
    /// `==`
    Equal,
    /// `!=`
    NotEqual,
    /// `<`
    Less,
    /// `<=`
    LessOrEqual,
    /// `>`
    Greater,
    /// `>=`
    GreaterOrEqual,
}
