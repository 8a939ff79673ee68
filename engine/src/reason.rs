//! The explanation behind a value: equation, source and named inputs, written once, in the formula's own doc comment.

use std::borrow::Cow;

use crate::units::Quantity;

/// One input of a formula.
#[derive(Clone, Debug, PartialEq)]
pub struct Input {
    /// What the formula calls it; an argument of its own is spelled with underscores.
    name: Cow<'static, str>,
    /// Its value.
    pub quantity: Quantity,
    /// The row it was read from; empty until a walk binds it.
    pub path: String,
}

impl Input {
    /// A named quantity and the row it was read from; the path is empty until a walk binds it.
    #[must_use]
    pub fn new(name: impl Into<Cow<'static, str>>, quantity: Quantity, path: impl Into<String>) -> Input {
        Input { name: name.into(), quantity, path: path.into() }
    }

    /// What the formula calls it, in words.
    #[must_use]
    pub fn name(&self) -> String {
        self.name.replace('_', " ")
    }

    fn is_called(&self, name: &str) -> bool {
        self.name.len() == name.len()
            && self.name.bytes().zip(name.bytes()).all(|(own, other)| own == other || (own == b'_' && other == b' '))
    }
}

/// Why a value is what it is.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Reason {
    said: Said,
    /// What went in.
    pub inputs: Vec<Input>,
}

/// What a reason says: the doc comment of its formula, read when someone asks, or words of its own.
#[derive(Clone, Debug, PartialEq)]
enum Said {
    Docs(&'static [&'static str]),
    Words(Box<Words>),
}

impl Default for Said {
    fn default() -> Self {
        Said::Docs(&[])
    }
}

/// The words of a reason.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Words {
    /// What the formula answers, one sentence.
    pub title: String,
    /// What else a builder should know of it.
    pub explanation: String,
    /// The equation, as lines of plain text.
    pub equation: String,
    /// Where the equation comes from.
    pub source: String,
}

impl Reason {
    /// A reason whose words are the doc comment of a formula.
    #[must_use]
    pub fn of_docs(docs: &'static [&'static str], inputs: Vec<Input>) -> Reason {
        Reason { said: Said::Docs(docs), inputs }
    }

    /// A reason in words of its own.
    #[must_use]
    pub fn in_words(words: Words, inputs: Vec<Input>) -> Reason {
        Reason { said: Said::Words(Box::new(words)), inputs }
    }

    /// Its words.
    #[must_use]
    pub fn words(&self) -> Words {
        match &self.said {
            Said::Docs(docs) => Words::from_docs(docs),
            Said::Words(words) => words.as_ref().clone(),
        }
    }
}

impl Words {
    /// Reads the text of a reason from the lines of a doc comment: first paragraph, a ```` ```text ```` block, a
    /// paragraph that begins with `Source:`, and the rest up to the first heading.
    fn from_docs(lines: &[&str]) -> Words {
        let mut words = Words::default();
        let mut paragraph = String::new();
        let mut in_equation = false;
        for line in lines.iter().map(|line| line.strip_prefix(' ').unwrap_or(line)).chain([""]) {
            if line.trim_start().starts_with("```") {
                in_equation = !in_equation;
            } else if in_equation {
                if !words.equation.is_empty() {
                    words.equation.push('\n');
                }
                words.equation.push_str(line);
            } else if line.starts_with("# ") {
                break;
            } else if line.is_empty() {
                words.take_paragraph(std::mem::take(&mut paragraph));
            } else {
                if !paragraph.is_empty() {
                    paragraph.push(' ');
                }
                paragraph.push_str(line);
            }
        }
        words
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
        if let Some(input) = self.reason.inputs.iter_mut().find(|input| input.is_called(name)) {
            input.path = path.into();
        }
        self
    }

    /// Drops an input that does not matter where the formula was asked.
    #[must_use]
    pub fn without(mut self, name: &str) -> Self {
        self.reason.inputs.retain(|input| !input.is_called(name));
        self
    }

    /// Adds the parts of a sum: title, path of the row and value of each.
    #[must_use]
    pub fn of_parts<Q: Into<Quantity>>(self, parts: Vec<(String, String, Q)>) -> Self {
        parts.into_iter().fold(self, |answer, (title, path, value)| answer.with(title, value, path))
    }

    /// Adds an input that the formula reads as part of a shape, with the row it comes from.
    #[must_use]
    pub fn with(
        mut self,
        name: impl Into<Cow<'static, str>>,
        quantity: impl Into<Quantity>,
        path: impl Into<String>,
    ) -> Self {
        self.reason.inputs.push(Input::new(name, quantity.into(), path));
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
            let inputs = vec![$($crate::reason::Input::new(
                stringify!($arg), $crate::units::Quantity::from($arg), ""
            )),*];
            $crate::reason::Answer { value: $body, reason: $crate::reason::Reason::of_docs(&[$($doc),*], inputs) }
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
        let words = answer.reason.words();
        assert_eq!(words.title, "The area of a rectangle.");
        assert_eq!(words.explanation, "Both sides are measured at the base.");
        assert_eq!(words.equation, "A = a b");
        assert_eq!(words.source, "Euclid, Elements, book 1.");
        assert_eq!(answer.reason.inputs[0].path, "room.length");
        assert_eq!(answer.reason.inputs[1].name(), "short side");
    }
}
