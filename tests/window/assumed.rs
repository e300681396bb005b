//! An end that rests on something assumed says so.

use shankwise::advice::End;

use super::{Cell, near, tool};

fn assumed(end: Option<&End>) -> Vec<&'static str> {
    end.expect("an end").assumed.clone()
}

#[test]
fn stated_values_are_not_assumed() {
    let window = Cell::flat(&tool(&[("reach", "35")]), "").window();
    assert_eq!(assumed(window.min.as_ref()), [] as [&str; 0]);
    assert_eq!(assumed(window.max.as_ref()), [] as [&str; 0]);
}

/// Without a shank length the shank may begin where the flutes end, 26 from the tip, and no
/// earlier: the lower end is 26 and rests on that.
#[test]
fn an_assumed_shank_is_named() {
    let text = tool(&[("shank_length", ""), ("chip_flute_length", "26")]);
    let window = Cell::flat(&text, "").window();
    let min = window.min.as_ref().expect("a lower end");
    assert!(near(min.value, 26.0), "{min:?}");
    assert_eq!(min.rule, "grip/flutes-in-bore");
    assert_eq!(min.assumed, ["cutter.shank_length"]);
}

/// Without a land its length is at most the collet's, where the bore goes through.
#[test]
fn an_assumed_land_is_named() {
    let text = tool(&[
        ("bore_length", ""),
        ("bore_form", "through"),
        ("collet_length", "40"),
    ]);
    let window = Cell::flat(&text, "").window();
    let max = window.max.as_ref().expect("an upper end");
    assert!(near(max.value, 83.0 - 40.0 * 2.0 / 3.0), "{max:?}");
    assert_eq!(max.rule, "grip/short-grip");
    assert_eq!(max.assumed, ["collet.bore_length"]);
}

/// The reach is stated: its end rests on nothing assumed, whatever else is.
#[test]
fn an_end_answers_for_itself_only() {
    let text = tool(&[
        ("shank_length", ""),
        ("chip_flute_length", "26"),
        ("reach", "40"),
    ]);
    let window = Cell::flat(&text, "").window();
    let min = window.min.as_ref().expect("a lower end");
    assert_eq!(min.rule, "reach/too-short-for-the-job");
    assert_eq!(min.assumed, [] as [&str; 0]);
}
