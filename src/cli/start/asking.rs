//! Asks at the terminal what columns mean of which nobody can be sure.

use std::io::{self, BufRead as _, Write as _};

use crate::library::{Meaning, PROPERTIES, Survey, SurveyedColumn};
use crate::text::closest;
use crate::write::question_text;

use super::super::output::terminal_width;
use super::super::refusal::Refusal;
use super::drafted_shop_file::Answers;

/// Answers of a person, one a column.
pub(super) fn ask(survey: &Survey) -> Result<Answers, Refusal> {
    let mut answers = Answers::default();
    let open = survey.columns.iter().filter(|column| {
        let is_open = matches!(column.meaning, Meaning::Guessed(_) | Meaning::Open);
        is_open && !column.header.is_empty()
    });
    let mut lines = io::stdin().lock().lines();
    for column in open {
        loop {
            say(&question_text(column, terminal_width()));
            let Some(line) = lines.next() else {
                return Err(Refusal::new(
                    "the answers end before the questions do",
                    "nothing was written; an empty line leaves a question open",
                ));
            };
            let line =
                line.map_err(|why| Refusal::new(format!("cannot read answers: {why}"), ""))?;
            match meant(line.trim(), column) {
                Ok(Some(property)) => answers.add(&column.header, property),
                Ok(None) if line.trim() == "0" => answers.ignore(&column.header),
                Ok(None) => {}
                Err(hint) => {
                    say(&hint);
                    continue;
                }
            }
            break;
        }
    }
    Ok(answers)
}

/// Where standard error is closed there is nobody to ask, and the answers still count.
fn say(text: &str) {
    let _ = io::stderr().write_all(text.as_bytes());
}

/// The property that an answer names: by its number among the guesses, or by its name; none for 0,
/// which leaves the column out, and for an empty line, which leaves the question open.
fn meant(answer: &str, column: &SurveyedColumn) -> Result<Option<&'static str>, String> {
    if matches!(answer, "" | "0") {
        return Ok(None);
    }
    let guesses = match &column.meaning {
        Meaning::Guessed(guesses) => guesses.as_slice(),
        _ => &[],
    };
    if let Ok(number) = answer.parse::<usize>() {
        let guess = number.checked_sub(1).and_then(|at| guesses.get(at));
        return guess
            .map(|guess| Some(guess.property))
            .ok_or_else(|| "There is no such number.\n".to_owned());
    }
    let names = || PROPERTIES.iter().map(|one| one.name);
    if let Some(name) = names().find(|name| *name == answer) {
        return Ok(Some(name));
    }
    Err(match closest(answer, names()) {
        Some(near) => format!("That is not a property; did you mean {near}?\n"),
        None => "That is not a property; `shankwise columns` lists them.\n".to_owned(),
    })
}
