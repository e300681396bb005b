//! One library of an audit, read and judged on any thread; what comes of it is written in pieces.

use std::collections::BTreeMap;
use std::io;
use std::path::Path;

use crate::audit::{Ended, Frame, Piece, digest, shown};
use crate::judge::Setup;
use crate::library::{Input, Library, Loaded, load};
use crate::rulebook::Spot;
use crate::sheet::{Records, RuleShown, Wants, each};
use crate::text::Unreadable;
use crate::write::audit::{LibraryInput, LibraryPieces, OfLibrary, Rules, ended, ended_without};

use super::super::judged;
use super::super::unreadable::{of_input, of_setup};
use super::plan::Plan;

/// A library of the audit.
struct One<'p> {
    plan: &'p Plan<'p>,
    key: &'p str,
    path: &'p Path,
    /// Its path as it is shown.
    shown: String,
    /// SHA-256 of its files when the audit began.
    files: &'p str,
    /// The entries about no library that it tells.
    tells: &'p [Spot],
}

impl Plan<'_> {
    fn one(&self, at: usize) -> Option<One<'_>> {
        let library = self.tree.libraries.get(at)?;
        Some(One {
            plan: self,
            key: &library.key,
            path: &library.path,
            shown: shown(&library.path),
            files: self.digests.get(at)?,
            tells: self.tells.get(at)?,
        })
    }

    /// Reads and judges library number `at`, and writes what comes of it.
    ///
    /// # Errors
    /// If the pieces cannot be written.
    pub(super) fn judge(&self, at: usize, to: &mut Piece) -> io::Result<()> {
        match self.one(at) {
            Some(one) => Frame::End(Box::new(one.judge(to)?)).write(to),
            None => Ok(()),
        }
    }

    /// What comes of a library on which the program failed.
    ///
    /// # Errors
    /// If it cannot be written.
    pub(super) fn failed(&self, at: usize, why: &str, to: &mut Piece) -> io::Result<()> {
        let Some(one) = self.one(at) else {
            return Ok(());
        };
        let ended = ended_without(&one.input(None, &[]), Some(why.to_owned()));
        Frame::End(Box::new(ended)).write(to)
    }
}

impl One<'_> {
    fn input<'i>(
        &'i self,
        name: Option<&'i str>,
        unreadable: &'i [Unreadable],
    ) -> LibraryInput<'i> {
        LibraryInput {
            key: self.key,
            shown: &self.shown,
            name,
            digest: self.files,
            unreadable,
        }
    }

    fn judge(&self, to: &mut Piece) -> io::Result<Ended> {
        let setup = match self.plan.setup.load(self.path) {
            Ok(mut setup) => {
                setup.shop.keep_of_none(self.tells);
                setup
            }
            Err(error) => return Ok(ended_without(&self.input(None, &of_setup(&error)), None)),
        };
        let name = setup.shop.name.as_deref();
        let Loaded { library, errors } = load(Input::Path(self.path), &setup.read_settings());
        let mut unreadable: Vec<Unreadable> = errors.iter().map(of_input).collect();
        let is_same = digest::of_library(self.path) == self.files;
        if !is_same {
            unreadable.push(changed(&self.shown));
        }
        let input = self.input(name, &unreadable);
        match library.filter(|_| is_same) {
            None => Ok(ended_without(&input, None)),
            Some(library) => self.sheets(&library, &setup, &input, to),
        }
    }

    fn sheets(
        &self,
        library: &Library,
        setup: &Setup,
        input: &LibraryInput<'_>,
        to: &mut Piece,
    ) -> io::Result<Ended> {
        let Plan {
            arguments,
            options,
            rules: plain,
            ..
        } = self.plan;
        let own = OfLibrary::new(self.key, library.units.length());
        let wants = Wants {
            card: false,
            remedies: arguments.remedies,
            lacks: false,
            plan: false,
            record: Records::OfFound,
        };
        let mut counts = BTreeMap::new();
        let mut overview = each(
            (library, setup, options),
            wants,
            |item| own.pieces(&item),
            |pieces: LibraryPieces| own.write(pieces, &mut counts, to),
        )?;
        overview.coverage.wanted = arguments.min_coverage;
        let verdict = overview.summary.verdict;
        let fails = judged::fails(verdict, &overview.coverage, options.strict);
        let rules = RuleShown::all(setup);
        let is_asked = |rule: &&RuleShown| !rule.off && options.selection.takes(&rule.id);
        let inactive = rules.iter().filter(|rule| !is_asked(rule));
        let inactive = inactive.map(|rule| rule.id.clone()).collect();
        let is_new = |rule: &&RuleShown| plain.iter().all(|known| known.id != rule.id);
        let new: Vec<RuleShown> = rules.iter().filter(is_new).cloned().collect();
        let rules = Rules {
            inactive,
            own: &new,
        };
        Ok(ended(input, &overview, rules, fails))
    }
}

/// The run's id rests on files that are not these any more.
fn changed(library: &str) -> Unreadable {
    Unreadable {
        file: Some(library.to_owned()),
        position: None,
        message: "was changed while it was read; run the audit again".to_owned(),
    }
}
