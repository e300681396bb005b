//! The fixtures of the rules: walked, named, loaded once for all tests.
//!
//! `fixtures/rules/<topic>/<rule>.csv` is a table of cases (see [`rows`](super::rows)). What
//! needs several tables, is XML or tries the form of a file stands in
//! `fixtures/rules/<topic>/<rule>/`, and its name says what must come of it: `pass-*`, `fail-*`,
//! `na-*`, `gap-<field>` or `gap-<field>-*`. Beside it may stand `expected.toml`.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::{LazyLock, OnceLock};

use shankwise::advice::advise;
use shankwise::judge::{Options, Report, Setup, judge};
use shankwise::library::{Input, Library, load};
use shankwise::rulebook::{Level, Limit, Rule};

use super::rows::{self, Rows};
use crate::support::{fixture, options, with_book};

/// What must come of a case.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Sort {
    /// The rule is met at least once, and always where it is judged; nothing is unjudged.
    Pass,
    /// The rule fails for every assembly.
    Fail,
    /// The rule does not apply to anything.
    NotApplicable,
    /// Nothing can be judged, for want of this field; or of this fact, if no field decides it.
    Gap(String),
}

/// One fixture of one rule.
pub struct Case {
    /// The rule's id.
    pub rule: String,
    /// Name of the file or folder; of rows what is expected, and the case's name.
    pub name: String,
    /// Where it stands.
    pub source: Source,
    /// What must come of it.
    pub sort: Sort,
    /// The library, loaded.
    pub library: Library,
    /// Shared limits that the case's own shop file states.
    stated: Vec<Limit>,
    /// Whether its rule is about what a shop file itself says: then that of the case counts.
    accepts: bool,
    /// What came of it with its rule alone, once it was asked.
    alone: OnceLock<Report>,
}

/// Where a case stands.
pub enum Source {
    /// In rows of its rule's table.
    Rows(Rows),
    /// In a file or folder of its own.
    Path(PathBuf),
}

impl fmt::Display for Case {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.source {
            Source::Rows(_) => write!(f, "{}: {}", self.rule, self.name),
            Source::Path(_) => write!(f, "{}/{}", self.rule, self.name),
        }
    }
}

/// The built-in rules.
pub use crate::support::BUILT_IN as SETUP;

/// All cases: rule by rule, those of its table before its files.
pub static CASES: LazyLock<Vec<Case>> = LazyLock::new(|| {
    let rules = rules_with_cases().into_iter();
    let cases = rules.map(|rule| {
        let table = fixture(&format!("rules/{rule}.csv"));
        let rows = table.is_file().then(|| rows::read(&table));
        let rows = rows.into_iter().flatten().map(|rows| of_rows(&rule, rows));
        let mut cases: Vec<Case> = rows.collect();
        let folder = folder(&rule);
        let names = folder.is_dir().then(|| sorted(&folder));
        let names = names.into_iter().flatten().filter(|name| name != EXPECTED);
        cases.extend(names.map(|name| of_path(&rule, &folder, name)));
        cases
    });
    cases.flatten().collect()
});

/// The cases by their rules.
static BY_RULE: LazyLock<BTreeMap<&'static str, Vec<&'static Case>>> = LazyLock::new(|| {
    let mut found: BTreeMap<&'static str, Vec<&'static Case>> = BTreeMap::new();
    for case in CASES.iter() {
        found.entry(&case.rule).or_default().push(case);
    }
    found
});

/// The file that says which findings the cases of its folder must have.
pub const EXPECTED: &str = "expected.toml";

/// The folder of a rule's cases that are no rows; it need not be there.
pub fn folder(rule: &str) -> PathBuf {
    fixture(&format!("rules/{rule}"))
}

/// Every `<topic>/<rule>` with a table or a folder among the fixtures.
pub fn rules_with_cases() -> BTreeSet<String> {
    let all = fixture("rules");
    let topics = sorted(&all).into_iter();
    let rules = topics.flat_map(|topic| {
        let rules = sorted(&all.join(&topic)).into_iter();
        rules.map(move |rule| format!("{topic}/{}", rule.trim_end_matches(".csv")))
    });
    rules.collect()
}

/// Names in a folder, in order.
fn sorted(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).unwrap_or_else(|why| panic!("{}: {why}", folder.display()));
    let mut names: Vec<String> = entries
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

fn of_rows(rule: &str, rows: Rows) -> Case {
    let name = format!("{} {}", rows.expect, rows.case);
    let sort = sort(&rows.expect, &rows.field)
        .filter(|_| !rows.case.is_empty())
        .unwrap_or_else(|| panic!("{rule}: {name} ({}) is no case", rows.field));
    let text = rows.text();
    let loaded = load(
        Input::Bytes("library.csv", text.as_bytes()),
        &SETUP.read_settings(),
    );
    assert_eq!(loaded.errors, [], "{rule}: {name}");
    Case {
        rule: rule.to_owned(),
        name,
        sort,
        library: loaded.library.expect("there is a library"),
        source: Source::Rows(rows),
        stated: Vec::new(),
        accepts: false,
        alone: OnceLock::new(),
    }
}

fn of_path(rule: &str, folder: &Path, name: String) -> Case {
    let path = folder.join(&name);
    let sort = sort_of_name(&name, path.is_dir())
        .unwrap_or_else(|| panic!("{rule}/{name} is no name of a fixture"));
    // A folder may state its units and columns, and what the shop knows of its own frictions and
    // moduli; the rule's level and its own limits stay.
    let beside = path.is_dir().then_some(path.as_path());
    let setup = Setup::load(beside, None, &[], true).expect("the case's settings load");
    let accepts = rule.starts_with("record/accepted-") || rule == "record/column-not-there";
    assert!(
        setup.book.rule(rule).map(as_it_stands) == SETUP.book.rule(rule).map(as_it_stands)
            && (accepts || setup.shop.accepted.is_empty()),
        "{rule}/{name}: a fixture judges the rule as it stands"
    );
    let stated = |limit: &&Limit| SETUP.book.limit(&limit.name) != Some(*limit);
    let stated = setup.book.limits.iter().filter(stated).cloned().collect();
    let loaded = load(Input::Path(&path), &setup.read_settings());
    assert_eq!(loaded.errors, [], "{rule}/{name}");
    Case {
        rule: rule.to_owned(),
        sort,
        library: loaded.library.expect("there is a library"),
        name,
        source: Source::Path(path),
        stated,
        accepts,
        alone: OnceLock::new(),
    }
}

/// Whether a rule can never be judged: it has words of its own for that, and not one of its
/// cases comes out as holding or failing.
pub fn is_never_judged(rule: &Rule) -> bool {
    let is_gap = |case: &Case| matches!(case.sort, Sort::Gap(_));
    let is_judged = |case: &Case| matches!(case.sort, Sort::Pass | Sort::Fail);
    !rule.unjudged.is_empty() && of(&rule.id).any(is_gap) && !of(&rule.id).any(is_judged)
}

/// What a shop file could change of a rule.
fn as_it_stands(rule: &Rule) -> (bool, Level, &[Limit]) {
    (rule.off, rule.level, &rule.limits)
}

/// What the name of a file or folder promises: `gap-cutter.shank_length-assumed` a gap in that
/// field.
fn sort_of_name(name: &str, is_folder: bool) -> Option<Sort> {
    let stem = if is_folder {
        name
    } else {
        let mut endings = [".csv", ".xml", ".xlsx", ".ods"].into_iter();
        endings.find_map(|ending| name.strip_suffix(ending))?
    };
    let (expect, rest) = stem.split_once('-')?;
    let field = match expect {
        "gap" => rest.split('-').next()?,
        _ => "",
    };
    sort(expect, field).filter(|_| !rest.is_empty())
}

/// What is expected, by its word; a field is named for a gap, and only for one.
fn sort(expect: &str, field: &str) -> Option<Sort> {
    match (expect, field) {
        ("pass", "") => Some(Sort::Pass),
        ("fail", "") => Some(Sort::Fail),
        ("na", "") => Some(Sort::NotApplicable),
        ("gap", field) if !field.is_empty() => Some(Sort::Gap(field.to_owned())),
        _ => None,
    }
}

/// The cases of a rule.
pub fn of(rule: &str) -> impl Iterator<Item = &'static Case> {
    BY_RULE.get(rule).into_iter().flatten().copied()
}

impl Case {
    /// The rule.
    pub fn rule(&self) -> &'static Rule {
        let rule = SETUP.book.rule(&self.rule);
        rule.unwrap_or_else(|| panic!("{self}: there is no such rule"))
    }

    /// Where the program finds the case: rows are written into a folder first.
    pub fn on_disk(&self, folder: &Path) -> PathBuf {
        match &self.source {
            Source::Path(path) => path.clone(),
            Source::Rows(rows) => {
                let name = format!("{} {}", self.rule.replace('/', " "), self.name);
                let path = folder.join(name.replace(['/', ':'], " ") + ".csv");
                fs::write(&path, rows.text()).expect("the file can be written");
                path
            }
        }
    }

    /// What comes of the case with its rule alone. Many tests ask, and it is judged once.
    pub fn report(&self) -> &Report {
        self.alone.get_or_init(|| self.alone(&SETUP))
    }

    /// Judges the case with its rule alone, as a setup has that rule; what the case's own shop
    /// file states outranks the setup's shared limits.
    pub fn alone(&self, setup: &Setup) -> Report {
        self.judged(setup, &alone(&self.rule))
    }

    /// The same with other options.
    pub fn judged(&self, setup: &Setup, options: &Options) -> Report {
        if let Source::Path(path) = &self.source
            && self.accepts
        {
            let own = Setup::load(Some(path), None, &[], true).expect("it did before");
            let book = setup.book.clone();
            return advised(&self.library, &Setup { book, ..own }, options);
        }
        if self.stated.is_empty() {
            return advised(&self.library, setup, options);
        }
        let mut book = setup.book.clone();
        for limit in &mut book.limits {
            if let Some(stated) = self.stated.iter().find(|own| own.name == limit.name) {
                limit.clone_from(stated);
            }
        }
        advised(&self.library, &with_book(book), options)
    }
}

/// Judges a library and lets the advice add what it finds, as the program does.
fn advised(library: &Library, setup: &Setup, options: &Options) -> Report {
    let mut report = judge(library, setup, options);
    let _ = advise(library, setup, options, false, &mut report);
    report
}

/// Options that ask for one rule only.
pub fn alone(rule: &str) -> Options {
    let mut options = options();
    options.selection.only = vec![rule.to_owned()];
    options
}

/// Fails if there is anything to complain of, listing all of it.
pub fn none_of(complaints: impl IntoIterator<Item = String>) {
    let complaints: Vec<String> = complaints.into_iter().collect();
    assert!(complaints.is_empty(), "\n{}\n", complaints.join("\n"));
}
