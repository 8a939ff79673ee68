//! The fields of a request, read one by one; what is wrong is told in whole sentences.

use serde_json::{Map, Value};

use crate::units::{Kind, Quantity};

/// A request being read.
pub(super) struct Given<'v> {
    fields: &'v Map<String, Value>,
    place: String,
    asked: Vec<&'static str>,
    problems: Vec<String>,
}

impl<'v> Given<'v> {
    pub(super) fn new(fields: &'v Map<String, Value>) -> Self {
        Given { fields, place: String::new(), asked: Vec::new(), problems: Vec::new() }
    }

    pub(super) fn problem(&mut self, message: String) {
        self.problems.push(format!("{}{message}", self.place));
    }

    /// Whether nothing wrong was found so far.
    pub(super) fn is_fine(&self) -> bool {
        self.problems.is_empty()
    }

    /// Whether the request has this key.
    pub(super) fn has(&self, key: &str) -> bool {
        self.fields.contains_key(key)
    }

    fn field(&mut self, key: &'static str) -> Option<&'v Value> {
        self.asked.push(key);
        self.fields.get(key)
    }

    fn missing(&mut self, key: &str, wanted: &str) {
        self.problem(format!("`{key}` is missing; write {wanted}"));
    }

    /// A number in SI whose key ends with its unit, or nothing when it is not there.
    pub(super) fn maybe<T: TryFrom<Quantity>>(&mut self, key: &'static str, kind: Kind) -> Option<T> {
        let value = self.field(key)?;
        let number =
            value.as_f64().and_then(|number| kind.of_si(number)).and_then(|quantity| T::try_from(quantity).ok());
        if number.is_none() {
            self.problem(format!("`{key}` is {value}; write a plain number, {} in SI", kind.name()));
        }
        number
    }

    /// A number in SI that must be there.
    pub(super) fn number<T: TryFrom<Quantity>>(&mut self, key: &'static str, kind: Kind) -> Option<T> {
        if !self.fields.contains_key(key) {
            self.asked.push(key);
            self.missing(key, &format!("a plain number, {} in SI", kind.name()));
            return None;
        }
        self.maybe(key, kind)
    }

    /// A whole number that must be there and not be below `least`.
    pub(super) fn count(&mut self, key: &'static str, least: u64) -> Option<u64> {
        let wanted = format!("a whole number, {least} or more");
        let Some(value) = self.field(key) else {
            self.missing(key, &wanted);
            return None;
        };
        let count = value.as_u64().filter(|count| *count >= least);
        if count.is_none() {
            self.problem(format!("`{key}` is {value}; write {wanted}"));
        }
        count
    }

    /// A text that must be there.
    pub(super) fn text(&mut self, key: &'static str) -> Option<&'v str> {
        let text = self.field(key).and_then(Value::as_str);
        if text.is_none() {
            self.missing(key, "a text in quotes");
        }
        text
    }

    /// A text, or nothing when it is not there.
    pub(super) fn maybe_text(&mut self, key: &'static str) -> Option<&'v str> {
        let value = self.field(key)?;
        if !value.is_string() {
            self.problem(format!("`{key}` is {value}; write a text in quotes"));
        }
        value.as_str()
    }

    /// One of a list of words, or nothing when it is not there.
    pub(super) fn maybe_word(&mut self, key: &'static str, words: &[&'static str]) -> Option<&'static str> {
        let text = self.maybe_text(key)?;
        let found = words.iter().copied().find(|word| *word == text);
        if found.is_none() {
            self.problem(format!("`{key}` is \"{text}\"; write one of: {}", words.join(", ")));
        }
        found
    }

    /// True or false that must be there.
    pub(super) fn yes_or_no(&mut self, key: &'static str) -> Option<bool> {
        let answer = self.field(key).and_then(Value::as_bool);
        if answer.is_none() {
            self.missing(key, "true or false");
        }
        answer
    }

    /// Plain numbers in brackets; none when they are not there.
    pub(super) fn series(&mut self, key: &'static str) -> Vec<f64> {
        let Some(value) = self.field(key) else { return Vec::new() };
        let all = plain(value);
        if all.is_none() {
            self.problem(format!("`{key}` is {value}; write plain numbers in brackets"));
        }
        all.unwrap_or_default()
    }

    /// So many plain numbers in brackets, or nothing when they are not there.
    pub(super) fn numbers<const N: usize>(&mut self, key: &'static str) -> Option<[f64; N]> {
        let value = self.field(key)?;
        let numbers = plain(value).and_then(|all| <[f64; N]>::try_from(all).ok());
        if numbers.is_none() {
            self.problem(format!("`{key}` is {value}; write {N} plain numbers in brackets"));
        }
        numbers
    }

    /// The words of a text; none when it is not there.
    pub(super) fn words(&mut self, key: &'static str) -> Vec<&'v str> {
        let Some(value) = self.field(key) else { return Vec::new() };
        if value.as_str().is_none() {
            self.problem(format!("`{key}` is {value}; write words in quotes"));
        }
        value.as_str().unwrap_or_default().split_whitespace().collect()
    }

    /// Whether something is asked for that need not be there.
    pub(super) fn wanted(&mut self, key: &'static str) -> bool {
        self.fields.contains_key(key) && self.yes_or_no(key).unwrap_or_default()
    }

    /// Reads each object of a list; a list that is not there is empty.
    pub(super) fn list<T>(&mut self, key: &'static str, mut read: impl FnMut(&mut Given<'v>) -> Option<T>) -> Vec<T> {
        let Some(value) = self.field(key) else { return Vec::new() };
        let Some(list) = value.as_array() else {
            self.problem(format!("`{key}` is not a list; write objects in brackets"));
            return Vec::new();
        };
        let mut all = Vec::new();
        for (index, item) in list.iter().enumerate() {
            let Some(fields) = item.as_object() else {
                self.problem(format!("`{key}` {} is not an object", index + 1));
                continue;
            };
            let mut given = Given::new(fields);
            given.place = format!("{key} {}: ", index + 1);
            all.extend(read(&mut given));
            self.problems.extend(given.into_problems());
        }
        all
    }

    /// What is wrong, with every key that nobody asked for.
    pub(super) fn into_problems(mut self) -> Vec<String> {
        for key in self.fields.keys().filter(|key| !self.asked.contains(&key.as_str())) {
            let nearest = self.asked.iter().min_by_key(|known| strsim::damerau_levenshtein(known, key));
            let nearest = nearest.copied().unwrap_or("nothing");
            self.problems.push(format!("{}`{key}` is not a key here; did you mean `{nearest}`?", self.place));
        }
        self.problems
    }
}

fn plain(list: &Value) -> Option<Vec<f64>> {
    list.as_array()?.iter().map(Value::as_f64).collect()
}
