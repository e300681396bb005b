//! What the command line takes for cards.

use std::path::PathBuf;

use clap::{Args, ValueEnum};

use super::args::{ColourArgs, DayArgs, SetupArgs};

#[derive(Debug, Args)]
pub(super) struct CardsArgs {
    /// A library: a CSV file, a workbook, an XML document, a folder with assemblies.csv, or - for standard input
    #[arg(value_name = "PATH")]
    pub path: PathBuf,
    /// Cards of these tool numbers alone
    #[arg(long, value_name = "NUMBER", value_delimiter = ',')]
    pub tool: Vec<String>,
    /// Cards of the tools that a job names: one tool number a line, with remarks behind #, or a CSV
    /// file with a column `tool_number`
    #[arg(long, value_name = "FILE")]
    pub job: Option<PathBuf>,
    /// html: setup sheet and cards, one file to print; text: the setup sheet alone
    #[arg(long = "as", value_name = "FORM", default_value = "html")]
    pub form: CardsOutput,
    /// Write to this file, whole or not at all; text is printed without it
    #[arg(long, value_name = "FILE")]
    pub out: Option<PathBuf>,
    #[command(flatten)]
    pub setup: SetupArgs,
    #[command(flatten)]
    pub day: DayArgs,
    #[command(flatten)]
    pub colour: ColourArgs,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum CardsOutput {
    Html,
    Text,
}
