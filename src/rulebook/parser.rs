//! A parser for a subset of the Common Expression Language, with CEL's precedence.

use crate::text::Span;

use super::ast::{Comparison, Expr, ExprKind, Operator};
use super::lexer::{Token, tokens};

/// Deeper nesting than any engineer writes; a bound, so that no file can exhaust the stack.
const DEEPEST: usize = 40;

/// More tokens than any engineer writes in one expression. A long sum nests to the left without
/// a bracket, and whatever walks its tree would exhaust the stack all the same.
const LONGEST: usize = 400;

/// What is wrong with an expression, and where in it.
pub(super) type Mistake = (Span, String);

/// Parses an expression.
///
/// # Errors
/// Where in the text, and what was expected there.
pub fn parse(text: &str) -> Result<Expr, (Span, String)> {
    let tokens = tokens(text)?;
    if let Some((_, span)) = tokens.get(LONGEST) {
        return Err((*span, "too long; split it into several rules".to_owned()));
    }
    let mut parser = Parser {
        tokens,
        at: 0,
        depth: 0,
    };
    let expr = parser.choice()?;
    match parser.peek() {
        (Token::End, _) => Ok(expr),
        (token, span) => Err((
            *span,
            format!("expected an operator, found {}", name(token)),
        )),
    }
}

struct Parser<'a> {
    tokens: Vec<(Token<'a>, Span)>,
    at: usize,
    depth: usize,
}

fn name(token: &Token<'_>) -> String {
    match token {
        Token::Number(..) => "a number".to_owned(),
        Token::Text(_) => "a text".to_owned(),
        Token::Name(name) => format!("`{name}`"),
        Token::Sign(sign) => format!("`{sign}`"),
        Token::End => "the end".to_owned(),
    }
}

const END: (Token<'static>, Span) = (Token::End, Span { start: 0, end: 0 });

impl<'a> Parser<'a> {
    fn peek(&self) -> &(Token<'a>, Span) {
        self.tokens.get(self.at).unwrap_or(&END)
    }

    fn next(&mut self) -> (Token<'a>, Span) {
        let token = self.peek().clone();
        self.at += 1;
        token
    }

    fn eat(&mut self, sign: &str) -> bool {
        let found = matches!(self.peek().0, Token::Sign(found) if found == sign);
        self.at += usize::from(found);
        found
    }

    fn expect(&mut self, sign: &str) -> Result<Span, Mistake> {
        let (token, span) = self.next();
        match token {
            Token::Sign(found) if found == sign => Ok(span),
            other => Err((span, format!("expected `{sign}`, found {}", name(&other)))),
        }
    }

    /// `a ? b : c`, which binds least.
    fn choice(&mut self) -> Result<Expr, Mistake> {
        self.depth += 1;
        if self.depth > DEEPEST {
            return Err((self.peek().1, "nested too deeply".to_owned()));
        }
        let condition = self.binary(0)?;
        let expr = if self.eat("?") {
            let yes = self.binary(0)?;
            self.expect(":")?;
            let no = self.choice()?;
            let span = join(&condition, &no);
            let parts = (Box::new(condition), Box::new(yes), Box::new(no));
            Expr {
                kind: ExprKind::Choice(parts.0, parts.1, parts.2),
                span,
            }
        } else {
            condition
        };
        self.depth -= 1;
        Ok(expr)
    }

    /// Operators of a level and above, all left-associative.
    fn binary(&mut self, level: usize) -> Result<Expr, Mistake> {
        let mut left = if level == LEVELS {
            return self.unary();
        } else {
            self.binary(level + 1)?
        };
        while let Some(operator) = operator(&self.peek().0, level) {
            self.at += 1;
            let right = self.binary(level + 1)?;
            left = Expr {
                span: join(&left, &right),
                kind: ExprKind::Binary(operator, Box::new(left), Box::new(right)),
            };
        }
        Ok(left)
    }

    fn unary(&mut self) -> Result<Expr, Mistake> {
        let start = self.peek().1;
        let not = self.eat("!");
        if !not && !self.eat("-") {
            return self.primary();
        }
        self.depth += 1;
        if self.depth > DEEPEST {
            return Err((start, "nested too deeply".to_owned()));
        }
        let inner = self.unary()?;
        self.depth -= 1;
        let span = Span {
            start: start.start,
            end: inner.span.end,
        };
        let inner = Box::new(inner);
        let kind = if not {
            ExprKind::Not(inner)
        } else {
            ExprKind::Negative(inner)
        };
        Ok(Expr { kind, span })
    }

    fn primary(&mut self) -> Result<Expr, Mistake> {
        let (token, span) = self.next();
        let kind = match token {
            Token::Number(value, unit) => ExprKind::Number(value, unit),
            Token::Text(text) => ExprKind::Text(text.to_owned()),
            Token::Name("true") => ExprKind::Truth(true),
            Token::Name("false") => ExprKind::Truth(false),
            Token::Name(name) if self.eat("(") => {
                let (arguments, end) = self.list(")")?;
                let span = Span {
                    start: span.start,
                    end,
                };
                return Ok(Expr {
                    kind: ExprKind::Call(name.to_owned(), arguments),
                    span,
                });
            }
            Token::Name(name) => ExprKind::Name(name.to_owned()),
            Token::Sign("(") => {
                let inner = self.choice()?;
                self.expect(")")?;
                return Ok(inner);
            }
            Token::Sign("[") => {
                let (items, end) = self.list("]")?;
                let span = Span {
                    start: span.start,
                    end,
                };
                return Ok(Expr {
                    kind: ExprKind::List(items),
                    span,
                });
            }
            other => return Err((span, format!("expected a value, found {}", name(&other)))),
        };
        Ok(Expr { kind, span })
    }

    /// Expressions up to a closing sign; returns where that ends.
    fn list(&mut self, close: &str) -> Result<(Vec<Expr>, u32), Mistake> {
        let mut items = Vec::new();
        let empty = self.peek().1;
        if self.eat(close) {
            return Ok((items, empty.end));
        }
        loop {
            items.push(self.choice()?);
            if !self.eat(",") {
                let end = self.expect(close)?;
                return Ok((items, end.end));
            }
        }
    }
}

/// Levels of precedence: or, and, relations, sums, products.
const LEVELS: usize = 5;

fn operator(token: &Token<'_>, level: usize) -> Option<Operator> {
    use Comparison::{Equal, Greater, GreaterOrEqual, Less, LessOrEqual, NotEqual};
    let (operator, of) = match token {
        Token::Sign("||") => (Operator::Or, 0),
        Token::Sign("&&") => (Operator::And, 1),
        Token::Sign("==") => (Operator::Compare(Equal), 2),
        Token::Sign("!=") => (Operator::Compare(NotEqual), 2),
        Token::Sign("<") => (Operator::Compare(Less), 2),
        Token::Sign("<=") => (Operator::Compare(LessOrEqual), 2),
        Token::Sign(">") => (Operator::Compare(Greater), 2),
        Token::Sign(">=") => (Operator::Compare(GreaterOrEqual), 2),
        Token::Name("in") => (Operator::In, 2),
        Token::Sign("+") => (Operator::Add, 3),
        Token::Sign("-") => (Operator::Subtract, 3),
        Token::Sign("*") => (Operator::Multiply, 4),
        Token::Sign("/") => (Operator::Divide, 4),
        _ => return None,
    };
    (of == level).then_some(operator)
}

fn join(left: &Expr, right: &Expr) -> Span {
    Span {
        start: left.span.start,
        end: right.span.end,
    }
}
