//! A greedy set cover: which few values to state, or parts to take, settle most.

/// Up to so many choices every selection is looked at.
const SMALL: usize = 12;

/// At most `few` of `choices` numbered choices that fulfil most of `wishes`, best first; and
/// whether no other selection does better. A wish is fulfilled when all choices that it names
/// are made, and none that names no choice counts.
///
/// # Method
/// Up to 12 choices by looking at every selection. Beyond that greedily, which for wishes that
/// any of their choices would fulfil reaches at least 1 − 1/e, 63 %, of the best; wishes that
/// need several choices at once carry no such bound.
///
/// # Source
/// G. L. Nemhauser, L. A. Wolsey, M. L. Fisher: An analysis of approximations for maximizing
/// submodular set functions I. Mathematical Programming 14 (1978), 265-294.
pub(super) fn most(
    choices: usize,
    few: usize,
    fulfilled: &dyn Fn(&[usize]) -> usize,
    gains: &dyn Fn(&[usize]) -> Vec<usize>,
) -> (Vec<usize>, bool) {
    if choices > SMALL {
        return (greedy(few, gains), false);
    }
    let mut best: (usize, Vec<usize>) = (0, Vec::new());
    let mut selections: Vec<Vec<usize>> = vec![Vec::new()];
    for _ in 0..few {
        let longer = |chosen: &Vec<usize>| {
            let from = chosen.last().map_or(0, |last| last + 1);
            let chosen = chosen.clone();
            (from..choices).map(move |next| {
                let mut longer = chosen.clone();
                longer.push(next);
                longer
            })
        };
        selections = selections.iter().flat_map(longer).collect();
        for chosen in &selections {
            let count = fulfilled(chosen);
            // Of equals the shortest, and of those the first.
            if count > best.0 {
                best = (count, chosen.clone());
            }
        }
    }
    let mut chosen = best.1;
    chosen.sort_by_key(|choice| std::cmp::Reverse(fulfilled(&[*choice])));
    (chosen, true)
}

/// `gains` says of every choice how many wishes it fulfils besides those already fulfilled.
fn greedy(few: usize, gains: &dyn Fn(&[usize]) -> Vec<usize>) -> Vec<usize> {
    let mut chosen: Vec<usize> = Vec::new();
    for _ in 0..few {
        let mut best = (0, None);
        for (next, gain) in gains(&chosen).into_iter().enumerate() {
            // Of equals the first.
            if gain > best.0 {
                best = (gain, Some(next));
            }
        }
        let Some(next) = best.1 else {
            break;
        };
        chosen.push(next);
    }
    chosen
}
