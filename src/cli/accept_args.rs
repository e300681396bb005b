//! What `accept` and `accepted` take.

use std::path::PathBuf;

use clap::Args;

use crate::rulebook::Date;

use super::args::{ColourArgs, DayArgs, ListForm, SetupArgs};

#[derive(Debug, Args)]
pub(super) struct AcceptArgs {
    /// The library: a CSV file, a workbook, an XML document, or a folder with assemblies.csv
    #[arg(value_name = "LIBRARY")]
    pub library: PathBuf,
    /// The finding's fingerprint, as JSON and SARIF have it; its beginning is enough where no other
    /// begins so
    #[arg(value_name = "FINGERPRINT")]
    pub fingerprint: String,
    /// Why it is accepted
    #[arg(long, value_name = "TEXT")]
    pub reason: String,
    /// Who accepts it
    #[arg(long, value_name = "NAME")]
    pub by: String,
    /// The last day, such as 2027-01-31; needed for grip, holding and torque, and wherever a tool
    /// may come out
    #[arg(long, value_name = "DATE", value_parser = super::day::day)]
    pub until: Option<Date>,
    /// The plant's shop file, as `lint` takes it; nothing is written there
    #[arg(long, value_name = "FILE")]
    pub config: Option<PathBuf>,
    /// A folder of more rules; may be given several times
    #[arg(long, value_name = "DIR")]
    pub rules: Vec<PathBuf>,
    #[command(flatten)]
    pub day: DayArgs,
    #[command(flatten)]
    pub colour: ColourArgs,
}

impl AcceptArgs {
    /// What the library is judged with: always with its own shop file, which is written.
    pub(super) fn setup(&self) -> SetupArgs {
        SetupArgs {
            config: self.config.clone(),
            no_config: false,
            rules: self.rules.clone(),
            no_built_in: false,
            roots: Vec::new(),
        }
    }
}

#[derive(Debug, Args)]
pub(super) struct AcceptedArgs {
    /// Libraries, or folders that are looked through for them; without a path, the library in the
    /// current folder
    #[arg(value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    /// text, or json: one object with all entries
    #[arg(long = "as", value_name = "FORM", default_value = "text")]
    pub form: ListForm,
    #[command(flatten)]
    pub setup: SetupArgs,
    #[command(flatten)]
    pub day: DayArgs,
    #[command(flatten)]
    pub colour: ColourArgs,
}
