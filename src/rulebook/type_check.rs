//! Names, types and dimensions are settled when a rule is loaded, not when it is used.

use crate::text::{Span, closest};
use crate::units::{Dimension, Unit};

use super::ast::{Comparison, Expr, ExprKind, Operator};
use super::parser::{Mistake, parse};
use super::rule::Compares;

/// The type of a name from outside the rulebook.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Type {
    /// A number in a canonical unit.
    Number(Unit),
    /// One of a closed list of words.
    Word(Vec<&'static str>),
    /// Any text.
    Text,
    /// Yes or no.
    Truth,
}

/// A fact or property that rules may name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Outside {
    /// How whoever evaluates knows it.
    pub id: u32,
    /// Its type.
    pub of_type: Type,
    /// Whether it belongs to an operation.
    pub of_operation: bool,
}

/// The names that rules may use, handed in by whoever loads the rulebook.
pub trait Names {
    /// A fact or property by its name.
    fn find(&self, name: &str) -> Option<Outside>;
    /// All names, for "did you mean".
    fn all(&self) -> Vec<String>;
    /// What to say of a name that several records share.
    fn ambiguous(&self, name: &str) -> Option<String>;
    /// Whether advice has words for a demand on this property of a part to buy.
    fn buys(&self, _id: u32, _compares: Compares) -> bool {
        true
    }
    /// The words that a fault of form brings along, if there is a fault of this kind.
    fn fault(&self, kind: &str) -> Option<&'static [&'static str]>;
}

/// A name, resolved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Symbol {
    /// A fact or property: its id and one of its unit in coherent units.
    Outside(u32),
    /// A limit of the rule itself, by index.
    Private(usize),
    /// A limit of the shared table, by index.
    Shared(usize),
}

/// What a name stands for while a rule is checked.
#[derive(Clone, Debug)]
pub(super) struct Meaning {
    pub symbol: Symbol,
    pub of_type: Type,
    pub of_operation: bool,
}

/// Looks names up while a rule is checked.
pub(super) trait Scope {
    fn meaning(&self, name: &str) -> Result<Meaning, String>;
}

/// An expression whose names, types and dimensions are settled.
#[derive(Clone, Debug)]
pub struct Checked {
    pub(super) root: Node,
    /// The expression as written.
    pub text: String,
    /// The names in it, in order, each once.
    pub symbols: Vec<(String, Symbol)>,
    /// Whether one of them belongs to an operation.
    pub of_operation: bool,
}

#[derive(Clone, Debug)]
pub(super) struct Node {
    pub kind: NodeKind,
    pub of: Of,
    pub span: Span,
}

/// The type of a node: as [`Type`], less what only names have.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Of {
    Number(Dimension, Option<Unit>),
    Text(Option<Vec<&'static str>>),
    Truth,
}

#[derive(Clone, Debug)]
pub(super) enum NodeKind {
    /// A number in coherent units.
    Number(f64),
    Text(String),
    Truth(bool),
    /// A symbol, and one of its unit in coherent units.
    Symbol(Symbol, f64),
    Not(Box<Node>),
    Negative(Box<Node>),
    Logic(Operator, Box<Node>, Box<Node>),
    Compare(Comparison, Box<Node>, Box<Node>),
    In(Box<Node>, Vec<Node>),
    Arithmetic(Operator, Box<Node>, Box<Node>),
    Choice(Box<Node>, Box<Node>, Box<Node>),
    Known(Box<Node>),
    /// The least or greatest.
    Extreme(bool, Vec<Node>),
    Abs(Box<Node>),
}

impl Of {
    fn words(&self) -> String {
        match self {
            Of::Number(dimension, _) => dimension.to_string(),
            Of::Text(_) => "a word".to_owned(),
            Of::Truth => "yes or no".to_owned(),
        }
    }
}

/// Parses and checks an expression.
pub(super) fn check(text: &str, scope: &dyn Scope) -> Result<Checked, Mistake> {
    let expr = parse(text)?;
    let mut checker = Checker {
        scope,
        symbols: Vec::new(),
        of_operation: false,
    };
    let root = checker.node(&expr)?;
    Ok(Checked {
        root,
        text: text.trim().to_owned(),
        symbols: checker.symbols,
        of_operation: checker.of_operation,
    })
}

/// The same for an expression that must be yes or no.
pub(super) fn check_truth(text: &str, scope: &dyn Scope) -> Result<Checked, Mistake> {
    let checked = check(text, scope)?;
    match &checked.root.of {
        Of::Truth => Ok(checked),
        other => Err((
            checked.root.span,
            format!("expected a condition, found {}", other.words()),
        )),
    }
}

struct Checker<'a> {
    scope: &'a dyn Scope,
    symbols: Vec<(String, Symbol)>,
    of_operation: bool,
}

impl Checker<'_> {
    fn node(&mut self, expr: &Expr) -> Result<Node, Mistake> {
        let span = expr.span;
        let (kind, of) = match &expr.kind {
            ExprKind::Number(value, unit) => number(*value, *unit),
            ExprKind::Text(text) => (NodeKind::Text(text.clone()), Of::Text(None)),
            ExprKind::Truth(truth) => (NodeKind::Truth(*truth), Of::Truth),
            ExprKind::Name(name) => self.name(name, span)?,
            ExprKind::List(_) => {
                return Err((span, "a list is allowed only after `in`".to_owned()));
            }
            ExprKind::Not(inner) => (NodeKind::Not(Box::new(self.truth(inner)?)), Of::Truth),
            ExprKind::Negative(inner) => {
                let inner = self.number(inner)?;
                let of = inner.of.clone();
                (NodeKind::Negative(Box::new(inner)), of)
            }
            ExprKind::Binary(operator, left, right) => self.binary(*operator, left, right)?,
            ExprKind::Choice(condition, yes, no) => self.choice(condition, yes, no)?,
            ExprKind::Call(function, arguments) => self.call(function, arguments, span)?,
        };
        Ok(Node { kind, of, span })
    }

    fn name(&mut self, name: &str, span: Span) -> Result<(NodeKind, Of), Mistake> {
        let meaning = self.scope.meaning(name).map_err(|why| (span, why))?;
        self.of_operation |= meaning.of_operation;
        if !self.symbols.iter().any(|(known, _)| known == name) {
            self.symbols.push((name.to_owned(), meaning.symbol));
        }
        let (of, coherent) = match meaning.of_type {
            Type::Number(unit) => (Of::Number(unit.dimension(), Some(unit)), unit.coherent()),
            Type::Word(words) => (Of::Text(Some(words)), 1.0),
            Type::Text => (Of::Text(None), 1.0),
            Type::Truth => (Of::Truth, 1.0),
        };
        Ok((NodeKind::Symbol(meaning.symbol, coherent), of))
    }

    fn truth(&mut self, expr: &Expr) -> Result<Node, Mistake> {
        let node = self.node(expr)?;
        match &node.of {
            Of::Truth => Ok(node),
            other => {
                let found = other.words();
                Err((expr.span, format!("expected yes or no, found {found}")))
            }
        }
    }

    fn number(&mut self, expr: &Expr) -> Result<Node, Mistake> {
        let node = self.node(expr)?;
        match &node.of {
            Of::Number(..) => Ok(node),
            other => {
                let found = other.words();
                Err((expr.span, format!("expected a number, found {found}")))
            }
        }
    }

    fn binary(
        &mut self,
        operator: Operator,
        left: &Expr,
        right: &Expr,
    ) -> Result<(NodeKind, Of), Mistake> {
        match operator {
            Operator::Or | Operator::And => {
                let sides = (Box::new(self.truth(left)?), Box::new(self.truth(right)?));
                Ok((NodeKind::Logic(operator, sides.0, sides.1), Of::Truth))
            }
            Operator::Compare(comparison) => self.compare(comparison, left, right),
            Operator::In => self.within(left, right),
            Operator::Add | Operator::Subtract | Operator::Multiply | Operator::Divide => {
                self.arithmetic(operator, left, right)
            }
        }
    }

    fn compare(
        &mut self,
        comparison: Comparison,
        left: &Expr,
        right: &Expr,
    ) -> Result<(NodeKind, Of), Mistake> {
        let (a, b) = (self.node(left)?, self.node(right)?);
        same(&a, &b, "compare")?;
        let ordered = !matches!(comparison, Comparison::Equal | Comparison::NotEqual);
        if ordered && !matches!(a.of, Of::Number(..)) {
            let found = a.of.words();
            return Err((a.span, format!("only numbers have an order, found {found}")));
        }
        let kind = NodeKind::Compare(comparison, Box::new(a), Box::new(b));
        Ok((kind, Of::Truth))
    }

    fn within(&mut self, left: &Expr, right: &Expr) -> Result<(NodeKind, Of), Mistake> {
        let ExprKind::List(items) = &right.kind else {
            return Err((
                right.span,
                "expected a list such as ['drill', 'tap']".to_owned(),
            ));
        };
        let left = self.node(left)?;
        let mut nodes = Vec::with_capacity(items.len());
        for item in items {
            let node = self.node(item)?;
            same(&left, &node, "look for")?;
            nodes.push(node);
        }
        Ok((NodeKind::In(Box::new(left), nodes), Of::Truth))
    }

    fn arithmetic(
        &mut self,
        operator: Operator,
        left: &Expr,
        right: &Expr,
    ) -> Result<(NodeKind, Of), Mistake> {
        let (a, b) = (self.number(left)?, self.number(right)?);
        let of = match (operator, &a.of, &b.of) {
            (Operator::Multiply, Of::Number(x, _), Of::Number(y, _)) => Of::Number(*x * *y, None),
            (Operator::Divide, Of::Number(x, _), Of::Number(y, _)) => Of::Number(*x / *y, None),
            _ => {
                same(&a, &b, "add")?;
                a.of.clone()
            }
        };
        let kind = NodeKind::Arithmetic(operator, Box::new(a), Box::new(b));
        Ok((kind, of))
    }

    fn choice(
        &mut self,
        condition: &Expr,
        yes: &Expr,
        no: &Expr,
    ) -> Result<(NodeKind, Of), Mistake> {
        let condition = self.truth(condition)?;
        let (yes, no) = (self.node(yes)?, self.node(no)?);
        same(&yes, &no, "choose between")?;
        let of = yes.of.clone();
        let kind = NodeKind::Choice(Box::new(condition), Box::new(yes), Box::new(no));
        Ok((kind, of))
    }

    fn call(
        &mut self,
        function: &str,
        arguments: &[Expr],
        span: Span,
    ) -> Result<(NodeKind, Of), Mistake> {
        match (function, arguments) {
            ("known", [argument]) => {
                let node = self.node(argument)?;
                Ok((NodeKind::Known(Box::new(node)), Of::Truth))
            }
            ("abs", [argument]) => {
                let node = self.number(argument)?;
                let of = node.of.clone();
                Ok((NodeKind::Abs(Box::new(node)), of))
            }
            ("min" | "max", [_, _, ..]) => {
                let mut nodes: Vec<Node> = Vec::with_capacity(arguments.len());
                for argument in arguments {
                    let node = self.number(argument)?;
                    if let Some(first) = nodes.first() {
                        same(first, &node, "compare")?;
                    }
                    nodes.push(node);
                }
                let of = nodes.first().map_or(Of::Truth, |node| node.of.clone());
                Ok((NodeKind::Extreme(function == "max", nodes), of))
            }
            ("known" | "abs", _) => Err((span, format!("`{function}` takes one argument"))),
            ("min" | "max", _) => Err((span, format!("`{function}` takes two or more arguments"))),
            _ => Err((span, unknown_function(function))),
        }
    }
}

fn number(value: f64, unit: Option<Unit>) -> (NodeKind, Of) {
    let unit = unit.unwrap_or(Unit::One);
    let kind = NodeKind::Number(value * unit.coherent());
    (kind, Of::Number(unit.dimension(), Some(unit)))
}

fn unknown_function(function: &str) -> String {
    match closest(function, ["known", "min", "max", "abs"]) {
        Some(near) => format!("there is no function `{function}`; did you mean `{near}`?"),
        None => format!("there is no function `{function}`; there are known, min, max and abs"),
    }
}

/// Both sides must measure the same; a word must be one that the other side can be.
fn same(left: &Node, right: &Node, verb: &str) -> Result<(), Mistake> {
    let fits = match (&left.of, &right.of) {
        (Of::Number(a, _), Of::Number(b, _)) => a == b,
        (Of::Text(a), Of::Text(b)) => {
            return known_word(a.as_deref(), right).and(known_word(b.as_deref(), left));
        }
        (Of::Truth, Of::Truth) => true,
        _ => false,
    };
    if fits {
        return Ok(());
    }
    let (a, b) = (left.of.words(), right.of.words());
    let hint = match (&left.of, &right.of) {
        (Of::Number(..), Of::Number(..)) => "; a number without unit is a plain number",
        _ => "",
    };
    Err((right.span, format!("cannot {verb} {a} and {b}{hint}")))
}

fn known_word(words: Option<&[&'static str]>, node: &Node) -> Result<(), Mistake> {
    let (Some(words), NodeKind::Text(text)) = (words, &node.kind) else {
        return Ok(());
    };
    if words.contains(&text.as_str()) {
        return Ok(());
    }
    let message = match closest(text, words.iter().copied()) {
        Some(near) => format!("'{text}' is never the value; did you mean '{near}'?"),
        None => format!(
            "'{text}' is never the value; it is one of: {}",
            words.join(", ")
        ),
    };
    Err((node.span, message))
}
