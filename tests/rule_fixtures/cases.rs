//! The fixtures of the rules: walked, named, loaded once for all tests.
//!
//! `fixtures/rules/<topic>/<rule>/` holds flat CSV libraries, XML documents and folders of
//! tables. A case's name says what must come of it: `pass-*`, `fail-*`, `na-*`, `gap-<field>` or
//! `gap-<field>-*`. Beside them may stand `expected.toml`, and nothing else.

use std::fmt;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

use shankwise::advice::advise;
use shankwise::judge::{Options, Report, Setup, judge};
use shankwise::library::{Input, Library, load};
use shankwise::rulebook::{Level, Limit, Rule, Shop};

use crate::support::{built_in, fixture, options};

/// What must come of a case, by its name.
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
    /// Name of the file or folder.
    pub name: String,
    /// Where it lies.
    pub path: PathBuf,
    /// What must come of it.
    pub sort: Sort,
    /// The library, loaded.
    pub library: Library,
    /// Shared limits that the case's own shop file states.
    stated: Vec<Limit>,
}

impl fmt::Display for Case {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/{}", self.rule, self.name)
    }
}

/// The built-in rules.
pub static SETUP: LazyLock<Setup> = LazyLock::new(built_in);

/// All cases, in the order of their names.
pub static CASES: LazyLock<Vec<Case>> = LazyLock::new(|| {
    let folders = rule_folders();
    let cases = folders.iter().flat_map(|(rule, folder)| {
        let names = sorted(folder).into_iter().filter(|name| name != EXPECTED);
        names.map(|name| case(rule, folder, name))
    });
    cases.collect()
});

/// The file that says which findings the cases of its folder must have.
pub const EXPECTED: &str = "expected.toml";

/// Every `<topic>/<rule>` below the fixtures, with its folder.
pub fn rule_folders() -> Vec<(String, PathBuf)> {
    let all = fixture("rules");
    let topics = sorted(&all).into_iter();
    let rules = topics.flat_map(|topic| {
        let folder = all.join(&topic);
        let rules = sorted(&folder).into_iter();
        rules.map(move |rule| (format!("{topic}/{rule}"), folder.join(rule)))
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

fn case(rule: &str, folder: &Path, name: String) -> Case {
    let path = folder.join(&name);
    let sort = sort(&name, path.is_dir())
        .unwrap_or_else(|| panic!("{rule}/{name} is no name of a fixture"));
    // A folder may state its units and columns, and what the shop knows of its own frictions and
    // moduli; the rule's level and its own limits stay.
    let beside = path.is_dir().then_some(path.as_path());
    let setup = Setup::load(beside, None, &[], true).expect("the case's settings load");
    assert!(
        setup.book.rule(rule).map(as_it_stands) == SETUP.book.rule(rule).map(as_it_stands)
            && setup.shop.accepted.is_empty(),
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
        path,
        stated,
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

/// What a name promises: `gap-cutter.shank_length-assumed.csv` a gap in that field.
fn sort(name: &str, is_folder: bool) -> Option<Sort> {
    let stem = if is_folder {
        name
    } else {
        name.strip_suffix(".csv")
            .or_else(|| name.strip_suffix(".xml"))?
    };
    let (sort, rest) = stem.split_once('-')?;
    let sort = match sort {
        "pass" => Sort::Pass,
        "fail" => Sort::Fail,
        "na" => Sort::NotApplicable,
        "gap" => Sort::Gap(rest.split('-').next()?.to_owned()),
        _ => return None,
    };
    (!rest.is_empty()).then_some(sort)
}

/// The cases of a rule.
pub fn of(rule: &str) -> impl Iterator<Item = &'static Case> {
    CASES.iter().filter(move |case| case.rule == rule)
}

impl Case {
    /// The rule.
    pub fn rule(&self) -> &'static Rule {
        let rule = SETUP.book.rule(&self.rule);
        rule.unwrap_or_else(|| panic!("{self}: there is no such rule"))
    }

    /// Judges the case with its rule alone, as a setup has that rule; what the case's own shop
    /// file states outranks the setup's shared limits.
    pub fn alone(&self, setup: &Setup) -> Report {
        self.judged(setup, &alone(&self.rule))
    }

    /// The same with other options.
    pub fn judged(&self, setup: &Setup, options: &Options) -> Report {
        if self.stated.is_empty() {
            return advised(&self.library, setup, options);
        }
        let mut book = setup.book.clone();
        for limit in &mut book.limits {
            if let Some(stated) = self.stated.iter().find(|own| own.name == limit.name) {
                limit.clone_from(stated);
            }
        }
        let setup = Setup {
            book,
            shop: Shop::default(),
            changes: Vec::new(),
            config: None,
            unread: Vec::new(),
            passed_over: Vec::new(),
        };
        advised(&self.library, &setup, options)
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
