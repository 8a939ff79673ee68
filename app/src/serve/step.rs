//! One step of undo: what differs between two texts, so that a thousand steps take little memory.

/// What stood at a place of the text before a step, and what stands there after it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Step {
    /// Byte of the text.
    at: usize,
    was: String,
    is: String,
}

impl Step {
    /// The step from one text to another.
    #[must_use]
    pub fn between(before: &str, after: &str) -> Step {
        let alike = |(one, other): &(u8, u8)| one == other;
        let mut at = before.bytes().zip(after.bytes()).take_while(alike).count();
        while !before.is_char_boundary(at) || !after.is_char_boundary(at) {
            at -= 1;
        }
        let ends = before[at..].bytes().rev().zip(after[at..].bytes().rev());
        let mut same = ends.take_while(alike).count();
        let inside = |text: &str, same: usize| text.is_char_boundary(text.len() - same);
        while !inside(before, same) || !inside(after, same) {
            same -= 1;
        }
        let middle = |text: &str| text[at..text.len() - same].to_owned();
        Step { at, was: middle(before), is: middle(after) }
    }

    /// The text before the step.
    #[must_use]
    pub fn undone(&self, text: &str) -> String {
        swapped(text, self.at, self.is.len(), &self.was)
    }

    /// The text after the step.
    #[must_use]
    pub fn done(&self, text: &str) -> String {
        swapped(text, self.at, self.was.len(), &self.is)
    }
}

fn swapped(text: &str, at: usize, out: usize, into: &str) -> String {
    let mut text = text.to_owned();
    text.replace_range(at..at + out, into);
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_step_goes_forth_and_back_to_the_byte() {
        let texts = ["", "a", "aa", "aaa", "aba", "ä", "ö", "äöä", "äÄä", "wall = \"450 mm\"\n", "wall = \"455 mm\"\n"];
        for before in texts {
            for after in texts {
                let step = Step::between(before, after);
                assert_eq!(step.done(before), after);
                assert_eq!(step.undone(after), before);
            }
        }
    }

    #[test]
    fn a_small_change_of_a_long_text_takes_little_room() {
        let before = format!("{}450 mm{}", "x".repeat(10_000), "y".repeat(10_000));
        let step = Step::between(&before, &before.replace("450", "460"));
        assert_eq!((step.was.as_str(), step.is.as_str()), ("5", "6"));
    }
}
