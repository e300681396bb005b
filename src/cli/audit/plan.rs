//! What an audit is about to do: which libraries there are, by what they are judged, and its id.

use std::collections::{HashMap, HashSet};
use std::path::{Path, PathBuf};
use std::sync::Mutex;
use std::sync::PoisonError;

use rayon::prelude::*;

use crate::audit::{Candidate, Tree, digest, shown, tree};
use crate::judge::{Options, Setup};
use crate::library::Headers;
use crate::rulebook::Spot;
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
    /// Where rules and settings come from.
    pub setup: SetupArgs,
    /// For each library, the entries of shop files about no library that it tells: each is told
    /// once.
    pub tells: Vec<Vec<Spot>>,
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
        let setup = arguments.setup.below(&arguments.paths);
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
        let columns = Columns::new(&setup);
        let found = tree(&arguments.paths, &skipped, &|folder| columns.of(folder));
        let libraries = found.libraries.par_iter();
        let inputs = libraries.map(|one| Judged::of(one, &setup));
        let inputs: Vec<Judged> = inputs.collect();
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
            setup,
            options,
            tree: found,
            tells: tells(&inputs),
            digests: inputs.into_iter().map(|one| one.files).collect(),
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

/// By what a library is judged; what cannot be read is told when it is judged.
struct Judged {
    /// SHA-256 of its files.
    files: String,
    /// Rules and settings, as hashes.
    config: String,
    /// The entries about no library that it sees.
    of_none: Vec<Spot>,
}

impl Judged {
    fn of(library: &Candidate, setup: &SetupArgs) -> Judged {
        let files = digest::of_library(&library.path);
        let Ok(setup) = setup.load(&library.path) else {
            return Judged {
                files,
                config: "unreadable".to_owned(),
                of_none: Vec::new(),
            };
        };
        let config = setup.config_sha256.as_deref().unwrap_or("none");
        Judged {
            files,
            config: format!("{} {config}", setup.rules_sha256()),
            of_none: setup.shop.spots_of_none(),
        }
    }
}

/// Which library tells which entries about none: the first that sees them.
fn tells(libraries: &[Judged]) -> Vec<Vec<Spot>> {
    let mut told: HashSet<&Spot> = HashSet::new();
    let each = libraries.iter().map(|one| {
        let own = one.of_none.iter().filter(|spot| told.insert(spot));
        own.cloned().collect()
    });
    each.collect()
}

/// The id of a run: the same for the same inputs, rules, configuration, options, version and day.
fn id(head: &Head, inputs: &[Judged]) -> String {
    let options = serde_json::to_string(&head.options).unwrap_or_default();
    let first = [
        env!("CARGO_PKG_VERSION"),
        &head.day,
        &head.rules_sha256,
        &options,
    ];
    let each = head.keys.iter().zip(inputs);
    let each = each.flat_map(|(key, one)| [key.as_str(), &one.files, &one.config]);
    digest::of_texts(first.into_iter().chain(each))
}

/// What the shop says of headers and sheets, read once a folder.
pub(in super::super) struct Columns<'a> {
    setup: &'a SetupArgs,
    known: Mutex<HashMap<PathBuf, Headers>>,
}

impl<'a> Columns<'a> {
    pub(in super::super) fn new(setup: &'a SetupArgs) -> Columns<'a> {
        Columns {
            setup,
            known: Mutex::default(),
        }
    }

    /// What counts in a folder; nothing where its shop files cannot be used.
    pub(in super::super) fn of(&self, folder: &Path) -> Headers {
        let mut known = self.known.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(columns) = known.get(folder) {
            return columns.clone();
        }
        let setup = self.setup.load(folder);
        let columns = setup.map_or_else(
            |_| Headers::default(),
            |setup| {
                let settings = setup.read_settings();
                Headers {
                    own: settings.columns,
                    sheet: settings.sheet,
                }
            },
        );
        known.insert(folder.to_owned(), columns.clone());
        columns
    }
}
