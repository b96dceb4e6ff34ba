//! Small words that every page needs.

use trail::StepId;

/// `steps 4 to 9`, `step 4`.
pub fn steps(steps: &[StepId]) -> String {
    match (steps.first(), steps.last()) {
        (Some(first), Some(last)) if first != last => {
            format!("steps {} to {}", first.number(), last.number())
        }
        (Some(only), _) => format!("step {}", only.number()),
        _ => String::new(),
    }
}
