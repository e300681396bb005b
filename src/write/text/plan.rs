//! Where to begin in a whole library: what to measure, what to take from the crib.

use crate::sheet::{How, Plan};

use super::super::wrap::{list, name, wrapped};

/// The plan in a few lines; empty if there is nothing to begin with.
#[must_use]
pub fn plan_text(plan: &Plan) -> String {
    let mut lines: Vec<String> = Vec::new();
    for (at, value) in plan.values.iter().enumerate() {
        let id = value.id.as_deref().unwrap_or("the library");
        // What decides nothing by itself may do so with the next.
        let decided = match (at, value.together) {
            (_, 0) => "the first of several values that judgements wait for".to_owned(),
            (0, together) => format!("settles {}", open(together)),
            (_, together) => format!("with those above, settles {}", open(together)),
        };
        let (field, record) = (value.field, value.record.name());
        let id = name(id);
        let what = match value.how {
            How::Enter => format!("enter {field} of {record} {id}"),
            How::Confirm => format!("confirm {field} of {record} {id}, which is only assumed"),
            How::Correct => format!("correct {field} of {record} {id}, which cannot be read"),
            How::Describe => {
                format!("correct {field} of {record} {id}, or add the part that it names")
            }
        };
        lines.push(format!("{what}: {decided}"));
    }
    for cutter in &plan.cutters {
        let tools = if cutter.cures.len() == 1 {
            "tool"
        } else {
            "tools"
        };
        // One piece is no remedy for two tools that are on the machine together.
        let many = i32::try_from(cutter.cures.len()).map_or(f64::MAX, f64::from);
        let few = cutter.quantity.filter(|quantity| *quantity < many);
        let few = few.map_or_else(String::new, |few| format!("; {few} in stock"));
        lines.push(format!(
            "take cutter {}: it corrects {tools} {}{few}",
            name(&cutter.id),
            list(&cutter.cures.iter().map(String::as_str).collect::<Vec<_>>())
        ));
    }
    if lines.is_empty() {
        return String::new();
    }
    let exact = (plan.values.is_empty() || plan.values_exact)
        && (plan.cutters.is_empty() || plan.cutters_exact);
    let best = if exact {
        ""
    } else {
        " (chosen one after another; cutters chosen this way correct at least 63 % of what the best three would; for values no such bound is known)"
    };
    let mut text = wrapped(&format!("Where to begin{best}:"), 0, 4);
    for line in lines {
        text.push_str(&wrapped(&line, 2, 6));
    }
    text.push('\n');
    text
}

fn open(judgements: usize) -> String {
    match judgements {
        1 => "1 open judgement".to_owned(),
        many => format!("{many} open judgements"),
    }
}
