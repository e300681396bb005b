//! What the command line takes for the first hour with an export.

use std::path::PathBuf;

use clap::Args;

use super::args::{ColourArgs, SetupArgs};

#[derive(Debug, Args)]
pub(super) struct StartArgs {
    /// The export: a table or XML, as a spreadsheet or a database writes it
    #[arg(
        value_name = "FILE",
        required_unless_present = "refresh",
        conflicts_with = "refresh"
    )]
    pub file: Option<PathBuf>,
    /// Make this folder and draft a library in it; it must not be there, or be empty
    #[arg(long, value_name = "FOLDER")]
    pub into: Option<PathBuf>,
    /// Replace the copy of the export in the folder of --into by this file, and leave all else as it is
    #[arg(long, value_name = "FILE", requires = "into")]
    pub refresh: Option<PathBuf>,
    /// With --into: ask at the terminal what each column and word means that is not sure
    #[arg(long, requires = "into", conflicts_with_all = ["answers", "refresh"])]
    pub ask: bool,
    /// With --into: take the answers from this file, a part of a shop file that says what columns mean
    #[arg(
        long,
        value_name = "FILE",
        requires = "into",
        conflicts_with = "refresh"
    )]
    pub answers: Option<PathBuf>,
    #[command(flatten)]
    pub setup: SetupArgs,
    #[command(flatten)]
    pub colour: ColourArgs,
}
