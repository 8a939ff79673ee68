//! The answers to a build that is written a little otherwise.

use engine::answers::{Answers, Inputs, answers};

pub fn answered(text: &str) -> Answers {
    answers(&Inputs { build: text.as_bytes(), system: None }).unwrap_or_else(|problems| panic!("{}", problems.all()[0]))
}

/// A build with one place of it written otherwise.
pub fn changed(text: &str, from: &str, to: &str) -> String {
    let new = text.replacen(from, to, 1);
    assert_ne!(new, text, "{from} is not in the build");
    new
}

pub fn value(answers: &Answers, path: &str) -> f64 {
    answers.rows.find(path).unwrap_or_else(|| panic!("{path} is no row")).quantity.si().unwrap()
}
