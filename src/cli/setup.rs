//! Which rules and shop files the arguments and the environment name.

use std::env;
use std::path::{Path, PathBuf};

use crate::judge::{Named, Setup, SetupError};
use crate::library::Kind;
use crate::rulebook::{RuleError, SHOP_FILE, ShopFile, shop_files, shop_folders};
use crate::write::parted;

use super::args::SetupArgs;

/// The variable that names the plant's shop file where `--config` does not.
const CONFIG: &str = "SHANKWISE_CONFIG";
/// Where shop files are looked for if there is no library on disk: the working folder.
pub(super) const HERE: &str = "";

impl SetupArgs {
    /// The plant's shop file: `--config`, else what the environment says.
    fn plant(&self) -> Option<PathBuf> {
        let set = || env::var_os(CONFIG).filter(|value| !value.is_empty());
        let plant = self.config.clone();
        let plant = plant.or_else(|| set().map(PathBuf::from));
        plant.filter(|_| !self.no_config)
    }

    /// Where shop files are looked for.
    fn near<'p>(&self, library: &'p Path) -> Option<&'p Path> {
        let near = if library == Path::new("-") {
            Path::new(HERE)
        } else {
            library
        };
        (!self.no_config).then_some(near)
    }

    /// The same for libraries that are looked for below folders. A plant's file that lies
    /// elsewhere names them as the audit does: from its folder, or from the working folder where
    /// that could be one of several.
    pub(super) fn below(&self, folders: &[PathBuf]) -> SetupArgs {
        let is_library = |path: &PathBuf| path.is_file() || Kind::Assembly.lies_in(path);
        let from_here = folders.len() > 1 || folders.iter().any(is_library);
        let here = from_here.then(|| PathBuf::from(HERE));
        SetupArgs {
            roots: folders.iter().cloned().chain(here).collect(),
            ..self.clone()
        }
    }

    /// Loads what a library is judged with: `-` and [`HERE`] stand for the working folder.
    pub(super) fn load(&self, library: &Path) -> Result<Setup, SetupError> {
        let plant = self.plant();
        let near = self.near(library);
        let named = Named {
            config: plant.as_deref(),
            roots: &self.roots,
        };
        let setup = Setup::load_named(near, named, &self.rules, !self.no_built_in);
        setup.map_err(|error| self.explained(error, plant.as_deref()))
    }

    /// Whoever has forgotten the variable cannot tell where the name of a file comes from.
    fn explained(&self, mut error: SetupError, plant: Option<&Path>) -> SetupError {
        let by_variable = plant.filter(|_| self.config.is_none());
        if let (SetupError::Rules(errors), Some(plant)) = (&mut error, by_variable) {
            let own = errors
                .iter_mut()
                .filter(|one| Path::new(&one.file) == plant);
            for error in own.filter(|error| parted(&error.message).1.is_empty()) {
                error.message = format!("{}; {CONFIG} names this file", error.message);
            }
        }
        error
    }

    /// The shop files that are used for a library.
    pub(super) fn shop_files(&self, library: &Path) -> Result<Vec<ShopFile>, RuleError> {
        shop_files(self.near(library), self.plant().as_deref())
    }

    /// Where a shop file of a library is, or would be.
    pub(super) fn shop_places(&self, library: &Path) -> Vec<PathBuf> {
        let folders = self.near(library).map_or_else(Vec::new, shop_folders);
        let files = folders.iter().map(|folder| folder.join(SHOP_FILE));
        files.chain(self.plant()).collect()
    }
}
