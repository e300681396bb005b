//! Sentences, and how many words they have.

/// Most words of a sentence.
pub const LONGEST: usize = 28;

/// The sentences of a text: each ends with a mark that a blank or nothing follows.
pub fn sentences<'t>(text: &'t str, marks: &'static [char]) -> Vec<&'t str> {
    let mut found = Vec::new();
    let mut start = 0;
    for (at, mark) in text.match_indices(marks) {
        let behind = at + mark.len();
        let next = text[behind..].chars().next();
        if next.is_none_or(|c| c.is_whitespace() || c == '"' || c == ')' || c == '*') {
            found.push(&text[start..behind]);
            start = behind;
        }
    }
    found.push(&text[start..]);
    found
}

/// How many words a sentence has: a name or a number is one, a mark alone is none.
pub fn words(sentence: &str) -> usize {
    let words = sentence.split_whitespace();
    words
        .filter(|word| word.contains(char::is_alphanumeric))
        .count()
}

#[test]
fn a_sentence_ends_where_a_reader_stops() {
    let all = sentences(
        "Set it to 0.5 mm. Then tighten; \"stop.\" Once",
        &['.', ';'],
    );
    assert_eq!(
        all,
        ["Set it to 0.5 mm.", " Then tighten;", " \"stop.", "\" Once"]
    );
    assert_eq!(words("the 2.5 mm − or `a` – of it"), 7);
}
