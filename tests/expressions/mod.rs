//! The expression language, from outside: a rule file in memory, evaluated with our own names.

mod grammar;
mod oracle;
mod quantities;
mod refused;
mod unknown;

use shankwise::rulebook::{
    Environment, Found, Names, Outside, Pack, Piece, RuleError, Rulebook, Tolerance, TraceLike,
    Type, Values,
};
use shankwise::units::{Scalar, Unit};

/// The names that these tests use, each with its unit and its value in that unit.
const NUMBERS: [(&str, Unit, Option<f64>); 15] = [
    ("a", Unit::One, Some(2.0)),
    ("b", Unit::One, Some(-3.5)),
    ("c", Unit::One, Some(0.25)),
    ("zero", Unit::One, Some(0.0)),
    ("nothing", Unit::One, None),
    ("grip", Unit::Mm, Some(18.0)),
    ("land", Unit::Mm, Some(40.0)),
    ("no_length", Unit::Mm, None),
    ("force", Unit::N, Some(50.0)),
    ("torque", Unit::Nm, Some(2.0)),
    ("stress", Unit::MPa, Some(5.0)),
    ("angle", Unit::Deg, Some(118.0)),
    ("speed", Unit::PerMin, Some(6000.0)),
    ("frequency", Unit::Hz, Some(100.0)),
    ("power", Unit::KW, Some(3.0)),
];

/// Words, texts and truths, whose ids follow those of the numbers.
const KINDS: [&str; 3] = ["drill", "end mill", "tap"];
const OTHERS: [(&str, Option<Scalar<&'static str>>); 7] = [
    ("kind", Some(Scalar::Text("end mill"))),
    ("name", Some(Scalar::Text("EM12"))),
    ("other_name", Some(Scalar::Text("DR5"))),
    ("no_name", None),
    ("yes", Some(Scalar::Truth(true))),
    ("no", Some(Scalar::Truth(false))),
    ("unknown", None),
];

struct TestNames;

fn id(at: usize) -> u32 {
    u32::try_from(at).unwrap()
}

impl Names for TestNames {
    fn find(&self, name: &str) -> Option<Outside> {
        if let Some(at) = NUMBERS.iter().position(|(known, ..)| *known == name) {
            return Some(Outside {
                id: id(at),
                of_type: Type::Number(NUMBERS[at].1),
                of_operation: false,
            });
        }
        let at = OTHERS.iter().position(|(known, _)| *known == name)?;
        let of_type = match name {
            "kind" => Type::Word(KINDS.to_vec()),
            "yes" | "no" | "unknown" => Type::Truth,
            _ => Type::Text,
        };
        Some(Outside {
            id: id(NUMBERS.len() + at),
            of_type,
            of_operation: false,
        })
    }

    fn all(&self) -> Vec<String> {
        let numbers = NUMBERS.iter().map(|(name, ..)| *name);
        let others = OTHERS.iter().map(|(name, _)| *name);
        numbers.chain(others).map(str::to_owned).collect()
    }

    fn ambiguous(&self, _: &str) -> Option<String> {
        None
    }

    fn fault(&self, _: &str) -> Option<&'static [&'static str]> {
        None
    }
}

/// These tests ask for values, not for what they rest on.
#[derive(Clone, Copy, Default)]
struct NoTrace;

impl TraceLike for NoTrace {
    fn union(self, _: NoTrace) -> NoTrace {
        NoTrace
    }
    fn presence(self) -> NoTrace {
        NoTrace
    }
}

struct TestValues;

impl Values<'static> for TestValues {
    type Trace = NoTrace;
    fn value(&self, id: u32) -> Found<'static, NoTrace> {
        let at = id as usize;
        let value = match NUMBERS.get(at) {
            Some((_, _, number)) => number.map(Scalar::Number),
            None => OTHERS[at - NUMBERS.len()].1,
        };
        Found {
            value,
            trace: NoTrace,
        }
    }
}

/// A value that outlives the rule it came from.
#[derive(Clone, Debug, PartialEq)]
enum Value {
    Number(f64),
    Text(String),
    Truth(bool),
    Unknown,
}

/// Loads a rule whose message shows one expression, so that its value may be of any type.
fn load(expression: &str) -> Result<Rulebook, Vec<RuleError>> {
    let message = toml::Value::String(format!("{{{expression}}}"));
    let rule = format!(
        "title = 't'\nlevel = 'error'\nbasis = 'shop'\nconsequence = 'scrap'\n\
         expect = 'yes'\nwhy = 'w'\nadvice = 'a'\nmessage = {message}\n"
    );
    let pack = Pack {
        files: vec![("test/rule.toml".into(), "test/rule.toml".into(), rule)],
        ..Pack::default()
    };
    Rulebook::load(&[pack], &TestNames)
}

/// The value of an expression that must load; numbers in coherent units (mm, N, s, deg).
fn value(expression: &str) -> Value {
    let book = load(expression).unwrap_or_else(|errors| panic!("{expression}: {errors:?}"));
    let values: &TestValues = &TestValues;
    let environment = Environment {
        values,
        private: &[],
        shared: &[],
        tolerance: Tolerance {
            length: 0.01,
            relative: 1e-9,
        },
        doubting: false,
    };
    let book: &'static Rulebook = Box::leak(Box::new(book));
    let [Piece::Value(checked)] = &book.rules[0].message.parts[..] else {
        panic!("one expression in the message: {expression}");
    };
    match checked.evaluate(&environment).value {
        Some(Scalar::Number(number)) => Value::Number(number),
        Some(Scalar::Word(word)) => Value::Text(word.word.to_owned()),
        Some(Scalar::Text(text)) => Value::Text(text.to_owned()),
        Some(Scalar::Truth(truth)) => Value::Truth(truth),
        None => Value::Unknown,
    }
}

/// Asserts that a condition comes out true.
#[track_caller]
fn holds(expression: &str) {
    assert_eq!(value(expression), Value::Truth(true), "{expression}");
}

/// Asserts that a condition comes out false.
#[track_caller]
fn fails(expression: &str) {
    assert_eq!(value(expression), Value::Truth(false), "{expression}");
}

/// Asserts that an expression cannot be evaluated for want of a value.
#[track_caller]
fn not_known(expression: &str) {
    assert_eq!(value(expression), Value::Unknown, "{expression}");
}

/// Why an expression is refused at load.
#[track_caller]
fn refusal(expression: &str) -> String {
    match load(expression) {
        Ok(_) => panic!("`{expression}` was not refused"),
        Err(errors) => errors[0].message.clone(),
    }
}
