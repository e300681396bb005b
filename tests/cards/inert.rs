//! The page asks for nothing, runs nothing, and shows a library's texts as texts.

use std::collections::BTreeSet;

use super::{Cell, HEADER, Page, SOUND, printed, with};

#[test]
fn it_is_one_file_without_a_script() {
    let page = Page::of("demo");
    assert!(page.0.contains("default-src 'none'") && page.0.contains("script-src 'none'"));
    let mut ids = BTreeSet::new();
    let mut links = Vec::new();
    for (name, attributes) in page.elements() {
        let active = ["img", "link", "iframe", "object", "script", "style", "form"];
        assert!(!active.contains(&name.as_str()), "{name}");
        for (key, value) in attributes {
            assert!(
                !key.starts_with("on") && key != "style" && key != "src",
                "{name} {key}"
            );
            if key == "href" {
                links.push(
                    value
                        .strip_prefix('#')
                        .expect("a link into the page")
                        .to_owned(),
                );
            } else if key == "id" {
                assert!(ids.insert(value.clone()), "{value} twice");
            }
        }
    }
    assert_eq!(links.len(), page.cards().len());
    assert!(links.iter().all(|link| ids.contains(link)));
    let words = page.0.to_lowercase().replace("safety", "");
    assert!(!words.contains("safe"));
}

const HOSTILE: [&str; 8] = [
    "<script>alert(1)</script>",
    "]]><svg onload=alert(1)>",
    "\" onmouseover=\"alert(1)",
    "'><img src=x onerror=alert(1)>",
    "&lt;b&gt;",
    "a\u{202e}b\u{200f}",
    "a\u{1b}[31mb\u{7}",
    "</article></main></style>",
];

#[test]
fn names_are_texts_wherever_they_are() {
    let long = "x".repeat(10_000);
    for name in HOSTILE.into_iter().chain([long.as_str()]) {
        let quoted = format!("\"{}\"", name.replace('"', "\"\""));
        let columns = ["description", "machine", "pot", "tool_number"];
        let changes = columns.map(|column| (column, quoted.as_str()));
        let mut row = with(SOUND, &changes);
        row = [row.as_str(), &quoted, &quoted, &quoted, &quoted].join(",");
        let text = format!("{HEADER},cutter,collet,nut,holder\n{row}\n");
        let shop = format!(
            "name = {}\n",
            toml::Value::String(name.replace(['\u{1b}', '\u{7}'], "?"))
        );
        let cell = Cell::new(&[("lib.csv", &text), ("shankwise.toml", &shop)]);
        let (page, status) = cell.cards(&["--tool", "none<b>"]);
        assert_eq!(status, Some(1), "{name}");
        assert!(page.0.contains("none&lt;b&gt;"));
        let (page, status) = cell.cards(&[]);
        assert_eq!(status, Some(0), "{name}");
        let elements = page.elements();
        assert_eq!(page.cards().len(), 1, "{name}");
        for (element, attributes) in &elements {
            assert!(
                !["script", "img", "b\u{202e}"].contains(&element.as_str()),
                "{name}"
            );
            assert!(
                attributes.keys().all(|key| !key.starts_with("on")),
                "{name}"
            );
        }
        let acts = |c: char| {
            c.is_control() && c != '\n' || ('\u{202a}'..='\u{202e}').contains(&c) || c == '\u{200f}'
        };
        assert!(!page.0.contains(acts), "{name}");
        assert!(page.0.len() < 40_000, "{name}: {}", page.0.len());
        let text = printed(&cell.run(&["cards", "lib.csv", "--as", "text"]));
        assert!(!text.contains(acts) && text.len() < 4_000, "{name}: {text}");
    }
}
