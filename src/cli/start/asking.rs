//! Asks at the terminal what columns mean of which nobody can be sure.

use std::io::{self, BufRead as _, Write as _};

use crate::library::{Meaning, PROPERTIES, Survey, SurveyedColumn, ValueType, find_word};
use crate::text::closest;
use crate::units::Word;
use crate::write::{inches_question, is_in_inches, question_text, word_question};

use super::super::output::terminal_width;
use super::super::refusal::Refusal;
use super::drafted_shop_file::Answers;

/// Answers of a person, one a column.
pub(super) fn ask(survey: &Survey) -> Result<Answers, Refusal> {
    let mut answers = Answers::default();
    let mut lines = io::stdin().lock().lines();
    if is_in_inches(survey) {
        inches(&mut answers, survey, &mut lines)?;
    }
    let open = survey.columns.iter().filter(|column| {
        let is_open = matches!(column.meaning, Meaning::Guessed(_) | Meaning::Open);
        is_open && !column.header.is_empty()
    });
    for column in open {
        loop {
            say(&question_text(column, terminal_width()));
            let line = next(&mut lines)?;
            match meant(line.trim(), column) {
                Ok(Some(property)) => {
                    answers.add(column, property);
                    words(&mut answers, (column, property), &mut lines)?;
                }
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

/// Asks whether bare lengths are in inches, which the file itself speaks for.
fn inches(
    answers: &mut Answers,
    survey: &Survey,
    lines: &mut impl Iterator<Item = io::Result<String>>,
) -> Result<(), Refusal> {
    loop {
        say(&inches_question(survey, terminal_width()));
        match next(lines)?.trim().to_lowercase().as_str() {
            "y" | "yes" => {
                answers.in_inches();
                return Ok(());
            }
            "n" | "no" | "" => return Ok(()),
            _ => say("Type y or n.\n"),
        }
    }
}

/// Asks what the words of a column mean that its property does not have.
fn words(
    answers: &mut Answers,
    (column, property): (&SurveyedColumn, &str),
    lines: &mut impl Iterator<Item = io::Result<String>>,
) -> Result<(), Refusal> {
    if column.property() != Some(property) {
        return Ok(());
    }
    let Some(list) = word_list(property) else {
        return Ok(());
    };
    for word in &column.words {
        loop {
            say(&word_question(word, list, terminal_width()));
            let typed = next(lines)?;
            let typed = match (typed.trim(), word.meant) {
                ("", _) => break,
                ("1", Some(meant)) => meant,
                (typed, _) => typed,
            };
            if let Some(known) = find_word(list, typed) {
                answers.translate(&column.header, property, (&word.text, known.word));
                break;
            }
            say("That is not a word of the list.\n");
        }
    }
    Ok(())
}

/// The words that a property may have, if it has a list of them.
fn word_list(property: &str) -> Option<&'static [Word]> {
    PROPERTIES.iter().find_map(|one| match one.value {
        ValueType::Word(list) if one.name == property => Some(list),
        _ => None,
    })
}

/// The next line that is typed.
fn next(lines: &mut impl Iterator<Item = io::Result<String>>) -> Result<String, Refusal> {
    let line = lines.next().ok_or_else(|| {
        Refusal::new(
            "the answers end before the questions do",
            "nothing was written; an empty line leaves a question open",
        )
    })?;
    line.map_err(|why| Refusal::new(format!("cannot read answers: {why}"), ""))
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
