//! The explanation behind a value: equation, source and named inputs, written once, in the formula's own doc comment.

use crate::units::Quantity;

/// One input of a formula.
#[derive(Clone, Debug, PartialEq)]
pub struct Input {
    /// What the formula calls it.
    pub name: String,
    /// Its value.
    pub quantity: Quantity,
    /// The row it was read from; empty until a walk binds it.
    pub path: String,
}

/// Why a value is what it is.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Reason {
    /// What the formula answers, one sentence.
    pub title: String,
    /// What else a builder should know of it.
    pub explanation: String,
    /// The equation, as lines of plain text.
    pub equation: String,
    /// Where the equation comes from.
    pub source: String,
    /// What went in.
    pub inputs: Vec<Input>,
}

impl Reason {
    /// Reads the text of a reason from the lines of a doc comment: first paragraph, a ```` ```text ```` block, a
    /// paragraph that begins with `Source:`, and the rest up to the first heading.
    #[must_use]
    pub fn from_docs(lines: &[&str], inputs: Vec<Input>) -> Reason {
        let mut reason = Reason { inputs, ..Reason::default() };
        let mut paragraph = String::new();
        let mut in_equation = false;
        for line in lines.iter().map(|line| line.strip_prefix(' ').unwrap_or(line)).chain([""]) {
            if line.trim_start().starts_with("```") {
                in_equation = !in_equation;
            } else if in_equation {
                if !reason.equation.is_empty() {
                    reason.equation.push('\n');
                }
                reason.equation.push_str(line);
            } else if line.starts_with("# ") {
                break;
            } else if line.is_empty() {
                reason.take_paragraph(std::mem::take(&mut paragraph));
            } else {
                if !paragraph.is_empty() {
                    paragraph.push(' ');
                }
                paragraph.push_str(line);
            }
        }
        reason
    }

    fn take_paragraph(&mut self, paragraph: String) {
        if let Some(source) = paragraph.strip_prefix("Source: ") {
            source.clone_into(&mut self.source);
        } else if self.title.is_empty() {
            self.title = paragraph;
        } else if !paragraph.is_empty() {
            if !self.explanation.is_empty() {
                self.explanation.push(' ');
            }
            self.explanation.push_str(&paragraph);
        }
    }
}

/// A computed value with its reason.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer<T> {
    /// The value.
    pub value: T,
    /// Why.
    pub reason: Reason,
}

impl<T> Answer<T> {
    /// Says which row the input called `name` was read from. A name the formula does not have is left alone; the test
    /// that every input of every row is bound finds the slip.
    #[must_use]
    pub fn from(mut self, name: &str, path: impl Into<String>) -> Self {
        if let Some(input) = self.reason.inputs.iter_mut().find(|input| input.name == name) {
            input.path = path.into();
        }
        self
    }

    /// Drops an input that does not matter where the formula was asked.
    #[must_use]
    pub fn without(mut self, name: &str) -> Self {
        self.reason.inputs.retain(|input| input.name != name);
        self
    }

    /// Adds an input that the formula reads as part of a shape, with the row it comes from.
    #[must_use]
    pub fn with(mut self, name: impl Into<String>, quantity: impl Into<Quantity>, path: impl Into<String>) -> Self {
        self.reason.inputs.push(Input { name: name.into(), quantity: quantity.into(), path: path.into() });
        self
    }
}

/// Turns a documented function into one that returns an [`Answer`]: the doc comment is the reason's text, the arguments
/// are its inputs. Arguments after a semicolon are shapes; the walk adds what they are made of.
macro_rules! formula {
    (
        $(#[doc = $doc:literal])*
        pub fn $name:ident($($arg:ident : $kind:ty),* $(,)? $(; $($shape:ident : $shape_kind:ty),* $(,)?)?) -> $out:ty $body:block
    ) => {
        $(#[doc = $doc])*
        #[must_use]
        pub fn $name($($arg: $kind,)* $($($shape: $shape_kind),*)?) -> $crate::reason::Answer<$out> {
            // An input that shapes the strip or the line need not appear in the body as a number.
            $(let _ = $arg;)*
            let inputs = vec![$($crate::reason::Input {
                name: stringify!($arg).replace('_', " "),
                quantity: $crate::units::Quantity::from($arg),
                path: String::new(),
            }),*];
            $crate::reason::Answer { value: $body, reason: $crate::reason::Reason::from_docs(&[$($doc),*], inputs) }
        }
    };
}
pub(crate) use formula;

#[cfg(test)]
mod tests {
    use crate::units::{Area, Length};

    formula! {
        /// The area of a rectangle.
        ///
        /// Both sides are measured
        /// at the base.
        ///
        /// ```text
        /// A = a b
        /// ```
        /// Source: Euclid, Elements, book 1.
        ///
        /// # Errors
        /// None.
        pub fn rectangle(long_side: Length, short_side: Length) -> Area { long_side * short_side }
    }

    #[test]
    fn a_doc_comment_becomes_the_reason() {
        let answer = rectangle(Length::m(3.0), Length::m(2.0)).from("long side", "room.length");
        assert_eq!(answer.value, Area::m2(6.0));
        assert_eq!(answer.reason.title, "The area of a rectangle.");
        assert_eq!(answer.reason.explanation, "Both sides are measured at the base.");
        assert_eq!(answer.reason.equation, "A = a b");
        assert_eq!(answer.reason.source, "Euclid, Elements, book 1.");
        assert_eq!(answer.reason.inputs[0].path, "room.length");
        assert_eq!(answer.reason.inputs[1].name, "short side");
    }
}
