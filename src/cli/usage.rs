//! What the parser of the command line finds wrong, in the words of all other errors.

use std::error::Error as _;

use clap::error::{ContextKind, ContextValue, ErrorKind};
use clap::{Command, CommandFactory as _};

use crate::text::closest;

use super::args::Cli;
use super::options;
use super::refusal::{Refusal, shown};

/// What is wrong, and what to do; `None` where clap has no more to say than its help.
pub(super) fn refusal(error: &clap::Error, arguments: &[String]) -> Option<Refusal> {
    let mut cli = Cli::command();
    cli.build();
    let of = UsageError {
        error,
        command: arguments.get(1).and_then(|name| cli.find_subcommand(name)),
    };
    Some(match error.kind() {
        ErrorKind::InvalidSubcommand => of.no_command(&cli),
        ErrorKind::UnknownArgument => of.no_option(),
        ErrorKind::InvalidValue => of.no_value(),
        ErrorKind::ValueValidation => of.unreadable(),
        ErrorKind::ArgumentConflict => of.conflict(),
        ErrorKind::MissingRequiredArgument => {
            Refusal::new(format!("{} is missing", of.named()), of.help())
        }
        ErrorKind::InvalidUtf8 => {
            Refusal::new("an argument cannot be read", "expected text in UTF-8")
        }
        ErrorKind::DisplayHelpOnMissingArgumentOrSubcommand => return None,
        // None of our options counts its values or demands an equals sign.
        other => Refusal::new(other.to_string(), of.help()),
    })
}

/// An error of the parser, and the command that it is about.
struct UsageError<'e> {
    error: &'e clap::Error,
    command: Option<&'e Command>,
}

impl UsageError<'_> {
    /// One text of what the parser says about the error.
    fn text(&self, kind: ContextKind) -> &str {
        match self.error.get(kind) {
            Some(ContextValue::String(text)) => text,
            Some(ContextValue::Strings(texts)) => texts.first().map_or("", String::as_str),
            _ => "",
        }
    }

    /// The argument that it is about: `--as` of `--as <FORM>`, `PATH` of `[PATH]...`; an option
    /// with several names by the one that was written.
    fn named(&self) -> String {
        let name = bare(self.text(ContextKind::InvalidArg));
        match options::find(name) {
            Some(option) => format!("--{}", shown(&option.as_written())),
            None => shown(name),
        }
    }

    /// Where to read how the command is used.
    fn help(&self) -> String {
        match self.command {
            Some(command) => format!("`shankwise {} --help` says more", command.get_name()),
            None => "`shankwise --help` says more".to_owned(),
        }
    }

    fn no_command(&self, cli: &Command) -> Refusal {
        let asked = self.text(ContextKind::InvalidSubcommand);
        let names = cli.get_subcommands().map(Command::get_name);
        Refusal::no_such(
            format!("there is no command `{}`", shown(asked)),
            closest(asked, names),
            "`shankwise --help` lists the commands",
        )
    }

    fn no_option(&self) -> Refusal {
        let asked = self.text(ContextKind::InvalidArg);
        if !asked.starts_with('-') {
            let of_a_question = self.command.is_some_and(|one| one.get_name() == "window");
            let hint = if of_a_question {
                options::OF_NO_OPTION.to_owned()
            } else {
                self.help()
            };
            return Refusal::new(format!("`{}` belongs to no option", shown(asked)), hint);
        }
        let arguments = self.command.into_iter().flat_map(Command::get_arguments);
        let names = arguments.flat_map(|argument| {
            let all = argument.get_long_and_visible_aliases();
            all.unwrap_or_default()
        });
        let names: Vec<String> = names.map(|name| format!("--{name}")).collect();
        let folded = asked.replace('_', "-");
        Refusal::no_such(
            format!("there is no option `{}`", shown(asked)),
            closest(&folded, names.iter().map(String::as_str)),
            &self.help(),
        )
    }

    /// What the value of the option should be.
    fn expected(&self) -> String {
        let option = options::find(bare(self.text(ContextKind::InvalidArg)));
        match (option, self.error.get(ContextKind::ValidValue)) {
            (Some(option), _) => option.expected(),
            (None, Some(ContextValue::Strings(words))) if !words.is_empty() => {
                format!("expected one of: {}", words.join(", "))
            }
            _ => self.help(),
        }
    }

    fn no_value(&self) -> Refusal {
        let (option, value) = (self.named(), self.text(ContextKind::InvalidValue));
        if value.is_empty() {
            return Refusal::new(format!("{option} has no value"), self.expected());
        }
        let near = self.text(ContextKind::SuggestedValue);
        let near = (!near.is_empty()).then_some(near);
        let what = format!("{option} `{}` cannot be read", shown(value));
        Refusal::no_such(what, near, &self.expected())
    }

    fn unreadable(&self) -> Refusal {
        let problem = self.error.source().map(ToString::to_string);
        let value = self.text(ContextKind::InvalidValue);
        let problem = problem.unwrap_or_else(|| self.expected());
        Refusal::unreadable(&self.named(), value, &problem)
    }

    fn conflict(&self) -> Refusal {
        let [first, second] = [ContextKind::PriorArg, ContextKind::InvalidArg];
        let (one, other) = (self.named(), shown(bare(self.text(first))));
        if self.text(first) == self.text(second) || other.is_empty() {
            return Refusal::new(format!("{one} is stated twice"), "state it once");
        }
        Refusal::new(
            format!("{one} and {other} exclude each other"),
            "leave one of them out",
        )
    }
}

/// An argument as it is typed, without what stands for its value.
fn bare(argument: &str) -> &str {
    let name = argument.split(' ').next().unwrap_or_default();
    let name = name.trim_end_matches("...");
    name.trim_matches(['<', '>', '[', ']'])
}
