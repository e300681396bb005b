//! Rules as data: the expression language, rule files, limits, the shop's file.
//!
//! The rulebook knows no fact and no record. Whoever loads it hands in the names that rules
//! may use ([`Names`]), and whoever evaluates it the values ([`Values`]).

mod accept_entry;
mod accept_keys;
mod ast;
mod canonical;
mod column_keys;
mod date;
mod defaults;
mod error;
mod eval;
mod jumps;
mod lexer;
mod limit;
mod material;
mod pack;
mod parser;
mod rule;
mod rule_file;
mod rule_keys;
mod schema;
mod scope;
mod shop;
mod shop_files;
mod shop_keys;
mod slack;
mod template;
mod terms;
mod toml_text;
mod type_check;
mod words;

pub use accept_entry::{Accept, NamedLibrary, PARTS, Spots, Was};
pub use accept_keys::Stated;
pub use ast::{Comparison, Expr, ExprKind, Operator};
pub use canonical::layers_sha256;
pub use column_keys::{PropertyNames, ShopColumn};
pub use date::Date;
pub use defaults::{BoreLength, FindWord, Insertion, ShopDefaults};
pub use error::RuleError;
pub use eval::{Compared, Environment, Found, Tolerance, TraceLike, Values};
pub use jumps::Hinge;
pub use limit::{Limit, Sensible, Stricter};
pub use material::ShopMaterial;
pub use pack::{Pack, built_in};
pub use parser::parse;
pub use rule::{Certain, Compares, Demand, Milder, Rule, Rulebook, StandsFor};
pub use schema::{rule_schema, shop_schema};
pub use shop::{Change, Layer, Shop, Spot};
pub use shop_files::{SHOP_FILE, ShopFile, near_shop_files, shop_files, shop_folders};
pub use template::{Piece, Template};
pub use terms::Terms;
pub use type_check::{Checked, Names, Outside, Symbol, Type};
pub use words::{Basis, Bound, Consequence, CuredBy, Level};
