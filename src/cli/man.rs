//! `shankwise man`: the manual page.

use std::io;

use clap::{Command, CommandFactory as _};
use clap_mangen::Man;

use super::COULD_NOT;
use super::args::{Cli, ManArgs};
use super::output::{look_of, write};
use super::refusal::Refusal;

/// Prints the page of the whole program.
pub(super) fn run(arguments: &ManArgs) -> u8 {
    let look = look_of(arguments.colour.color, None);
    match page() {
        Ok(page) => write(&page, look),
        Err(why) => {
            Refusal::new(why.to_string(), "").tell(look);
            COULD_NOT
        }
    }
}

/// One page: the program, and after it a section for each command. A page a command would be ten
/// files to install.
fn page() -> io::Result<String> {
    let mut cli = Cli::command();
    cli.build();
    let mut page = Vec::new();
    let whole = Man::new(cli.clone()).manual("User commands");
    whole.render_title(&mut page)?;
    whole.render_name_section(&mut page)?;
    whole.render_synopsis_section(&mut page)?;
    whole.render_description_section(&mut page)?;
    whole.render_options_section(&mut page)?;
    let mut page = String::from_utf8_lossy(&page).into_owned();
    // What `help` takes are the other commands again.
    let commands = cli.get_subcommands().filter(|one| one.get_name() != "help");
    for command in commands {
        page.push_str(&section(command)?);
    }
    let mut notice = Vec::new();
    whole.render_extra_section(&mut notice)?;
    page.push_str(&String::from_utf8_lossy(&notice).replacen("EXTRA", "NOTICE", 1));
    Ok(page)
}

/// A command as a section, with what are sections of its own page below it.
fn section(command: &Command) -> io::Result<String> {
    let man = Man::new(command.clone());
    let mut own = Vec::new();
    man.render_synopsis_section(&mut own)?;
    man.render_description_section(&mut own)?;
    man.render_options_section(&mut own)?;
    if command.get_after_help().is_some() || command.get_after_long_help().is_some() {
        man.render_extra_section(&mut own)?;
    }
    let own = String::from_utf8_lossy(&own).into_owned();
    let lines = own.lines().map(|line| match line.strip_prefix(".SH ") {
        Some("EXTRA") => ".SS NOTES\n".to_owned(),
        Some(heading) => format!(".SS {heading}\n"),
        None => format!("{line}\n"),
    });
    let name = command.get_name().to_uppercase();
    Ok(format!(".SH {name}\n{}", lines.collect::<String>()))
}
