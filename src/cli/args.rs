//! What the command line takes.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};

use crate::judge::Selection;
use crate::rulebook::{Date, Level};

use super::accept_args::{AcceptArgs, AcceptedArgs};
use super::audit_args::{AuditArgs, ReportArgs};
use super::cards_args::CardsArgs;
use super::convert_args::ConvertArgs;
use super::options::PropertyArgs;
use super::start_args::StartArgs;

/// Is enough of every cutter's shank in its collet? Lints tool libraries before the program
/// is posted.
#[derive(Debug, Parser)]
#[command(version, about, after_help = crate::write::NOTICE)]
pub(super) struct Cli {
    #[command(subcommand)]
    pub command: Command,
}

#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Judge libraries and say what is wrong, by how much, why it matters and what to do
    ///
    /// Exit status: 0 nothing found that fails, or incomplete without --strict; 1 fails, or incomplete with
    /// --strict, or a grip judged on too few tools; 2 could not run, or an input was unreadable.
    #[command(after_long_help = include_str!("help/lint.txt").trim_end())]
    Lint(LintArgs),
    /// Judge all libraries below folders, unattended, and say what is new since the last time
    ///
    /// Exit status: 0 nothing found that fails; 1 fails, or incomplete unless --no-strict, or a grip
    /// judged on too few tools; 2 could not run, or an input was unreadable.
    #[command(after_long_help = include_str!("help/audit.txt").trim_end())]
    Audit(AuditArgs),
    /// Make a page for a reviewer: of libraries, or of the audit.json of an audit
    ///
    /// Exit status: 0 the page is written; 2 it could not be, or an input was unreadable.
    #[command(after_long_help = include_str!("help/report.txt").trim_end())]
    Report(ReportArgs),
    /// Make cards to print for the bench, one a tool, and a setup sheet
    ///
    /// Exit status: 0 written; 1 written, and a card says DO NOT BUILD or a tool is not in the library;
    /// 2 could not be written, or an input was unreadable.
    #[command(after_long_help = include_str!("help/cards.txt").trim_end())]
    Cards(CardsArgs),
    /// Write a library in another form: one table, a folder of tables, an XML document
    ///
    /// Exit status: 0 written; 2 nothing is written, or an input was unreadable.
    #[command(after_long_help = include_str!("help/convert.txt").trim_end())]
    Convert(ConvertArgs),
    /// Show the facts computed for every assembly, and from which fields
    Facts(FactsArgs),
    /// Ask without a library: which stick-out for this cutter, collet and job
    #[command(
        after_help = include_str!("help/window.txt").trim_end(),
        override_usage = "shankwise window [OPTIONS] --PROPERTY VALUE..."
    )]
    Window(WindowArgs),
    /// Make a library of an export: say what each column may mean, and draft the rest
    ///
    /// Exit status: 0 said or written; 2 could not be read or written, and nothing is written.
    #[command(after_long_help = include_str!("help/start.txt").trim_end())]
    Start(StartArgs),
    /// Accept a finding as it is today: writes it into the library's shop file
    ///
    /// Exit status: 0 written; 2 refused, and nothing is written.
    #[command(after_long_help = include_str!("help/accept.txt").trim_end())]
    Accept(AcceptArgs),
    /// List what the shop files accept, and what became of it
    Accepted(AcceptedArgs),
    /// List the rules, or explain one
    #[command(after_long_help = include_str!("help/rules.txt").trim_end())]
    Rules(RulesArgs),
    /// List the columns that tables may have
    #[command(after_long_help = include_str!("help/columns.txt").trim_end())]
    Columns(ColumnsArgs),
    /// Print the JSON Schema of the JSON output, of a shop's file or of a rule file
    #[command(after_long_help = include_str!("help/schema.txt").trim_end())]
    Schema(SchemaArgs),
    /// Print the script with which a shell completes commands and options
    Completions(CompletionsArgs),
    /// Print the manual page of all commands, for man
    Man(ManArgs),
}

/// Where rules and settings come from.
#[derive(Clone, Debug, Default, Args)]
pub(super) struct SetupArgs {
    /// The plant's shop file; those found above the library, then its own, are read after it and
    /// count more. Without this option SHANKWISE_CONFIG may name it
    #[arg(long, value_name = "FILE")]
    pub config: Option<PathBuf>,
    /// Use no shop file: neither shankwise.toml beside the library and above it nor SHANKWISE_CONFIG
    #[arg(long, conflicts_with = "config")]
    pub no_config: bool,
    /// A folder of more rules; may be given several times
    #[arg(long, value_name = "DIR")]
    pub rules: Vec<PathBuf>,
    /// Leave out the built-in rules (the texts for faults of form remain)
    #[arg(long)]
    pub no_built_in: bool,
    /// Where the paths of libraries begin besides in the folder of a plant's file
    #[arg(skip)]
    pub roots: Vec<PathBuf>,
}

/// How output looks and where it goes.
#[derive(Debug, Args)]
pub(super) struct OutputArgs {
    /// text, plain (narrated, for screen readers and logs), brief (one line a finding) or json; lint
    /// writes sarif too (SARIF 2.1.0: one log of all libraries); a quick question may be answered as
    /// html, a page that prints on one sheet, or as svg, the drawing alone
    #[arg(long = "as", value_name = "FORM", default_value = "text")]
    pub form: OutputForm,
    /// Write to this file, whole or not at all, instead of standard output
    #[arg(long, value_name = "FILE")]
    pub out: Option<PathBuf>,
    /// Write nothing but errors of the run to standard error; the exit status tells the rest, and
    /// --out is still written. Without it a terminal shows how far long work has come
    #[arg(long, short)]
    pub quiet: bool,
    #[command(flatten)]
    pub colour: ColourArgs,
}

/// Whether what is printed has colour.
#[derive(Clone, Debug, Default, Args)]
pub(super) struct ColourArgs {
    /// Colour in text and in errors; auto asks NO_COLOR, CLICOLOR_FORCE, FORCE_COLOR and the terminal
    #[arg(long, value_name = "WHEN", default_value = "auto")]
    pub color: Color,
}

/// The day on which it is judged.
#[derive(Clone, Debug, Default, Args)]
pub(super) struct DayArgs {
    /// Judge as of this day, such as 2027-01-31, instead of today; it decides what is still accepted
    #[arg(long, value_name = "DATE", value_parser = super::day::day)]
    pub as_of: Option<Date>,
}

/// Which rules are asked, and what fails.
#[derive(Clone, Debug, Default, Args)]
pub(super) struct AskedArgs {
    /// The lowest level that fails the run
    #[arg(long, value_name = "LEVEL", default_value = "error")]
    pub fail_on: FailOn,
    /// Only these rules or topics; may be given several times
    #[arg(long, value_name = "RULE", value_delimiter = ',')]
    pub only: Vec<String>,
    /// Skip these rules or topics; may be given several times
    #[arg(long, value_name = "RULE", value_delimiter = ',')]
    pub except: Vec<String>,
}

impl AskedArgs {
    /// The lowest level that fails.
    pub(super) const fn level(&self) -> Level {
        match self.fail_on {
            FailOn::Error => Level::Error,
            FailOn::Warning => Level::Warning,
            FailOn::Note => Level::Note,
        }
    }

    /// The rules that are asked.
    pub(super) fn selection(&self) -> Selection {
        Selection {
            only: self.only.clone(),
            except: self.except.clone(),
        }
    }
}

#[derive(Debug, Args)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is an option of its own"
)]
pub(super) struct LintArgs {
    /// Libraries: a CSV file, a workbook, an XML document, a folder with assemblies.csv, or - for standard input;
    /// without a path, the library in the current folder
    #[arg(value_name = "PATH")]
    pub paths: Vec<PathBuf>,
    #[command(flatten)]
    pub setup: SetupArgs,
    #[command(flatten)]
    pub output: OutputArgs,
    #[command(flatten)]
    pub day: DayArgs,
    #[command(flatten)]
    pub asked: AskedArgs,
    /// Do not lower findings that rest on assumptions, and fail when incomplete
    #[arg(long)]
    pub strict: bool,
    /// Share of the tools held by a shank on which the grip must be judged, such as 90% or 0.9;
    /// without it one tool is enough
    #[arg(long, value_name = "SHARE", value_parser = super::share::share)]
    pub min_coverage: Option<f64>,
    /// Text with everything: each finding with all its cells, why, limits, alternatives, cautions
    #[arg(long, conflicts_with_all = ["tool", "show"])]
    pub full: bool,
    /// In which order the short text has its tools; severity puts the worst first
    #[arg(long, value_name = "ORDER", default_value = "number")]
    pub sort: SortBy,
    /// Full text of these findings alone; the short text only counts notes and what is not judged
    #[arg(long, value_name = "WHAT", value_delimiter = ',')]
    pub show: Vec<ShowWhat>,
    /// Show only these tool numbers in text, with their notes; the counts are still the library's,
    /// the exit status is that of these tools
    #[arg(
        long,
        value_name = "NUMBER",
        value_delimiter = ',',
        conflicts_with = "remedies"
    )]
    pub tool: Vec<String>,
    /// Judge only the tools that a job names: one tool number a line, with remarks behind #, or a CSV
    /// file with a column `tool_number`, whose other columns say what the job asks of them
    #[arg(long, value_name = "FILE")]
    pub job: Option<PathBuf>,
    /// To a document of MTConnect assets, add the tables of this folder: each row to the asset with its
    /// tool number, else with its id
    #[arg(long, value_name = "FOLDER")]
    pub with: Option<PathBuf>,
    /// Most blocks, notes and records that text shows, and most names in a list; of the rest it
    /// counts how often each rule speaks; 0 shows all
    #[arg(long, value_name = "N", default_value_t = crate::write::MOST)]
    pub most: usize,
    /// Add the facts and the stick-out limits of every assembly to JSON
    #[arg(long)]
    pub with_facts: bool,
    /// Look for remedies in the stock and add them, with the facts, to JSON; text of one library
    /// always has them
    #[arg(long)]
    pub remedies: bool,
}

#[derive(Debug, Args)]
pub(super) struct FactsArgs {
    /// A library: a CSV file, a workbook, an XML document, a folder with assemblies.csv, or - for standard input
    #[arg(value_name = "PATH", required_unless_present_any = ["list", "evidence"])]
    pub path: Option<PathBuf>,
    /// List the facts with meaning and source instead
    #[arg(long, conflicts_with = "path")]
    pub list: bool,
    /// Compare the formulas with printed or recomputed values instead, and name the source of each
    #[arg(long, conflicts_with_all = ["path", "list"])]
    pub evidence: bool,
    #[command(flatten)]
    pub setup: SetupArgs,
    #[command(flatten)]
    pub output: OutputArgs,
    #[command(flatten)]
    pub day: DayArgs,
}

#[derive(Debug, Args)]
pub(super) struct WindowArgs {
    /// Unit of lengths without unit, and of the answer: mm, or in if every length is in inches
    #[arg(long, value_name = "UNIT")]
    pub units: Option<LengthUnit>,
    /// Draw with ASCII only; this is the default where the locale is not UTF-8
    #[arg(long)]
    pub ascii: bool,
    /// Draw an invented socket, where the holder's own is not stated, and the stress in it; with --as
    /// html or svg
    #[arg(long, value_name = "WHICH")]
    pub socket: Option<SocketDrawn>,
    #[command(flatten)]
    pub setup: SetupArgs,
    #[command(flatten)]
    pub output: OutputArgs,
    #[command(flatten)]
    pub day: DayArgs,
    /// What is known of cutter, collet, nut, holder and job
    #[command(flatten)]
    pub properties: PropertyArgs,
}

#[derive(Debug, Args)]
pub(super) struct RulesArgs {
    /// The rule to explain, such as grip/short-grip, or the topic to list, such as grip; without it,
    /// all rules
    #[arg(value_name = "RULE")]
    pub rule: Option<String>,
    /// text; markdown: the rules as one page; or json: one object with the rules and their limits
    #[arg(long = "as", value_name = "FORM", default_value = "text")]
    pub form: CatalogueForm,
    #[command(flatten)]
    pub setup: SetupArgs,
    #[command(flatten)]
    pub colour: ColourArgs,
}

#[derive(Debug, Args)]
pub(super) struct ColumnsArgs {
    /// Only the columns of this record: assembly, cutter, collet, nut, holder, operation, stock
    #[arg(value_name = "RECORD")]
    pub record: Option<String>,
    /// Print an empty table of this record instead: a header line to start from
    #[arg(long, requires = "record")]
    pub template: bool,
    /// Print an XSD of an XML library instead. shape: names and nesting; strict: also the words of
    /// every list, decimals, units, ids and what refers to them, for whoever writes such a document
    #[arg(
        long,
        value_name = "WHICH",
        num_args = 0..=1,
        default_missing_value = "shape",
        conflicts_with = "record"
    )]
    pub xsd: Option<XsdForm>,
    /// text, or json: one object with the columns
    #[arg(
        long = "as",
        value_name = "FORM",
        default_value = "text",
        conflicts_with_all = ["template", "xsd"]
    )]
    pub form: ListForm,
    #[command(flatten)]
    pub colour: ColourArgs,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum XsdForm {
    Shape,
    Strict,
}

#[derive(Debug, Args)]
pub(super) struct SchemaArgs {
    /// output: an object of --as json; audit: an audit.json; shop: a shankwise.toml; rule: a file of
    /// a rule
    #[arg(value_name = "OF")]
    pub of: SchemaOf,
    #[command(flatten)]
    pub colour: ColourArgs,
}

#[derive(Debug, Args)]
pub(super) struct CompletionsArgs {
    /// The shell that reads the script
    #[arg(value_name = "SHELL")]
    pub shell: clap_complete::Shell,
    #[command(flatten)]
    pub colour: ColourArgs,
}

#[derive(Debug, Args)]
pub(super) struct ManArgs {
    #[command(flatten)]
    pub colour: ColourArgs,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum OutputForm {
    Text,
    Plain,
    Brief,
    Json,
    Sarif,
    Svg,
    Html,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum SocketDrawn {
    Example,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum SchemaOf {
    Output,
    Audit,
    Shop,
    Rule,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum LengthUnit {
    Mm,
    In,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum CatalogueForm {
    Text,
    Markdown,
    Json,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum ListForm {
    Text,
    Json,
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub(super) enum Color {
    #[default]
    Auto,
    Always,
    Never,
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub(super) enum FailOn {
    #[default]
    Error,
    Warning,
    Note,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum SortBy {
    Number,
    Severity,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum ShowWhat {
    Error,
    Warning,
    Note,
    NotJudged,
    All,
}
