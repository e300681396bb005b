//! What the command line takes for another form.

use std::path::PathBuf;

use clap::{Args, ValueEnum};

use super::args::{ColourArgs, SetupArgs};

#[derive(Debug, Args)]
pub(super) struct ConvertArgs {
    /// A library: a CSV file, an XML document, a folder with assemblies.csv, or - for standard input
    #[arg(value_name = "PATH")]
    pub path: PathBuf,
    /// csv: one table, a row for each tool; folder: tables joined by id; xml: one document
    #[arg(long, value_name = "FORM")]
    pub to: ConvertTo,
    /// Write to this file, or for --to folder into this folder, whole or not at all; a file is
    /// printed without it
    #[arg(long, value_name = "PATH")]
    pub out: Option<PathBuf>,
    #[command(flatten)]
    pub setup: SetupArgs,
    #[command(flatten)]
    pub colour: ColourArgs,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum ConvertTo {
    Csv,
    Folder,
    Xml,
}
