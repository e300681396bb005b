//! What an audit is about to do: which libraries there are, by what they are judged, and its id.

use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::Mutex;
use std::sync::PoisonError;

use rayon::prelude::*;

use crate::audit::{Candidate, Tree, digest, shown, tree};
use crate::judge::{Options, Setup};
use crate::sheet::RuleShown;
use crate::write::Look;
use crate::write::audit::{Head, Options as Shown};

use super::super::args::SetupArgs;
use super::super::audit_args::AuditArgs;
use super::super::day::of_run;
use super::super::unreadable::complain_setup;

/// What is judged, and how.
pub(super) struct Plan<'a> {
    pub arguments: &'a AuditArgs,
    pub options: Options,
    pub tree: Tree,
    /// SHA-256 of the files of each library.
    pub digests: Vec<String>,
    /// The rules before any shop changes them.
    pub rules: Vec<RuleShown>,
    pub head: Head,
}

impl<'a> Plan<'a> {
    /// Looks for libraries; `None`, told on standard error, if the rules cannot be used.
    pub(super) fn of(arguments: &'a AuditArgs, look: Look) -> Option<Plan<'a>> {
        let options = options(arguments);
        let setup = &arguments.setup;
        let plain = Setup::load(None, None, &setup.rules, !setup.no_built_in);
        let plain = plain.and_then(|own| own.check(&options.selection).map(|()| own));
        let plain = match plain {
            Ok(plain) => plain,
            Err(error) => {
                complain_setup(&error, look);
                return None;
            }
        };
        let skipped = arguments.out.iter().chain(&arguments.since);
        let skipped: Vec<PathBuf> = skipped.cloned().collect();
        let columns = Columns::new(&arguments.setup);
        let found = tree(&arguments.paths, &skipped, &|folder| columns.of(folder));
        let libraries = found.libraries.par_iter();
        let inputs = libraries.map(|one| (digest::of_library(&one.path), config(one, arguments)));
        let inputs: Vec<(String, String)> = inputs.collect();
        let rules = RuleShown::all(&plain);
        let mut head = Head {
            id: String::new(),
            day: options.today.to_string(),
            rules_sha256: plain.rules_sha256().to_owned(),
            roots: arguments.paths.iter().map(|path| shown(path)).collect(),
            options: Shown {
                strict: options.strict,
                fail_on: options.fail_on.name().to_owned(),
                only: arguments.asked.only.clone(),
                except: arguments.asked.except.clone(),
                min_coverage: arguments.min_coverage,
                remedies: arguments.remedies,
                only_new: false,
            },
            ..of_tree(&found)
        };
        head.describe(&rules);
        head.id = id(&head, &inputs);
        Some(Plan {
            arguments,
            options,
            tree: found,
            digests: inputs.into_iter().map(|(files, _)| files).collect(),
            rules,
            head,
        })
    }
}

fn options(arguments: &AuditArgs) -> Options {
    Options {
        strict: !arguments.no_strict,
        fail_on: arguments.asked.level(),
        selection: arguments.asked.selection(),
        with_facts: false,
        today: of_run(arguments.day.as_of),
    }
}

/// What the tree holds, as outputs say it.
fn of_tree(found: &Tree) -> Head {
    Head {
        seen: found.seen,
        passed_over: found.passed_over.clone(),
        unreadable: found.unreadable.clone(),
        ignored: found.ignored.clone(),
        keys: found.libraries.iter().map(|one| one.key.clone()).collect(),
        ..Head::default()
    }
}

/// By what a library is judged, as hashes; what cannot be read is told when it is judged.
fn config(library: &Candidate, arguments: &AuditArgs) -> String {
    match arguments.setup.load(&library.path) {
        Ok(setup) => format!(
            "{} {}",
            setup.rules_sha256(),
            setup.config_sha256.as_deref().unwrap_or("none")
        ),
        Err(_) => "unreadable".to_owned(),
    }
}

/// The id of a run: the same for the same inputs, rules, configuration, options, version and day.
fn id(head: &Head, inputs: &[(String, String)]) -> String {
    let options = serde_json::to_string(&head.options).unwrap_or_default();
    let first = [
        env!("CARGO_PKG_VERSION"),
        &head.day,
        &head.rules_sha256,
        &options,
    ];
    let each = head.keys.iter().zip(inputs);
    let each = each.flat_map(|(key, (files, config))| [key.as_str(), files, config]);
    digest::of_texts(first.into_iter().chain(each))
}

/// The shop's own headers, read once a folder.
pub(in super::super) struct Columns<'a> {
    setup: &'a SetupArgs,
    known: Mutex<HashMap<PathBuf, Vec<(String, String)>>>,
}

impl<'a> Columns<'a> {
    pub(in super::super) fn new(setup: &'a SetupArgs) -> Columns<'a> {
        Columns {
            setup,
            known: Mutex::default(),
        }
    }

    /// Those that count in a folder; none where its shop files cannot be used.
    pub(in super::super) fn of(&self, folder: &Path) -> Vec<(String, String)> {
        let mut known = self.known.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(columns) = known.get(folder) {
            return columns.clone();
        }
        let setup = self.setup.load(folder);
        let columns = setup.map_or_else(|_| Vec::new(), |setup| setup.shop.columns);
        known.insert(folder.to_owned(), columns.clone());
        columns
    }
}
