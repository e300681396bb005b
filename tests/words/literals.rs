//! String literals of Rust source, as the program would print them.

/// Every string literal of a source, with its line; comments and characters left out.
pub fn literals(source: &str) -> Vec<(usize, String)> {
    let mut reader = Reader {
        rest: source,
        line: 1,
    };
    let mut found = Vec::new();
    while !reader.rest.is_empty() {
        reader.step(&mut found);
    }
    found
}

struct Reader<'s> {
    rest: &'s str,
    line: usize,
}

impl Reader<'_> {
    fn skip(&mut self, bytes: usize) {
        let (gone, rest) = self.rest.split_at(bytes);
        self.line += gone.matches('\n').count();
        self.rest = rest;
    }

    fn skip_past(&mut self, end: &str) {
        let bytes = self.rest.find(end).map(|at| at + end.len());
        self.skip(bytes.unwrap_or(self.rest.len()));
    }

    fn step(&mut self, found: &mut Vec<(usize, String)>) {
        if self.rest.starts_with("//") {
            self.skip_past("\n");
        } else if self.rest.starts_with("/*") {
            self.skip_past("*/");
        } else if let Some(hashes) = raw(self.rest) {
            let open = 2 + hashes;
            let end = format!("\"{}", "#".repeat(hashes));
            let length = self.rest[open..].find(&end).expect("a raw string ends");
            found.push((self.line, self.rest[open..open + length].to_owned()));
            self.skip(open + length + end.len());
        } else if self.rest.starts_with('"') {
            let (text, length) = quoted(self.rest);
            found.push((self.line, text));
            self.skip(length);
        } else if let Some(length) = character(self.rest) {
            self.skip(length);
        } else {
            // A word at a time, so that the `r` at the end of a name opens no raw string.
            let word = self
                .rest
                .find(|c: char| !(c.is_alphanumeric() || c == '_'))
                .unwrap_or(self.rest.len());
            let one = self.rest.chars().next().map_or(0, char::len_utf8);
            self.skip(word.max(one));
        }
    }
}

/// How many `#` a raw string opens with.
fn raw(rest: &str) -> Option<usize> {
    let hashes = rest.strip_prefix('r')?;
    let text = hashes.trim_start_matches('#');
    text.starts_with('"').then_some(hashes.len() - text.len())
}

/// A string from its opening quote: its text, and its length in the source.
fn quoted(rest: &str) -> (String, usize) {
    let mut text = String::new();
    let mut characters = rest.char_indices().skip(1).peekable();
    while let Some((at, c)) = characters.next() {
        match c {
            '"' => return (text, at + 1),
            '\\' => match characters.next() {
                Some((_, '\n')) => {
                    while characters.next_if(|(_, c)| c.is_whitespace()).is_some() {}
                }
                Some((_, 'n')) => text.push('\n'),
                Some((_, 'u')) => {
                    text.push('?');
                    while characters.next().is_some_and(|(_, c)| c != '}') {}
                }
                Some((_, c)) => text.push(c),
                None => {}
            },
            c => text.push(c),
        }
    }
    panic!("a string without end: {text}");
}

/// The length of a character literal; a lifetime is none.
fn character(rest: &str) -> Option<usize> {
    let inner = rest.strip_prefix('\'')?;
    if inner.starts_with('\\') {
        return inner[2..].find('\'').map(|at| at + 4);
    }
    let mut all = inner.char_indices();
    all.next()?;
    let (at, end) = all.next()?;
    (end == '\'').then_some(at + 2)
}

#[test]
fn literals_are_read_as_the_compiler_reads_them() {
    let source = "let a = \"one \\\n    two\"; // \"not\"\nlet b = 'x'; f::<'a>(r#\"raw \"x\"\"#, '\"', \"\\\"q\\\"\", '\\'', \"end\");";
    let found = literals(source);
    let texts: Vec<(usize, &str)> = found
        .iter()
        .map(|(at, text)| (*at, text.as_str()))
        .collect();
    assert_eq!(
        texts,
        [(1, "one two"), (3, "raw \"x\""), (3, "\"q\""), (3, "end")]
    );
}
